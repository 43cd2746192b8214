package checks_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/checks"
	"stageloom/model/plan"
)

// cure is one way to break one rule, and the fixes that are offered for it.
type cure struct {
	name, rule string
	labels     []string
	edit       func(*rig, *plan.Edit)
}

var cures = []cure{
	{
		"a condenser without 48 V", "phantom-missing",
		[]string{"Mark it 48 V"},
		func(r *rig, e *plan.Edit) {
			plan.Put(e, plan.Input{ID: "i-22222", Number: 1, Name: "Hat", Use: "condenser"})
		},
	},
	{
		"a ribbon marked 48 V", "phantom-arrives",
		[]string{"Mark it as wanting no 48 V"},
		func(r *rig, e *plan.Edit) {
			plan.Put(e, plan.Input{ID: "i-22222", Number: 1, Name: "Room", Use: "ribbon", Phantom: true})
			plan.Put(e, plan.StagePatch{Input: "i-22222", Device: r.stage, Socket: 1})
		},
	},
	{
		"a poor coupler", "tight",
		[]string{"Use a coupler of Cat 6A hardware before cable 2"},
		func(r *rig, e *plan.Edit) {
			poorer := of("cat6a-own", 60, 60)
			poorer[1].Coupler = "cat5e"
			e.SetSegments(r.main, poorer)
		},
	},
	{
		"a cable planned too poor", "over-limit",
		[]string{"Plan cable 2 as 50 m of Cat 7 low-loss, own figure 18.0", "Plan cable 2 as 50 m of Cat 6A low-loss, own figure 18.5"},
		func(r *rig, e *plan.Edit) { e.SetSegments(r.main, append(of("cat6a-own", 60), of("cat5e", 50)...)) },
	},
	{
		"a poor kind wanted", "over-limit",
		[]string{"Want Cat 7 low-loss, own figure 18.0 for the missing 106.6 m", "Want Cat 6A low-loss, own figure 18.5 for the missing 106.6 m"},
		func(r *rig, e *plan.Edit) {
			e.SetSegments(r.main, nil)
			set(e, r.main, func(l *plan.Link) { l.FillKind, l.RiseFrom = "cat5e", 50 })
		},
	},
	{
		"nothing one change would cure", "over-limit", nil,
		func(r *rig, e *plan.Edit) { e.SetSegments(r.main, of("cat5e", 90, 90)) },
	},
	{
		"a cable by length that does not reach", "too-short",
		[]string{"Plan cable 1 as 57 m", "Lay 17 m of Cat 6A low-loss, own figure 18.5 more"},
		func(r *rig, e *plan.Edit) { e.SetSegments(r.main, of("cat6a-own", 40)) },
	},
	{
		"a reel that does not reach is not planned longer", "too-short",
		[]string{"Lay 17 m of Cat 6A low-loss, own figure 18.5 more"},
		func(r *rig, e *plan.Edit) { setReel(e, func(r *plan.Reel) { r.Length = 40 }) },
	},
	{
		"a longer run that would be over", "too-short", nil,
		func(r *rig, e *plan.Edit) {
			e.SetSegments(r.main, of("cat5e", 60))
			set(e, r.main, func(l *plan.Link) { l.FillKind, l.RiseFrom = "", 100 })
		},
	},
	{
		"a transport that neither port is for", "wrong-port",
		[]string{"Make it AES50, as both ports are"},
		func(r *rig, e *plan.Edit) { set(e, r.main, func(l *plan.Link) { l.Transport = "100base-tx" }) },
	},
	{
		"two ports that do not fit each other", "wrong-port", nil,
		func(r *rig, e *plan.Edit) { set(e, r.main, func(l *plan.Link) { l.ToPort = "N1" }) },
	},
	{
		"fibre wanted on pairs", "wrong-medium",
		[]string{"Want Cat 5e for the missing 56.6 m", "Want Cat 5e, own figure 22.5 for the missing 56.6 m"},
		func(r *rig, e *plan.Edit) {
			e.SetSegments(r.main, nil)
			set(e, r.main, func(l *plan.Link) { l.FillKind = "fibre-multimode" })
		},
	},
	{
		"coax laid on a network", "wrong-medium", nil,
		func(r *rig, e *plan.Edit) { e.SetSegments(r.network, of("coax", 45)) },
	},
	{
		"unscreened cable wanted on AES50", "screen",
		[]string{"Want Cat 5e for the missing 56.6 m", "Want Cat 5e, own figure 22.5 for the missing 56.6 m"},
		func(r *rig, e *plan.Edit) {
			e.SetSegments(r.main, nil)
			set(e, r.main, func(l *plan.Link) { l.FillKind = "cat5e-unscreened" })
		},
	},
	{
		"too few pairs wanted", "pairs-missing",
		[]string{"Want Cat 5e for the missing 40.3 m", "Want Cat 5e, own figure 22.5 for the missing 40.3 m"},
		func(r *rig, e *plan.Edit) {
			e.SetSegments(r.network, nil)
			set(e, r.network, func(l *plan.Link) { l.FillKind = "cat6" })
			setKind(e, "cat6", func(k *plan.CableKind) { k.Pairs = 2 })
		},
	},
	{
		"a shell wanted at a plain port", "shell",
		[]string{"Want Cat 5e unscreened for the missing 40.3 m", "Want Cat 6 unscreened for the missing 40.3 m"},
		func(r *rig, e *plan.Edit) {
			setDevice(e, r.foh2, func(d *plan.Device) { d.Kind = "switch-8" })
			set(e, r.network, func(l *plan.Link) { l.FromPort, l.FillKind = "1", "cat6a" })
			e.SetSegments(r.network, nil)
		},
	},
	{
		"a drum the wrong way round before a panel", "socket-at-device",
		[]string{"Turn the cable round", "Add 2 m of Cat 6A tail 26 AWG at FOH"},
		func(r *rig, e *plan.Edit) {
			e.SetSegments(r.main, of("cat6a-drum-socket", 60))
			set(e, r.main, func(l *plan.Link) { l.FromPanel = "cat6a" })
		},
	},
	{
		"a drum whose socket lies at a switch", "socket-at-device",
		[]string{"Add 2 m of Cat 6A tail 26 AWG at FOH network", "Add 2 m of Cat 5e unscreened tail 26 AWG at FOH network"},
		func(r *rig, e *plan.Edit) {
			e.SetSegments(r.network, of("cat6a-drum-socket", 45))
			set(e, r.network, func(l *plan.Link) { l.DrumEnd = "from" })
		},
	},
	{
		"main and backup in one loom", "same-way",
		[]string{"Take L02 out of the loom"},
		func(r *rig, e *plan.Edit) {
			plan.Put(e, plan.Loom{ID: "m-22222", Name: "Red"})
			set(e, r.main, func(l *plan.Link) { l.Loom = "m-22222" })
			set(e, r.backup, func(l *plan.Link) { l.Loom = "m-22222" })
		},
	},
	{
		"a faulty reel, an equal one and one in use", "bad-reel",
		[]string{"Take reel 6A-02, 60.0 m, in its place"},
		func(r *rig, e *plan.Edit) {
			setReel(e, func(r *plan.Reel) { r.Condition = "faulty" })
			plan.Put(e, plan.Reel{ID: "r-33333", Tag: "6A-02", Kind: "cat6a-own", Length: 60})
			plan.Put(e, plan.Reel{ID: "r-44444", Tag: "6A-03", Kind: "cat6a-own", Length: 60})
			plan.Put(e, plan.Reel{ID: "r-55555", Tag: "6A-04", Kind: "cat6a-own", Length: 60, Condition: "suspect"})
			e.SetSegments(r.network, []plan.Segment{{Reel: "r-44444"}})
		},
	},
	{
		"a missing reel, an equal one and one of which none is there", "not-there",
		[]string{"Take reel 6A-02, 60.0 m, in its place"},
		func(_ *rig, e *plan.Edit) {
			setReel(e, func(r *plan.Reel) { r.State = plan.Missing })
			plan.Put(e, plan.Reel{ID: "r-33333", Tag: "6A-02", Kind: "cat6a-own", Length: 60})
			plan.Put(e, plan.Reel{ID: "r-44444", Tag: "6A-03", Kind: "cat6a-own", Length: 60, State: plan.InRepair})
		},
	},
	{
		"intercom cable where a digital pair is wanted", "other-kind",
		[]string{"Want Intercom cable, as it lies"},
		func(r *rig, e *plan.Edit) {
			set(e, r.pair, func(l *plan.Link) { l.FillKind = "audio-pair" })
			e.SetSegments(r.pair, of("intercom", 45))
		},
	},
	{
		"a faulty house line, a reel that reaches and one that is too short", "bad-house-line",
		[]string{"Lay reel 6A-01 of Cat 6A low-loss, own figure 18.5 in its place", "Lay reel 6A-02 of Cat 6A low-loss, own figure 18.5 in its place"},
		func(r *rig, e *plan.Edit) {
			plan.Put(e, plan.HouseLine{ID: "h-22222", Name: "H1", Kind: "cat6a-own", Length: 60, Condition: plan.Faulty})
			plan.Put(e, plan.Reel{ID: "r-33333", Tag: "6A-02", Kind: "cat6a-own", Length: 61})
			plan.Put(e, plan.Reel{ID: "r-44444", Tag: "6A-03", Kind: "cat6a-own", Length: 40})
			e.SetSegments(r.main, []plan.Segment{{HouseLine: "h-22222"}})
		},
	},
	{
		"a faulty reel and no other", "bad-reel", nil,
		func(r *rig, e *plan.Edit) { setReel(e, func(r *plan.Reel) { r.Condition = "faulty" }) },
	},
	{
		"power where there is none", "power",
		[]string{"Carry no power over it"},
		func(r *rig, e *plan.Edit) { set(e, r.main, func(l *plan.Link) { l.PowerW = 12 }) },
	},
	{
		"more power than there is", "power", nil,
		func(r *rig, e *plan.Edit) { set(e, r.network, func(l *plan.Link) { l.PowerW = 95 }) },
	},
	{
		"two links of one name", "double-name",
		[]string{"Give the second its own name"},
		func(r *rig, e *plan.Edit) { set(e, r.main, func(l *plan.Link) { l.Name = "L02" }) },
	},
	{
		"a name that an issued revision gave to another link", "retired-name",
		[]string{"Call it L06"},
		func(r *rig, e *plan.Edit) { issuedToAnother(e, "L01") },
	},
	{
		"three devices of one name", "double-name",
		[]string{"Give the other 2 their own names"},
		func(r *rig, e *plan.Edit) {
			setDevice(e, r.foh, func(d *plan.Device) { d.Name = "Stage" })
			setDevice(e, r.screen, func(d *plan.Device) { d.Name = "Stage" })
		},
	},
}

