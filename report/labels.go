package report

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"stageloom/model/budget"
	"stageloom/model/plan"
	"stageloom/model/revision"
	"stageloom/model/standards"
	"stageloom/model/stocklist"
	"stageloom/report/paper"
)

// LabelSheet is a sheet of labels in numbers, as the packet states them: millimetres. Labels come in rows from the top left.
type LabelSheet struct {
	Columns, Rows int
	Width, Height float64 // of one label
	Left, Top     float64 // from the sheet's edges to the first label
	GapX, GapY    float64 // between labels
	Skip          int     // labels already used up on the first sheet
	Plain         bool    // plain paper: the edges are drawn to cut along
}

// LabelSheetFor is the usual sheet for a paper: 16 labels on A4, 14 on Letter. Common practice, no source: compare with the
// packet. A3 prints labels on A4.
func LabelSheetFor(sheet string) LabelSheet {
	if paper.Size(sheet) == paper.Letter {
		return LabelSheet{Columns: 2, Rows: 7, Width: 101.6, Height: 33.9, Left: 4, Top: 21, GapX: 4.7}
	}
	return LabelSheet{Columns: 2, Rows: 8, Width: 99.1, Height: 33.9, Left: 4.6, Top: 12.9, GapX: 2.6}
}

// ReadLabelSheet reads the figures of a sheet of labels as its packet states them: columns x rows, width x height, left, top,
// gap across, gap down, parted by commas. Blank is the usual sheet for the paper.
func ReadLabelSheet(text, sheet string) (LabelSheet, error) {
	if strings.TrimSpace(text) == "" {
		return LabelSheetFor(sheet), nil
	}
	fail := fmt.Errorf("%q is no sheet; write columns x rows, width x height, left, top, gap across, gap down in mm, for instance 3x8,70x37,0,0.5,0,0", text)
	parts := strings.Split(strings.ReplaceAll(text, " ", ""), ",")
	if len(parts) != 6 {
		return LabelSheet{}, fail
	}
	var err error
	number := func(part string) float64 {
		value, wrong := strconv.ParseFloat(part, 64)
		if wrong != nil {
			err = fail
		}
		return value
	}
	columns, rows, _ := strings.Cut(strings.ToLower(strings.ReplaceAll(parts[0], "×", "x")), "x")
	width, height, _ := strings.Cut(strings.ToLower(strings.ReplaceAll(parts[1], "×", "x")), "x")
	read := LabelSheet{
		Columns: int(number(columns)), Rows: int(number(rows)), Width: number(width), Height: number(height),
		Left: number(parts[2]), Top: number(parts[3]), GapX: number(parts[4]), GapY: number(parts[5]),
	}
	return read, err
}

// String writes the figures as ReadLabelSheet reads them.
func (s LabelSheet) String() string {
	return fmt.Sprintf("%dx%d, %.4gx%.4g, %.4g, %.4g, %.4g, %.4g", s.Columns, s.Rows, s.Width, s.Height, s.Left, s.Top, s.GapX, s.GapY)
}

// Least sizes of a label in millimetres: room for the code with its quiet zone and the id beside it.
const (
	leastLabelWidth  = 45.0
	leastLabelHeight = 22.0
)

// Count is how many labels a sheet holds.
func (s LabelSheet) Count() int { return s.Columns * s.Rows }

// check refuses a sheet of labels that has no room on its paper.
func (s LabelSheet) check(sheet paper.Size) error {
	if s == (LabelSheet{}) {
		return nil
	}
	if err := s.figures(); err != nil {
		return err
	}
	width, height, err := labelFormat(sheet).Size()
	if err != nil {
		return err
	}
	const slip = 0.5 // packets round their figures
	across := s.Left + float64(s.Columns)*s.Width + float64(s.Columns-1)*s.GapX
	down := s.Top + float64(s.Rows)*s.Height + float64(s.Rows-1)*s.GapY
	var less []string
	if across > width+slip {
		less = append(less, "fewer columns, or less width, left or gap across")
	}
	if down > height+slip {
		less = append(less, "fewer rows, or less height, top or gap down")
	}
	if len(less) == 0 {
		return nil
	}
	return fmt.Errorf("labels: they reach %.4g × %.4g mm, and the sheet is %.4g × %.4g mm; give %s, or print on %s where the labels are cut for it",
		across, down, width, height, strings.Join(less, "; and "), otherThan(sheet))
}

