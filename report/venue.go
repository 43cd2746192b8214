package report

import (
	"fmt"
	"math"
	"strings"

	"stageloom/model/plan"
	"stageloom/report/paper"
)

// drawVenue prints what crosses which ground, what copper joins which supplies, which house lines are wanted, and what is
// still to be agreed with the venue.
func (p *printout) drawVenue(b *paper.Book) {
	b.Title("Crossings and questions")
	b.Paragraph("Local codes and the venue's own rules come before this plan. Tick and initial what is agreed.")
	b.Table(p.crossingTable())
	p.tables(b, p.suppliesTable(), p.houseLinesTable())
	b.Heading("Questions to the venue")
	b.Ticks(p.questions())
	b.Table(paper.Table{
		Title:     "Answers and other questions",
		Columns:   []paper.Column{{Head: "What", Width: paper.Fill(2)}, {Head: "Answered by", Width: paper.Fill(1)}, {Head: "Date", Width: paper.Fixed(26)}},
		BlankRows: 4,
	})
}

func (p *printout) crossingTable() paper.Table {
	table := paper.Table{
		Title: "What cables cross",
		Columns: []paper.Column{
			{Head: "Ground", Width: paper.Fill(1), Lines: 3},
			{Head: "Cables", Align: paper.Right},
			{Head: "Up to m", Align: paper.Right},
			{Head: "Protected by", Width: paper.Fill(1.7)},
			{Head: "Agreed", Align: paper.Centre},
			{Head: "Initials", Width: paper.Fixed(20)},
		},
		Empty: "No link crosses a road, a walkway, an exit, a fire lane, water or the crowd that is drawn on this plan.",
	}
	for _, one := range p.crossings() {
		row := paper.Texts(fmt.Sprintf("%s (%s)", one.area.Name, one.area.Use), fmt.Sprint(len(one.links)),
			fmt.Sprintf("%.0f", math.Ceil(one.metres)), protects[one.area.Use], "", "")
		row.Cells[0].Bold, row.Cells[4].Tick = true, true
		table.Rows = append(table.Rows, row)
	}
	return table
}

// suppliesTable lists copper between places with supplies of their own.
func (p *printout) suppliesTable() paper.Table {
	table := paper.Table{
		Title:   "Copper between supplies or outdoor structures",
		Columns: []paper.Column{{Head: "What", Width: paper.Fill(1)}, {Head: "What to do", Width: paper.Fill(1.4)}, {Head: "Agreed", Align: paper.Centre}},
	}
	for _, finding := range p.Findings {
		if finding.Rule == "supplies" && p.speaksOf(finding.Where) {
			row := paper.Texts(finding.What, finding.Remedy, "")
			row.Cells[2].Tick = true
			table.Rows = append(table.Rows, row)
		}
	}
	return table
}

// houseLinesTable lists the tie lines of the venue that links use.
func (p *printout) houseLinesTable() paper.Table {
	table := paper.Table{
		Title: "House lines wanted",
		Columns: []paper.Column{
			{Head: "Line", Face: paper.Mono, Lines: 2, Width: paper.Fit(30)},
			{Head: "From panel", Width: paper.Fill(1)},
			{Head: "To panel", Width: paper.Fill(1)},
			{Head: "Cable", Width: paper.Fill(1)},
			{Head: "For", Width: paper.Fit(34), Lines: 4},
			{Head: "Free", Align: paper.Centre},
		},
	}
	for _, link := range p.Links() {
		for _, segment := range p.Plan.SegmentsOf(link.ID) {
			line, found := p.Plan.HouseLines.Get(plan.Key(segment.HouseLine))
			if !found || segment.HouseLine == "" {
				continue
			}
			kind, _ := p.Plan.CableKinds.Get(plan.Key(line.Kind))
			row := paper.Texts(line.Name, line.FromPanel, line.ToPanel, length(line.Length)+" "+kind.Name, link.Name, "")
			row.Cells[5].Tick = true
			table.Rows = append(table.Rows, row)
		}
	}
	return table
}

// questions are what the plan does not know yet and only the venue can say.
func (p *printout) questions() []string {
	said := []string{
		"Which exits, fire lanes and wheelchair ways stay clear, and who says so on the day?",
		"Where may cable be flown or fixed, and whose rigger does it?",
	}
	var straight []string
	for _, link := range p.Links() {
		if figures, _ := p.Budget(link.ID); figures.Measured.Straight() {
			straight = append(straight, link.Name)
		}
	}
	if len(straight) > 0 {
		said = append(said, fmt.Sprintf("Which way may %s go? Their ways are not drawn yet.", strings.Join(straight, ", ")))
	}
	var unsupplied []string
	for position := range p.Plan.Positions.All() {
		if position.Supply == "" {
			unsupplied = append(unsupplied, position.Name)
		}
	}
	if len(unsupplied) > 0 {
		said = append(said, fmt.Sprintf("From which supply are %s fed, and are they earthed together?", strings.Join(unsupplied, ", ")))
	}
	if draws := p.suppliedWatts(); draws != "" {
		said = append(said, "Is there so much at each supply, as far as kinds of devices state what they draw: "+draws+"? The site's qualified electrician decides.")
	}
	if p.Plan.HouseLines.Len() > 0 {
		said = append(said, "Have the house lines been measured, and when? With which result?")
	}
	return said
}
