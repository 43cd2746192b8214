package report

import (
	"fmt"
	"slices"
	"strings"

	"stageloom/model/plan"
	"stageloom/report/paper"
)

// drawKeyList lists the links whose label found no place on the plan, so that no link is lost, with what the label would
// have said.
func (p *printout) drawKeyList(b *paper.Book) {
	links := p.unnamedLinks()
	if len(links) == 0 {
		return
	}
	table := paper.Table{
		Title: "Links drawn on the plan without their label",
		Columns: []paper.Column{
			{Head: "Link", Face: paper.Mono, Lines: 2, Width: paper.Fit(40)},
			{Head: "From", Width: paper.Fill(1), Lines: 3},
			{Head: "To", Width: paper.Fill(1), Lines: 3},
			{Head: "Margin dB", Align: paper.Centre},
		},
	}
	taped := slices.ContainsFunc(links, func(link plan.Link) bool { return p.Plan.TapeColour(link) != "" })
	if taped {
		table.Columns = append(table.Columns, paper.Column{Head: "Tape", Lines: 2, Width: paper.Fit(24)})
	}
	cut := len(p.atlas.sheets) > 1
	if cut {
		table.Columns = append(table.Columns, paper.Column{Head: "On part", Width: paper.Fit(30)})
	}
	for _, link := range links {
		row := p.keyRow(link)
		if taped {
			row.Cells = append(row.Cells, paper.Cell{Text: p.Plan.TapeColour(link)})
		}
		if cut {
			row.Cells = append(row.Cells, paper.Cell{Text: p.atlas.partsOf(link.ID)})
		}
		table.Rows = append(table.Rows, row)
	}
	b.NewPageOf(p.atlas.format)
	b.Table(table)
}

// unnamedLinks are the links whose label found no place on any sheet, in their natural order.
func (p *printout) unnamedLinks() (links []plan.Link) {
	for _, link := range p.Links() {
		if slices.Contains(p.atlas.unnamed, link.ID) {
			links = append(links, link)
		}
	}
	return links
}

// keyRow is a link of the key list: its name, its ends and its margin.
func (p *printout) keyRow(link plan.Link) paper.Row {
	figures, _ := p.Budget(link.ID)
	from, to := endsOf(p.Plan, link)
	row := paper.Texts(link.Name, from, to, "")
	if link.IsSpare() {
		row.Cells[3].Text = laidSpare
	} else if figures.Graded {
		row.Cells[3].Badge = badgeOf(figures)
	}
	return row
}

// partsOf lists the parts on which a link is drawn.
func (a *atlas) partsOf(id plan.LinkID) string {
	var on []string
	for _, s := range a.sheets {
		_, drawn := s.picture.Where(plan.Ref{Table: plan.LinksTable, Key: plan.Key(id)})
		if drawn && s.part > 0 {
			on = append(on, fmt.Sprint(s.part))
		}
	}
	return strings.Join(on, ", ")
}