// otherThan is the other paper that labels are printed on.
func otherThan(sheet paper.Size) paper.Size {
	if sheet == paper.Letter {
		return paper.A4
	}
	return paper.Letter
}

// figures refuses figures that no sheet of labels has.
func (s LabelSheet) figures() error {
	for _, figure := range []float64{s.Width, s.Height, s.Left, s.Top, s.GapX, s.GapY} {
		if math.IsNaN(figure) || figure < 0 || figure > 1000 {
			return fmt.Errorf("labels: a size of %v mm can't be; give the millimetres stated on the packet", figure)
		}
	}
	if s.Columns < 1 || s.Rows < 1 || s.Columns > 50 || s.Rows > 50 {
		return fmt.Errorf("labels: %d columns and %d rows can't be; a sheet has at least one of each", s.Columns, s.Rows)
	}
	if s.Width < leastLabelWidth || s.Height < leastLabelHeight {
		return fmt.Errorf("labels: %.4g × %.4g mm is too small; a label with its code needs %.0f × %.0f mm", s.Width, s.Height, leastLabelWidth, leastLabelHeight)
	}
	if s.Skip < 0 || s.Skip >= s.Count() {
		return fmt.Errorf("labels: %d used up on a sheet of %d; give a number from 0 to %d", s.Skip, s.Count(), s.Count()-1)
	}
	return nil
}

// labelFormat is the sheet on which labels are printed.
func labelFormat(sheet paper.Size) paper.Format {
	if sheet == paper.A3 {
		sheet = paper.A4
	}
	return paper.Format{Sheet: sheet, Bare: true}
}

// label is what one label says. A flag says it twice, once on each face.
type label struct {
	id, end  string // "L01", "END A" or "JOIN 1"
	lines    []string
	marks    string // main or backup, and the colour of its tape
	warning  string // white on black
	unissued string // what the plan stands at, on a sheet that has no margin to say so; blank for an issued one
	code     string // at most 14 bytes, which keeps the code at 21 × 21 modules
}

// linkless tells that there is no link to print.
func (p *printout) linkless() bool { return len(p.links) == 0 }

// labels are those of every end and join: for each join one on either cable.
func (p *printout) labels() []label {
	var list []label
	for _, link := range p.Links() {
		figures, _ := p.Budget(link.ID)
		list = append(list, p.endLabel(link, "A"))
		for _, join := range p.joins(figures) {
			list = append(list, p.joinLabel(link, join, "A"), p.joinLabel(link, join, "B"))
		}
		list = append(list, p.endLabel(link, "B"))
	}
	return list
}

func (p *printout) endLabel(link plan.Link, end string) label {
	here, port, there, far := link.From, link.FromPort, link.To, link.ToPort
	if end == "B" {
		here, port, there, far = link.To, link.ToPort, link.From, link.FromPort
	}
	local, _ := p.Plan.Device(here)
	other, _ := p.Plan.Device(there)
	return label{
		id: link.Name, end: "END " + end,
		lines: []string{"here: " + local.Name + ", port" + space + port, "to: " + other.Name + ", port" + space + far},
		marks: tapeOf(link), warning: notNetwork(link.Transport), code: string(link.ID) + " " + end,
	}
}

func (p *printout) joinLabel(link plan.Link, j join, side string) label {
	return label{
		id: link.Name, end: fmt.Sprintf("JOIN %d%s", j.number, side),
		lines: []string{j.before + " → " + j.after, "at " + length(j.at) + " of the cable"},
		marks: tapeOf(link), warning: notNetwork(link.Transport), code: fmt.Sprintf("%s J%d%s", link.ID, j.number, side),
	}
}

// notNetwork warns of plugs that look like network plugs and are none.
func notNetwork(id plan.TransportID) string {
	transport, err := standards.TransportBySlug(standards.TransportSlug(id))
	if err == nil && transport.NeverIntoNetworkPort {
		return "NOT NETWORK"
	}
	return ""
}

