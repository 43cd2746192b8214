package checks_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/checks"
	"stageloom/model/plan"
)

func TestABadKindIsToldBeforeALinkUsesIt(t *testing.T) {
	own := func(with func(*plan.CableKind)) func(*rig, *plan.Edit) {
		return func(r *rig, e *plan.Edit) {
			kind, _ := r.CableKinds.Get("cat6a")
			kind.ID, kind.Name, kind.Own = "mine", "Mine", true
			with(&kind)
			plan.Put(e, kind)
		}
	}
	check(t, []breach{
		{
			"a figure no such cable has", "bad-kind", checks.Warn,
			"Mine cannot be graded: its own figure is 1.85 dB per 100 m; for Cat 6A it must be from 15.4 to 38.2; no link uses it yet",
			own(func(k *plan.CableKind) { k.OwnFigure = plan.Some(1.85) }),
		},
		{
			"no category and no figure", "bad-kind", checks.Warn, "Mine cannot be graded: nothing says what it loses; no link uses it yet",
			own(func(k *plan.CableKind) { k.Category = "" }),
		},
		{
			"stranded wire too thin, two in stock", "bad-kind", checks.Warn,
			"Mine cannot be graded: stranded 30 AWG: no factor is known for the loss of so thin a stranded conductor; the thinnest known is 28 AWG; no link uses it yet, and the stock holds 2",
			func(r *rig, e *plan.Edit) {
				own(func(k *plan.CableKind) { k.Gauge = 30 })(r, e)
				plan.Put(e, plan.Reel{ID: "r-33333", Kind: "mine", Length: 60, Quantity: 2})
			},
		},
		{
			"a medium nobody knows", "bad-kind", checks.Warn, `Mine is of the medium "string", which is not known here; no link uses it yet`,
			own(func(k *plan.CableKind) { k.Media = "string" }),
		},
	})
	t.Run("a sound kind is nothing to tell, and one in use is told at its link", func(t *testing.T) {
		r := newRig(t)
		r.do(t, func(e *plan.Edit) { own(func(k *plan.CableKind) { k.OwnFigure = plan.Some(19) })(r, e) })
		require.Empty(t, r.find())
		r.do(t, func(e *plan.Edit) {
			setKind(e, "mine", func(k *plan.CableKind) { k.OwnFigure = plan.Some(1) })
			e.SetSegments(r.network, of("mine", 45))
		})
		require.Empty(t, said(r, "bad-kind"))
		require.Len(t, said(r, "unknown-loss"), 1)
	})
}
