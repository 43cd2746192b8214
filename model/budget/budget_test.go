package budget_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/budget"
	"stageloom/model/catalogue"
	"stageloom/model/plan"
)

// site is a plan with one link of the wanted run between two stage boxes on one straight line.
type site struct {
	*plan.Plan
	ids      *plan.IDSource
	from, to plan.DeviceID
	link     plan.LinkID
}

// newSite lays out an AES50 link whose way is this many metres; no slack, no lengthening of straight ways, 20 °C.
func newSite(t *testing.T, way float64) *site {
	t.Helper()
	s := &site{Plan: plan.New("Site"), ids: plan.NewIDSource(3, 4)}
	s.do(t, func(e *plan.Edit) error {
		settings := s.Settings
		settings.SlackPercent, settings.SlackEnd, settings.Detour, settings.Temperature = plan.Some(0), plan.Some(0), 1, plan.Some(20)
		e.SetSettings(settings)
		for _, kind := range catalogue.CableKinds() {
			require.NoError(t, catalogue.UseCable(e, kind.ID))
		}
		lowLoss(t, e)
		require.NoError(t, catalogue.Use(e, "stagebox-40-20"))
		s.from = e.AddDevice(plan.Device{Name: "near", Kind: "stagebox-40-20"})
		s.to = e.AddDevice(plan.Device{Name: "far", Kind: "stagebox-40-20", X: way})
		s.link = e.AddLink(plan.Link{Transport: "aes50", From: s.from, FromPort: "AES50 1", To: s.to, ToPort: "AES50 2"})
		return nil
	})
	return s
}

// lowLoss gives the low-loss kinds the figures that the field observations and the sums of these tests are about.
func lowLoss(t *testing.T, e *plan.Edit) {
	t.Helper()
	for id, figure := range map[plan.CableKindID]float64{"cat6a-own": 18.5, "cat7-own": 18} {
		require.NoError(t, plan.Update(e, plan.Key(id), func(k *plan.CableKind) {
			name, _, _ := strings.Cut(k.Name, ",")
			k.Name, k.OwnFigure = fmt.Sprintf("%s, own figure %.1f", name, figure), plan.Some(figure)
		}))
	}
}

func (s *site) do(t *testing.T, edit func(*plan.Edit) error) {
	t.Helper()
	next, err := plan.Do(s.Plan, s.ids, edit)
	require.NoError(t, err)
	s.Plan = next
}

func (s *site) set(t *testing.T, with func(*plan.Link)) {
	t.Helper()
	s.do(t, func(e *plan.Edit) error { return plan.Update(e, plan.Key(s.link), with) })
}

func (s *site) settings(t *testing.T, with func(*plan.Settings)) {
	t.Helper()
	s.do(t, func(e *plan.Edit) error {
		settings := s.Settings
		with(&settings)
		e.SetSettings(settings)
		return nil
	})
}

func (s *site) cable(t *testing.T, segments ...plan.Segment) {
	t.Helper()
	s.do(t, func(e *plan.Edit) error { e.SetSegments(s.link, segments); return nil })
}

func (s *site) budget() budget.Budget {
	link, _ := s.Link(s.link)
	return budget.Of(s.Plan, link)
}

func metres(kind plan.CableKindID, length float64) plan.Segment {
	return plan.Segment{Kind: kind, Length: length}
}

