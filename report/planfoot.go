package report

import (
	"fmt"
	"math"
	"slices"

	"stageloom/model/budget"
	"stageloom/model/geom"
	"stageloom/model/picture"
	"stageloom/model/words"
	"stageloom/report/paper"
)

// Sizes of the foot of a plan page, in millimetres on A4.
const (
	scaleWidth = 70.0 // of the scale bar and the north arrow
	entryHigh  = 6.2
	entrySize  = 9.0 // of its words, in points
	sampleWide = 15.0
)

// entry is one line of the legend: a line with its badge, a tone, a patch of tape, or a mark, and what it means.
type entry struct {
	line  picture.Role // of a sample line
	badge string       // the grade whose badge stands beside the line
	tone  picture.Role // of an area
	tick  bool         // the sample line is crossed by a join
	tape  []picture.Role
	words string
}

// legend explains what occurs in the plan and nothing else.
func (p *printout) legend(scene *picture.Scene) []entry {
	var entries []entry
	for _, grade := range p.Totals.Grades {
		if grade.Links > 0 {
			entries = append(entries, entry{
				line: picture.LinkRole(string(grade.Grade)), badge: shapeOf(grade.Grade),
				words: fmt.Sprintf("%s: %s", gradeMeaning[grade.Grade], words.Counted(grade.Links, "link", "links")),
			})
		}
	}
	if p.Totals.Ungraded > 0 {
		entries = append(entries, entry{
			line: picture.RoleLinkUngraded, words: "without a loss budget: " + words.Counted(p.Totals.Ungraded, "link", "links"),
		})
	}
	if p.Totals.Joins > 0 {
		entries = append(entries, entry{line: picture.RoleLinkAmple, tick: true, words: "cables join here"})
	}
	if anyDone(scene) {
		entries = append(entries, entry{line: picture.RoleLinkDone, words: "pieces beside: 1 laid, 2 joined, 3 tested"})
	}
	if anyMissing(scene) {
		entries = append(entries, entry{line: picture.RoleLinkMissing, words: "metres that no cable reaches yet"})
	}
	if tape := anyTape(scene); tape != nil && !p.choice.Grey {
		entries = append(entries, entry{tape: tape, words: "colour of the tape at both ends of a link"})
	}
	return entries
}

// anyDone reports whether a step of some link is done on site.
func anyDone(scene *picture.Scene) bool {
	return slices.ContainsFunc(scene.Links, func(link picture.LinkFigure) bool { return link.Done != "" })
}

// anyTape is the tape of the first link that has one of a known colour, multicores before others, for they always show it.
func anyTape(scene *picture.Scene) []picture.Role {
	var found []picture.Role
	for _, link := range scene.Links {
		roles := picture.TapeRoles(link.Tape)
		if roles != nil && link.Multicore {
			return roles
		}
		if found == nil {
			found = roles
		}
	}
	return found
}

var gradeMeaning = map[budget.Grade]string{
	budget.Ample: "ample", budget.Enough: "enough", budget.Tight: "tight", budget.Over: "over limit, do not use",
	budget.Uncabled: "uncabled", budget.ToTest: "to be tested, hollow badge", budget.Faulty: "faulty cable, hollow badge",
	budget.ToLay: "cable to lay, hollow badge",
}

// shapeOf is the grade whose badge stands for links; blank where the badge's shape tells how they would be.
func shapeOf(standing budget.Grade) string {
	if slices.Contains(budget.Grades(), standing) {
		return string(standing)
	}
	return ""
}

// anyMissing reports whether a graded link is drawn with a part that no cable reaches.
func anyMissing(scene *picture.Scene) bool {
	for _, link := range scene.Links {
		if link.Reached < 1 && link.Standing != string(budget.Uncabled) {
			return true
		}
	}
	return false
}

// tones explains the areas.
func tones(scene *picture.Scene) []entry {
	var entries []entry
	for _, use := range []string{"stage", "building", "road", "water", "crowd", "walkway", "exit", "fire-lane"} {
		for _, area := range scene.Areas {
			if area.Use == use {
				entries = append(entries, entry{tone: picture.AreaRole(use), words: areaWord(use)})
				break
			}
		}
	}
	return entries
}

