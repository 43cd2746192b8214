package paper_test

import (
	"fmt"
	"math"
	"time"

	"stageloom/report/paper"
)

// made is the date of every document in these tests.
var made = time.Date(2026, time.June, 12, 9, 30, 0, 0, time.UTC)

// setup is an invented plan.
func setup() paper.Setup {
	return paper.Setup{
		Plan: "Harrow Meadow Weekender", Site: "Harrow Meadow, lower field", Revision: "C",
		Author: "System crew", Made: made, Uncompressed: true,
	}
}

var (
	upright = paper.Format{}
	lying   = paper.Format{Landscape: true}
	large   = paper.Format{Sheet: paper.A3, Landscape: true}
	letter  = paper.Format{Sheet: paper.Letter}
)

// sampleChapters draw one of everything.
func sampleChapters() []paper.Chapter {
	return []paper.Chapter{
		{Name: "Before you lay", Format: &upright, Draw: drawCover},
		{Name: "Plan", Format: &lying, Draw: drawPlan},
		{Name: "Plan on A3", Format: &large, Draw: drawPlan},
		{Name: "Link schedule", Format: &upright, Draw: drawCrewTable},
		{Name: "Link budget", Reader: paper.Engineer, Format: &lying, Draw: drawBudget},
		{Name: "Pull list", Format: &letter, Draw: drawPullList},
	}
}

func drawCover(b *paper.Book) error {
	b.Title("Before you lay")
	b.Paragraph("Revision C moves the stage 30 m to the north. Only the sheets marked C are new. " +
		"Sheets A and B go back to the crew chief and are torn up.")
	b.Heading("Cautions")
	b.Cautions([]string{
		"Cables across walkways and roads lie under ramps or covers, lit at night. No loops to trip over. Fire lanes and wheelchair ways stay clear.",
		"Nothing is hung over people without a rated fixing by a competent rigger.",
		"Protective earth is never lifted to cure hum.",
		"Between structures that are fed separately, and outdoors in thunder: fibre, never a cut screen. Local codes, the venue and licensed practice come first.",
	})
	b.Heading("Before doors")
	b.Ticks([]string{"Every link carries its label at both ends", "Main and backup lie on different ways", "Ramps are lit"})
	b.Heading("Words")
	b.Definitions([]paper.Definition{
		{Term: "margin", Text: "What is left between the loss of a link and its limit, in whole dB on this paper."},
		{Term: "uncabled", Text: "No cable has been picked for the link yet."},
		{Term: "AES50 – NOT NETWORK", Text: "Never into a network port, at either end."},
	})
	b.Heading("Contents")
	for _, entry := range b.Contents() {
		b.Items([]string{fmt.Sprintf("%s: page %d", entry.Name, entry.Page)})
	}
	if notices := b.Notices(); len(notices) > 0 {
		b.Heading("Printed otherwise than typed")
		b.Cautions(notices)
	}
	return nil
}

type place struct {
	name, words string
	x, y        float64
}

var places = []place{
	{"WR12", "Wireless rack", 16, 12},
	{"MR02", "Monitor rack", 44, 20},
	{"SB10", "Drum riser", 86, 12},
	{"SB03", "Stage left", 62, 34},
	{"SB04", "Stage right", 120, 34},
	{"AR06", "Amplifiers right", 152, 44},
	{"AR05", "Amplifiers left", 28, 46},
	{"FH01", "FOH tower", 84, 104},
	{"DT07", "Delay tower 1", 40, 84},
	{"BV09", "Broadcast van", 170, 90},
}

type wire struct {
	name     string
	from, to int
	grade    paper.Role
	figure   string
}

var wires = []wire{
	{"L01", 3, 7, paper.Ample, "6"},
	{"L02", 4, 7, paper.Enough, "3"},
	{"L03", 2, 7, paper.Tight, "1"},
	{"L04", 0, 1, paper.Ample, "11"},
	{"L05", 1, 4, paper.Enough, "2"},
	{"L06", 5, 9, paper.Over, "−2"},
	{"L07", 6, 8, paper.Tight, "0"},
	{"L08", 7, 9, paper.Uncabled, "–"},
	{"L09", 3, 6, paper.Ample, "8"},
	{"L10", 7, 8, paper.Ungraded, ""},
	{"L11", 4, 5, paper.Over, "−12"},
}

