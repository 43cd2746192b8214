package planfile_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/plan"
	"stageloom/model/plan/plantest"
	"stageloom/model/planfile"
)

func TestADeltaIsOneLineOfTheFilesOwnForm(t *testing.T) {
	settings := plan.DefaultSettings()
	d := &plan.Delta{
		Settings: &settings,
		Levels: plan.Changes[plan.Level]{
			Set:  []plan.Level{{ID: "v-33333", Name: "Roof\nside", Height: 11.25}, {ID: "v-22222", Name: "Ground"}},
			Drop: []plan.Key{"v-55555", "v-44444"},
		},
		Looms: plan.Changes[plan.Loom]{Drop: []plan.Key{"m-22222"}},
	}
	line, err := planfile.EncodeDelta(d)
	require.NoError(t, err)
	require.Equal(t, `{"plan": {"name": "New plan", "revision": "A", "exposure": "shade", `+
		`"straight_way_factor": 1.15, "coupler": "cat6a", "standards": 2, "print_paper": "A4"}, `+
		`"levels": {"set": [{"id": "v-22222", "name": "Ground"}, {"id": "v-33333", "name": "Roof\nside", "height_m": 11.25}], "drop": ["v-44444", "v-55555"]}, `+
		`"looms": {"drop": ["m-22222"]}}`, string(line))

	empty, err := planfile.EncodeDelta(&plan.Delta{})
	require.NoError(t, err)
	require.Equal(t, "{}", string(empty))
}

func TestADeltaThatCouldNotBeReadBackIsNotWritten(t *testing.T) {
	roof := plan.Level{ID: "v-22222", Name: "Roof"}
	for name, d := range map[string]*plan.Delta{
		"levels: v-22222 stands there twice":                     {Levels: plan.Changes[plan.Level]{Set: []plan.Level{roof, roof}}},
		"levels: v-22222 stands there twice too":                 {Levels: plan.Changes[plan.Level]{Set: []plan.Level{roof}, Drop: []plan.Key{"v-22222"}}},
		"levels: v-22222: height_m: +Inf is not a finite number": {Levels: plan.Changes[plan.Level]{Set: []plan.Level{{ID: "v-22222", Height: math.Inf(1)}}}},
		"levels: v-22222: name: jsontext: invalid UTF-8":         {Levels: plan.Changes[plan.Level]{Set: []plan.Level{{ID: "v-22222", Name: "\xff"}}}},
		`levels: "\xff": jsontext: invalid UTF-8`:                {Levels: plan.Changes[plan.Level]{Drop: []plan.Key{"\xff"}}},
		"plan: straight_way_factor: NaN is not a finite number":  {Settings: &plan.Settings{Detour: math.NaN()}},
	} {
		_, err := planfile.EncodeDelta(d)
		require.ErrorContains(t, err, strings.TrimSuffix(name, " too"))
	}
}

func TestADeltaThatCarriesAWholePlanBuildsItAnew(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := plantest.Plan(t, 60), plantest.Plan(t, 60)
		line, err := planfile.EncodeDelta(plan.Between(a, b))
		require.NoError(t, err)
		d, err := planfile.DecodeDelta(line, planfile.Version)
		require.NoError(t, err)
		got, err := plan.Apply(a, d)
		require.NoError(t, err)
		require.True(t, plan.Equal(b, got))
	})
}

func TestDeltasThatCannotBeReadAreNamedByTheirPlace(t *testing.T) {
	for name, c := range map[string]struct{ line, message string }{
		"nothing":               {"", "the file is empty. Go back to an older copy."},
		"half a line":           {`{"levels": {"set": [{"id"`, "line 1: the file ends in the middle of the plan; it was cut short while it was copied or saved. Go back to an older copy."},
		"two Deltas":            {"{} {}", "line 1: text follows after the end of the plan" + putRight},
		"an unknown table":      {`{"snakes": {}}`, "line 1, /snakes is not a name that can stand here" + putRight},
		"a table of rows":       {`{"levels": []}`, "line 1, /levels is a list, but must be an object in braces {}" + putRight},
		"a key that is no text": {`{"levels": {"drop": [4]}}`, `line 1, /levels/drop/0 is 4, but must be a key in quotes ""` + putRight},
		"a row twice":           {`{"levels": {"set": [{"id": "v-22222", "name": "a"}, {"id": "v-22222", "name": "b"}]}}`, "line 1, /levels/set/1 is about v-22222, which stands there already" + putRight},
		"a bad id":              {`{"levels": {"set": [{"id": "v-aaaaa", "name": "a"}]}}`, "line 1, /levels/set/0/id must be v- and five of the signs 23456789bcdfghjklmnpqrstvwxyz" + putRight},
		"a bad figure":          {`{"levels": {"set": [{"id": "v-22222", "name": "a", "height_m": 900}]}}`, "line 1, /levels/set/0/height_m is 900, but must lie between -200 and 500" + putRight},
		"bad settings":          {`{"plan": {"name": ""}}`, "line 1, /plan/exposure is missing; line 1, /plan/straight_way_factor is missing; line 1, /plan/coupler is missing (and 2 more)" + putRight},
		"settings out of range": {`{"plan": {"name": "x", "exposure": "shade", "slack_percent": 10, "slack_end_m": 3, "straight_way_factor": 9, "coupler": "cat6a", "standards": 1, "print_paper": "A4"}}`, "line 1, /plan/straight_way_factor is 9, but must lie between 1 and 3" + putRight},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := planfile.DecodeDelta([]byte(c.line), planfile.Version)
			require.EqualError(t, err, "a change cannot be read: "+c.message)
		})
	}
	t.Run("a newer version", func(t *testing.T) {
		_, err := planfile.DecodeDelta([]byte("{}"), planfile.Version+1)
		require.ErrorContains(t, err, "a change cannot be read: it was made by a newer Stageloom")
	})
	t.Run("version 0", func(t *testing.T) {
		_, err := planfile.DecodeDelta([]byte("{}"), 0)
		require.ErrorContains(t, err, "0 is no version of the file")
	})
}
