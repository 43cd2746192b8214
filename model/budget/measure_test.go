package budget_test

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/budget"
	"stageloom/model/geom"
	"stageloom/model/plan"
	"stageloom/model/quantity"
)

// byRule is a site of which nobody typed any slack.
func byRule(t *testing.T, apart float64) *site {
	t.Helper()
	s := newSite(t, apart)
	s.settings(t, func(p *plan.Settings) { p.SlackPercent, p.SlackEnd, p.Detour = plan.Optional{}, plan.Optional{}, 1.15 })
	return s
}

func TestMetresHaveASource(t *testing.T) {
	s := byRule(t, 71.4)
	guess := s.budget()
	require.Equal(t, budget.Guess, guess.Measured.Source)
	require.InDelta(t, 82.2, guess.Way, 1e-9, "71.4 × 1.15 is 82.11")
	t.Run("a way point put on a straight link shortens nothing", func(t *testing.T) {
		s.do(t, func(e *plan.Edit) error { return e.Draw(s.link, []geom.Point{{X: 30}}) })
		require.Equal(t, budget.Guess, s.budget().Measured.Source, "three points are still a guess")
		require.Equal(t, guess.Run, s.budget().Run)
		s.do(t, func(e *plan.Edit) error { return e.Draw(s.link, []geom.Point{{X: 30}, {X: 50}}) })
		require.Equal(t, guess.Run, s.budget().Run, "no drawn way is shorter than the guess")
	})
	t.Run("a way that is drawn round a corner is drawn, and takes 5 %", func(t *testing.T) {
		s.do(t, func(e *plan.Edit) error { return e.Draw(s.link, []geom.Point{{Y: 30}, {X: 71.4, Y: 30}}) })
		b := s.budget()
		require.Equal(t, budget.Drawn, b.Measured.Source)
		require.InDelta(t, 131.4, b.Way, 1e-9)
		require.Equal(t, 5.0, b.Measured.Percent)
	})
	t.Run("a found way is taken as it is", func(t *testing.T) {
		s.set(t, func(l *plan.Link) { l.Way = "found" })
		require.Equal(t, budget.Found, s.budget().Measured.Source)
	})
	for _, one := range []struct {
		by      string
		source  budget.Source
		percent float64
	}{{plan.Paced, budget.Paced, 5}, {plan.Taped, budget.Taped, 0}, {plan.Venue, budget.Told, 10}, {"", budget.Typed, 10}} {
		t.Run("a length typed, by "+one.source.String(), func(t *testing.T) {
			s.do(t, func(e *plan.Edit) error { return e.TypeWay(s.link, 62, one.by) })
			b := s.budget()
			require.Equal(t, one.source, b.Measured.Source)
			require.Equal(t, one.percent, b.Measured.Percent)
			require.InDelta(t, 62, b.Way, 1e-9, "it stands for way and factor")
			require.InDelta(t, b.Way+b.Rises+b.Slack, b.Run, 1e-9)
		})
	}
	t.Run("ends without a place have no way to measure, and a typed one counts", func(t *testing.T) {
		s.do(t, func(e *plan.Edit) error {
			return plan.Update(e, plan.Key(s.to), func(d *plan.Device) { d.Unplaced = true })
		})
		require.Equal(t, budget.Typed, s.budget().Measured.Source)
		s.do(t, func(e *plan.Edit) error { return e.TypeWay(s.link, 0, "") })
		require.Equal(t, budget.Unknown, s.budget().Measured.Source)
		require.Zero(t, s.budget().Way)
	})
}

func TestALinkWithoutMetresHasNoGradeFromItsSlack(t *testing.T) {
	s := byRule(t, 71.4)
	s.do(t, func(e *plan.Edit) error {
		return plan.Update(e, plan.Key(s.to), func(d *plan.Device) { d.Unplaced = true })
	})
	s.set(t, func(l *plan.Link) { l.FillKind = "cat6a-own" })
	for _, laid := range [][]plan.Segment{nil, {{Kind: "cat6a-own", Length: 1}}} {
		s.cable(t, laid...)
		b := s.budget()
		require.Positive(t, b.Slack)
		require.Equal(t, budget.Uncabled, b.Grade)
		require.Equal(t, budget.Uncabled, b.Standing())
		require.False(t, b.HasMargin())
		require.Empty(t, b.Label())
		require.Contains(t, b.Why(), "no metres: nobody said how long its way is")
	}
	s.cable(t, plan.Segment{Kind: "cat6a-own", Length: 80})
	require.Equal(t, budget.Ample, s.budget().Standing(), "a cable that lies there has its loss")
	s.cable(t)
	s.do(t, func(e *plan.Edit) error { return e.TypeWay(s.link, 60, plan.Taped) })
	require.Equal(t, budget.ToLay, s.budget().Standing(), "with metres it is what is to lay")
}

