package report

import (
	"fmt"
	"slices"
	"strings"

	"stageloom/model/plan"
	"stageloom/model/stocklist"
	"stageloom/model/words"
	"stageloom/report/paper"
)

// thing is what a label of the stock names: a reel, a piece that several cables are tied into, or a case. Its code holds the
// name alone, so that a scanner types it and nothing else.
type thing struct {
	name  string
	large string   // what counts beside the name: a length, how many cables
	lines []string // what else is told, as far as there is room
	foot  string   // whose it is or where it lives
}

// reelThings are the labels of reels: one for every tag, and one for every piece that is tied of several.
func reelThings(p *plan.Plan) (things []thing) {
	wholes := map[string][]stocklist.Pieces{}
	for reel := range p.Reels.All() {
		switch {
		case reel.State == plan.WrittenOff:
		case stocklist.Whole(reel) != "":
			key := strings.ToLower(stocklist.Whole(reel))
			wholes[key] = append(wholes[key], stocklist.Pieces{Reel: reel, Count: reel.Count()})
		case reel.Tag != "":
			things = append(things, thing{name: reel.Tag, large: pieceLength(reel.Length), lines: []string{stocklist.KindName(p, reel.Kind)}, foot: caseOf(p, reel)})
		}
	}
	for _, pieces := range wholes {
		one := thing{name: stocklist.Whole(pieces[0].Reel), large: words.Counted(stocklist.Count(pieces), "cable", "cables"), foot: caseOf(p, pieces[0].Reel)}
		for _, lot := range stocklist.Lots(p, pieces) {
			one.lines = append(one.lines, lotLine(lot))
		}
		things = append(things, one)
	}
	words.SortNatural(things, func(t *thing) string { return t.name }, func(a, b *thing) int { return strings.Compare(a.large, b.large) })
	return things
}

// lotLine says a lot in one line: "3 × 50 m Cat6A: A01, A02".
func lotLine(lot stocklist.Lot) string {
	said := fmt.Sprintf("%d × %s %s", lot.Count, pieceLength(lot.Length), lot.Kind)
	if len(lot.Tags) > 0 {
		said += ": " + strings.Join(lot.Tags, ", ")
	}
	return said
}

func caseOf(p *plan.Plan, reel plan.Reel) string {
	box, found := p.Cases.Get(plan.Key(reel.Case))
	if !found || reel.Case == "" {
		return ""
	}
	return "Case: " + box.Name
}

// caseThings are the labels of cases: what each takes and what is in it.
func caseThings(p *plan.Plan, loads []stocklist.Load) (things []thing) {
	for _, load := range loads {
		if load.Case.ID == "" {
			continue
		}
		one := thing{name: load.Case.Name, large: words.Counted(load.Cables, "piece", "pieces"), foot: load.Mass.String()}
		if takes := load.Takes(); takes != "" {
			one.lines = append(one.lines, "Takes "+takes)
		}
		for _, lot := range stocklist.Lots(p, load.Pieces) {
			line := fmt.Sprintf("%d × %s %s", lot.Count, pieceLength(lot.Length), lot.Kind)
			if lot.Whole != "" {
				line += ", in " + lot.Whole
			}
			one.lines = append(one.lines, line)
		}
		things = append(things, one)
	}
	return things
}

// untagged says how many reels get no label because they bear no tag, blank where none.
func untagged(p *plan.Plan) string {
	bare := 0
	for reel := range p.Reels.All() {
		if reel.Tag == "" && stocklist.Whole(reel) == "" && reel.State != plan.WrittenOff {
			bare += reel.Count()
		}
	}
	if bare == 0 {
		return ""
	}
	return fmt.Sprintf("%s no tag and %s no label.", words.Counted(bare, "cable has", "cables have"), words.Plural(bare, "gets", "get"))
}

// drawReelLabels prints labels for the reels of the plan.
func (p *printout) drawReelLabels(b *paper.Book) {
	p.drawThings(b, ReelLabels, reelThings(p.Plan), "reel with a tag")
}

// drawCaseLabels prints labels for the cases of the plan.
func (p *printout) drawCaseLabels(b *paper.Book) {
	p.drawThings(b, CaseLabels, caseThings(p.Plan, stocklist.Loads(p.Plan, stocklist.Held(p.Plan), true)), "case")
}

func (p *printout) drawThings(b *paper.Book, chapter Chapter, things []thing, none string) {
	run := p.labelRun(chapter)
	run.things(b, things, "This plan has no "+none+" to label.")
}

