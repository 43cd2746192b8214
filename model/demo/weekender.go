package demo

import (
	"stageloom/model/demo/builder"
	"stageloom/model/geom"
	"stageloom/model/plan"
)

// Weekender is the Harrow Meadow Weekender: a main stage with FOH at 86 m and monitors at its side, two delay towers, a
// broadcast van at 145 m, a second stage at 210 m, a splitter for the van and a guest, three acts, and a hire stock in six cases. One of its links is tight,
// one over and one uncabled, so that it shows what findings are. The same plan at every call.
func Weekender() *plan.Plan {
	return builder.Plan("Harrow Meadow Weekender", 1, func(b *builder.Builder) { (&weekender{Builder: b}).lay() })
}

// weekender lays the rows of the Weekender.
type weekender struct {
	*builder.Builder
	rows []plan.InputID // the input list, in order
}

func (b *weekender) lay() {
	settings := plan.DefaultSettings()
	settings.Name, settings.Site = "Harrow Meadow Weekender", "Harrow Meadow, lower field"
	settings.Date, settings.North = "2027-06-18", 20
	settings.Note = "Invented for demonstration: no such festival, nobody in it exists."
	b.Edit.SetSettings(settings)
	b.contacts()
	b.ground()
	b.kit()
	b.stock()
	b.stageLinks()
	b.towerLinks()
	b.farLinks()
	b.looms()
	b.split()
	b.inputs()
	b.house()
	b.acts()
	b.foundWays()
}

func (b *weekender) contacts() {
	for i, c := range []plan.Contact{
		{Name: "Rowan Fell", Role: "system engineer", Phone: "01632 960101"},
		{Name: "Ines Calder", Role: "stage manager", Phone: "01632 960102"},
		{Name: "Tobi Marsh", Role: "patch and stage", Phone: "01632 960103"},
		{Name: "Greta Winfold", Role: "site electrician", Phone: "01632 960104"},
	} {
		c.ID = plan.ContactID("x-2222" + plan.Signs[i:i+1])
		plan.Put(b.Edit, c)
	}
}

// ground lays out levels, positions and areas. The stage stands at the left and looks to the right, over the crowd.
func (b *weekender) ground() {
	deck := plan.LevelID("v-22222")
	plan.Put(b.Edit, plan.Level{ID: deck, Name: "Stage deck", Height: 1.6})
	for _, p := range []plan.Position{
		{Name: "Stage centre", X: -8, Y: 0, Width: 8, Depth: 6, Level: deck, Supply: "main generator", Structure: "main stage"},
		{Name: "Stage left", X: -4, Y: 19, Width: 12, Depth: 8, Level: deck, Supply: "main generator", Structure: "main stage"},
		{Name: "Stage right", X: -4, Y: -19, Width: 12, Depth: 8, Level: deck, Supply: "main generator", Structure: "main stage"},
		{Name: "Monitors", X: -4, Y: 36, Width: 12, Depth: 8, Supply: "main generator", Structure: "main stage"},
		{Name: "Backstage", X: -42, Y: 14, Width: 14, Depth: 84, Supply: "main generator", Structure: "main stage"},
		{Name: "FOH tower", X: 86, Y: 0, Width: 12, Depth: 30, Supply: "main generator"},
		{Name: "Delay left", X: 117, Y: 34, Width: 8, Depth: 8, Exposure: "sun", Supply: "main generator"},
		{Name: "Delay right", X: 117, Y: -34, Width: 8, Depth: 8, Exposure: "sun", Supply: "main generator"},
		{Name: "Broadcast", X: 116, Y: 87, Width: 14, Depth: 6, Supply: "van", Structure: "van"},
		{Name: "Second stage", X: 201.6, Y: -58.8, Width: 30, Depth: 16, Supply: "second generator", Structure: "second stage"},
		{Name: "Second FOH", X: 180, Y: -94, Width: 8, Depth: 6, Supply: "second generator", Structure: "second stage"},
	} {
		b.Position(p)
	}
	b.Area("Main stage", "stage", "", stretch(-18, -15, 0, 15)...)
	b.Area("Crowd, front", "crowd", "A fenced lane to FOH stays free.",
		geom.Pt(12, 4), geom.Pt(76, 4), geom.Pt(76, 17), geom.Pt(96, 17), geom.Pt(96, 46), geom.Pt(12, 46))
	b.Area("Crowd, front right", "crowd", "",
		geom.Pt(12, -4), geom.Pt(76, -4), geom.Pt(76, -17), geom.Pt(96, -17), geom.Pt(96, -46), geom.Pt(12, -46))
	b.Area("Crowd, back", "crowd", "The delay towers stand in fenced corners of it.",
		geom.Pt(106, -46), geom.Pt(150, -46), geom.Pt(150, 46), geom.Pt(106, 46), geom.Pt(106, 41), geom.Pt(122, 41), geom.Pt(122, 27), geom.Pt(106, 27),
		geom.Pt(106, -27), geom.Pt(122, -27), geom.Pt(122, -41), geom.Pt(106, -41))
	b.Area("Cross aisle", "walkway", "Lit at night; ramps where cable lies across.", stretch(96.5, -46, 105.5, 46)...)
	b.Area("Service road", "road", "Lorries until one hour before doors.", stretch(-66, 60, 224, 67)...)
	b.Area("Path to the second stage", "walkway", "", stretch(160, -80, 166, 60)...)
	b.Area("Second stage deck", "stage", "", stretch(188, -66, 216, -51)...)
}