func areaWord(use string) string {
	if use == "fire-lane" {
		return "fire lane"
	}
	return use
}

// column is entries of the legend below each other, as wide as the widest.
type column struct {
	entries []entry
	width   float64
}

// columns sets the legend in columns side by side, the ground in columns of its own, with as few rows as the width allows.
func (p *printout) columns(b *paper.Book, scene *picture.Scene, width, k float64) []column {
	links, ground := p.legend(scene), tones(scene)
	for rows := 3; ; rows++ {
		set := append(inColumns(b, links, rows, k), inColumns(b, ground, rows, k)...)
		total := scaleWidth * k
		for _, c := range set {
			total += c.width
		}
		if total <= width || rows >= len(links)+len(ground) {
			return set
		}
	}
}

func inColumns(b *paper.Book, entries []entry, rows int, k float64) []column {
	var set []column
	for part := range slices.Chunk(entries, rows) {
		c := column{entries: part}
		for _, e := range part {
			words, _ := b.Measure(e.words, paper.Lettering{Size: entrySize * k})
			c.width = max(c.width, words+e.indent(k)+6*k)
		}
		set = append(set, c)
	}
	return set
}

// footHeight returns the height of the foot of a page of this width.
func (p *printout) footHeight(b *paper.Book, scene *picture.Scene, width, k float64) float64 {
	rows := 0
	for _, c := range p.columns(b, scene, width, k) {
		rows = max(rows, len(c.entries))
	}
	return max(21*k, float64(rows)*entryHigh*k+3*k)
}

// drawFoot draws the scale bar, the north arrow and the legend.
func (p *printout) drawFoot(b *paper.Book, s planPage, box paper.Box, k float64) {
	pen := b.Pen(box)
	if s.picture.Scene().Grounded() {
		drawNorth(pen, paper.Point{X: 9 * k, Y: box.H / 2}, 8*k, p.Plan.Settings.North)
		p.drawScale(pen, s, paper.Point{X: 22 * k, Y: box.H/2 - 1*k}, k)
	} else {
		drawNoScale(pen, paper.Point{X: 1 * k, Y: box.H/2 - 1*k}, k)
	}
	x := scaleWidth * k
	for _, c := range p.columns(b, s.picture.Scene(), box.W, k) {
		for row, e := range c.entries {
			p.drawEntry(pen, e, paper.Point{X: x, Y: 3*k + (float64(row)+0.5)*entryHigh*k}, k)
		}
		x += c.width
	}
}

// drawEntry draws one entry of the legend from its left middle.
func (p *printout) drawEntry(pen *paper.Pen, e entry, at paper.Point, k float64) {
	from, to := geom.Point{X: at.X / pointMM, Y: at.Y / pointMM}, geom.Point{X: (at.X + sampleWide*k) / pointMM, Y: at.Y / pointMM}
	plan := &planPen{pen: pen, grey: p.choice.Grey}
	half := geom.Point{Y: 1.7 * k / pointMM}
	switch {
	case e.tone != "":
		plan.Fill([]geom.Point{from.Sub(half), to.Sub(half), to.Add(half), from.Add(half)}, e.tone)
		box := paper.Box{X: at.X, Y: at.Y - 1.7*k, W: sampleWide * k, H: 3.4 * k}
		pen.Polygon(outline(box), paper.None, lookOf(picture.RoleAreaEdge, p.choice.Grey).line())
	case e.tape != nil:
		picture.Draw(picture.TapePatch(picture.Ref{}, e.tape, geom.BoxAround(from.Between(to, 0.5), 4.6*k/pointMM, 3*k/pointMM)), plan)
	default:
		plan.Stroke([]geom.Point{from, to}, e.line)
	}
	if e.tick {
		middle := from.Between(to, 0.5)
		plan.Stroke([]geom.Point{middle.Sub(half), middle.Add(half)}, picture.RoleJoinAmple)
	}
	if e.badge != "" {
		centre := geom.Point{X: (at.X + (sampleWide+3.5)*k) / pointMM, Y: at.Y / pointMM}
		plan.Fill(picture.Badge(e.badge, centre, 3.2*k/pointMM), picture.BadgeRole(e.badge))
		inTables := paper.Badge{Grade: paper.Role(e.badge), Text: badgeSample[budget.Grade(e.badge)]}
		pen.Badge(paper.Point{X: at.X + (sampleWide+12)*k, Y: at.Y}, 3.9*k, inTables)
	}
	pen.Text(paper.Point{X: at.X + e.indent(k), Y: at.Y + 1.2*k}, e.words, paper.Lettering{Size: entrySize * k})
}

