package demotest

import (
	"fmt"

	"stageloom/model/catalogue"
	"stageloom/model/demo/builder"
	"stageloom/model/geom"
	"stageloom/model/plan"
)

// Grades is a plan with one link of each grade and one of each special case, each saying in its note what it shows. The
// pairs of devices stand in rows, numbered like their links. The same plan at every call.
func Grades() *plan.Plan {
	return builder.Plan("Grades", 2, func(on *builder.Builder) {
		b := graded{on}
		settings := plan.DefaultSettings()
		settings.Name, settings.Site = "Grades", "A row for every grade and special case"
		settings.SlackPercent, settings.SlackEnd, settings.Detour = plan.Some(0), plan.Some(0), 1
		b.Edit.SetSettings(settings)
		b.gradeStock()
		b.plainGrades()
		b.joinedGrades()
		b.specialGrades()
	})
}

// graded lays the links of the grades.
type graded struct{ *builder.Builder }

// gradeStock holds the reels, the house line, the level and the position that the cases want.
func (b graded) gradeStock() {
	for _, kind := range catalogue.CableKinds() {
		builder.Must(catalogue.UseCable(b.Edit, kind.ID))
	}
	plan.Put(b.Edit, plan.Reel{ID: "r-22222", Tag: "M01", Kind: "cat6a-own", Length: 60, Measured: plan.Some(10)})
	plan.Put(b.Edit, plan.HouseLine{ID: "h-22222", Name: "House 1", Kind: "cat6a-solid", Length: 60, FromPanel: "Wall", ToPanel: "Pit"})
	plan.Put(b.Edit, plan.Level{ID: "v-22222", Name: "Gallery", Height: 8})
	plan.Put(b.Edit, plan.CableKind{ID: "unknown", Name: "Old reel of unknown make", Media: "balanced-pair", Pairs: 4, Connector: "8P8C", Screened: true, Lockable: true, MetalShell: true})
}

// row adds the next pair of devices, this many metres apart, and a link between them.
func (b graded) row(note string, l plan.Link, apart float64, segments ...plan.Segment) {
	n := len(b.Links) + 1
	kind := map[plan.TransportID]plan.KindID{"aes50": "aes50-router-5", "1000base-t": "switch-16", "100base-tx": "lighting-node", "fibre": "media-converter"}[l.Transport]
	ports := map[plan.TransportID][2]string{"aes50": {"AES50 1", "AES50 2"}, "1000base-t": {"01", "02"}, "100base-tx": {"N1", "N2"}, "fibre": {"F", "F"}}[l.Transport]
	y := -15 * float64(n)
	near, far := fmt.Sprintf("Near %02d", n), fmt.Sprintf("Far %02d", n)
	b.Device(near, kind, "", 0, y)
	b.Device(far, kind, "", apart, y)
	l.FromPort, l.ToPort, l.Note = ports[0], ports[1], note
	b.Link(l, near, far, segments)
}

func metres(kind plan.CableKindID, lengths ...float64) (segments []plan.Segment) {
	for _, length := range lengths {
		segments = append(segments, plan.Segment{Kind: kind, Length: length})
	}
	return segments
}

var (
	onAES50   = plan.Link{Transport: "aes50"}
	onNetwork = plan.Link{Transport: "1000base-t"}
)

// plainGrades are one link of each grade.
func (b graded) plainGrades() {
	b.row("ample", onAES50, 60, metres("cat6a-own", 70)...)
	b.row("enough", onAES50, 90, metres("cat6a", 60, 34)...)
	b.row("tight, inside the standard", onAES50, 95, metres("cat6a", 99)...)
	b.row("tight, above the standard's 24.0 dB", onAES50, 95, metres("cat6a", 60, 41)...)
	b.row("over", onAES50, 95, metres("cat6a-own", 70)[0], metres("cat5e", 45)[0])
	b.row("uncabled: no cable and no wanted kind", onAES50, 60)
	wanted := onAES50
	wanted.FillKind = "cat6a-own"
	b.row("no cable yet, graded as its wanted kind", wanted, 60)
	b.row("too short, its missing metres graded as the wanted kind", wanted, 90, metres("cat6a-own", 60)...)
	b.row("too short and no wanted kind: uncabled", onAES50, 90, metres("cat6a-own", 60)...)
	b.row("past 100 m", onAES50, 110, metres("cat7-own", 75, 48)...)
}

// joinedGrades are the sorts of joint.
func (b graded) joinedGrades() {
	poorer := metres("cat6a-own", 40, 40)
	poorer[1].Coupler = "cat5e"
	b.row("a Cat 5e coupler", onAES50, 75, poorer...)
	b.row("drums joined plug in socket", onAES50, 75, metres("cat6a-drum-socket", 40, 40)...)
	panels := onAES50
	panels.FromPanel, panels.FromLeadKind, panels.FromLead = "cat6a", "cat6a-tail", 2
	panels.ToPanel, panels.ToLeadKind, panels.ToLead = "cat6", "cat6a-tail", 3
	b.row("panels with inner leads at both ends", panels, 55, metres("cat6a-own", 60)...)
	house := append(metres("cat6a", 10), plan.Segment{HouseLine: "h-22222"})
	b.row("a house line between two reels", onAES50, 75, append(house, metres("cat6a", 10)...)...)
	b.row("a measured reel", onAES50, 55, plan.Segment{Reel: "r-22222"})
	b.row("five short pieces", onAES50, 55, metres("cat5e", 12, 12, 12, 12, 12)...)
}

// specialGrades are the other transports, rules, temperatures and ways.
func (b graded) specialGrades() {
	b.row("a network", onNetwork, 80, metres("cat6a-own", 70, 15)...)
	b.row("a slow network", plan.Link{Transport: "100base-tx"}, 40, metres("cat6", 45)...)
	b.row("fibre carries no grade", plan.Link{Transport: "fibre"}, 110, metres("fibre-multimode", 150)...)
	b.row("fibre too short", plan.Link{Transport: "fibre"}, 110, metres("fibre-multimode", 100)...)
	rule := onAES50
	rule.Rule = "channel-cat6"
	b.row("another limit rule", rule, 80, metres("cat6a-own", 70, 15)...)
	hot := onAES50
	hot.Temperature = plan.Some(55)
	b.row("a hot cable", hot, 95, metres("cat6a-own", 70, 30)...)
	cool := onAES50
	cool.Temperature = plan.Some(20)
	b.row("typed cooler than the default: 3 dB wanted", cool, 110, metres("cat6a-own", 70, 45)...)
	b.row("a cable of unknown loss", onAES50, 50, metres("unknown", 60)...)
	high := onAES50
	high.RiseFrom, high.RiseTo = 2, 4
	b.row("a drawn way up to a gallery", high, 60, metres("cat6a-own", 70, 30)...)
	id, near := b.Links["L25"], b.Devices["Near 25"]
	at, _ := b.Edit.Now().Device(near)
	builder.Must(b.Edit.Draw(id, []geom.Point{{X: 20, Y: at.Y + 4}, {X: 40, Y: at.Y + 4}}))
	builder.Must(plan.Update(b.Edit, plan.Key(b.Devices["Far 25"]), func(d *plan.Device) { d.Level = "v-22222" }))
	b.row("main", onAES50, 40, metres("cat6a-own", 45)...)
	b.row("backup", onAES50, 40, metres("cat6a-own", 45)...)
	b.Pair("L26", "L27")
}
