package report

import (
	"stageloom/report/paper"
)

// drawKeyList lists the links whose label found no place on the plan, so that no link is lost.
func (p *print) drawKeyList(b *paper.Book) {
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
	for _, link := range p.Links() {
		if !missing[string(link.ID)] {
			continue
		}
		figures, _ := p.Budget(link.ID)
		row := paper.Texts(link.Name, endOf(p.Plan, link.From, link.FromPort), endOf(p.Plan, link.To, link.ToPort), "")
		if figures.Graded {
			row.Cells[3].Badge = &paper.Badge{Grade: paper.Role(figures.Grade), Text: figures.Label()}
		}
		table.Rows = append(table.Rows, row)
	}
	b.NewPageOf(p.atlas.format)
	b.Table(table)
}