func TestTheFiveFieldObservations(t *testing.T) {
	// Common practice, no source: which joined reels run clean on AES50 and which give errors. The margins are the
	// arithmetic of the rules, at 20 °C with Cat 6A couplers: figures reckoned apart from this program, as are the losses.
	cases := []struct {
		name     string
		segments []plan.Segment
		lossDB   float64
		label    string
		grade    budget.Grade
	}{
		{"50 m of stranded 5e runs clean", []plan.Segment{metres("cat5e-unscreened", 50)}, 13.185, "+11.8", budget.Ample},
		{"two joined give constant errors", []plan.Segment{metres("cat5e-unscreened", 50), metres("cat5e-unscreened", 50)}, 27.17, "−2.2", budget.Over},
		{"60 m of low-loss 6A runs clean", []plan.Segment{metres("cat6a-own", 60)}, 11.1, "+13.9", budget.Ample},
		{"two joined run clean", []plan.Segment{metres("cat6a-own", 60), metres("cat6a-own", 60)}, 22.6, "+2.4", budget.Enough},
		{"6A and 5e joined just run", []plan.Segment{metres("cat6a-own", 60), metres("cat5e-unscreened", 50)}, 24.885, "+0.1", budget.Tight},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			s := newSite(t, 10)
			s.settings(t, func(p *plan.Settings) { p.WantedMargin = plan.Some(1.5) })
			s.cable(t, c.segments...)
			b := s.budget()
			require.InDelta(t, c.lossDB, b.LossDB, 1e-9)
			require.Equal(t, c.label, budget.TenthDB(b.MarginDB))
			require.Equal(t, c.grade, b.Grade)
			require.Equal(t, plan.RuleID("aes50-field"), b.Rule)
		})
	}
	t.Run("the just-running pair is over at 30 °C and with a Cat 5e coupler", func(t *testing.T) {
		s := newSite(t, 10)
		s.cable(t, metres("cat6a-own", 60), plan.Segment{Kind: "cat5e-unscreened", Length: 50, Coupler: "cat5e"})
		require.Equal(t, budget.Over, s.budget().Grade)
		s.cable(t, metres("cat6a-own", 60), metres("cat5e-unscreened", 50))
		require.Equal(t, budget.Tight, s.budget().Grade)
		s.settings(t, func(p *plan.Settings) { p.Temperature = plan.Some(30) })
		require.Equal(t, budget.Over, s.budget().Grade)
	})
}

func TestTheRunIsWayAndRisesAndSlack(t *testing.T) {
	s := newSite(t, 80)
	s.settings(t, func(p *plan.Settings) { p.SlackPercent, p.SlackEnd, p.Detour = plan.Some(10), plan.Some(3), 1.15 })
	s.set(t, func(l *plan.Link) { l.RiseFrom, l.RiseTo = 1, 4 })
	t.Run("a straight way is lengthened until it is drawn", func(t *testing.T) {
		b := s.budget()
		require.True(t, b.Measured.Straight())
		require.InDelta(t, 92, b.Way, 1e-9)
		require.InDelta(t, 5, b.Rises, 1e-9)
		require.InDelta(t, 15.2, b.Slack, 1e-9, "a tenth of 92 m and 3 m at each end")
		require.InDelta(t, 112.2, b.Run, 1e-9)
	})
	t.Run("a drawn way counts as it is", func(t *testing.T) {
		s.do(t, func(e *plan.Edit) error {
			e.SetPoints(s.link, []plan.LinkPoint{{X: 0, Y: 30}, {X: 80, Y: 30}})
			return plan.Update(e, plan.Key(s.link), func(l *plan.Link) { l.Way = "drawn" })
		})
		b := s.budget()
		require.False(t, b.Measured.Straight())
		require.InDelta(t, 140, b.Way, 1e-9)
		require.InDelta(t, 140+5+14+6, b.Run, 1e-9)
	})
	t.Run("a level counts with its height, and a device takes that of its position", func(t *testing.T) {
		s.do(t, func(e *plan.Edit) error {
			plan.Put(e, plan.Level{ID: "v-22222", Name: "Roof", Height: 40})
			at := e.AddPosition(plan.Position{Name: "Tower", X: 80, Level: "v-22222"})
			e.SetPoints(s.link, []plan.LinkPoint{{X: 0, Y: 30}, {X: 80, Y: 30, Level: "v-22222"}})
			return plan.Update(e, plan.Key(s.to), func(d *plan.Device) { d.Position = at })
		})
		require.InDelta(t, 149.5, s.budget().Way, 1e-9, "30 + 89.443 + 30: the middle hop is the root of 80² + 40², and tenths are rounded up")
	})
	t.Run("a link's own slack goes before the plan's", func(t *testing.T) {
		s.set(t, func(l *plan.Link) { l.SlackPercent, l.SlackEnd = plan.Some(0), plan.Some(0) })
		require.InDelta(t, 0, s.budget().Slack, 1e-9)
	})
}

