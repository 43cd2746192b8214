package report

import (
	"fmt"
	"slices"
	"strings"

	"stageloom/model/budget"
	"stageloom/model/checks"
	"stageloom/model/plan"
	"stageloom/model/standards"
	"stageloom/report/paper"
)

// drawSchedule prints every link for the crew: where it goes, which pieces in which order, what to watch.
func (p *printout) drawSchedule(b *paper.Book) {
	b.Title("Cable schedule")
	b.Paragraph("Pieces stand in order from the From end. Label both ends before laying; tick when laid.")
	p.drawBadgeKey(b)
	b.Table(p.scheduleTable())
}

// drawBadgeKey explains the badges of the grades that occur.
func (p *printout) drawBadgeKey(b *paper.Book) {
	if p.Totals.Links-p.Totals.Spares == p.Totals.Ungraded {
		return
	}
	k := b.Scale()
	pen := b.Pen(b.Take(7 * k))
	l := paper.Lettering{Size: 11 * k}
	high := 5.2 * k
	x := pen.Text(paper.Point{Y: 4.9 * k}, "Margin, whole dB, rounded down:", l) + 4*k
	for _, grade := range p.Totals.Grades {
		if grade.Links == 0 || badgeSample[grade.Grade] == "" || grade.Grade == budget.Uncabled {
			continue
		}
		badge := paper.Badge{Grade: paper.Role(grade.Grade), Text: badgeSample[grade.Grade]}
		if grade.Grade == budget.ToTest {
			badge.Grade = paper.Uncabled
		}
		width := pen.BadgeWidth(high, badge)
		pen.Badge(paper.Point{X: x + width/2, Y: 3.5 * k}, high, badge)
		x += width + 2*k
		x += pen.Text(paper.Point{X: x, Y: 4.9 * k}, gradeWord(grade.Grade), l) + 5*k
	}
}

// badgeSample is a figure to show in the badge of a grade.
var badgeSample = map[budget.Grade]string{
	budget.Ample: "+6", budget.Enough: "+2", budget.ToTest: "+4 test", budget.Tight: "+0", budget.Over: "−1", budget.Uncabled: "–",
}

// badgeOf shows a link as it lies: what is not laid, or not tested where it has to be, has a dotted edge and says so.
func badgeOf(b budget.Budget) *paper.Badge {
	switch standing := b.Standing(); standing {
	case budget.ToTest:
		return &paper.Badge{Grade: paper.Uncabled, Text: b.Label() + " test"}
	case budget.ToLay, budget.Faulty:
		return &paper.Badge{Grade: paper.Uncabled, Text: string(standing)}
	default:
		return &paper.Badge{Grade: paper.Role(standing), Text: b.Label()}
	}
}

func (p *printout) scheduleTable() paper.Table {
	const names = 4
	table := paper.Table{
		Columns: []paper.Column{
			{Head: "Link", Face: paper.Mono, Lines: 2, Width: paper.Fit(30)},
			{Head: p.tapeHead(), Lines: 2, Width: paper.Fit(24)},
			{Head: "From", Lines: names, Width: paper.Fill(1)},
			{Head: "To", Lines: names, Width: paper.Fill(1)},
			{Head: "Pieces in order", Width: paper.Fill(1.7)},
			{Head: "Run m", Align: paper.Right, Lines: 3, Width: paper.Fit(17)},
			{Head: "Margin dB", Align: paper.Centre, Width: paper.Fixed(21)},
			{Head: "Watch", Width: paper.Fill(1.1)},
			{Head: "Laid", Align: paper.Centre},
		},
		BlankRows: 2,
		Empty:     "This plan has no link.",
	}
	for _, transport := range p.transports() {
		table.Rows = append(table.Rows, paper.GroupRow(crewTransport(transport)))
		for _, link := range p.Links() {
			if link.Transport == transport {
				b, _ := p.Budget(link.ID)
				table.Rows = append(table.Rows, p.scheduleRow(link, b))
			}
		}
	}
	return table
}

// crewTransport names a transport for whoever plugs it in.
func crewTransport(id plan.TransportID) string {
	transport, err := standards.TransportBySlug(standards.TransportSlug(id))
	switch {
	case err != nil:
		return string(id)
	case transport.NeverIntoNetworkPort:
		return transport.Name + " – NOT NETWORK: never into a network port, at either end"
	}
	return transport.Name
}

func (p *printout) scheduleRow(link plan.Link, b budget.Budget) paper.Row {
	from, to := endsOf(p.Plan, link)
	row := paper.Texts(
		link.Name, tapeOf(link), from, to,
		pieces(p.Plan, b.Parts), runWords(b, metres), "", p.watch(link, b), "",
	)
	if !link.IsSpare() && b.HasMargin() && b.Missing == 0 { // a spare is named as one beside its tape
		row.Cells[6] = paper.Cell{Badge: badgeOf(b)}
	}
	row.Cells[7].Bold = true
	row.Cells[8] = laidCell(link)
	return row
}