// join is a joint between two cables of a link that stand there.
type join struct {
	number        int
	before, after string  // the cables on either side, by tag or length
	at            float64 // metres of cable from the near end
}

// joins lists the joints between the cables of a link, leads and assumed cables left out.
func (p *printout) joins(figures budget.Budget) []join {
	var list []join
	var last *budget.Part
	for _, cable := range laidCables(figures) {
		if cable.Assumed {
			continue
		}
		if last != nil {
			list = append(list, join{len(list) + 1, p.cableName(last), p.cableName(cable.Part), cable.start})
		}
		last = cable.Part
	}
	return list
}

// cableName is what the crew calls one cable: its tag, else its length and kind.
func (p *printout) cableName(part *budget.Part) string {
	if line, found := p.Plan.HouseLines.Get(plan.Key(part.HouseLine)); found && part.HouseLine != "" {
		return "house line " + line.Name
	}
	reel, found := p.Plan.Reels.Get(plan.Key(part.Reel))
	if found && part.Reel != "" && reel.Tag != "" {
		return reel.Tag
	}
	metres := part.Length
	if found && part.Reel != "" {
		metres = reel.Length // the budget's is rounded, so that its pieces add up
	}
	return strings.TrimSpace(pieceLength(metres) + " " + stocklist.KindName(p.Plan, part.Kind))
}

// drawLabels prints the labels on sheets to stick.
func (p *printout) drawLabels(b *paper.Book) {
	run := p.labelRun(LabelSheets)
	_, roomy := markPlace(run.sheet, run.format)
	standing := revision.StandingOf(p.Plan)
	onLabels := !roomy && !standing.AsIssued()
	list := p.labels()
	run.draw(b, len(list), func(pen *paper.Pen, i int) {
		if onLabels {
			list[i].unissued = standing.Mark()
		}
		drawLabel(pen, list[i], run.sheet.Plain)
	})
	if p.linkless() {
		b.Paragraph("This plan has no link to label.")
	}
}

// labelsOn is the sheet of labels that was chosen, else the usual one for the paper, to be cut out.
func labelsOn(chosen LabelSheet, sheet paper.Size) LabelSheet {
	if chosen == (LabelSheet{}) {
		chosen = LabelSheetFor(string(sheet))
		chosen.Plain = true
	}
	return chosen
}

// labelRun is the sheets on which a chapter of labels is printed; only the first such chapter begins on a sheet that is used in
// part.
func (p *printout) labelRun(chapter Chapter) labelRun {
	sheet := sheetOf(p.Plan, p.choice)
	chosen := p.choice.Labels
	order := []Chapter{ReelLabels, CaseLabels, LabelSheets}
	if slices.Contains(p.choice.Packs, Prep) {
		order = []Chapter{LabelSheets, ReelLabels, CaseLabels}
	}
	for _, c := range order {
		if c == chapter {
			break
		}
		if slices.Contains(p.choice.Chapters, c) || c == LabelSheets && slices.Contains(p.choice.Packs, Prep) {
			chosen.Skip = 0
		}
	}
	return labelRun{labelsOn(chosen, sheet), labelFormat(sheet), func(b *paper.Book, r labelRun) { p.markSheet(b, r.sheet, r.format) }}
}

// labelRun is sheets of labels, and what says in their margin what they are of.
type labelRun struct {
	sheet  LabelSheet
	format paper.Format
	margin func(*paper.Book, labelRun)
}

// draw lays so many labels on their sheets.
func (r labelRun) draw(b *paper.Book, count int, one func(pen *paper.Pen, i int)) {
	sheet := r.sheet
	for i := range count {
		place := (i + sheet.Skip) % sheet.Count()
		if i == 0 || place == 0 {
			b.NewPageOf(r.format)
			b.Take(b.Area().H)
			r.margin(b, r)
		}
		if b.Err() != nil {
			return
		}
		column, row := float64(place%sheet.Columns), float64(place/sheet.Columns)
		one(b.Pen(paper.Box{
			X: sheet.Left + column*(sheet.Width+sheet.GapX), Y: sheet.Top + row*(sheet.Height+sheet.GapY), W: sheet.Width, H: sheet.Height,
		}), i)
	}
}