func TestSlackIsTakenByWhatStandsThereUnlessItIsTyped(t *testing.T) {
	s := byRule(t, 100)
	kind := func(device plan.DeviceID, name string) {
		s.do(t, func(e *plan.Edit) error {
			d, _ := e.Now().Device(device)
			id := plan.KindID(strings.ReplaceAll(strings.ToLower(name), " ", "-"))
			plan.Put(e, plan.Kind{ID: id, Name: name, Group: "Stage"})
			for _, port := range e.Now().Ports(d.Kind) {
				port.Kind = id
				plan.Put(e, port)
			}
			return plan.Update(e, plan.Key(device), func(d *plan.Device) { d.Kind = id })
		})
	}
	for name, metres := range map[string]float64{"Console 48": 5, "Stage box 8": 3, "Amplifier rack 8": 2, "Network switch": 3} {
		kind(s.from, name)
		require.Equal(t, metres, s.budget().Measured.Ends[0], name)
	}
	kind(s.from, "Console 48")
	kind(s.to, "Amplifier rack 8")
	require.Equal(t, "10 % of a guess; 5.0 m at the console and 2.0 m at the rack", s.budget().SlackWhy(budget.Metres))
	t.Run("within one position 1 m at each end and nothing along the way", func(t *testing.T) {
		s.do(t, func(e *plan.Edit) error {
			at := e.AddPosition(plan.Position{Name: "Deck"})
			for _, id := range []plan.DeviceID{s.from, s.to} {
				if err := plan.Update(e, plan.Key(id), func(d *plan.Device) { d.Position = at }); err != nil {
					return err
				}
			}
			return nil
		})
		require.InDelta(t, 2, s.budget().Slack, 1e-9)
	})
	t.Run("the plan's own figures hold everywhere, and the link's before them", func(t *testing.T) {
		s.settings(t, func(p *plan.Settings) { p.SlackPercent, p.SlackEnd = plan.Some(10), plan.Some(3) })
		require.InDelta(t, 17.5, s.budget().Slack, 1e-9)
		require.Equal(t, "10 % of the way; 3.0 m at each end, the plan's", s.budget().SlackWhy(budget.Metres))
		s.set(t, func(l *plan.Link) { l.SlackEnd = plan.Some(0.5) })
		require.Equal(t, "10 % of the way, the plan's; 0.5 m at each end, the link's own", s.budget().SlackWhy(budget.Metres))
	})
}

// tenths are the lengths of a printed sum, as counts of a tenth.
func tenths(t require.TestingT, metres, unit float64) int64 {
	count := metres / unit * 10
	require.InDelta(t, math.Round(count), count, 1e-6, "what is printed in tenths is a count of tenths")
	return int64(math.Round(count))
}

// drawn is the site with a link of random ends, lengths and cables.
func (s *site) drawn(t *rapid.T) *plan.Plan {
	metres := func(name string, most int) float64 {
		return float64(rapid.IntRange(0, most*1000).Draw(t, name)) / 1000
	}
	blankOr := func(name string, most int) plan.Optional {
		return plan.Optional{Value: metres(name, most), Set: rapid.Bool().Draw(t, name+" typed")}
	}
	p, err := plan.Do(s.Plan, s.ids, func(e *plan.Edit) error {
		settings := e.Now().Settings
		settings.SlackPercent, settings.SlackEnd, settings.Detour = blankOr("percent", 30), blankOr("end", 10), 1.15
		e.SetSettings(settings)
		var cables []plan.Segment
		for range rapid.IntRange(0, 4).Draw(t, "cables") {
			cables = append(cables, plan.Segment{Kind: "cat6a", Length: 0.5 + metres("cable", 70)})
		}
		e.SetSegments(s.link, cables)
		way := make([]geom.Point, rapid.IntRange(0, 4).Draw(t, "way points"))
		for i := range way {
			way[i] = geom.Pt(metres("x", 200), metres("y", 200))
		}
		if err := e.Draw(s.link, way); err != nil {
			return err
		}
		return plan.Update(e, plan.Key(s.link), func(l *plan.Link) {
			l.RiseFrom, l.RiseTo = metres("rise near", 9), metres("rise far", 9)
			l.SlackPercent, l.SlackEnd = blankOr("own percent", 30), blankOr("own end", 9)
			if rapid.Bool().Draw(t, "typed") {
				l.SetTyped(metres("typed way", 300), rapid.SampledFrom([]string{"", plan.Paced, plan.Taped, plan.Venue}).Draw(t, "by"))
			}
			if rapid.Bool().Draw(t, "wanted") {
				l.FillKind = "cat6a"
			}
		})
	})
	require.NoError(t, err)
	return p
}

func TestPrintedPartsAddToThePrintedRunInMetresAndInFeet(t *testing.T) {
	s := newSite(t, 71.4)
	for range 10 { // rapid draws 100 plans a check
		rapid.Check(t, func(t *rapid.T) {
			for _, b := range budget.NewReckoner(s.drawn(t)).All() {
				require.InDelta(t, b.Run, b.Printed(1).Run, 1e-9, "in metres the run printed is the run reckoned with")
				for _, unit := range []float64{1, quantity.Foot} {
					adds(t, b, b.Printed(unit), unit)
				}
			}
		})
	}
}

// adds holds a budget as printed to its sums, and the words to the figures.
func adds(t *rapid.T, b, shown budget.Budget, unit float64) {
	parts := []int64{tenths(t, shown.Way, unit), tenths(t, shown.Rises, unit), tenths(t, shown.Slack, unit)}
	run, laid := tenths(t, shown.Run, unit), tenths(t, shown.Laid, unit)
	require.Equal(t, run, parts[0]+parts[1]+parts[2])
	require.GreaterOrEqual(t, shown.Run, b.Measured.Least()-0.002, "nothing is shortened")
	cables := int64(0)
	for _, part := range shown.Parts {
		if part.What == budget.Cable && !part.Assumed {
			cables += int64(math.Round(part.Length / unit * 10))
		}
	}
	require.Equal(t, laid, cables)
	if b.Missing > 0 && run > laid {
		require.Equal(t, run-laid, tenths(t, shown.Missing, unit))
	}
	print := func(metres float64) string { return fmt.Sprintf("%.1f", metres/unit) }
	said := strings.Split(shown.Sum(print), " + ")
	sum := 0.0
	for _, one := range said {
		figure, err := strconv.ParseFloat(strings.Fields(one)[0], 64)
		require.NoError(t, err, one)
		sum += figure
	}
	require.Equal(t, print(shown.Run), fmt.Sprintf("%.1f", sum), "%v", said)
}