// indent is how far from its left an entry's words begin.
func (e entry) indent(k float64) float64 {
	if e.badge != "" {
		return (sampleWide + 18.5) * k
	}
	return (sampleWide + 2.5) * k
}

// drawScale draws a bar of a round length with its figures, and what scale it is.
func (p *printout) drawScale(pen *paper.Pen, s planPage, at paper.Point, k float64) {
	const most, parts = 40.0, 4
	mm := 1000 / float64(s.denominator) // of a metre
	step := roundWithin(most * k / mm / parts)
	high := 1.6 * k
	for i := range parts {
		fill := paper.Black
		if i%2 == 1 {
			fill = paper.White
		}
		box := paper.Box{X: at.X + float64(i)*step*mm, Y: at.Y, W: step * mm, H: high}
		pen.Polygon(outline(box), fill, paper.Stroke{Colour: paper.Black, Width: 0.2})
	}
	small := paper.Lettering{Size: 7.5 * k, Align: paper.Centre}
	pen.Text(paper.Point{X: at.X, Y: at.Y - 1*k}, "0", small)
	pen.Text(paper.Point{X: at.X + 2*step*mm, Y: at.Y - 1*k}, figure(2*step), small)
	pen.Text(paper.Point{X: at.X + 4*step*mm, Y: at.Y - 1*k}, figure(4*step)+" m", small)
	words := fmt.Sprintf("1 : %d on %s", s.denominator, sheetName(p.atlas.format.Sheet))
	pen.Text(paper.Point{X: at.X, Y: at.Y + high + 5.2*k}, words, paper.Lettering{Face: paper.Bold, Size: 11 * k})
	pen.Text(paper.Point{X: at.X, Y: at.Y + high + 9*k}, "when printed at 100 %", paper.Lettering{Size: 7.5 * k})
}

// roundWithin returns the largest of …, 1, 2, 5, 10, … metres that is no longer than a length.
func roundWithin(metres float64) float64 {
	for _, part := range []float64{1, 2} {
		if step := picture.RoundStep(metres / part); step <= metres {
			return step
		}
	}
	return picture.RoundStep(metres / 2.5)
}

func sheetName(size paper.Size) string {
	if size == "" {
		return string(paper.A4)
	}
	return string(size)
}

// figure prints a round length of the scale bar.
func figure(metres float64) string {
	return fmt.Sprintf("%.10g", metres)
}

// drawNorth draws an arrow in a ring that points to north, which lies so many degrees clockwise from the top of the page.
func drawNorth(pen *paper.Pen, centre paper.Point, radius, degrees float64) {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	at := func(x, y float64) paper.Point {
		return paper.Point{X: centre.X + radius*(x*cos+y*sin), Y: centre.Y + radius*(x*sin-y*cos)}
	}
	line := paper.Stroke{Colour: paper.Black, Width: 0.25}
	pen.RoundBox(paper.Box{X: centre.X - radius, Y: centre.Y - radius, W: 2 * radius, H: 2 * radius}, radius, paper.White, line)
	pen.Polygon([]paper.Point{at(0, 0.5), at(0.3, -0.7), at(0, -0.42)}, paper.Black, line)
	pen.Polygon([]paper.Point{at(0, 0.5), at(-0.3, -0.7), at(0, -0.42)}, paper.White, line)
	size := radius * 0.42 / pointMM
	l := paper.Lettering{Face: paper.Bold, Size: size, Align: paper.Centre}
	_, high := pen.Measure("N", l)
	n := at(0, 0.75)
	pen.Text(paper.Point{X: n.X, Y: n.Y + high/2}, "N", l)
}