func drawPlan(b *paper.Book) error {
	box := b.Take(b.Area().H)
	pen := b.Pen(box)
	k := b.Scale()
	width, height := pen.Size()
	fit := min((width-8)/186, (height-8)/116)
	at := func(x, y float64) paper.Point { return paper.Point{X: 4 + x*fit, Y: 4 + y*fit} }
	pen.Clip(paper.Box{W: width, H: height}, func() {
		site, _ := paper.StyleOf(paper.Site)
		grid, _ := paper.StyleOf(paper.Grid)
		area, _ := paper.StyleOf(paper.Area)
		pen.Polygon([]paper.Point{at(0, 0), at(186, 0), at(186, 116), at(0, 116)}, site.Fill, site.Line)
		for x := 20.0; x < 186; x += 20 {
			pen.Polyline([]paper.Point{at(x, 0), at(x, 116)}, grid.Line)
		}
		for y := 20.0; y < 116; y += 20 {
			pen.Polyline([]paper.Point{at(0, y), at(186, y)}, grid.Line)
		}
		pen.Polygon([]paper.Point{at(50, 8), at(134, 8), at(134, 40), at(50, 40)}, area.Fill, area.Line)
		pen.Text(at(92, 38), "MAIN STAGE", paper.Lettering{Size: 9 * k, Align: paper.Centre, Colour: area.Text})
	})
	for _, w := range wires {
		drawWire(pen, w, at)
	}
	for _, p := range places {
		drawPlace(pen, p, at)
	}
	drawLegend(pen, width, height)
	drawScale(pen, height)
	return nil
}

func drawWire(pen *paper.Pen, w wire, at func(x, y float64) paper.Point) {
	style, _ := paper.StyleOf(w.grade)
	a, b := at(places[w.from].x, places[w.from].y), at(places[w.to].x, places[w.to].y)
	pen.Polyline([]paper.Point{a, b}, style.Line)
	middle := paper.Point{X: a.X + (b.X-a.X)*0.55, Y: a.Y + (b.Y-a.Y)*0.55}
	angle := -math.Atan2(b.Y-a.Y, b.X-a.X) * 180 / math.Pi
	if angle > 90 || angle < -90 {
		angle += 180
	}
	k := pen.Scale()
	label := paper.Lettering{Face: paper.Mono, Size: 9 * k, Align: paper.Right, Angle: angle, Plate: 0.5}
	sin, cos := math.Sincos(angle * math.Pi / 180)
	if w.grade == paper.Ungraded {
		pen.Text(paper.Point{X: middle.X + 1.2*k*sin, Y: middle.Y + 1.2*k*cos}, w.name, label)
		return
	}
	gap := 5.4 * k
	pen.Text(paper.Point{X: middle.X - gap*cos + 1.2*k*sin, Y: middle.Y + gap*sin + 1.2*k*cos}, w.name, label)
	pen.Badge(middle, 4.6*k, paper.Badge{Grade: w.grade, Text: w.figure})
}

func drawPlace(pen *paper.Pen, p place, at func(x, y float64) paper.Point) {
	style, _ := paper.StyleOf(paper.Device)
	centre, k := at(p.x, p.y), pen.Scale()
	id := paper.Lettering{Face: paper.Mono, Size: 11 * k, Align: paper.Centre}
	words := paper.Lettering{Size: 7.5 * k, Align: paper.Centre}
	a, _ := pen.Measure(p.name, id)
	b, _ := pen.Measure(p.words, words)
	w, h := max(a, b)+3*k, 9*k
	pen.RoundBox(paper.Box{X: centre.X - w/2, Y: centre.Y - h/2, W: w, H: h}, 1.2*k, style.Fill, style.Line)
	pen.Text(paper.Point{X: centre.X, Y: centre.Y - 0.1*k}, p.name, id)
	pen.Text(paper.Point{X: centre.X, Y: centre.Y + 3.2*k}, p.words, words)
}

