package report

import "stageloom/report/paper"

// testless tells that no link to print carries data that a timed test could count.
func (p *printout) testless() bool { return len(p.testTable().Rows) == 0 }

// drawTests prints a form for the timed tests on site.
func (p *printout) drawTests(b *paper.Book) {
	b.Title("Site tests")
	b.Items([]string{
		"Clear the counters at both ends, put the link under the load of the show, and note when it begins.",
		"After the time agreed note the errors counted at each end. A clean link counts none; one error asks for another look at plugs, couplers and bends.",
		"Errors are counted, never predicted: the margin says how far the cable is from its limit, not how often it fails.",
	})
	b.Table(p.testTable())
}

func (p *printout) testTable() paper.Table {
	table := paper.Table{
		Columns: []paper.Column{
			{Head: "Link", Face: paper.Mono, Lines: 2, Width: paper.Fit(30)},
			{Head: "From", Lines: 3, Width: paper.Fill(1)},
			{Head: "To", Lines: 3, Width: paper.Fill(1)},
			{Head: "Margin dB", Align: paper.Centre, Width: paper.Fixed(21)},
			{Head: "Begun", Width: paper.Fixed(20)},
			{Head: "Minutes", Width: paper.Fixed(20)},
			{Head: "Errors From", Width: paper.Fixed(22)},
			{Head: "Errors To", Width: paper.Fixed(22)},
			{Head: "Clean", Align: paper.Centre},
			{Head: "Initials", Width: paper.Fixed(20)},
		},
		BlankRows: 2, Empty: "No link of this plan carries a loss budget.",
	}
	for _, link := range p.Links() {
		figures, _ := p.Budget(link.ID)
		if !figures.Graded {
			continue
		}
		from, to := endsOf(p.Plan, link)
		row := paper.Texts(link.Name, from, to, "", "", "", "", "", "", "")
		if link.IsSpare() {
			row.Cells[3].Text = laidSpare
		} else if figures.HasMargin() && figures.Missing == 0 {
			row.Cells[3] = paper.Cell{Badge: badgeOf(figures)}
		}
		row.Cells[8].Tick = true
		table.Rows = append(table.Rows, row)
	}
	return table
}
