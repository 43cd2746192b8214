package demotest_test

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/demo"
	"stageloom/model/demo/demotest"
	"stageloom/model/goldentest"
	"stageloom/model/plan"
	"stageloom/model/planfile"
)

func TestTheFileInTestdataIsThisPlan(t *testing.T) {
	p := demotest.Grades()
	var want bytes.Buffer
	require.NoError(t, planfile.Write(&want, p))
	path := filepath.Join("..", "..", "..", "testdata", "grades.stageloom")
	goldentest.File(t, path, want.Bytes())
	got, err := os.ReadFile(path)
	require.NoError(t, err)
	read, err := planfile.Read(bytes.NewReader(got))
	require.NoError(t, err)
	require.True(t, plan.Equal(p, read))
}

func TestGradesShowsEveryGradeAndCase(t *testing.T) {
	// Each row follows from the rules of the budget room's own tests; here they stand side by side as they are shown.
	want := []struct{ note, label, why string }{
		{"ample", "+11", "ample: 11.0 dB in hand, 1.5 dB wanted"},
		{"enough", "+2", "enough: 2.1 dB in hand, 1.5 dB wanted"},
		{"tight, inside the standard", "+1", "tight: 1.3 dB in hand, 0.2 dB under what is wanted"},
		{"tight, above the standard's 24.0 dB", "+0", "tight: 0.4 dB in hand, 1.1 dB under what is wanted; above the standard's 24.0 dB; 101.0 m of cable, past the 100 m stated for AES50"},
		{"over", "−2", "over by 2.0 dB at 100 MHz; 115.0 m of cable, past the 100 m stated for AES50"},
		{"uncabled: no cable and no wanted kind", "", "uncabled: 60.0 m to go and no kind of cable chosen"},
		{"no cable yet, graded as its wanted kind", "+13", "ample once 60.0 m of Cat 6A low-loss, own figure 19.2 is laid: 13.0 dB in hand, 1.5 dB wanted"},
		{"too short, its missing metres graded as the wanted kind", "+6", "ample once 30.0 m more of Cat 6A low-loss, own figure 19.2 is laid: 6.6 dB in hand, 1.5 dB wanted"},
		{"too short and no wanted kind: uncabled", "", "uncabled: 30.0 m too short and no kind of cable chosen"},
		{"past 100 m", "+2", "to be tested: 2.0 dB in hand, 1.5 dB wanted; 123.0 m of cable, past the 100 m stated for AES50"},
		{"a Cat 5e coupler", "+8", "ample: 8.2 dB in hand, 1.5 dB wanted"},
		{"drums joined plug in socket", "+5", "ample: 5.2 dB in hand, 1.5 dB wanted"},
		{"panels with inner leads at both ends", "+10", "ample: 10.7 dB in hand, 1.5 dB wanted"},
		{"a house line between two reels", "+7", "ample: 7.8 dB in hand, 1.5 dB wanted"},
		{"a measured reel", "+14", "ample: 14.6 dB in hand, 1.5 dB wanted"},
		{"five short pieces", "+5", "ample: 5.3 dB in hand, 1.5 dB wanted"},
		{"a network", "+6", "ample: 6.6 dB in hand, 1.5 dB wanted"},
		{"a slow network", "+12", "ample: 12.8 dB in hand, 1.5 dB wanted"},
		{"fibre carries no grade", "", "Fibre carries no grade"},
		{"fibre too short", "", "Fibre carries no grade; 10.0 m too short"},
		{"another limit rule", "+3", "ample: 3.9 dB in hand, 1.5 dB wanted"},
		{"a hot cable", "+4", "ample: 4.0 dB in hand, 1.5 dB wanted"},
		{"typed cooler than the default: 3 dB wanted", "+2", "tight: 2.5 dB in hand, 0.5 dB under what is wanted; 115.0 m of cable, past the 100 m stated for AES50"},
		{"a cable of unknown loss", "", "a cable whose loss is not known: no grade can be given"},
		{"a drawn way up to a gallery", "+4", "ample: 4.6 dB in hand, 1.5 dB wanted"},
		{"main", "+16", "ample: 16.0 dB in hand, 1.5 dB wanted"},
		{"backup", "+16", "ample: 16.0 dB in hand, 1.5 dB wanted"},
	}
	a := assess.Of(demotest.Grades())
	links := a.Links()
	require.Len(t, links, len(want))
	for i, w := range want {
		t.Run(w.note, func(t *testing.T) {
			b, found := a.Budget(links[i].ID)
			require.True(t, found)
			require.Equal(t, w.note, links[i].Note)
			require.Equal(t, w.label, b.Label())
			require.Equal(t, w.why, b.Why())
		})
	}
}

func TestALargePlanHasItsSizeAndItsSeed(t *testing.T) {
	p := demotest.Large(7)
	require.Empty(t, plan.Check(p))
	require.Equal(t, demotest.LargeDevices, p.Devices.Len())
	require.Equal(t, demotest.LargeLinks, p.Links.Len())
	require.Equal(t, demotest.LargeInputs, p.Inputs.Len())
	require.True(t, plan.Equal(p, demotest.Large(7)))
	require.False(t, plan.Equal(p, demotest.Large(8)))
	for _, finding := range assess.Of(p).Findings {
		require.NotContains(t, []string{"wrong-port", "wrong-medium", "screen", "shell", "double-name", "no-console", "slots-over", "double-patched"}, finding.Rule, finding.What)
	}
}

func TestASizedPlanIsValidAndAsLarge(t *testing.T) {
	for _, links := range []int{30, 500, 2000} {
		p := demotest.Sized(1, links)
		require.Empty(t, plan.Check(p))
		require.GreaterOrEqual(t, p.Links.Len(), links)
		require.Less(t, p.Links.Len(), links+30)
	}
	require.True(t, plan.Equal(demotest.Large(3), demotest.Sized(3, demotest.LargeLinks)))
}

func TestACrowdIsTheWeekenderWithSoManyLinksMore(t *testing.T) {
	p := demotest.Crowd(1, 301)
	require.Empty(t, plan.Check(p))
	require.Equal(t, demo.Weekender().Links.Len()+301, p.Links.Len())
	require.True(t, plan.Equal(p, demotest.Crowd(1, 301)))
	require.False(t, plan.Equal(p, demotest.Crowd(2, 301)))
}

func TestALargeShowHasItsActs(t *testing.T) {
	p := demotest.LargeShow(7)
	require.Empty(t, plan.Check(p))
	require.Equal(t, demotest.LargeActs, p.Acts.Len())
	require.Equal(t, demotest.LargeInputs+demotest.LargeActs*120, p.StagePatches.Len())
}
