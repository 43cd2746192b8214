package report

import (
	"cmp"
	"fmt"
	"strings"

	"stageloom/model/budget"
	"stageloom/model/medium"
	"stageloom/model/plan"
	"stageloom/model/standards"
	"stageloom/model/words"
	"stageloom/report/paper"
)

// drawBudget prints every link with its run, cables, loss, limit, margin and grade, in tenths.
func (p *printout) drawBudget(b *paper.Book) {
	b.Title("Link budget")
	b.Remark("Computed, not measured. Run = way + rises + slack, each rounded up to 0.1 m, with where the way has its metres from. Loss is that of whole cables and all connections " + p.references() +
		", rounded up; margin is limit less loss, rounded down. Missing metres are reckoned as the kind wanted for them.")
	b.Table(p.budgetTable())
	if len(p.sums.Kinds) > 0 {
		b.Table(p.usedTable())
	}
	if words := p.couplersUsed(); words != "" {
		b.Remark(words)
	}
}

// usedTable sums up what cable the links to print use, and what its figures rest on.
func (p *printout) usedTable() paper.Table {
	table := paper.Table{
		Title: "Cable used",
		Columns: []paper.Column{
			{Head: "Kind", Width: paper.Fill(1), Lines: 3},
			{Head: "Cables", Align: paper.Right},
			{Head: "Laid m", Align: paper.Right},
			{Head: "Missing m", Align: paper.Right},
			{Head: "What its loss rests on", Width: paper.Fill(2)},
		},
	}
	for _, t := range p.sums.Kinds {
		kind, _ := p.Plan.CableKinds.Get(plan.Key(t.Kind))
		name := kind.Name
		if t.Lead {
			name += ", inner leads"
		}
		table.Rows = append(table.Rows, paper.Texts(name, fmt.Sprint(t.Cables), metres(t.Metres), metres(t.Assumed), p.restsOn(kind)))
	}
	return table
}

// restsOn says where the loss of a kind of cable comes from.
func (p *printout) restsOn(kind plan.CableKind) string {
	const none = "no loss is reckoned"
	m := p.Reckoner().Medium(kind.ID)
	if m == nil {
		return none
	}
	switch words, from := m.RestsOn(kind); {
	case words == "":
		return none
	case from == standards.Provenance{}:
		return words
	default:
		return words + ". " + sourced(from)
	}
}

// references says what the decibels of the links to print are taken at.
func (p *printout) references() string {
	var used []standards.Transport
	for _, link := range p.Links() {
		if b, _ := p.Budget(link.ID); b.Medium != nil {
			transport, _ := standards.TransportBySlug(standards.TransportSlug(b.Transport))
			used = append(used, transport)
		}
	}
	if len(used) == 0 {
		used = standards.Transports()
	}
	return medium.References(used...)
}

// couplersUsed counts the couplers between the cables that are laid.
func (p *printout) couplersUsed() string {
	var said []string
	for _, t := range p.sums.Couplers {
		words := fmt.Sprintf("%d × %s", t.Count, cmp.Or(t.Connector, "no stated connector"))
		if t.Hardware != "" {
			words += ", " + hardwareName(t.Hardware)
		}
		said = append(said, words)
	}
	if len(said) == 0 {
		return ""
	}
	return "Couplers: " + strings.Join(said, "; ") + "."
}

func (p *printout) budgetTable() paper.Table {
	const names = 3 // lines of a name before it is cut
	table := paper.Table{
		Columns: []paper.Column{
			{Head: "Link", Face: paper.Mono, Lines: 2, Width: paper.Fit(24)},
			{Head: "From", Lines: names, Width: paper.Fill(0.6)},
			{Head: "To", Lines: names, Width: paper.Fill(0.6)},
			{Head: "Run m", Align: paper.Right},
			{Head: "Way + rises + slack", Align: paper.Right, Lines: 3, Width: paper.Fit(36)},
			{Head: "Cables in order", Width: paper.Fill(1)},
			{Head: "Laid m", Align: paper.Right},
			{Head: "Joins", Align: paper.Right},
			{Head: "Loss dB", Align: paper.Right},
			{Head: "Limit dB", Align: paper.Right},
			{Head: "Margin dB", Align: paper.Right},
			{Head: "Grade", Align: paper.Centre},
		},
		Empty: "This plan has no link.",
	}
	var sums sums
	for _, g := range p.groups() {
		table.Rows = append(table.Rows, paper.GroupRow(g.title))
		for _, member := range g.links {
			table.Rows = append(table.Rows, budgetRow(p.Plan, member))
			sums.add(member.budget)
		}
	}
	if len(table.Rows) > 0 {
		table.Rows = append(table.Rows, sums.row())
	}
	return table
}

// sums are those over the links of a table.
type sums struct {
	links, joins    int
	metres, missing float64
}

func (s *sums) add(b budget.Budget) {
	b = b.Printed(1)
	s.links, s.joins = s.links+1, s.joins+b.Joins
	s.metres, s.missing = s.metres+b.Laid, s.missing+b.Missing
}

func budgetRow(p *plan.Plan, m member) paper.Row {
	m.budget = m.budget.Printed(1)
	from, to := endsOf(p, m.link)
	row := paper.Texts(
		m.link.Name, from, to,
		runAlone(m.budget), runParts(m.budget),
		cablesAndMissing(p, m.budget), metres(m.budget.Laid), fmt.Sprint(m.budget.Joins),
		"", "", "", "",
	)
	if m.budget.Graded {
		row.Cells[9].Text = fmt.Sprintf("%.1f", m.budget.LimitDB)
		mark := badgeOf(m.budget)
		mark.Text = gradeWord(m.budget.Standing())
		row.Cells[11] = paper.Cell{Badge: mark}
	}
	if m.link.IsSpare() {
		row.Cells[11] = paper.Cell{Text: laidSpare}
	}
	if part := m.budget.PartIn(budget.Metres); part != "" {
		row.Cells[5].Text += "; " + part + ": loss, limit and margin are those of the whole"
	}
	if m.budget.HasMargin() {
		row.Cells[8].Text = budget.LossTenths(m.budget.LossDB)
		if !m.link.IsSpare() {
			row.Cells[10] = paper.Cell{Text: budget.TenthDB(m.budget.MarginDB), Bold: true}
		}
	}
	return row
}

func (s *sums) row() paper.Row {
	row := paper.Row{Kind: paper.Total, Cells: make([]paper.Cell, 12)}
	row.Cells[5].Text = words.Counted(s.links, "link", "links")
	if s.missing > 0 {
		row.Cells[5].Text += fmt.Sprintf(", %s still missing", budget.Metres(s.missing))
	}
	row.Cells[6].Text, row.Cells[7].Text = metres(s.metres), fmt.Sprint(s.joins)
	return row
}