func (b *weekender) kit() {
	b.Device("Stage rack", "stage-rack-48-20", "Stage left", -4, 19)
	b.Device("Riser box", "riser-box-10-4", "Stage centre", -8, 0)
	b.Device("Stage right box", "stagebox-24-12", "Stage right", -4, -19)
	b.Device("Monitor console", "console-56", "Monitors", -4, 36)
	b.Device("Intercom main", "intercom-main-4", "Backstage", -42, 50)
	b.Device("RF rack", "rf-rack-16", "Backstage", -42, 38)
	b.Device("Stage converter", "aes50-converter", "Backstage", -42, 26)
	b.Device("Stage switch", "switch-16", "Backstage", -42, 14)
	b.Device("PA left", "amplifier-rack-12", "Backstage", -42, 2)
	b.Device("Processor", "processor-6-12", "Backstage", -42, -10)
	b.Device("PA right", "amplifier-rack-12", "Backstage", -42, -22)
	b.Device("FOH console", "console-72", "FOH tower", 86, 0)
	b.Device("FOH switch", "switch-16", "FOH tower", 86, 12)
	b.Device("FOH converter", "aes50-converter", "FOH tower", 86, -12)
	b.Device("Delay left", "amplifier-rack-8", "Delay left", 117, 34)
	b.Device("Delay right", "amplifier-rack-8", "Delay right", 117, -34)
	b.Device("Broadcast van", "broadcast-van", "Broadcast", 116, 87)
	b.Device("Second stage box", "stagebox-40-20", "Second stage", 189, -54)
	b.Device("Second stage switch", "switch-8", "Second stage", 213, -63)
	b.Device("Second console", "console-40", "Second FOH", 180, -94)
}

// stretch is a rectangle by two opposite corners.
func stretch(x1, y1, x2, y2 float64) []geom.Point {
	return []geom.Point{geom.Pt(x1, y1), geom.Pt(x2, y1), geom.Pt(x2, y2), geom.Pt(x1, y2)}
}

// foundWays says of the ways that are drawn that they were found on the ground, so that they count as long as they are.
func (b *weekender) foundWays() {
	var drawn []plan.Link
	for link := range b.Edit.Now().Links.All() {
		if link.Way == "drawn" {
			link.Way = "found"
			drawn = append(drawn, link)
		}
	}
	for _, link := range drawn {
		plan.Put(b.Edit, link)
	}
}