// laidSpare stands in the place of a grade or a margin: a spare carries nothing until it is plugged in.
const laidSpare = "laid spare"

// endsOf says where the ends of a link go.
func endsOf(p *plan.Plan, link plan.Link) (from, to string) {
	from, to = endOf(p, link.From, link.FromPort), endOf(p, link.To, link.ToPort)
	if link.IsSpare() {
		return readyAt(from), readyAt(to)
	}
	return from, to
}

// readyAt says of an end of a laid spare that it lies at a port and is not plugged in.
func readyAt(end string) string { return "at " + end + ", unplugged" }

// laidCell is a box to tick, or what is done of a link already; with ? where it was moved since.
func laidCell(link plan.Link) paper.Cell {
	switch {
	case link.Done == "":
		return paper.Cell{Tick: true}
	case link.Moved:
		return paper.Cell{Text: link.Done + space + "?", Bold: true}
	}
	return paper.Cell{Text: link.Done, Bold: true}
}

// tapeHead is the head of the column of tapes, blank where no link has one.
func (p *printout) tapeHead() string {
	for _, link := range p.Links() {
		if tapeOf(link) != "" {
			return "Tape"
		}
	}
	return ""
}

// crumb is what rounding up forgives, in metres.
const crumb = 1e-6

// tapeOf says the colour of a link's tape, and which of a redundant pair it is.
func tapeOf(link plan.Link) string {
	role := link.Role
	if link.IsSpare() {
		role = laidSpare
	}
	return strings.TrimSpace(link.Colour + " " + strings.ToUpper(role))
}

// watch says what the crew must know of a link, the worst first.
func (p *printout) watch(link plan.Link, b budget.Budget) string {
	b = b.Printed(1)
	var said []string
	if b.Grade == budget.Over {
		said = append(said, fmt.Sprintf("over limit by %s dB: do not use", budget.LossTenths(-b.MarginDB)))
	}
	switch {
	case b.Standing() == budget.ToTest:
		said = append(said, "past its stated metres: test before the show")
	case b.TooShort():
		said = append(said, length(b.Missing)+" too short")
	case b.Bare() && b.Missing > 0:
		said = append(said, p.wanted(b))
	}
	if part := b.PartIn(wholeMetres); part != "" {
		said = append(said, part)
	}
	for _, finding := range p.FindingsAt(plan.LinksTable, link.Key()) {
		if words := p.watchFinding(link, finding); words != "" {
			said = append(said, words)
		}
	}
	return strings.Join(said, "; ")
}

// wanted says what a link without any cable needs.
func (p *printout) wanted(b budget.Budget) string {
	said := "uncabled: " + length(b.Missing) + " to go"
	if b.Measured.Wanting() {
		said = "uncabled"
	}
	if kind, found := p.Plan.CableKinds.Get(plan.Key(b.Fill)); found && b.Fill != "" {
		said += ", " + kind.Name + " wanted"
	}
	return said
}

// toldBefore are the rules whose findings the schedule says in its own words, or that are the engineer's.
var toldBefore = []string{
	"over-limit", "too-short", "uncabled", "tight", "above-standard", "past-distance", "delay", "hot", "many-joins", "ringing", "measured",
	"crosstalk", "unknown-name", "clock",
}

// watchFinding says a finding in few words to who lays the link.
func (p *printout) watchFinding(link plan.Link, finding checks.Finding) string {
	switch {
	case slices.Contains(toldBefore, finding.Rule):
		return ""
	case finding.Rule == "crossing":
		_, how, _ := strings.Cut(finding.What, " is crossed ")
		how, _, _ = strings.Cut(how, "by ")
		return strings.TrimRight("crosses "+p.placeName(finding.Where[0])+" "+how, " ")
	case finding.Rule == "same-way" && len(finding.Where) == 2:
		other := finding.Where[0]
		if other.Key == link.Key() {
			other = finding.Where[1]
		}
		return "goes the same way as " + p.placeName(other)
	}
	if finding.Short != "" {
		return finding.Short
	}
	words := strings.TrimLeft(strings.TrimPrefix(finding.What, link.Name), ": ")
	return strings.TrimPrefix(words, "is ")
}

// pieces lists the pieces of a link for the crew, by tag where there is one; what is missing is no piece.
func pieces(p *plan.Plan, parts []budget.Part) string {
	var said []string
	for i := range parts {
		if parts[i].Assumed {
			continue
		}
		if words := pieceWords(p, &parts[i]); words != "" {
			said = append(said, words)
		}
	}
	return strings.Join(said, " + ")
}

func pieceWords(p *plan.Plan, part *budget.Part) string {
	reel, tagged := p.Reels.Get(plan.Key(part.Reel))
	switch {
	case part.What == budget.Coupler:
		return "coupler"
	case part.What == budget.Cable && part.Reel != "" && tagged && reel.Tag != "":
		said := reel.Tag + space + length(part.Length)
		if box, found := p.Cases.Get(plan.Key(reel.Case)); found && reel.Case != "" {
			said += " (" + box.Name + ")"
		}
		return said
	}
	return partWords(p, part)
}
