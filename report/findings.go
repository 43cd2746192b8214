package report

import (
	"fmt"

	"stageloom/model/checks"
	"stageloom/model/plan"
	"stageloom/report/paper"
)

// drawFindings prints what the checks found, the worst first, with what to do about it.
func (p *printout) drawFindings(b *paper.Book) {
	b.Title("Findings")
	table := paper.Table{
		Columns: []paper.Column{
			{Head: "Where", Width: paper.Fill(1), Lines: 6},
			{Head: "What", Width: paper.Fill(1.8)},
			{Head: "What to do", Width: paper.Fill(2.2)},
			{Head: "Done", Align: paper.Centre},
		},
		Empty: "Nothing was found. That does not replace a look at the site.",
	}
	for _, severity := range checks.Severities() {
		var rows []paper.Row
		for _, finding := range p.Findings {
			if finding.Severity == severity {
				row := paper.Texts(p.places(finding), finding.What, finding.Remedy, "")
				row.Cells[0].Bold, row.Cells[3].Tick = true, true
				rows = append(rows, row)
			}
		}
		if len(rows) > 0 {
			table.Rows = append(append(table.Rows, paper.GroupRow(severityWords(severity, len(rows)))), rows...)
		}
	}
	b.Table(table)
}

func severityWords(severity checks.Severity, n int) string {
	said := map[checks.Severity]string{
		checks.Stop: "Stop: does not work, or must not be used",
		checks.Warn: "Warn: works, with a risk that somebody has to accept",
		checks.Note: "Note: worth knowing",
	}[severity]
	return fmt.Sprintf("%s (%d)", said, n)
}

// places names what a finding is about: a link with its ends, anything else by its name.
func (p *printout) places(finding checks.Finding) string {
	if len(finding.Where) == 0 {
		return "The plan"
	}
	first := finding.Where[0]
	link, found := p.Plan.Link(plan.LinkID(first.Key))
	if first.Table != plan.LinksTable || !found {
		return p.placeName(first)
	}
	from, _ := p.Plan.Device(link.From)
	to, _ := p.Plan.Device(link.To)
	return fmt.Sprintf("%s, %s to %s", link.Name, from.Name, to.Name)
}

// placeName names a row of the plan as a reader knows it.
func (p *printout) placeName(place checks.Place) string {
	table, known := plan.TableNamed(place.Table)
	if !known {
		return "The plan"
	}
	row, _ := table.Get(p.Plan, place.Key)
	switch r := row.(type) {
	case plan.Link:
		return r.Name
	case plan.Device:
		return r.Name
	case plan.Area:
		return r.Name
	case plan.Act:
		return r.Name
	case plan.Position:
		return r.Name
	case plan.HouseLine:
		return "house line " + r.Name
	case plan.CableKind:
		return r.Name
	case plan.Kind:
		return r.Name
	case plan.Reel:
		return p.reelName(r)
	}
	return "The plan"
}

func (p *printout) reelName(r plan.Reel) string {
	if r.Tag != "" {
		return r.Tag
	}
	kind, _ := p.Plan.CableKinds.Get(plan.Key(r.Kind))
	return length(r.Length) + " " + kind.Name
}