func drawLegend(pen *paper.Pen, width, height float64) {
	k := pen.Scale()
	lines := []struct {
		grade       paper.Role
		figure, say string
	}{
		{paper.Ample, "6", "ample"},
		{paper.Enough, "3", "enough"},
		{paper.Tight, "1", "tight"},
		{paper.Over, "−2", "over limit: do not use"},
		{paper.Uncabled, "–", "uncabled"},
		{paper.Ungraded, "", "no grade"},
	}
	row := 7 * k
	box := paper.Box{W: 78 * k, H: row*float64(len(lines)) + 8*k}
	box.X, box.Y = width-box.W, height-box.H
	pen.Polygon([]paper.Point{{X: box.X, Y: box.Y}, {X: box.Right(), Y: box.Y}, {X: box.Right(), Y: box.Bottom()}, {X: box.X, Y: box.Bottom()}},
		paper.White, paper.Stroke{Colour: paper.Black, Width: 0.25})
	pen.Text(paper.Point{X: box.X + 3*k, Y: box.Y + 5.5*k}, "Margin in whole dB", paper.Lettering{Face: paper.Bold, Size: 9 * k})
	for i, l := range lines {
		y := box.Y + 8*k + (float64(i)+0.4)*row
		style, _ := paper.StyleOf(l.grade)
		if l.grade != paper.Ungraded {
			pen.Badge(paper.Point{X: box.X + 9*k, Y: y}, 4.6*k, paper.Badge{Grade: l.grade, Text: l.figure})
		}
		pen.Polyline([]paper.Point{{X: box.X + 17*k, Y: y}, {X: box.X + 38*k, Y: y}}, style.Line)
		pen.Text(paper.Point{X: box.X + 41*k, Y: y + 1.2*k}, l.say, paper.Lettering{Size: 9 * k})
	}
}

func drawScale(pen *paper.Pen, height float64) {
	k := pen.Scale()
	style, _ := paper.StyleOf(paper.Measure)
	y := height - 4*k
	pen.Polygon([]paper.Point{{X: 4, Y: y}, {X: 24, Y: y}, {X: 24, Y: y + 1.5}, {X: 4, Y: y + 1.5}}, style.Fill, style.Line)
	pen.Polygon([]paper.Point{{X: 24, Y: y}, {X: 44, Y: y}, {X: 44, Y: y + 1.5}, {X: 24, Y: y + 1.5}}, paper.White, style.Line)
	pen.Text(paper.Point{X: 4, Y: y - 1*k}, "0", paper.Lettering{Size: 8 * k, Align: paper.Centre})
	pen.Text(paper.Point{X: 44, Y: y - 1*k}, "20 m", paper.Lettering{Size: 8 * k, Align: paper.Centre})
	pen.Text(paper.Point{X: 50, Y: y + 1.5}, "1 : 500", paper.Lettering{Face: paper.Bold, Size: 11 * k})
}

func drawCrewTable(b *paper.Book) error {
	b.Title("Link schedule")
	b.Table(paper.Table{
		Title: "Lay in this order",
		Columns: []paper.Column{
			{Head: "Link", Face: paper.Mono},
			{Head: "From", Width: paper.Fill(1)},
			{Head: "To", Width: paper.Fill(1)},
			{Head: "Pieces", Width: paper.Fill(1.4)},
			{Head: "Run m", Align: paper.Right},
			{Head: "Margin", Align: paper.Centre},
			{Head: "Laid", Align: paper.Centre},
		},
		Rows:      crewRows(),
		BlankRows: 2,
	})
	b.Cautions([]string{"L06 is over limit by 2 dB: do not use. A shorter way or a reel of lower loss cures it."})
	return nil
}

func crewRows() []paper.Row {
	rows := []paper.Row{paper.GroupRow("Route 1: stage to FOH tower, under the ramp at 42 m")}
	for i, w := range append(wires, append(wires, wires...)...) {
		if i == len(wires) {
			rows = append(rows, paper.GroupRow("Route 2: along the fence"))
		}
		if w.grade == paper.Ungraded {
			w.grade, w.figure = paper.Ample, "9"
		}
		row := paper.Texts(fmt.Sprintf("L%02d", i+1), places[w.from].words, places[w.to].words,
			fmt.Sprintf("R%02d 60 m + R%02d 40 m", i+3, i+41), fmt.Sprint(92+i), "", "")
		row.Cells[5] = paper.Cell{Badge: &paper.Badge{Grade: w.grade, Text: w.figure}}
		row.Cells[6] = paper.Cell{Tick: true}
		rows = append(rows, row)
	}
	return rows
}

func drawBudget(b *paper.Book) error {
	b.Title("Link budget")
	b.Remark("Computed at 40 °C with a coupler at each join. Limits: field rule for AES50, channel rule for 1000BASE-T.")
	b.Table(paper.Table{
		Columns: []paper.Column{
			{Head: "Link", Face: paper.Mono},
			{Head: "From", Face: paper.Mono},
			{Head: "To", Face: paper.Mono},
			{Head: "Segments", Width: paper.Fill(1)},
			{Head: "Run m", Align: paper.Right},
			{Head: "Couplers", Align: paper.Right, Width: paper.Fixed(15)},
			{Head: "Loss dB", Align: paper.Right},
			{Head: "Limit dB", Align: paper.Right},
			{Head: "Margin dB", Align: paper.Right, Width: paper.Fixed(16)},
			{Head: "Grade", Align: paper.Centre, Width: paper.Fixed(16)},
			{Head: "Why", Width: paper.Fill(0.6)},
		},
		Rows: budgetRows(60),
	})
	return nil
}

