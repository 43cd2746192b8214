package checks_test

import (
	"testing"

	"stageloom/model/checks"
	"stageloom/model/plan"
)

func TestPortsAndPlugs(t *testing.T) {
	check(t, []breach{
		{
			"AES50 into a network port", "wrong-port", checks.Stop, "L01 carries AES50, but port N1 of FOH is for 1000BASE-T",
			func(r *rig, e *plan.Edit) { set(e, r.main, func(l *plan.Link) { l.ToPort = "N1" }) },
		},
		{
			"a network into an AES50 port", "wrong-port", checks.Stop, "L03 carries 1000BASE-T, but port AES50 3 of FOH is for AES50",
			func(r *rig, e *plan.Edit) {
				set(e, r.network, func(l *plan.Link) { l.From, l.FromPort = r.foh, "AES50 3" })
			},
		},
		{
			"a 1000BASE-T link needs more than a 100BASE-TX port", "wrong-port", checks.Stop, "L03 carries 1000BASE-T, but port N1 of Screen is for 100BASE-TX",
			func(r *rig, e *plan.Edit) {
				setPort(e, plan.PortKey("processor-6-12", "N1"), func(p *plan.KindPort) { p.Transport = "100base-tx" })
			},
		},
		{
			"a locking shell into a plain port", "shell", checks.Stop, "L03: the metal shell of cable 1 (Cat 6A low-loss, own figure 18.5) does not go into the plain port 1 of FOH network",
			func(r *rig, e *plan.Edit) {
				setDevice(e, r.foh2, func(d *plan.Device) { d.Kind = "switch-8" })
				set(e, r.network, func(l *plan.Link) { l.FromPort = "1" })
			},
		},
		{
			"a plug that is not the port's", "connector", checks.Warn, "L05: cable 1 (Digital audio pair 110 ohm) has XLR, but port D1 of Screen wants BNC",
			func(r *rig, e *plan.Edit) {
				setPort(e, plan.PortKey("processor-6-12", "D1"), func(p *plan.KindPort) { p.Connector = "BNC" })
			},
		},
		{
			"a house line without a tail", "socket-at-device", checks.Warn, "L03: cable 2 (Cat 6A solid, sockets) ends in a socket at Screen",
			func(r *rig, e *plan.Edit) {
				e.SetSegments(r.network, append(of("cat6a-own", 10), plan.Segment{HouseLine: "h-22222"}))
			},
		},
		{
			"a drum left at the near end", "socket-at-device", checks.Warn, "L03: cable 1 (Cat 6A drum with socket) ends in a socket at FOH network",
			func(r *rig, e *plan.Edit) {
				e.SetSegments(r.network, of("cat6a-drum-socket", 45))
				set(e, r.network, func(l *plan.Link) { l.DrumEnd = "from" })
			},
		},
		{
			"unscreened cable on AES50", "screen", checks.Stop, "L01: the screen ends at cable 1 (Cat 5e unscreened), which is unscreened, and AES50 needs it through from end to end",
			func(r *rig, e *plan.Edit) { e.SetSegments(r.main, of("cat5e-unscreened", 60)) },
		},
		{
			"plugs that do not carry the screen", "screen", checks.Stop, "L01: the screen ends at cable 1 (Cat 6A), whose plugs are not of metal, and AES50 needs it through from end to end",
			func(r *rig, e *plan.Edit) {
				e.SetSegments(r.main, of("cat6a", 60))
				setKind(e, "cat6a", func(k *plan.CableKind) { k.MetalShell = false })
			},
		},
		{
			"a port without a shell", "screen", checks.Stop, "L01: the screen ends at port AES50 1 of FOH, which has no metal shell, and AES50 needs it through from end to end",
			func(r *rig, e *plan.Edit) {
				setPort(e, plan.PortKey("console-56", "AES50 1"), func(p *plan.KindPort) { p.MetalShell = false })
			},
		},
		{
			"two pairs where four are needed", "pairs-missing", checks.Stop, "L03: cable 1 (Cat 6A low-loss, own figure 18.5) has 2 pairs, and 1000BASE-T needs 4",
			func(r *rig, e *plan.Edit) {
				e.SetSegments(r.main, of("cat6a", 60))
				e.SetSegments(r.backup, of("cat6a", 100))
				set(e, r.main, func(l *plan.Link) { l.FillKind = "" })
				setKind(e, "cat6a-own", func(k *plan.CableKind) { k.Pairs = 2 })
			},
		},
		{
			"coax on a network", "wrong-medium", checks.Stop, "L03 runs on balanced pair, and cable 1 (Coax 75 ohm) is none",
			func(r *rig, e *plan.Edit) { e.SetSegments(r.network, of("coax", 45)) },
		},
		{
			"the wanted kind is fibre", "wrong-medium", checks.Stop, "L01 runs on balanced pair, and the Fibre multimode, 2 fibres wanted for its missing metres is none",
			func(r *rig, e *plan.Edit) {
				e.SetSegments(r.main, nil)
				set(e, r.main, func(l *plan.Link) { l.FillKind = "fibre-multimode" })
			},
		},
		{
			"multimode on singlemode", "wrong-medium", checks.Stop, "L04 joins two sorts of fibre: cable 2 (Fibre singlemode, 2 fibres) is not like the cable before it",
			func(r *rig, e *plan.Edit) {
				e.SetSegments(r.fibre, append(of("fibre-multimode", 60), of("fibre-singlemode", 60)...))
			},
		},
	})
}