// drawReelLabels prints labels for the reels of the house.
func (p *housePrint) drawReelLabels(b *paper.Book) {
	p.drawThings(b, p.choice.Labels, reelThings(p.Plan), "reel with a tag")
}

// drawCaseLabels prints labels for the cases of the house; behind those of reels they begin a new sheet.
func (p *housePrint) drawCaseLabels(b *paper.Book) {
	loads, _ := stocklist.InCases(p.Stock, p.day)
	chosen := p.choice.Labels
	if slices.Contains(p.choice.Sheets, HouseReelLabels) {
		chosen.Skip = 0
	}
	p.drawThings(b, chosen, caseThings(p.Plan, loads), "case")
}

func (p *housePrint) drawThings(b *paper.Book, chosen LabelSheet, things []thing, none string) {
	sheet := paper.Size(p.choice.Paper)
	words := "House stock · as of " + p.day + " · printed " + p.choice.Date.Format("2006-01-02")
	run := labelRun{labelsOn(chosen, sheet), labelFormat(sheet), func(b *paper.Book, r labelRun) { r.mark(b, words, paper.Regular) }}
	run.things(b, things, "The house has no "+none+" to label.")
}

// things lays labels of the stock on their sheets.
func (r labelRun) things(b *paper.Book, things []thing, none string) {
	r.draw(b, len(things), func(pen *paper.Pen, i int) { drawThing(pen, things[i], r.sheet.Plain) })
	if len(things) == 0 {
		b.Paragraph(none)
	}
}

// Sizes on a label of the stock: points of type, millimetres of a module of its code.
const (
	nameSize   = 26.0
	largeSize  = 13.0
	lineSize   = 8.5
	moduleSize = 0.85
)

// drawThing prints one label of the stock: the name large, what it is, and its code on the right.
func drawThing(pen *paper.Pen, one thing, plain bool) {
	width, height := pen.Size()
	if plain {
		pen.Polygon(outline(paper.Box{W: width, H: height}), paper.None, paper.Stroke{Colour: paper.Grey(170), Width: 0.1})
	}
	in := paper.Box{W: width, H: height}.Inset(labelInset)
	side := thingCode(one.name, min(in.H, in.W*0.4))
	drawCode(pen, paper.Point{X: in.Right() - side, Y: in.Y + (in.H-side)/2}, one.name, side)
	room := in.W - side - 3
	name := paper.Lettering{Face: paper.Mono, Size: min(nameSize, in.H*0.9)}
	shrink(pen, one.name, &name, room)
	y := in.Y + name.Size*pointMM*0.8
	pen.Text(paper.Point{X: in.X, Y: y}, fitted(pen, one.name, name, room), name)
	large := paper.Lettering{Face: paper.Bold, Size: largeSize}
	shrink(pen, one.large, &large, room)
	y += large.Size * pointMM * 1.25
	pen.Text(paper.Point{X: in.X, Y: y}, fitted(pen, one.large, large, room), large)
	foot := in.Bottom()
	if one.foot != "" {
		small := paper.Lettering{Face: paper.Bold, Size: lineSize}
		pen.Text(paper.Point{X: in.X, Y: foot - 0.2}, fitted(pen, one.foot, small, room), small)
		foot -= lineSize * pointMM * 1.1
	}
	drawLines(pen, one.lines, paper.Box{X: in.X, Y: y, W: room, H: foot - y})
}

// drawLines sets as many lines as have room, and says how many are left out.
func drawLines(pen *paper.Pen, lines []string, box paper.Box) {
	l := paper.Lettering{Size: lineSize}
	pitch := lineSize * pointMM * 1.15
	most := max(1, int(box.H/pitch))
	if len(lines) == 1 {
		lines = wrapped(pen, lines[0], l, box.W, most)
	}
	if len(lines) > most {
		lines = append(slices.Clone(lines[:most-1]), fmt.Sprintf("and %d more kinds and lengths", len(lines)-most+1))
	}
	for i, line := range lines {
		pen.Text(paper.Point{X: box.X, Y: box.Y + pitch*float64(i+1)}, fitted(pen, line, l, box.W), l)
	}
}

// thingCode is how wide the code of a name is: its modules at their size, at most the room there is.
func thingCode(name string, room float64) float64 {
	code, err := codeOf(name)
	if err != nil {
		return 0
	}
	return min(float64(code.Size)*moduleSize, room)
}
