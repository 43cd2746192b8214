package report

import (
	"fmt"
	"math"
	"strings"

	"stageloom/model/budget"
	"stageloom/model/checks"
	"stageloom/model/plan"
	"stageloom/report/paper"
)

// worthDrawing reports whether a run is more than one cable from port to port: it is joined, crosses something, goes through
// a panel or a house line, is too short, or has a finding that stops or warns.
func (p *printout) worthDrawing(link plan.Link, figures budget.Budget) bool {
	if figures.Joins > 0 || link.FromPanel != "" || link.ToPanel != "" || figures.TooShort() {
		return true
	}
	for _, part := range figures.Parts {
		if part.HouseLine != "" {
			return true
		}
	}
	for _, finding := range p.FindingsAt(plan.LinksTable, link.Key()) {
		if finding.Severity != checks.Note {
			return true
		}
	}
	return len(p.ramps(link, figures)) > 0
}

// runless tells that no link to print is worth a drawing.
func (p *printout) runless() bool { return len(p.drawn()) == 0 }

func (p *printout) drawn() []member {
	var list []member
	for _, link := range p.Links() {
		if figures, _ := p.Budget(link.ID); p.worthDrawing(link, figures) && !(figures.Bare() && figures.Missing > 0) {
			list = append(list, member{link, figures})
		}
	}
	return list
}

// ramp is where a run lies under or over something, in metres of its cable.
type ramp struct {
	area     plan.Area
	from, to float64
}

// ramps lists what a run crosses, along its cable from the near end.
func (p *printout) ramps(link plan.Link, figures budget.Budget) []ramp {
	way := p.Reckoner().Way(link)
	total := way.Length()
	var list []ramp
	for _, span := range p.Reckoner().Ground().Spans(way) {
		if protects[span.Area.Use] != "" {
			list = append(list, ramp{span.Area, p.cableMetre(link, figures, span.From, total), p.cableMetre(link, figures, span.To, total)})
		}
	}
	return list
}

// Heights of a run drawing in millimetres on A4.
const (
	runHeight = 52.0
	runGap    = 3.0
)

// drawRuns draws one run under the other, each from its near end to its far end.
func (p *printout) drawRuns(b *paper.Book) {
	b.Title("Run drawings")
	b.Paragraph("From end on the left. Metres are those of the cable, counted from there, “about” where slack decides. Tick each cable when laid and each join when joined; then test.")
	runs := p.drawn()
	if len(runs) == 0 {
		b.Paragraph("No run of this plan is joined, crosses anything or goes through a panel.")
	}
	for _, m := range runs {
		k := b.Scale()
		box := b.Take(runHeight * k)
		b.Bookmark(m.link.Name)
		d := &runDrawing{printout: p, pen: b.Pen(box), k: k, link: m.link, figures: m.budget.Printed(1)}
		d.draw()
		b.Skip(runGap * k)
	}
}

// runDrawing draws one run in a box of its own.
type runDrawing struct {
	*printout
	pen     *paper.Pen
	k       float64
	link    plan.Link
	figures budget.Budget
	left    float64 // where the cable begins, in mm
	right   float64 // where it ends
	line    float64 // the height at which it lies
}

// Widths of the boxes at the ends, in millimetres on A4.
const endWidth = 36.0

func (d *runDrawing) draw() {
	width, height := d.pen.Size()
	k := d.k
	d.pen.Polygon(outline(paper.Box{W: width, H: height}), paper.None, paper.Stroke{Colour: paper.Grey(120), Width: 0.2})
	d.head(width)
	d.left, d.right, d.line = (endWidth+4)*k, width-(endWidth+4)*k, 24*k
	d.end(paper.Box{X: 2 * k, Y: d.line - 7*k, W: endWidth * k, H: 14 * k}, d.link.From, d.link.FromPort, d.link.FromPanel)
	d.end(paper.Box{X: width - (endWidth+2)*k, Y: d.line - 7*k, W: endWidth * k, H: 14 * k}, d.link.To, d.link.ToPort, d.link.ToPanel)
	d.cables()
	d.drawRamps()
	d.foot(width, height)
}