func TestMissingMetresAreReckonedAsTheWantedKind(t *testing.T) {
	s := newSite(t, 100)
	t.Run("a link with neither cable nor wanted kind is uncabled", func(t *testing.T) {
		b := s.budget()
		require.Equal(t, budget.Uncabled, b.Grade)
		require.Empty(t, b.Label())
		require.Empty(t, b.Parts)
		require.Equal(t, "uncabled: 100.0 m to go and no kind of cable chosen", b.Why())
	})
	t.Run("a wanted kind alone gives an outlook of one cable", func(t *testing.T) {
		s.set(t, func(l *plan.Link) { l.FillKind = "cat6a-own" })
		b := s.budget()
		require.InDelta(t, 18.5, b.LossDB, 1e-9)
		require.Len(t, b.Parts, 1)
		require.True(t, b.Parts[0].Assumed && b.Assumed() && b.Bare())
		require.False(t, b.TooShort())
		require.Equal(t, budget.Ample, b.Grade)
		require.Equal(t, "ample once 100.0 m of Cat 6A low-loss, own figure 18.5 is laid: 6.5 dB in hand, 3.0 dB wanted", b.Why())
	})
	t.Run("what cables leave open is one more cable and one more coupler", func(t *testing.T) {
		s.cable(t, metres("cat6a-own", 60))
		b := s.budget()
		require.InDelta(t, 40, b.Missing, 1e-9)
		require.InDelta(t, 11.1+0.4+7.4, b.LossDB, 1e-9)
		require.Equal(t, 0, b.Joins)
		require.Equal(t, 2, b.Interfaces)
		require.True(t, b.TooShort() && b.Parts[1].Assumed && b.Parts[2].Assumed)
		require.Contains(t, b.Why(), "ample once 40.0 m more of Cat 6A low-loss, own figure 18.5 is laid")
	})
	t.Run("cables that do not reach are uncabled without a wanted kind", func(t *testing.T) {
		s.set(t, func(l *plan.Link) { l.FillKind = "" })
		b := s.budget()
		require.Equal(t, budget.Uncabled, b.Grade)
		require.True(t, b.TooShort())
		require.False(t, b.HasMargin())
	})
	t.Run("less than five centimetres is swallowed by slack", func(t *testing.T) {
		s.cable(t, metres("cat6a-own", 60), metres("cat6a-own", 39.96))
		require.Zero(t, s.budget().Missing)
		s.cable(t, metres("cat6a-own", 60), metres("cat6a-own", 39.94))
		require.InDelta(t, 0.06, s.budget().Missing, 1e-9)
	})
}

func TestWholeCablesCount(t *testing.T) {
	s := newSite(t, 10)
	s.do(t, func(e *plan.Edit) error {
		plan.Put(e, plan.Reel{ID: "r-22222", Tag: "6A-01", Kind: "cat6a-own", Length: 60})
		e.SetSegments(s.link, []plan.Segment{{Reel: "r-22222"}})
		return nil
	})
	b := s.budget()
	require.InDelta(t, 11.1, b.LossDB, 1e-9, "the coiled rest counts too")
	require.Equal(t, plan.CableKindID("cat6a-own"), b.Parts[0].Kind)
	require.Equal(t, plan.ReelID("r-22222"), b.Parts[0].Reel)
}

func TestPastTheStatedDistance(t *testing.T) {
	s := newSite(t, 90)
	s.cable(t, metres("cat6a-own", 60), metres("cat6a-own", 60))
	require.Contains(t, s.budget().Why(), "120.0 m of cable, past the 100 m stated for AES50")
	s.cable(t, metres("cat6a-own", 100))
	require.False(t, s.budget().PastDistance())
}

func TestATransportWithoutABudgetHasLengthAndNoDecibels(t *testing.T) {
	s := newSite(t, 210)
	s.do(t, func(e *plan.Edit) error {
		require.NoError(t, catalogue.Use(e, "media-converter"))
		a := e.AddDevice(plan.Device{Kind: "media-converter"})
		b := e.AddDevice(plan.Device{Kind: "media-converter", X: 210})
		s.link = e.AddLink(plan.Link{Transport: "fibre", From: a, FromPort: "F", To: b, ToPort: "F"})
		e.SetSegments(s.link, []plan.Segment{metres("fibre-multimode", 150), metres("fibre-multimode", 50)})
		return nil
	})
	b := s.budget()
	require.False(t, b.Graded)
	require.Equal(t, budget.Ungraded, b.Grade)
	require.InDelta(t, 10, b.Missing, 1e-9)
	require.Equal(t, 1, b.Joins)
	require.Zero(t, b.LossDB)
	require.Empty(t, b.Label())
	require.Equal(t, "Fibre carries no grade; 10.0 m too short", b.Why())
}

func TestACableOfUnknownLossGivesNoGrade(t *testing.T) {
	s := newSite(t, 40)
	s.cable(t, metres("coax", 50))
	b := s.budget()
	require.Equal(t, budget.Uncabled, b.Grade)
	require.True(t, b.Unknown() && b.Parts[0].Unknown)
	require.Equal(t, "a cable whose loss is not known: no grade can be given", b.Why())
}
