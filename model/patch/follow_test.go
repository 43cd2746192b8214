package patch_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

func words(losses []patch.Loss) (all []string) {
	for _, loss := range losses {
		all = append(all, loss.Words)
	}
	return all
}

func TestNothingIsLostSilently(t *testing.T) {
	r, ids := hall(t)
	r.do(func(e *plan.Edit) error { return patch.Fill(e, "", ids[:2], r.socket("SL", 15), true) })
	for _, console := range []string{"FOH", "Mon"} {
		r.do(func(e *plan.Edit) error { return patch.FillChannels(e, "", r.devices[console], ids[:2], 1) })
	}
	brass := r.act(1, "Brass")
	r.do(func(e *plan.Edit) error { return patch.Plug(e, brass, ids[2], r.socket("SL", 30), true) })
	before := patch.Of(r.plan)
	would := func(edit func(*plan.Edit) error) []string {
		after, err := plan.Do(r.plan, r.ids, edit)
		require.NoError(t, err)
		return words(patch.Lost(before, patch.Of(after)))
	}
	t.Run("a box taken away", func(t *testing.T) {
		require.Equal(t, []string{
			"In 1 was on SL in 15 → FOH 1, Mon 1", "In 2 was on SL in 16 → FOH 2, Mon 2", "In 3 was on SL in 30",
		}, would(func(e *plan.Edit) error { e.RemoveDevices(r.devices["SL"]); return nil }))
	})
	t.Run("a link taken away", func(t *testing.T) {
		require.Equal(t, []string{"In 1 no longer gets to Mon 1", "In 2 no longer gets to Mon 2"},
			would(func(e *plan.Edit) error { e.RemoveLinks(r.links["L02"]); return nil }))
	})
	t.Run("a console taken away", func(t *testing.T) {
		require.Equal(t, []string{"In 1 no longer gets to FOH 1", "In 2 no longer gets to FOH 2"},
			would(func(e *plan.Edit) error { e.RemoveDevices(r.devices["FOH"]); return nil }))
	})
	t.Run("a box moved on the site keeps its patch", func(t *testing.T) {
		require.Empty(t, would(func(e *plan.Edit) error {
			return plan.Update(e, plan.Key(r.devices["SL"]), func(d *plan.Device) { d.X = 40 })
		}))
	})
	t.Run("a box of another kind keeps its patch", func(t *testing.T) {
		require.Empty(t, would(func(e *plan.Edit) error {
			plan.Put(e, plan.Kind{ID: "box", Name: "Box", Group: "Stage", Inputs: 48})
			for _, port := range []string{"AES50 1", "AES50 2"} {
				plan.Put(e, plan.KindPort{Kind: "box", Name: port, Transport: "aes50"})
			}
			return e.ReplaceKind(r.devices["SL"], "box")
		}))
	})
	t.Run("what a person strikes is no loss", func(t *testing.T) {
		require.Empty(t, would(func(e *plan.Edit) error { patch.Strike(e, "", ids[0]); return nil }))
	})
	t.Run("a box replaced by another takes its patch there", func(t *testing.T) {
		r.refused(t, "the patch of SL stays: there is no SR in 30", func(e *plan.Edit) error {
			return patch.Rehome(e, r.devices["SL"], r.devices["SR"])
		})
		r.device("New", "stage-rack-48-20")
		r.link("L05", "New", "AES50 1", "FOH", "AES50 3")
		before = patch.Of(r.plan)
		require.Equal(t, []string{"In 1 no longer gets to Mon 1", "In 2 no longer gets to Mon 2"}, would(func(e *plan.Edit) error {
			if err := patch.Rehome(e, r.devices["SL"], r.devices["New"]); err != nil {
				return err
			}
			e.RemoveDevices(r.devices["SL"])
			return nil
		}), "no link leads there from the new one yet")
	})
}
