package checks_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/checks"
	"stageloom/model/plan"
)

// sparedBy lays a spare beside a link, of these cables.
func sparedBy(e *plan.Edit, beside plan.LinkID, cables []plan.Segment) plan.LinkID {
	spare, err := e.AddSpare(beside)
	must(err)
	must(plan.Update(e, plan.Key(spare), func(l *plan.Link) { l.FillKind = "" }))
	e.SetSegments(spare, cables)
	return spare
}

// nearStage puts a second rack 20 m nearer to FOH, in one position with the first.
func nearStage(r *rig, e *plan.Edit) plan.DeviceID {
	at := e.AddPosition(plan.Position{Name: "Deck", Width: 10, Depth: 60})
	setDevice(e, r.stage, func(d *plan.Device) { d.Position = at })
	return e.AddDevice(plan.Device{Name: "Near rack", Kind: "stage-rack-48-20", Position: at, Y: -20})
}

func TestALaidSpareThatWouldDoIsNoFinding(t *testing.T) {
	for name, edit := range map[string]func(*rig, *plan.Edit){
		"for any link between its ends": func(r *rig, e *plan.Edit) { sparedBy(e, r.main, of("cat6a-own", 60)) },
		"for the link that it names":    func(r *rig, e *plan.Edit) { must(e.StandIn(sparedBy(e, r.main, of("cat6a-own", 60)), r.main)) },
		"laid the other way round":      func(r *rig, e *plan.Edit) { must(e.Reverse(sparedBy(e, r.main, of("cat6a-own", 60)))) },
		"from a rack beside it, long enough": func(r *rig, e *plan.Edit) {
			near := nearStage(r, e)
			set(e, sparedBy(e, r.main, of("cat6a-own", 60)), func(l *plan.Link) { l.From = near })
		},
		"within the limit that the link is held to": func(r *rig, e *plan.Edit) {
			sparedBy(e, r.main, of("cat6a-own", 60))
			set(e, r.main, func(l *plan.Link) { l.Rule = "channel-cat6a" })
		},
		"without cable yet": func(r *rig, e *plan.Edit) { sparedBy(e, r.main, nil) },
	} {
		t.Run(name, func(t *testing.T) {
			r := newRig(t)
			r.do(t, func(e *plan.Edit) { edit(r, e) })
			require.Empty(t, ruleNamed(t, "stand-in").Find(checks.NewSubject(r.Plan)))
		})
	}
}

func TestALaidSpareThatWouldNotDo(t *testing.T) {
	check(t, []breach{
		{
			"its cables end short of the link's own device", "stand-in", checks.Warn,
			"the laid spare L06 would not do for L01: it is 21.6 m too short for a run of 56.6 m",
			func(r *rig, e *plan.Edit) {
				near := nearStage(r, e)
				spare := sparedBy(e, r.main, of("cat6a-own", 35))
				set(e, spare, func(l *plan.Link) { l.From = near })
				must(e.StandIn(spare, r.main))
			},
		},
		{
			"it loses more than the link's own limit allows", "stand-in", checks.Warn,
			"the laid spare L06 would not do for L01: on its cables L01 would be over by 1.6 dB at 100 MHz",
			func(r *rig, e *plan.Edit) {
				must(e.StandIn(sparedBy(e, r.main, of("cat5e", 82)), r.main))
				set(e, r.main, func(l *plan.Link) { l.Rule = "channel-cat6a" })
			},
		},
		{
			"it ends elsewhere", "stand-in", checks.Warn,
			"the laid spare L06 would not do for L03: it does not lie between the ends of that link",
			func(r *rig, e *plan.Edit) { must(e.StandIn(sparedBy(e, r.main, of("cat6a-own", 60)), r.network)) },
		},
		{
			"nothing lies between its ends", "stand-in", checks.Warn,
			"the laid spare L06 stands in for nothing: no link of AES50 lies between its ends",
			func(r *rig, e *plan.Edit) {
				spare := sparedBy(e, r.main, of("cat6a-own", 60))
				other := e.AddDevice(plan.Device{Name: "Other", Kind: "stage-rack-48-20", X: 20})
				set(e, spare, func(l *plan.Link) { l.From = other })
			},
		},
		{
			"its cable is none for the link's transport", "stand-in", checks.Warn,
			"the laid spare L06 would not do for L01: L01 runs on balanced pair, and cable 1 (Digital audio pair 110 ohm) is none",
			func(r *rig, e *plan.Edit) {
				spare := sparedBy(e, r.main, of("audio-pair", 60))
				set(e, spare, func(l *plan.Link) { l.Transport, l.FromPort, l.ToPort = "partyline", "IC", "IC" })
				must(e.StandIn(spare, r.main))
			},
		},
		{
			"its plugs go into the port it lies at, and not into the link's", "stand-in", checks.Warn,
			"the laid spare L06 would not do for L01: the metal shell of cable 1 (Cat 6A) does not go into the plain port AES50 1 of FOH",
			func(r *rig, e *plan.Edit) {
				set(e, sparedBy(e, r.main, of("cat6a", 60)), func(l *plan.Link) { l.ToPort = "AES50 3" })
				setPort(e, plan.PortKey("console-56", "AES50 1"), func(p *plan.KindPort) { p.Lockable = false })
			},
		},
		{
			"it is named to another spare", "stand-in", checks.Warn,
			"the laid spare L06 would not do for L07: L07 is a laid spare itself",
			func(r *rig, e *plan.Edit) {
				one, other := sparedBy(e, r.main, of("cat6a-own", 60)), sparedBy(e, r.main, of("cat6a-own", 60))
				set(e, one, func(l *plan.Link) { l.StandsFor = other })
			},
		},
	})
}
