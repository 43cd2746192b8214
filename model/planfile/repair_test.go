package planfile_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/plan"
	"stageloom/model/plan/plantest"
	"stageloom/model/planfile"
)

func repaired(t *testing.T, text string) (*plan.Plan, []string) {
	t.Helper()
	_, err := planfile.Read(strings.NewReader(text))
	var unreadable *planfile.Unreadable
	require.ErrorAs(t, err, &unreadable)
	require.True(t, unreadable.Repairable)

	p, mends, err := planfile.Repair(strings.NewReader(text))
	require.NoError(t, err)
	require.Empty(t, plan.Check(p))
	require.True(t, plan.Equal(p, read(t, string(written(t, p)))), "the copy can be opened")
	var told []string
	for _, mend := range mends {
		told = append(told, mend.String())
	}
	return p, told
}

func TestARepairedCopyLeavesOutWhatCannotStandAndListsIt(t *testing.T) {
	t.Run("a field that may be blank is blanked", func(t *testing.T) {
		text := changed(t, `"from_position": "p-3mtwr"`, `"from_position": "p-2zzzz"`)
		p, mends := repaired(t, text)
		require.Equal(t, []string{placed(t, `"from_position": "p-3mtwr"`,
			`line {line}, /house_lines/0/from_position names "p-2zzzz", but positions has no such row: the field is left blank`)}, mends)
		want := edited(t, read(t, everyField(t)), func(e *plan.Edit) {
			require.NoError(t, plan.Update(e, "h-2hhhh", func(l *plan.HouseLine) { l.FromPosition = "" }))
		})
		require.True(t, plan.Equal(want, p))
	})
	t.Run("what hangs on a lost row goes with it", func(t *testing.T) {
		p, mends := repaired(t, changed(t, `{"id": "d-w93hc", "name": "FOH console", "kind": "console",`,
			`{"id": "d-w93hc", "name": "FOH console", "kind": "gone",`))
		require.Contains(t, mends[0], `/devices/1/kind names "gone", but kinds has no such row: the row is left out`)
		require.Zero(t, p.Links.Len())
		require.Zero(t, p.Segments.Len())
		require.Equal(t, 1, p.Devices.Len())
		require.Equal(t, 3, read(t, everyField(t)).Segments.Len())
	})
	t.Run("of two rows with one id the first stays", func(t *testing.T) {
		p, mends := repaired(t, changed(t, `"id": "v-rff22", "name": "Roof"`, `"id": "v-22ggg", "name": "Roof"`))
		require.Equal(t, []string{placed(t, `"id": "v-rff22"`, "line {line}, /levels/1 is v-22ggg again, which line {line-1} holds already: the row is left out")}, mends)
		ground, _ := p.Levels.Get("v-22ggg")
		require.Equal(t, "Ground", ground.Name)
	})
	t.Run("parts behind a lost one are numbered anew", func(t *testing.T) {
		p, mends := repaired(t, changed(t, `"reel": "r-9c5n8", "kept": true`, `"reel": "r-22222", "kept": true`))
		require.Len(t, mends, 3)
		require.Contains(t, mends[0], `/segments/1/reel names "r-22222", but reels has no such row: the field is left blank`)
		require.Contains(t, mends[1], "/segments/1 must name one of reel, house_line or kind: the row is left out")
		require.Contains(t, mends[2], "/segments/2/order is 2, but 1 comes next: the rows are numbered anew")
		require.Equal(t, 60.0, p.SegmentsOf("k-t4r6b")[0].Length)
	})
	t.Run("a blank act is the house patch, so a row of a lost act goes", func(t *testing.T) {
		p, mends := repaired(t, changed(t, `{"act": "n-2nnnn", "input"`, `{"act": "n-3nnnn", "input"`))
		require.Len(t, mends, 1)
		require.Contains(t, mends[0], `/stage_patches/1/act names "n-3nnnn", but acts has no such row: the row is left out`)
		require.Equal(t, 1, p.StagePatches.Len())
		require.Equal(t, 1, p.StagePatches.At(0).Socket)
	})
	t.Run("a setting takes its usual value", func(t *testing.T) {
		p, mends := repaired(t, changed(t, `"straight_way_factor": 1.2,`, `"straight_way_factor": 0.2,`))
		require.Equal(t, []string{"line 3, /plan/straight_way_factor is 0.2, but must lie between 1 and 3: the usual value stands in its place"}, mends)
		require.Equal(t, 1.15, p.Settings.Detour)
	})
	t.Run("more segments than a link may have", func(t *testing.T) {
		rows := ""
		for order := 40; order > 2; order-- {
			rows += fmt.Sprintf(`{"link": "k-t4r6b", "order": %d, "kind": "cat6a-own", "length_m": 1},`+"\n", order)
		}
		p, mends := repaired(t, changed(t, `{"link": "k-t4r6b", "order": 2, "kind"`, rows+`{"link": "k-t4r6b", "order": 2, "kind"`))
		require.Len(t, p.SegmentsOf("k-t4r6b"), 32)
		require.Len(t, mends, 8)
	})
}

func TestWhatCannotBeReadCannotBeRepaired(t *testing.T) {
	for _, text := range []string{"", everyField(t)[:900], changed(t, `"tag"`, `"Tag"`), strings.Replace(smallest(t), ": 1", ": 2", 1)} {
		p, mends, err := planfile.Repair(strings.NewReader(text))
		require.Error(t, err)
		require.Nil(t, p)
		require.Nil(t, mends)
	}
	_, _, err := planfile.Repair(&failing{})
	require.ErrorIs(t, err, errCable)
}

func TestAWholePlanNeedsNoRepair(t *testing.T) {
	p, mends, err := planfile.Repair(strings.NewReader(everyField(t)))
	require.NoError(t, err)
	require.Empty(t, mends)
	require.True(t, plan.Equal(read(t, everyField(t)), p))
}

func TestLinesLostFromAFileLeaveARepairableOne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lines := strings.SplitAfter(string(written(t, plantest.Plan(t, 120))), "\n")
		var left []string
		for _, line := range lines {
			row := strings.HasPrefix(line, "{") && strings.HasSuffix(line, "},\n")
			if !row || rapid.IntRange(0, 5).Draw(t, "lost") > 0 {
				left = append(left, line)
			}
		}
		text := strings.Join(left, "")
		p, mends, err := planfile.Repair(strings.NewReader(text))
		require.NoError(t, err)
		require.Empty(t, plan.Check(p))
		_, err = planfile.Read(strings.NewReader(text))
		require.Equal(t, err != nil, len(mends) > 0)
	})
}
