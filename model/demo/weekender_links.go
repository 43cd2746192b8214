package demo

import (
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
func (b *builder) stageLinks() {
	b.link(phase(aes50("AES50 1", "AES50 1"), 1, "red"), "Stage rack", "FOH console", b.with("LL01", "LM01"),
		geom.Pt(5, 6), geom.Pt(12, 2), geom.Pt(78, 2))
	poorer := b.with("LL03", "LM04")
	poorer[1].Coupler = "cat5e"
	b.link(phase(aes50("AES50 1", "AES50 3"), 1, "blue"), "Stage right box", "FOH console", poorer,
		geom.Pt(5, -6), geom.Pt(12, -2), geom.Pt(78, -2))
	b.link(phase(aes50("AES50 1", "AES50 4"), 1, "yellow"), "Riser box", "FOH console", b.with("LL05", "5E01"),
		geom.Pt(12, 0), geom.Pt(76, 0))
	b.link(aes50("AES50 2", "AES50"), "Stage rack", "Stage converter", b.with("LL06"))
	b.link(phase(onFibre("F", "F"), 2, "red"), "Stage converter", "FOH converter", b.with("F01"),
		geom.Pt(-27, 30), geom.Pt(-27, 50), geom.Pt(99, 50), geom.Pt(99, -8))
	b.link(aes50("AES50", "AES50 2"), "FOH converter", "FOH console", b.with("6 25 m"))
	b.pair("L01", "L05")
	b.link(aes50("AES50 3", "AES50 1"), "Stage rack", "Monitor console", b.with("6A01"))
	b.link(aes50("AES50 2", "AES50 2"), "Riser box", "Monitor console", b.with("LL10"), geom.Pt(-17, 8), geom.Pt(-17, 30))
	b.link(network("01", "N1"), "Stage switch", "Monitor console", b.with("LL09"), geom.Pt(-24, 24))
	b.link(network("02", "N1"), "Stage switch", "PA left", b.with("6 25 m"))
	b.link(network("03", "N1"), "Stage switch", "PA right", b.with("6A04", "6 25 m", "6 10 m"), geom.Pt(-60, 10), geom.Pt(-60, -20))
	b.link(network("04", "N1"), "Stage switch", "RF rack", b.with("6A03", "6 25 m"), geom.Pt(-60, 18), geom.Pt(-60, 36))
	b.link(network("05", "N1"), "Stage switch", "Processor", b.with("LM02", "6 25 m"), geom.Pt(-57, 8), geom.Pt(-57, -7))
	b.link(digital("D1", "D1"), "Processor", "PA left", b.with("AES 25 m"))
	b.link(digital("D2", "D1"), "Processor", "PA right", b.with("AES 25 m"))
	b.link(plan.Link{Transport: "analogue-multicore", FromPort: "M", ToPort: "M3", FillKind: "multicore-16"}, "RF rack", "Stage rack", b.with("Multi"))
}

// towerLinks are those of FOH and the delay towers. L20, to the right tower, has no cable and no wanted kind yet.
func (b *builder) towerLinks() {
	b.link(phase(onFibre("F1", "F1"), 1, "green"), "Stage switch", "FOH switch", b.with("F04", "F10"),
		geom.Pt(-26, 9), geom.Pt(4, 9), geom.Pt(12, 3), geom.Pt(77, 3))
	b.link(network("01", "N1"), "FOH switch", "FOH console", b.with("6 25 m"))
	b.link(network("02", "N1"), "FOH switch", "Delay left", b.with("LL07"), geom.Pt(98, 14), geom.Pt(103, 30))
	uncabled := network("03", "N1")
	uncabled.FillKind = ""
	b.link(uncabled, "FOH switch", "Delay right", nil, geom.Pt(97, 7), geom.Pt(103, -4), geom.Pt(103, -30))
	b.link(digital("D1", "D1"), "FOH console", "Delay left", b.with("AES 45 m", "AES 25 m"), geom.Pt(99, 2), geom.Pt(105, 10), geom.Pt(105, 29))
	b.link(digital("D2", "D1"), "FOH console", "Delay right", b.with("AES 45 m", "AES 25 m"), geom.Pt(99, -3), geom.Pt(105, -12), geom.Pt(105, -29))
}

// farLinks go to the van and the second stage: fibre, main one way and backup another; talkback to the van on copper.
func (b *builder) farLinks() {
	b.link(phase(onFibre("F2", "F1"), 2, "white"), "Stage switch", "Broadcast van", b.with("F02"),
		geom.Pt(-64, 22), geom.Pt(-64, 57), geom.Pt(94, 57), geom.Pt(94, 83))
	b.link(phase(onFibre("F2", "F2"), 2, "white"), "FOH switch", "Broadcast van", b.with("F05"),
		geom.Pt(97, 14), geom.Pt(102, 20), geom.Pt(102, 58), geom.Pt(110, 76))
	b.pair("L23", "L24")
	b.link(phase(plan.Link{Transport: "intercom", FromPort: "IC1", ToPort: "IC", FillKind: "intercom"}, 2, "grey"), "Intercom main", "Broadcast van",
		b.with("IC 100 m", "IC 100 m", "IC 25 m"), geom.Pt(-27, 54), geom.Pt(88, 54), geom.Pt(88, 88))
	b.link(phase(onFibre("F3", "F1"), 3, "violet"), "Stage switch", "Second stage switch", b.with("F03", "F06"),
		geom.Pt(-66, 12), geom.Pt(-66, -53), geom.Pt(152, -53), geom.Pt(188, -72), geom.Pt(202, -72))
	b.link(phase(onFibre("F3", "F2"), 3, "violet"), "FOH switch", "Second stage switch", b.with("F07", "F08", "F09"),
		geom.Pt(96, 10), geom.Pt(98, 4), geom.Pt(98, -48), geom.Pt(152, -48), geom.Pt(192, -44), geom.Pt(213, -48))
	b.pair("L26", "L27")
	b.link(aes50("AES50 1", "AES50 1"), "Second stage box", "Second console", b.with("LL08"))
	b.link(network("1", "N1"), "Second stage switch", "Second console", b.with("6U 45 m", "6U 25 m"), geom.Pt(213, -84), geom.Pt(202, -94))
}

// looms bind what lies together: the lane to FOH, without the backup of its main link.
func (b *builder) looms() {
	lane := plan.LoomID("m-22222")
	plan.Put(b.edit, plan.Loom{ID: lane, Name: "FOH lane", Colour: "red", Note: "Under covered ramps from the barrier to the tower."})
	for _, name := range []string{"L01", "L02", "L03", "L17"} {
		must(plan.Update(b.edit, plan.Key(b.links[name]), func(l *plan.Link) { l.Loom, l.DrumEnd = lane, "to" }))
	}
}
