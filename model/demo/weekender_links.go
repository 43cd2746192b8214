package demo

import (
	"stageloom/model/demo/builder"
	"stageloom/model/geom"
	"stageloom/model/plan"
)

func aes50(fromPort, toPort string) plan.Link {
	return plan.Link{Transport: "aes50", FromPort: fromPort, ToPort: toPort, FillKind: "cat6a-own"}
}

func network(fromPort, toPort string) plan.Link {
	return plan.Link{Transport: "1000base-t", FromPort: fromPort, ToPort: toPort, FillKind: "cat6a"}
}

func onFibre(fromPort, toPort string) plan.Link {
	return plan.Link{Transport: "fibre", FromPort: fromPort, ToPort: toPort, FillKind: "fibre-multimode"}
}

func digital(fromPort, toPort string) plan.Link {
	return plan.Link{Transport: "aes3", FromPort: fromPort, ToPort: toPort, FillKind: "audio-pair"}
}

func phase(l plan.Link, number int, colour string) plan.Link {
	l.LayPhase, l.Colour = number, colour
	return l
}

// stageLinks are those between stage, monitors and FOH. L02 is tight for its Cat 5e coupler, L03 over for its Cat 5e reel.
func (b *weekender) stageLinks() {
	b.Link(phase(aes50("AES50 1", "AES50 1"), 1, "red"), "Stage rack", "FOH console", b.With("LL01", "LM01"),
		geom.Pt(5, 6), geom.Pt(12, 2), geom.Pt(78, 2))
	poorer := b.With("LL03", "LM04")
	poorer[1].Coupler = "cat5e"
	b.Link(phase(aes50("AES50 1", "AES50 3"), 1, "blue"), "Stage right box", "FOH console", poorer,
		geom.Pt(5, -6), geom.Pt(12, -2), geom.Pt(78, -2))
	b.Link(phase(aes50("AES50 1", "AES50 4"), 1, "yellow"), "Riser box", "FOH console", b.With("LL05", "5E01"),
		geom.Pt(12, 0), geom.Pt(76, 0))
	b.Link(aes50("AES50 2", "AES50"), "Stage rack", "Stage converter", b.With("LL06"))
	b.Link(phase(onFibre("F", "F"), 2, "red"), "Stage converter", "FOH converter", b.With("F01"),
		geom.Pt(-27, 30), geom.Pt(-27, 50), geom.Pt(99, 50), geom.Pt(99, -8))
	b.Link(aes50("AES50", "AES50 2"), "FOH converter", "FOH console", b.With("6 25 m"))
	b.Pair("L01", "L05")
	b.Link(aes50("AES50 3", "AES50 1"), "Stage rack", "Monitor console", b.With("6A01"))
	b.Link(aes50("AES50 2", "AES50 2"), "Riser box", "Monitor console", b.With("LL10"), geom.Pt(-17, 8), geom.Pt(-17, 30))
	b.Link(network("01", "N1"), "Stage switch", "Monitor console", b.With("LL09"), geom.Pt(-24, 24))
	b.Link(network("02", "N1"), "Stage switch", "PA left", b.With("6 25 m"))
	b.Link(network("03", "N1"), "Stage switch", "PA right", b.With("6A04", "6 25 m", "6 10 m"), geom.Pt(-60, 10), geom.Pt(-60, -20))
	b.Link(network("04", "N1"), "Stage switch", "RF rack", b.With("6A03", "6 25 m"), geom.Pt(-60, 18), geom.Pt(-60, 36))
	b.Link(network("05", "N1"), "Stage switch", "Processor", b.With("LM02", "6 25 m"), geom.Pt(-57, 8), geom.Pt(-57, -7))
	b.Link(digital("D1", "D1"), "Processor", "PA left", b.With("AES 25 m"))
	b.Link(digital("D2", "D1"), "Processor", "PA right", b.With("AES 25 m"))
	b.Link(multi("M", "M3", "violet"), "RF rack", "Stage rack", b.With("Multi"))
}

