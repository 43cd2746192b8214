package checks_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/checks"
	"stageloom/model/plan"
)

// row puts a row of equal reels into the stock, so many of which the house does not let the show have.
func row(e *plan.Edit, count, lacking int) {
	plan.Put(e, plan.Reel{ID: "r-33333", Kind: "cat6a-own", Length: 60, Quantity: count, Taking: "t-22222", Lacking: lacking, LackingWhy: "is out: 2 with Barn since 2027-06-22"})
}

func TestReelsThatAreNotThere(t *testing.T) {
	state := func(state, since string) func(*rig, *plan.Edit) {
		return func(_ *rig, e *plan.Edit) { setReel(e, func(r *plan.Reel) { r.State, r.StateOn = state, since }) }
	}
	check(t, []breach{
		{"a missing reel", "not-there", checks.Stop, "L01 lays reel 6A-01, which is missing since 2027-06-22", state(plan.Missing, "2027-06-22")},
		{"a reel in repair", "not-there", checks.Stop, "L01 lays reel 6A-01, which is in repair", state(plan.InRepair, "")},
		{"a reel that is written off", "not-there", checks.Stop, "L01 lays reel 6A-01, which is written off", state(plan.WrittenOff, "")},
		{
			"a reel that another show has", "not-there", checks.Stop, "L01 lays reel 6A-01, which is out: 1 with Barn since 2027-06-22",
			func(_ *rig, e *plan.Edit) {
				setReel(e, func(r *plan.Reel) {
					r.Taking, r.Lacking, r.LackingWhy = "t-22222", 1, "is out: 1 with Barn since 2027-06-22"
				})
			},
		},
		{
			"more of a row than is there", "not-there", checks.Stop,
			"L01 lays one of 3 untagged reels of 60.0 m; links lay 2, and 1 is there: the rest is out: 2 with Barn since 2027-06-22",
			func(r *rig, e *plan.Edit) {
				row(e, 3, 2)
				e.SetSegments(r.main, []plan.Segment{{Reel: "r-33333"}, {Reel: "r-33333"}})
			},
		},
		{
			"a laid spare", "not-there", checks.Warn, "the laid spare L01 lays reel 6A-01, which is missing",
			func(r *rig, e *plan.Edit) {
				setReel(e, func(r *plan.Reel) { r.State = plan.Missing })
				set(e, r.main, func(l *plan.Link) { l.Partner, l.Role = "", plan.Spare })
				set(e, r.backup, func(l *plan.Link) { l.Partner, l.Role = "", "" })
			},
		},
		{
			"some that no link lays", "not-there", checks.Warn,
			"the house does not let this show have 2 of 3 untagged reels of 60.0 m: what is lacking is out: 2 with Barn since 2027-06-22",
			func(r *rig, e *plan.Edit) {
				row(e, 3, 2)
				e.SetSegments(r.main, []plan.Segment{{Reel: "r-33333"}})
			},
		},
	})
	t.Run("a missing reel that no link lays stops nothing", func(t *testing.T) {
		r := newRig(t)
		r.do(t, func(e *plan.Edit) {
			plan.Put(e, plan.Reel{ID: "r-33333", Kind: "cat6a-own", Length: 60, State: plan.Missing})
		})
		require.Empty(t, r.find())
	})
}

func TestCablesThatAPickWouldNotLay(t *testing.T) {
	multicore := func(wanted, laid plan.CableKindID) func(*rig, *plan.Edit) {
		return func(r *rig, e *plan.Edit) {
			set(e, r.pair, func(l *plan.Link) { l.Transport, l.FillKind = "analogue-multicore", wanted })
			e.SetSegments(r.pair, of(laid, 45))
		}
	}
	check(t, []breach{
		{
			"48 ways where 16 are wanted", "other-kind", checks.Warn,
			"L05 wants Analogue multicore 16 ways, and cable 1 (Analogue multicore 48 ways) is another kind", multicore("multicore-16", "multicore-48"),
		},
		{
			"12 ways where 16 are wanted", "other-kind", checks.Stop,
			"L05 wants the 16 ways of Analogue multicore 16 ways, and cable 1 (Analogue multicore 12 ways) has 12", multicore("multicore-16", "multicore-12"),
		},
		{
			"intercom cable for digital audio", "other-kind", checks.Warn,
			"L05 wants Digital audio pair 110 ohm, and cable 1 (Intercom cable) is another kind",
			func(r *rig, e *plan.Edit) {
				set(e, r.pair, func(l *plan.Link) { l.FillKind = "audio-pair" })
				e.SetSegments(r.pair, of("intercom", 45))
			},
		},
		{
			"a loom in the place of a cable", "other-kind", checks.Warn,
			"L01 lies on cable 1 (Cat 6A low-loss, own figure 18.5), which is a loom of several cables",
			func(r *rig, e *plan.Edit) {
				setKind(e, "cat6a-own", func(k *plan.CableKind) { k.Form = "loom" })
				e.SetSegments(r.backup, of("cat7-own", 100))
				e.SetSegments(r.network, of("cat7-own", 45))
			},
		},
	})
	t.Run("what is wanted, what nobody wanted otherwise, and the venue's line are right", func(t *testing.T) {
		r := newRig(t)
		r.do(t, func(e *plan.Edit) {
			multicore("multicore-16", "multicore-16")(r, e)
			plan.Put(e, plan.HouseLine{ID: "h-33333", Name: "H2", Kind: "multicore-48", Length: 45})
		})
		require.Empty(t, ofRule(r.find(), "other-kind"))
		r.do(t, func(e *plan.Edit) { e.SetSegments(r.pair, []plan.Segment{{HouseLine: "h-33333"}}) })
		require.Empty(t, ofRule(r.find(), "other-kind"))
		r.do(t, func(e *plan.Edit) { multicore("", "multicore-48")(r, e) })
		require.Empty(t, ofRule(r.find(), "other-kind"))
	})
}