// head says which link it is, over what, how long, and how it stands.
func (d *runDrawing) head(width float64) {
	k := d.k
	x := 2 * k
	id, bold := paper.Lettering{Face: paper.Mono, Size: 17 * k}, paper.Lettering{Face: paper.Bold, Size: 12 * k}
	x += d.pen.Text(paper.Point{X: x, Y: 7 * k}, fitted(d.pen, d.link.Name, id, width/4), id) + 4*k
	if tape := tapeOf(d.link); tape != "" {
		x += d.pen.Text(paper.Point{X: x, Y: 7 * k}, fitted(d.pen, tape, bold, width/6), bold) + 4*k
	}
	said := d.figures.TransportName
	if warning := notNetwork(d.link.Transport); warning != "" {
		said += " – " + warning
	}
	badge := 0.0
	if !d.link.IsSpare() && d.figures.HasMargin() && d.figures.Missing == 0 {
		mark := *badgeOf(d.figures)
		badge = d.pen.BadgeWidth(7*k, mark)
		d.pen.Badge(paper.Point{X: width - 2*k - badge/2, Y: 5 * k}, 7*k, mark)
		badge += 3 * k
	}
	lengths := fmt.Sprintf("run %s, cable %s", runIn(d.figures, length), length(d.figures.Laid))
	if part := d.figures.PartIn(wholeMetres); part != "" {
		said += ", " + part
	}
	if d.figures.Missing > crumb {
		lengths += ", " + length(d.figures.Missing) + " too short"
	}
	right := paper.Lettering{Face: paper.Bold, Size: 11 * k, Align: paper.Right}
	wide := d.pen.Text(paper.Point{X: width - 2*k - badge, Y: 6.6 * k}, lengths, right)
	l := paper.Lettering{Size: 11 * k}
	d.pen.Text(paper.Point{X: x, Y: 7 * k}, fitted(d.pen, said, l, width-2*k-badge-wide-4*k-x), l)
}

// end draws the device at an end, with its port and the panel in front of it.
func (d *runDrawing) end(box paper.Box, id plan.DeviceID, port string, panel plan.HardwareID) {
	k := d.k
	device, _ := d.Plan.Device(id)
	d.pen.RoundBox(box, 1.2*k, paper.White, paper.Stroke{Colour: paper.Black, Width: 0.45})
	name := paper.Lettering{Face: paper.Bold, Size: 10.5 * k}
	lines := wrapped(d.pen, device.Name, name, box.W-3*k, 2)
	y := box.Y + 4.6*k
	for _, line := range lines {
		d.pen.Text(paper.Point{X: box.X + 1.5*k, Y: y}, line, name)
		y += 4 * k
	}
	words := "port" + space + port
	if d.link.IsSpare() {
		words = readyAt(words)
	}
	if panel != "" {
		words += ", through a panel"
	}
	small := paper.Lettering{Size: 9.5 * k}
	d.pen.Text(paper.Point{X: box.X + 1.5*k, Y: box.Bottom() - 1.6*k}, fitted(d.pen, words, small, box.W-3*k), small)
}

// at is where a metre of cable lies on the drawing.
func (d *runDrawing) at(metre float64) float64 {
	whole := math.Max(d.figures.Laid, d.figures.Run)
	if whole <= 0 {
		return d.left
	}
	return d.left + (d.right-d.left)*math.Max(0, math.Min(1, metre/whole))
}

// cables draws every cable to scale with its name over it and a box to tick, and the joins between.
func (d *runDrawing) cables() {
	k := d.k
	thick := paper.Stroke{Colour: paper.Black, Width: 1.3 * k}
	last := 0.0
	for _, cable := range laidCables(d.figures) {
		if cable.Assumed {
			continue
		}
		part := cable.Part
		from, to := d.at(cable.start), d.at(cable.end())
		d.pen.Polyline([]paper.Point{{X: from, Y: d.line}, {X: to, Y: d.line}}, thick)
		d.over(from, to, d.cableName(part), d.under(part))
		last = cable.end()
	}
	if d.figures.Missing > crumb {
		d.pen.Polyline([]paper.Point{{X: d.at(last), Y: d.line}, {X: d.right, Y: d.line}}, paper.Stroke{Colour: paper.Grey(90), Width: 0.8 * k, Dash: []float64{1.2, 1.2}})
		d.over(d.at(last), d.right, "missing", length(d.figures.Missing))
	}
	d.couplers()
}

// couplers draws the joins, each with its metre, numbered where there is room.
func (d *runDrawing) couplers() {
	k := d.k
	joins := d.joins(d.figures)
	l := paper.Lettering{Face: paper.Bold, Size: 10 * k, Align: paper.Centre}
	end := d.left
	for i, j := range joins {
		x := d.at(j.at)
		d.pen.Polygon(outline(paper.Box{X: x - 1.5*k, Y: d.line - 2.2*k, W: 3 * k, H: 4.4 * k}), paper.White, paper.Stroke{Colour: paper.Black, Width: 0.5})
		next := d.right
		if i+1 < len(joins) {
			next = d.at(joins[i+1].at)
		}
		room := 2 * min(x-end, (next-x)*0.5)
		for _, words := range []string{fmt.Sprintf("join %d at %s", j.number, length(j.at)), length(j.at), bare(j.at)} {
			wide, _ := d.pen.Measure(words, l)
			if wide <= room {
				d.pen.Text(paper.Point{X: x, Y: d.line + 6.6*k}, words, l)
				end = x + wide/2 + k
				break
			}
		}
	}
}