// towerLinks are those of FOH and the delay towers. L20, to the right tower, has no cable and no wanted kind yet.
func (b *weekender) towerLinks() {
	b.Link(phase(onFibre("F1", "F1"), 1, "green"), "Stage switch", "FOH switch", b.With("F04", "F10"),
		geom.Pt(-26, 9), geom.Pt(4, 9), geom.Pt(12, 3), geom.Pt(77, 3))
	b.Link(network("01", "N1"), "FOH switch", "FOH console", b.With("6 25 m"))
	b.Link(network("02", "N1"), "FOH switch", "Delay left", b.With("LL07"), geom.Pt(98, 14), geom.Pt(103, 30))
	uncabled := network("03", "N1")
	uncabled.FillKind = ""
	b.Link(uncabled, "FOH switch", "Delay right", nil, geom.Pt(97, 7), geom.Pt(103, -4), geom.Pt(103, -30))
	b.Link(digital("D1", "D1"), "FOH console", "Delay left", b.With("AES 45 m", "AES 25 m"), geom.Pt(99, 2), geom.Pt(105, 10), geom.Pt(105, 29))
	b.Link(digital("D2", "D1"), "FOH console", "Delay right", b.With("AES 45 m", "AES 25 m"), geom.Pt(99, -3), geom.Pt(105, -12), geom.Pt(105, -29))
}

// farLinks go to the van and the second stage: fibre, main one way and backup another; talkback to the van on copper.
func (b *weekender) farLinks() {
	b.Link(phase(onFibre("F2", "F1"), 2, "white"), "Stage switch", "Broadcast van", b.With("F02"),
		geom.Pt(-64, 22), geom.Pt(-64, 57), geom.Pt(94, 57), geom.Pt(94, 83))
	b.Link(phase(onFibre("F2", "F2"), 2, "white"), "FOH switch", "Broadcast van", b.With("F05"),
		geom.Pt(97, 14), geom.Pt(102, 20), geom.Pt(102, 58), geom.Pt(110, 76))
	b.Pair("L23", "L24")
	b.Link(phase(plan.Link{Transport: "intercom", FromPort: "IC1", ToPort: "IC", FillKind: "intercom"}, 2, "grey"), "Intercom main", "Broadcast van",
		b.With("IC 100 m", "IC 100 m", "IC 25 m"), geom.Pt(-27, 54), geom.Pt(88, 54), geom.Pt(88, 88))
	b.Link(phase(onFibre("F3", "F1"), 3, "violet"), "Stage switch", "Second stage switch", b.With("F03", "F06"),
		geom.Pt(-66, 12), geom.Pt(-66, -53), geom.Pt(152, -53), geom.Pt(188, -72), geom.Pt(202, -72))
	b.Link(phase(onFibre("F3", "F2"), 3, "violet"), "FOH switch", "Second stage switch", b.With("F07", "F08", "F09"),
		geom.Pt(96, 10), geom.Pt(98, 4), geom.Pt(98, -48), geom.Pt(152, -48), geom.Pt(192, -44), geom.Pt(213, -48))
	b.Pair("L26", "L27")
	b.Link(aes50("AES50 1", "AES50 1"), "Second stage box", "Second console", b.With("LL08"))
	b.Link(network("1", "N1"), "Second stage switch", "Second console", b.With("6U 45 m", "6U 25 m"), geom.Pt(213, -84), geom.Pt(202, -94))
}

// looms bind what lies together: the lane to FOH, without the backup of its main link.
func (b *weekender) looms() {
	lane := plan.LoomID("m-22222")
	plan.Put(b.Edit, plan.Loom{ID: lane, Name: "FOH lane", Colour: "red", Note: "Under covered ramps from the barrier to the tower."})
	for _, name := range []string{"L01", "L02", "L03", "L17"} {
		builder.Must(plan.Update(b.Edit, plan.Key(b.Links[name]), func(l *plan.Link) { l.Loom, l.DrumEnd = lane, "to" }))
	}
}
