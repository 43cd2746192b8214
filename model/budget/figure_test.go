package budget_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/budget"
	"stageloom/model/plan"
)

func TestACableOfUnknownLossBuysNoGrade(t *testing.T) {
	cases := []struct {
		sentence string
		kind     plan.CableKind
		why      string
	}{
		{"stranded 30 AWG, for which no factor is known", plan.CableKind{Category: "cat6a", Gauge: 30}, "stranded 30 AWG: no factor is known for the loss of so thin a stranded conductor; the thinnest known is 28 AWG"},
		{"its maker's own figure speaks for stranded 30 AWG", plan.CableKind{Category: "cat6a", Gauge: 30, OwnFigure: plan.Some(30)}, ""},
		{"1.92 typed for 19.2", plan.CableKind{Category: "cat6a", OwnFigure: plan.Some(1.92)}, "its own figure is 1.92 dB per 100 m; for Cat 6A it must be from 15.4 to 38.2"},
		{"a hair under the bound", plan.CableKind{Category: "cat6a", OwnFigure: plan.Some(15.3)}, "its own figure is 15.3 dB per 100 m; for Cat 6A it must be from 15.4 to 38.2"},
		{"the bound itself", plan.CableKind{Category: "cat6a", OwnFigure: plan.Some(15.4)}, ""},
		{"far worse than any such cable", plan.CableKind{Category: "cat6a", OwnFigure: plan.Some(38.3)}, "its own figure is 38.3 dB per 100 m; for Cat 6A it must be from 15.4 to 38.2"},
		{"a figure of a cable without a category is held against Cat 5e", plan.CableKind{OwnFigure: plan.Some(2)}, "its own figure is 2 dB per 100 m; for Cat 5e it must be from 17.6 to 43.9"},
	}
	for _, c := range cases {
		t.Run(c.sentence, func(t *testing.T) {
			s := newSite(t, 40)
			c.kind.ID, c.kind.Name, c.kind.Media = "trial", "Trial", "balanced-pair"
			s.do(t, func(e *plan.Edit) error {
				plan.Put(e, c.kind)
				e.SetSegments(s.link, []plan.Segment{metres("trial", 45)})
				return nil
			})
			require.Equal(t, c.why, budget.NewReckoner(s.Plan).WhyUnknown("trial"))
			require.Equal(t, c.why != "", s.budget().Unknown())
			require.Equal(t, c.why == "", s.budget().Grade != budget.Uncabled, "%v", s.budget().Grade)
		})
	}
}
