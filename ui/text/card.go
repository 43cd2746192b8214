package text

import (
	"fmt"
	"slices"
	"strings"

	"stageloom/model/assess"
	"stageloom/model/budget"
	"stageloom/model/checks"
	"stageloom/model/fields"
	"stageloom/model/geom"
	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/model/words"
)

// Card is what the panel on the right says about the selection.
type Card struct {
	Title    string
	Kind     string
	Subtitle string
	Figures  []Figure
	// Link is the link the card is about, if it is about one; its curve is drawn below.
	Link     plan.LinkID
	Grade    budget.Grade
	Findings []checks.Finding
	// Stale tells that the findings are those of before a drag, and the figures those of this moment.
	Stale bool
}

// Figure is one figure of a card: what it is, the figure itself, and what it means in small words. One without name and figure
// is the small words alone.
type Figure struct{ Name, Value, Note string }

// Preview is what a drag shows while the plan is as before: what moves, how far in metres, and the budgets of the
// links that stretch. The zero Preview is no drag.
type Preview struct {
	Moving  plan.Moving
	By      geom.Point
	Budgets []budget.Budget
}

// CardOf says what there is to say about the selection: one row, several, or the plan when nothing is selected.
// preview follows a drag.
func CardOf(a *assess.Assessment, selection []plan.Ref, units words.Units, preview Preview) Card {
	card := cardOf(a, selection, units, preview)
	card.Stale = len(card.Findings) > 0 && preview.Runs()
	return card
}

// Runs reports whether something moves, so that findings, which are those of before it, are told apart from live figures.
func (p Preview) Runs() bool { return !p.Moving.Empty() || p.Budgets != nil }

func cardOf(a *assess.Assessment, selection []plan.Ref, units words.Units, preview Preview) Card {
	if len(selection) > 1 {
		return severalCard(a, selection)
	}
	if len(selection) == 1 && selection[0].Exists(a.Plan) {
		switch ref := selection[0]; ref.Table {
		case plan.LinksTable:
			return linkCard(a, plan.LinkID(ref.Key), units, preview)
		case plan.DevicesTable:
			return deviceCard(a, plan.DeviceID(ref.Key), units, preview)
		case plan.PositionsTable:
			return positionCard(a, plan.PositionID(ref.Key), units, preview)
		case plan.AreasTable:
			return areaCard(a, plan.AreaID(ref.Key))
		case plan.SegmentsTable:
			return segmentCard(a, ref.Key, units)
		case plan.ReelsTable:
			return reelCard(a, ref.Key, units)
		case plan.LoomsTable:
			return loomCard(a, ref.Key, units)
		default:
			if card, known := listCard(a, ref, units); known {
				return card
			}
		}
	}
	return planCard(a, units)
}

// BudgetOf is a link's budget, that of the preview where the link is in it.
func BudgetOf(a *assess.Assessment, id plan.LinkID, preview Preview) (budget.Budget, bool) {
	for i := range preview.Budgets {
		if preview.Budgets[i].Link == id {
			return preview.Budgets[i], true
		}
	}
	return a.Budget(id)
}

func linkCard(a *assess.Assessment, id plan.LinkID, units words.Units, preview Preview) Card {
	link, _ := a.Plan.Link(id)
	b, _ := BudgetOf(a, id, preview)
	c := Card{
		Title: "Link " + link.Name, Kind: b.TransportName, Link: id, Grade: b.Standing(),
		Subtitle: EndOf(a.Plan, link.From, link.FromPort) + " → " + EndOf(a.Plan, link.To, link.ToPort),
		Findings: a.FindingsAt(plan.LinksTable, link.Key()),
	}
	if link.Role != "" {
		c.Kind += " · " + fields.RoleWord(link.Role)
	}
	if loom, found := a.Plan.Looms.Get(plan.Key(link.Loom)); found {
		c.Kind += " · " + loom.Name
	}
	b = b.Printed(units.Unit())
	c.lengths(a.Plan, b, units)
	c.losses(b, units)
	c.tape(a.Plan, link)
	c.sayOnce()
	return c
}

// marginName is the figure that a link's grade is about.
const marginName = "margin"

// GradeOf is the grade that a figure of the card stands in; Ungraded for a figure that has none.
func (c Card) GradeOf(f Figure) budget.Grade {
	if f.Name == marginName && c.Link != "" {
		return c.Grade
	}
	return budget.Ungraded
}

// sayOnce takes away what small words under a figure say where a finding says the same below.
func (c *Card) sayOnce() {
	for i, figure := range c.Figures {
		said, _, _ := strings.Cut(figure.Note, ";")
		for _, finding := range c.Findings {
			if said != "" && strings.Contains(finding.What, said) {
				c.Figures[i].Note = ""
			}
		}
	}
}

// tape tells the colour of the tape at both ends of a link, if it has any.
func (c *Card) tape(p *plan.Plan, link plan.Link) {
	colour, note := p.TapeColour(link), "at both ends"
	if loom, found := p.Looms.Get(plan.Key(link.Loom)); found && strings.TrimSpace(link.Colour) == "" {
		note += ", that of the loom " + loom.Name
	}
	if colour != "" {
		c.add("tape", colour, note)
	}
}

