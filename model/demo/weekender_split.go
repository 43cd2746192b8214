package demo

import (
	"stageloom/model/geom"
	"stageloom/model/plan"
)

func multi(fromPort, toPort, colour string) plan.Link {
	return plan.Link{Transport: "analogue-multicore", FromPort: fromPort, ToPort: toPort, FillKind: "multicore-16", Colour: colour}
}

// split adds the splitter with what hangs on it: the horns' sub-snake before it, the stage rack on its direct way, the
// broadcast rack on an isolated one, from there fibre to the van and a link to the drop where a guest plugs in. And the
// stage right box's own link to monitors.
func (b *weekender) split() {
	b.heap(6, "Multi 30 m", "multicore-16", 30, 5)
	b.reelRow(5, "F", "fibre-multimode", 300, 11, 11)
	b.reelRow(2, "LM", "cat6a-own", 45, 5, 7)
	b.reelRow(2, "LC", "cat7-own", 70, 1, 1)
	b.reelRow(2, "LC", "cat7-own", 45, 2, 2)

	b.Device("Horn snake", "sub-snake-12-4", "Stage centre", -4.5, 2.9)
	b.Device("Splitter", "splitter-48", "Stage left", -9.5, 16)
	b.Device("Broadcast rack", "stage-rack-48-20", "Stage left", 1, 22)
	b.Device("Broadcast converter", "aes50-converter", "Monitors", 1, 39)
	b.Device("FOH drop", "drop-aes50", "FOH tower", 81, -8)
	b.Device("Guest console", "console-56", "FOH tower", 91.5, -6)

	b.Link(multi("M", "IN2", "orange"), "Horn snake", "Splitter", b.With("Multi 30 m"))
	b.Link(multi("A1", "M1", "blue"), "Splitter", "Stage rack", b.With("Multi 30 m"))
	b.Link(multi("A2", "M2", "yellow"), "Splitter", "Stage rack", b.With("Multi 30 m"))
	b.Link(multi("C1", "M1", "green"), "Splitter", "Broadcast rack", b.With("Multi 30 m"), geom.Pt(-4, 14.5), geom.Pt(0, 16))
	b.Link(multi("C2", "M2", "brown"), "Splitter", "Broadcast rack", b.With("Multi 30 m"), geom.Pt(-4, 14), geom.Pt(0.5, 16))
	b.Link(aes50("AES50 1", "AES50"), "Broadcast rack", "Broadcast converter", b.With("6A05"))
	b.Link(phase(onFibre("F", "F3"), 2, "white"), "Broadcast converter", "Broadcast van", b.With("F11"),
		geom.Pt(6, 51), geom.Pt(96, 51), geom.Pt(96, 82))
	b.Link(phase(aes50("AES50 2", "BACK"), 1, "grey"), "Broadcast rack", "FOH drop", b.With("LC01", "LC02"),
		geom.Pt(6, 8), geom.Pt(12, -1), geom.Pt(78, -3.5))
	b.Link(aes50("AES50 2", "AES50 3"), "Stage right box", "Monitor console", b.With("LM06", "LM07"), geom.Pt(-14, -17), geom.Pt(-14, 33))
}
