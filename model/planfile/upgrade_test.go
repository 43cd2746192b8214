package planfile_test

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
	"stageloom/model/planfile"
)

// metres is a step as one may come: version 1 had a level's height in feet under another name, the settings had
// no north, and links a name that is gone.
var metres = planfile.AsIfVersion2{Step: func(table string, row planfile.OldRow) {
	switch table {
	case "plan":
		row.Set("north_degrees", "15")
	case "levels":
		if feet, err := strconv.ParseFloat(row.Get("height_ft"), 64); err == nil {
			row.Set("height_ft", strconv.FormatFloat(feet*0.3048, 'g', -1, 64))
			row.Rename("height_ft", "height_m")
		}
	}
}}

const inFeet = `{
"stageloom": 1,
"plan": {"name": "Old", "exposure": "shade", "slack_percent": 10, "slack_end_m": 3, "straight_way_factor": 1.15, "coupler": "cat6a", "standards": 1, "print_paper": "A4"},
"levels": [
{"id": "v-22222", "name": "Roof", "height_ft": 10}
],
"revisions": [
{"number": 1, "letter": "A", "changes": {"plan": {"name": "Old", "exposure": "shade", "slack_percent": 10, "slack_end_m": 3, "straight_way_factor": 1.15, "coupler": "cat6a", "standards": 1, "print_paper": "A4"}, "levels": {"set": [{"id": "v-22222", "name": "Roof", "height_ft": 20}], "drop": ["v-33333"]}}}
]
}
`

func TestAnUpgradeStepServesTablesRevisionsAndTheJournal(t *testing.T) {
	_, err := planfile.Read(strings.NewReader(inFeet))
	require.ErrorContains(t, err, "/levels/0/height_ft is not a name that can stand here", "without the step")

	p, version, err := metres.Read(inFeet)
	require.NoError(t, err)
	require.Equal(t, 1, version)

	t.Run("tables and settings", func(t *testing.T) {
		level, _ := p.Levels.Get("v-22222")
		require.Equal(t, 3.048, level.Height)
		require.Equal(t, 15.0, p.Settings.North)
	})
	t.Run("revisions", func(t *testing.T) {
		d, err := planfile.DecodeDelta([]byte(p.Revisions.At(0).Changes), planfile.Version)
		require.NoError(t, err)
		require.Equal(t, 15.0, d.Settings.North)
		require.Equal(t, []plan.Level{{ID: "v-22222", Name: "Roof", Height: 6.096}}, d.Levels.Set)
		require.Equal(t, []plan.Key{"v-33333"}, d.Levels.Drop)
	})
	t.Run("journal lines", func(t *testing.T) {
		line := `{"levels": {"set": [{"id": "v-22222", "name": "Roof", "height_ft": 30}]}}`
		d, err := metres.DecodeDelta(line, 1)
		require.NoError(t, err)
		require.Equal(t, 9.144, d.Levels.Set[0].Height)
		_, err = metres.DecodeDelta(line, 2)
		require.ErrorContains(t, err, "/levels/set/0/height_ft is not a name that can stand here", "a line of version 2 needs no step")
	})
	t.Run("faults keep their place", func(t *testing.T) {
		_, _, err := metres.Read(strings.Replace(inFeet, `"height_ft": 10`, `"height_ft": 5000`, 1))
		require.ErrorContains(t, err, "line 5, /levels/0/height_m is 1524, but must lie between -200 and 500")
	})
	t.Run("a file of version 2 is read as it is", func(t *testing.T) {
		p, version, err := metres.Read(strings.Replace(smallest(t), `"stageloom": 1`, `"stageloom": 2`, 1))
		require.NoError(t, err)
		require.Equal(t, 2, version)
		require.Zero(t, p.Settings.North)
	})
	t.Run("a file of version 3 is refused kindly", func(t *testing.T) {
		_, _, err := metres.Read(strings.Replace(inFeet, `"stageloom": 1`, `"stageloom": 3`, 1))
		require.ErrorContains(t, err, "made by a newer Stageloom (version 3 of the file; this one reads up to 2)")
	})
}
