package report

import (
	"cmp"
	"fmt"
	"strings"

	"stageloom/model/budget"
	"stageloom/model/plan"
	"stageloom/model/revision"
	"stageloom/model/words"
	"stageloom/report/paper"
)

// drawFront prints the front page of a pack: what changed first, how the plan stands, what is in the pack, whom to ring.
func (p *printout) drawFront(b *paper.Book, pack booklet) {
	b.Title(pack.name + " pack")
	b.Paragraph(pack.reader + "." + p.limits())
	b.Paragraph(revision.StandingOf(p.Plan).Sentence())
	p.drawChanges(b)
	b.Heading("How the plan stands")
	b.Items(p.standing())
	b.Heading("In this pack")
	b.Table(p.contentsTable(b, pack))
	p.drawIssues(b)
	if p.Plan.Contacts.Len() > 0 {
		b.Heading("Whom to ring")
		b.Table(p.contactsTable())
	}
}

// limits says what the choice leaves out.
func (p *printout) limits() string {
	var said []string
	if position, found := p.Plan.Positions.Get(plan.Key(p.choice.Position)); found {
		said = append(said, "what ends at "+position.Name)
	}
	if device, found := p.Plan.Device(p.choice.Device); found && p.choice.Device != "" {
		said = append(said, "what ends at "+device.Name)
	}
	if p.choice.Changed && p.since != nil {
		said = append(said, "links laid otherwise than in revision "+p.since.From.Letter)
	}
	words := p.actLimit()
	if len(said) > 0 {
		words += fmt.Sprintf(" Only %s: %s.", strings.Join(said, ", and only "), counted(p.links))
	}
	return words
}

// actLimit says that the patch is that of one act.
func (p *printout) actLimit() string {
	act, found := p.Plan.Acts.Get(plan.Key(p.choice.Act))
	if !found || p.choice.Act == "" {
		return ""
	}
	return " Patch of act " + act.Name + " only."
}

func counted(links []plan.Link) string { return words.Counted(len(links), "link", "links") }

// mostChanges is how many changes a front page lists; the rest is counted.
const mostChanges = 18

// drawChanges prints what changed since the last revision, in a line and then one by one.
func (p *printout) drawChanges(b *paper.Book) {
	b.Heading(p.since.Heading())
	b.Paragraph(p.since.Lead())
	if lines := p.since.Lines(mostChanges); len(lines) > 0 {
		b.Ticks(lines)
	}
}

// mostIssues is how many revisions a front page lists, the last ones.
const mostIssues = 6

// drawIssues prints how the plan stands to its revisions, and those that were issued.
func (p *printout) drawIssues(b *paper.Book) {
	if issues := revision.Issues(p.Plan); len(issues) > 0 {
		b.Heading("Revisions issued")
		b.Items(issues[max(0, len(issues)-mostIssues):])
	}
}

// standing says how the whole plan stands, the worst first.
func (p *printout) standing() []string {
	t := p.Totals
	var said []string
	if n := t.Stops; n > 0 {
		said = append(said, words.Counted(n, "finding stops", "findings stop")+" the show: see the findings before anything is laid.")
	}
	if n := t.Count(budget.Over); n > 0 {
		said = append(said, words.Counted(n, "link is", "links are")+" over limit: do not use.")
	}
	if t.TooShort > 0 {
		said = append(said, words.Counted(t.TooShort, "link is", "links are")+" too short.")
	}
	if t.Bare > 0 {
		said = append(said, words.Counted(t.Bare, "link has", "links have")+" no cable yet.")
	}
	var grades []string
	for _, g := range t.Grades {
		if g.Links > 0 {
			grades = append(grades, fmt.Sprintf("%d %s", g.Links, gradeWord(g.Grade)))
		}
	}
	if t.Ungraded > 0 {
		grades = append(grades, fmt.Sprintf("%d without a loss budget", t.Ungraded))
	}
	if len(grades) == 0 {
		return append(said, "This plan has no link.")
	}
	said = append(said, words.Counted(t.Links, "link", "links")+": "+strings.Join(grades, ", ")+".")
	return append(said, fmt.Sprintf("%s of cable with %s.", wholeMetres(t.Metres), words.Counted(t.Joins, "join", "joins")))
}

// contentsTable lists the chapters of this pack with their pages.
func (p *printout) contentsTable(b *paper.Book, pack booklet) paper.Table {
	table := paper.Table{Columns: []paper.Column{
		{Head: "Chapter", Width: paper.Fill(1)}, {Head: "From page", Align: paper.Right},
	}}
	for _, entry := range b.Contents() {
		if name, ours := strings.CutPrefix(entry.Name, pack.name+": "); ours {
			table.Rows = append(table.Rows, paper.Texts(name, fmt.Sprint(entry.Page)))
		}
	}
	table.Empty = "Nothing."
	return table
}

func (p *printout) contactsTable() paper.Table {
	table := paper.Table{Columns: []paper.Column{
		{Head: "Name", Width: paper.Fill(1)}, {Head: "For", Width: paper.Fill(1)}, {Head: "Telephone", Width: paper.Fill(1)},
	}}
	for contact := range p.Plan.Contacts.All() {
		table.Rows = append(table.Rows, paper.Texts(contact.Name, contact.Role, cmp.Or(contact.Phone, "–")))
	}
	return table
}
