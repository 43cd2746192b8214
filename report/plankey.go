package report

import (
	"fmt"
	"strings"

	"stageloom/model/plan"
	"stageloom/report/paper"
)

// drawKeyList lists the links whose label found no place on the plan, so that no link is lost.
func (p *printout) drawKeyList(b *paper.Book) {
	if len(p.atlas.unnamed) == 0 {
		return
	}
	missing := map[string]bool{}
	for _, id := range p.atlas.unnamed {
		missing[string(id)] = true
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
	cut := len(p.atlas.sheets) > 1
	if cut {
		table.Columns = append(table.Columns, paper.Column{Head: "On part", Width: paper.Fit(30)})
	}
	for _, link := range p.Links() {
		if !missing[string(link.ID)] {
			continue
		}
		figures, _ := p.Budget(link.ID)
		from, to := endsOf(p.Plan, link)
		row := paper.Texts(link.Name, from, to, "")
		if link.IsSpare() {
			row.Cells[3].Text = laidSpare
		} else if figures.Graded {
			row.Cells[3].Badge = badgeOf(figures)
		}
		if cut {
			row.Cells = append(row.Cells, paper.Cell{Text: p.atlas.partsOf(link.ID)})
		}
		table.Rows = append(table.Rows, row)
	}
	b.NewPageOf(p.atlas.format)
	b.Table(table)
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
