package demo_test

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/budget"
	"stageloom/model/checks"
	"stageloom/model/demo"
	"stageloom/model/geom"
	"stageloom/model/goldentest"
	"stageloom/model/plan"
	"stageloom/model/planfile"
)

func TestTheFilesInTestdataAreTheseTwoPlans(t *testing.T) {
	for name, p := range map[string]*plan.Plan{"weekender": demo.Weekender(), "grades": demo.Grades()} {
		t.Run(name, func(t *testing.T) {
			var want bytes.Buffer
			require.NoError(t, planfile.Write(&want, p))
			path := filepath.Join("..", "..", "testdata", name+".stageloom")
			goldentest.File(t, path, want.Bytes())
			got, err := os.ReadFile(path)
			require.NoError(t, err)
			read, err := planfile.Read(bytes.NewReader(got))
			require.NoError(t, err)
			require.True(t, plan.Equal(p, read))
		})
	}
}

func TestTheWeekenderIsAsItIsTold(t *testing.T) {
	p := demo.Weekender()
	require.GreaterOrEqual(t, p.Devices.Len(), 14)
	require.GreaterOrEqual(t, p.Links.Len(), 22)
	require.Equal(t, 48, p.Inputs.Len())
	require.Equal(t, 3, p.Acts.Len())
	require.Equal(t, 6, p.Cases.Len())
	cables := 0
	for reel := range p.Reels.All() {
		cables += reel.Count()
		require.NotEmpty(t, reel.Case, "every cable lives in a case")
	}
	require.Equal(t, 71, cables)
	distance := map[string]float64{}
	for position := range p.Positions.All() {
		distance[position.Name] = position.At().Length()
	}
	require.InDelta(t, 86, distance["FOH tower"], 0.01)
	require.InDelta(t, 145, distance["Broadcast"], 0.01)
	require.InDelta(t, 210, distance["Second stage"], 0.01)
}

func TestTheWeekenderShowsWhatFindingsAre(t *testing.T) {
	a := assess.Of(demo.Weekender())
	for _, standing := range []budget.Grade{budget.Ample, budget.ToTest, budget.Tight, budget.Over, budget.Uncabled} {
		require.Positive(t, a.Totals.Count(standing), standing)
	}
	require.Equal(t, 1, a.Totals.Count(budget.Tight))
	require.Equal(t, 1, a.Totals.Count(budget.Over))
	require.Equal(t, 1, a.Totals.Count(budget.Uncabled))
	var stops []string
	for _, finding := range a.Findings {
		if finding.Severity == checks.Stop {
			stops = append(stops, finding.Rule)
		}
	}
	require.Equal(t, []string{"over-limit"}, stops, "nothing else stops the show")
	require.Zero(t, a.Totals.TooShort)
}

func TestTheWeekenderLooksLikeASite(t *testing.T) {
	p := demo.Weekender()
	r := budget.NewReckoner(p)
	t.Run("no two devices stand on each other", func(t *testing.T) {
		for i := range p.Devices.Len() {
			for j := range i {
				a, b := p.Devices.At(i), p.Devices.At(j)
				require.Greater(t, a.At().Distance(b.At()), 4.0, "%s and %s", a.Name, b.Name)
			}
		}
	})
	t.Run("no way runs over a device that is not its own", func(t *testing.T) {
		for link := range p.Links.All() {
			way := r.Way(link)
			for device := range p.Devices.All() {
				if device.ID != link.From && device.ID != link.To {
					require.Greater(t, way.Distance(device.At()), 2.5, "%s passes %s", link.Name, device.Name)
				}
			}
		}
	})
	t.Run("devices stand on the outline of their position", func(t *testing.T) {
		for device := range p.Devices.All() {
			position, found := p.Positions.Get(plan.Key(device.Position))
			require.True(t, found, device.Name)
			outline := geom.BoxAround(position.At(), position.Width, position.Depth)
			require.True(t, outline.Contains(device.At()), device.Name)
		}
	})
	t.Run("no way goes through the crowd", func(t *testing.T) {
		for link := range p.Links.All() {
			for _, area := range r.Ground().Crossed(r.Way(link)) {
				require.NotEqual(t, "crowd", area.Use, "%s crosses %s", link.Name, area.Name)
			}
		}
	})
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
	a := assess.Of(demo.Grades())
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
	p := demo.Large(7)
	require.Empty(t, plan.Check(p))
	require.Equal(t, demo.LargeDevices, p.Devices.Len())
	require.Equal(t, demo.LargeLinks, p.Links.Len())
	require.Equal(t, demo.LargeInputs, p.Inputs.Len())
	require.True(t, plan.Equal(p, demo.Large(7)))
	require.False(t, plan.Equal(p, demo.Large(8)))
	for _, finding := range assess.Of(p).Findings {
		require.NotContains(t, []string{"wrong-port", "wrong-medium", "screen", "shell", "double-name", "no-console", "slots-over", "double-patched"}, finding.Rule, finding.What)
	}
}

func TestASizedPlanIsValidAndAsLarge(t *testing.T) {
	for _, links := range []int{30, 500, 2000} {
		p := demo.Sized(1, links)
		require.Empty(t, plan.Check(p))
		require.GreaterOrEqual(t, p.Links.Len(), links)
		require.Less(t, p.Links.Len(), links+30)
	}
	require.True(t, plan.Equal(demo.Large(3), demo.Sized(3, demo.LargeLinks)))
}

func TestACrowdIsTheWeekenderWithSoManyLinksMore(t *testing.T) {
	p := demo.Crowd(1, 301)
	require.Empty(t, plan.Check(p))
	require.Equal(t, demo.Weekender().Links.Len()+301, p.Links.Len())
	require.True(t, plan.Equal(p, demo.Crowd(1, 301)))
	require.False(t, plan.Equal(p, demo.Crowd(2, 301)))
}

func TestALargeShowHasItsActs(t *testing.T) {
	p := demo.LargeShow(7)
	require.Empty(t, plan.Check(p))
	require.Equal(t, demo.LargeActs, p.Acts.Len())
	require.Equal(t, demo.LargeInputs+demo.LargeActs*120, p.StagePatches.Len())
}