// lengths tells of a link's run, and of the cable that lies and is missing.
func (c *Card) lengths(p *plan.Plan, b budget.Budget, units words.Units) {
	if b.Measured.Wanting() {
		c.add("run", "not known", "nobody gave its metres: type its way, for instance 62 m, paced")
	} else {
		c.add("run", units.Needed(b.Run), b.Sum(units.Needed))
	}
	c.add("slack", units.Needed(b.Slack), b.SlackWhy(units.Metres))
	c.add("cables", units.Metres(b.Laid), cablesNote(p, b, units))
	if b.Missing > 0 && !b.Measured.Wanting() {
		name := "too short by"
		if b.Bare() {
			name = "to go"
		}
		c.add(name, units.Needed(b.Missing), fillNote(p, b))
	}
}

// losses tells what a link loses of its limit.
func (c *Card) losses(b budget.Budget, units words.Units) {
	if !b.Graded {
		c.add("loss", "–", b.TransportName+" carries no grade here")
		return
	}
	if b.HasMargin() {
		note := fmt.Sprintf("%s, cable %s, whole cables", b.Reference(), quantity.PrintTemperature(b.TemperatureC, units.Temperature, 0))
		if b.Assumed() {
			note += ", the missing part assumed"
		}
		c.add("loss", budget.LossTenths(b.OwnDB)+" dB", note)
	}
	c.line(b, units)
	c.add("limit", fmt.Sprintf("%.1f dB", b.LimitDB), ruleName(b.Rule))
	if b.HasMargin() {
		c.add(marginName, budget.TenthDB(b.MarginDB)+" dB", b.WhyIn(units.Needed))
	} else {
		c.add(marginName, "–", b.WhyIn(units.Needed))
	}
}

// line tells of the electrical line that a link is a piece of: what comes to its own loss, and the sum as it prints.
func (c *Card) line(b budget.Budget, units words.Units) {
	if b.Whole == nil || !b.HasMargin() {
		return
	}
	var parts []string
	for i, tenths := range b.Whole.Tenths() {
		step := b.Whole.Steps[i]
		name := step.Name
		if step.Guest {
			name = "tail of " + name
		}
		parts = append(parts, fmt.Sprintf("%s %s", name, tenths))
	}
	c.add("loss of the line", budget.LossTenths(b.LossDB)+" dB", strings.Join(parts, " + ")+", "+units.Needed(b.LineLength())+" of cable in all")
}

func (c *Card) add(name, value, note string) {
	c.Figures = append(c.Figures, Figure{name, value, note})
}

// EndOf names an end of a link: its device and port.
func EndOf(p *plan.Plan, id plan.DeviceID, port string) string {
	device, _ := p.Device(id)
	return device.Name + " " + port
}

// cablesNote lists the lengths as they join: "70 m + 45 m, one coupler".
func cablesNote(p *plan.Plan, b budget.Budget, units words.Units) string {
	var lengths []string
	for _, part := range b.Parts {
		if part.What == budget.Cable && !part.Assumed {
			lengths = append(lengths, units.Piece(part.Length))
		}
	}
	if len(lengths) == 0 {
		return "no cable yet"
	}
	return strings.Join(lengths, " + ") + ", " + joins(b.Joins)
}

func joins(n int) string {
	switch n {
	case 0:
		return "no join"
	case 1:
		return "one join"
	}
	return fmt.Sprintf("%d joins", n)
}

func fillNote(p *plan.Plan, b budget.Budget) string {
	if b.Fill == "" {
		return "no kind of cable chosen for the rest"
	}
	kind, _ := p.CableKinds.Get(plan.Key(b.Fill))
	return "reckoned as " + kind.Name
}

func severalCard(a *assess.Assessment, selection []plan.Ref) Card {
	counts := map[string]int{}
	for _, ref := range selection {
		counts[ref.Table]++
	}
	c := Card{Title: fmt.Sprintf("%d selected", len(selection))}
	for _, table := range []string{plan.PositionsTable, plan.DevicesTable, plan.LinksTable, plan.AreasTable, plan.LoomsTable, plan.SegmentsTable, plan.ReelsTable} {
		if n := counts[table]; n > 0 {
			c.add(strings.Replace(table, "segments", "cables", 1), fmt.Sprint(n), "")
		}
	}
	c.Findings = findingsOf(a, selection)
	return c
}

// findingsOf are the findings that speak of any of several rows, each once, in the order of the assessment.
func findingsOf(a *assess.Assessment, selection []plan.Ref) (all []checks.Finding) {
	chosen := make(map[checks.Place]bool, len(selection))
	for _, ref := range selection {
		chosen[checks.Place{Table: ref.Table, Key: ref.Key}] = true
	}
	for _, finding := range a.Findings {
		if slices.ContainsFunc(finding.Where, func(place checks.Place) bool { return chosen[place] }) {
			all = append(all, finding)
		}
	}
	return all
}

func areaCard(a *assess.Assessment, id plan.AreaID) Card {
	area, _ := a.Plan.Areas.Get(plan.Key(id))
	return Card{Title: area.Name, Kind: "area", Subtitle: strings.ReplaceAll(area.Use, "-", " "), Findings: a.FindingsAt(plan.AreasTable, area.Key())}
}
