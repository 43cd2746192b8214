package revision_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/model/revision"
)

func input(t *testing.T, p *plan.Plan, number int) plan.InputID {
	t.Helper()
	for row := range p.Inputs.All() {
		if row.Number == number {
			return row.ID
		}
	}
	t.Fatalf("no input %d", number)
	return ""
}

func TestThePatchIsToldWayByWay(t *testing.T) {
	var act plan.Act
	for name, c := range map[string]struct {
		edit func(*testing.T, *plan.Edit) error
		want []string
	}{
		"in the house, once for all acts": {
			func(t *testing.T, e *plan.Edit) error {
				return patch.Swap(e, "", input(t, e.Now(), 1), input(t, e.Now(), 2), true)
			},
			[]string{
				"Input 1 Kick in: in House now Riser box in 2 → FOH console 1, Monitor console 1, was Riser box in 1 → FOH console 1, Monitor console 1",
				"Input 2 Kick out: in House now Riser box in 1 → FOH console 2, Monitor console 2, was Riser box in 2 → FOH console 2, Monitor console 2",
			},
		},
		"struck from an act": {
			func(t *testing.T, e *plan.Edit) error {
				act = e.Now().Acts.At(0)
				patch.Strike(e, act.ID, input(t, e.Now(), 1))
				return nil
			},
			[]string{"Input 1 Kick in: in Low Tide Brass now not used, was Riser box in 1 → FOH console 1, Monitor console 1"},
		},
		"an act at another time and place": {
			func(_ *testing.T, e *plan.Edit) error {
				return plan.Update(e, e.Now().Acts.At(0).Key(), func(a *plan.Act) { a.Start, a.Stage = "18:00", "" })
			},
			[]string{"Low Tide Brass (act): now 18:00 to 18:15, was 17:30 to 18:15, now on none, was on Main stage"},
		},
		"a new act that says nothing": {
			func(_ *testing.T, e *plan.Edit) error { patch.AddAct(e, "Encore"); return nil },
			[]string{"Encore (act): new"},
		},
		"slots alone, which are nothing that is plugged": {
			func(_ *testing.T, e *plan.Edit) error {
				plan.Put(e, plan.SlotPatch{Link: e.Now().SlotPatches.At(0).Link, Direction: "return", Slot: 48, Use: "reserved"})
				return nil
			},
			[]string{"Channels on links: 1 row new"},
		},
	} {
		t.Run(name, func(t *testing.T) {
			before, now := after(t, func(e *plan.Edit) error { return c.edit(t, e) })
			require.Equal(t, c.want, words(before, now))
		})
	}
	t.Run("between plans that share no input nothing is compared", func(t *testing.T) {
		before, now := after(t, func(e *plan.Edit) error {
			for id := range e.Now().Inputs.All() {
				e.RemoveInput(id.ID)
			}
			return nil
		})
		require.NotEmpty(t, revision.Changes(before, now, quantity.Metric))
		require.NotEmpty(t, revision.Changes(now, before, quantity.Metric), "and the other way round")
		require.Empty(t, revision.Changes(now, assess.Of(now.Plan), quantity.Metric))
	})
}