func budgetRows(n int) []paper.Row {
	grades := []paper.Role{paper.Ample, paper.Enough, paper.Tight, paper.Over, paper.Uncabled}
	figures := []string{"7", "3", "0", "−2", "–"}
	margins := []string{"7.4", "3.1", "0.4", "−1.3", "–"}
	rows := []paper.Row{paper.GroupRow("AES50")}
	for i := range n {
		if i == n/2 {
			rows = append(rows, paper.GroupRow("1000BASE-T"))
		}
		from, to, g := places[i%len(places)], places[(i*3+1)%len(places)], i*7%len(grades)
		row := paper.Texts(fmt.Sprintf("L%04d", i+1), from.name, to.name,
			fmt.Sprintf("cat6a-own %d m + cat5e %d m + cat6a-own %d m", 10+i, 5*(i%20)+5, 18+i%7),
			fmt.Sprintf("%.1f", 33+float64(i)*1.5), fmt.Sprint(2+i%3), fmt.Sprintf("%.1f", 12+float64(i)/7), "24.0", margins[g], "", "loss of 3 couplers")
		row.Cells[8].Bold = true
		row.Cells[9] = paper.Cell{Badge: &paper.Badge{Grade: grades[g], Text: figures[g]}}
		rows = append(rows, row)
	}
	return append(rows, paper.Row{Kind: paper.Total, Cells: []paper.Cell{
		{Text: ""}, {}, {}, {Text: "60 links, 12 over limit, 12 uncabled"}, {Text: "4635.0"},
	}})
}

func drawPullList(b *paper.Book) error {
	b.Title("Pull list")
	b.Table(paper.Table{
		Columns: []paper.Column{
			{Head: "Case", Face: paper.Mono},
			{Head: "Cable kind", Width: paper.Fill(1)},
			{Head: "Length m", Align: paper.Right},
			{Head: "Count", Align: paper.Right},
			{Head: "Out", Align: paper.Centre},
			{Head: "Back", Align: paper.Centre},
			{Head: "Faulty", Align: paper.Centre},
		},
		Rows: []paper.Row{
			{Cells: []paper.Cell{{Text: "C1"}, {Text: "Cat 6A, screened, own figures"}, {Text: "60"}, {Text: "8"}, {Tick: true}, {Tick: true}, {Tick: true}}},
			{Cells: []paper.Cell{{Text: "C1"}, {Text: "Cat 5e, screened, 24 AWG"}, {Text: "18.5"}, {Text: "12"}, {Tick: true}, {Tick: true}, {Tick: true}}},
			{Kind: paper.Total, Cells: []paper.Cell{{}, {Text: "All cables"}, {}, {Text: "20"}}},
		},
		BlankRows: 2,
	})
	b.Table(paper.Table{Title: "To hire", Columns: []paper.Column{{Head: "Cable kind", Width: paper.Fill(1)}, {Head: "Count"}}, Empty: "Nothing: the stock reaches."})
	return nil
}

// nastyChapters are what a careless paste looks like on paper.
func nastyChapters() []paper.Chapter {
	var rows []paper.Row
	for i, s := range nasty {
		rows = append(rows, paper.Texts(fmt.Sprintf("L%02d", i+1), s, s, fmt.Sprint(i*7)))
	}
	return []paper.Chapter{
		{Name: "Nasty strings", Format: &upright, Draw: func(b *paper.Book) error {
			b.Title("Nasty strings 舞台 שלום עולם (12)")
			b.Table(paper.Table{Title: "Names", Columns: []paper.Column{
				{Head: "Link", Face: paper.Mono},
				{Head: "From", Width: paper.Fill(1), Lines: 3},
				{Head: "To", Width: paper.Fill(1), Face: paper.Mono, Lines: 2},
				{Head: "Run m", Align: paper.Right},
			}, Rows: rows, BlankRows: 2})
			b.Heading("Printed otherwise than typed")
			b.Cautions(b.Notices())
			return nil
		}},
	}
}