func TestAFixTakesItsFindingAwayAndBringsNoStop(t *testing.T) {
	fixed := map[string]bool{}
	for _, c := range cures {
		t.Run(c.rule+": "+c.name, func(t *testing.T) {
			r := newRig(t)
			r.do(t, func(e *plan.Edit) { c.edit(r, e) })
			finding := one(t, r, c.rule)
			var labels []string
			for _, fix := range checks.Fixes(r.Plan, finding) {
				labels = append(labels, fix.Label)
				fixed[c.rule] = true
				after := &rig{Plan: r.Plan, ids: r.ids}
				after.do(t, func(e *plan.Edit) { must(fix.Edit(e)) })
				require.Empty(t, ofRule(after.find(), c.rule), fix.Label)
				require.Subset(t, stops(r), stops(after), fix.Label)
			}
			require.Equal(t, c.labels, labels)
		})
	}
	for _, id := range []string{"channel-left", "rates-apart", "detour", "no-arrival", "double-input"} { // TestALeftChannelIsFreed, TestRatesAndConsoles, TestDetours, on plans with a patch; TestInputsOfOneNameAreNumbered, on lists
		fixed[id] = true
	}
	for _, id := range checks.FixedRules() {
		require.True(t, fixed[id], "no case shows the fix of %s", id)
	}
}

func TestWhatHasNoCertainFixHasNone(t *testing.T) {
	r := newRig(t)
	r.do(t, func(e *plan.Edit) { area(e, "exit") })
	require.Empty(t, checks.Fixes(r.Plan, one(t, r, "crossing")))
	require.Empty(t, checks.Fixes(r.Plan, checks.Finding{Rule: "tight"}))
}

// one is the first finding of a rule.
func one(t *testing.T, r *rig, rule string) checks.Finding {
	t.Helper()
	found := ofRule(r.find(), rule)
	require.NotEmpty(t, found)
	return found[0]
}

// ofRule keeps the findings of one rule.
func ofRule(found []checks.Finding, rule string) (kept []checks.Finding) {
	for _, finding := range found {
		if finding.Rule == rule {
			kept = append(kept, finding)
		}
	}
	return kept
}

func stops(r *rig) (places []string) {
	for _, finding := range r.find() {
		if finding.Severity == checks.Stop {
			places = append(places, fmt.Sprint(finding.Rule, finding.Where))
		}
	}
	return places
}