// under says length and kind of a cable whose tag stands over it.
func (d *runDrawing) under(part *budget.Part) string {
	kind, _ := d.Plan.CableKinds.Get(plan.Key(part.Kind))
	said := length(part.Length) + " " + kind.Name
	if said == d.cableName(part) {
		return ""
	}
	return said
}

// over writes two lines over a stretch of the cable, as much as it has room for.
func (d *runDrawing) over(from, to float64, name, words string) {
	k := d.k
	room := to - from - 2*k
	big, small := paper.Lettering{Face: paper.Bold, Size: 11 * k}, paper.Lettering{Size: 9 * k}
	side := 3.6 * k
	text := fitted(d.pen, name, big, room-side-1.5*k)
	wide, _ := d.pen.Measure(text, big)
	x := (from + to - wide - side - 1.5*k) / 2
	y := d.line - 6.6*k
	if words == "" {
		y = d.line - 3.4*k
	}
	if room > side {
		d.pen.TickBox(paper.Point{X: x, Y: y - side + 0.4*k}, side)
	}
	d.pen.Text(paper.Point{X: x + side + 1.5*k, Y: y}, text, big)
	small.Align = paper.Centre
	if words = fitted(d.pen, words, small, room); words != "" {
		d.pen.Text(paper.Point{X: (from + to) / 2, Y: d.line - 2.6*k}, words, small)
	}
}

// drawRamps draws what the run crosses under its line, in two rows; what finds no place in them is said at the foot.
func (d *runDrawing) drawRamps() {
	ends := [2]float64{}
	for _, r := range d.ramps(d.link, d.figures) {
		for row := range ends {
			if end, placed := d.ramp(r, d.line+(11.6+float64(row)*4.8)*d.k, ends[row]); placed {
				ends[row] = end
				break
			}
		}
	}
}

// ramp draws one with its words and returns where they end, unless they would begin before an end.
func (d *runDrawing) ramp(r ramp, low, after float64) (end float64, placed bool) {
	k := d.k
	from, to := d.at(r.from), math.Max(d.at(r.to), d.at(r.from)+3*k)
	l := paper.Lettering{Size: 9 * k}
	words := fmt.Sprintf("%s: %s, about %.0f–%.0f%sm", r.area.Use, r.area.Name, math.Floor(r.from), math.Ceil(r.to), space)
	words = fitted(d.pen, words, l, (d.right-d.left)*0.6)
	wide, _ := d.pen.Measure(words, l)
	x, begin, end := to+2.5*k, from-1.5*k, to+3.5*k+wide
	if width, _ := d.pen.Size(); end > width {
		x, begin, end = from-2.5*k-wide, from-3.5*k-wide, to+2.5*k
	}
	if begin < after {
		return 0, false
	}
	shape := []paper.Point{{X: from - 1.5*k, Y: low}, {X: from, Y: low - 1.8*k}, {X: to, Y: low - 1.8*k}, {X: to + 1.5*k, Y: low}}
	d.pen.Polygon(shape, paper.Grey(170), paper.Stroke{Colour: paper.Black, Width: 0.25})
	d.pen.Text(paper.Point{X: x, Y: low}, words, l)
	return end, true
}

// foot is what to tick and to note when the run is tested, and what to watch.
func (d *runDrawing) foot(width, height float64) {
	k := d.k
	y := height - 8.5*k
	d.pen.Polyline([]paper.Point{{Y: y}, {X: width, Y: y}}, paper.Stroke{Colour: paper.Grey(165), Width: 0.15})
	base := height - 2.8*k
	x := 2 * k
	l := paper.Lettering{Size: 11 * k}
	for _, word := range []string{"laid", "joined", "tested"} {
		d.pen.TickBox(paper.Point{X: x, Y: base - 4*k}, 4.4*k)
		x += 6 * k
		x += d.pen.Text(paper.Point{X: x, Y: base}, word, l) + 5*k
	}
	for _, blank := range []string{"minutes", "errors", "initials"} {
		x += d.pen.Text(paper.Point{X: x, Y: base}, blank, l) + 1.5*k
		d.pen.Polyline([]paper.Point{{X: x, Y: base + 0.6*k}, {X: x + 20*k, Y: base + 0.6*k}}, paper.Stroke{Colour: paper.Black, Width: 0.2})
		x += 24 * k
	}
	watch := d.watch(d.link, d.figures)
	bold := paper.Lettering{Face: paper.Bold, Size: 10 * k}
	if watch = fitted(d.pen, watch, bold, width-x-2*k); strings.TrimSpace(watch) != "" {
		d.pen.Text(paper.Point{X: x, Y: base}, watch, bold)
	}
}
