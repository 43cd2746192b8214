package sources

import (
	"cmp"
	"slices"
	"strings"

	"stageloom/model/assess"
	"stageloom/model/budget"
	"stageloom/model/fields"
	"stageloom/model/medium"
	"stageloom/model/plan"
	"stageloom/model/standards"
	"stageloom/model/words"
	"stageloom/ui/table"
	"stageloom/ui/text"
)

// linkRow is a link with its figures.
type linkRow struct {
	link     plan.Link
	budget   *budget.Budget
	from, to string
	partner  string
}

// Links is a row a link, in the natural order of their names, with what the assessment reckons of each.
func Links(a *assess.Assessment, units words.Units) table.Source {
	rows := make([]linkRow, 0, len(a.Budgets))
	for link, b := range a.InOrder() {
		row := linkRow{link: *link, budget: b, from: endOf(a.Plan, link.From, link.FromPort), to: endOf(a.Plan, link.To, link.ToPort)}
		if partner, paired := a.Plan.Link(link.Partner); paired {
			row.partner = partner.Name
		}
		rows = append(rows, row)
	}
	as := asField[linkRow]{plan.LinksTable, fields.On(a.Plan, a.Reckoner(), units), func(r linkRow) any { return r.link }}
	return &table.List[linkRow]{
		ID: "links", One: "link", Many: "links", Rows: rows,
		First:  "There is no link yet. Put devices on the plan, then drag from a free port of one to another, or press Ctrl K.",
		RefOf:  func(r linkRow) plan.Ref { return plan.RefOf(r.link) },
		NameOf: func(r linkRow) string { return r.link.Name },
		Fields: slices.Concat(linkEnds(as), linkFigures(units), linkWishes(as), linkNotes(as)),
	}
}

// budgetOf is a link's budget in place: budgets are large, and read only here.
func budgetOf(a *assess.Assessment, id plan.LinkID) (*budget.Budget, bool) {
	i, found := slices.BinarySearchFunc(a.Budgets, id, func(b budget.Budget, id plan.LinkID) int { return cmp.Compare(b.Link, id) })
	if !found {
		return nil, false
	}
	return &a.Budgets[i], true
}

func endOf(p *plan.Plan, id plan.DeviceID, port string) string {
	device, _ := p.Device(id)
	return device.Name + " " + port
}

func linkEnds(as asField[linkRow]) []table.ColumnOf[linkRow] {
	return []table.ColumnOf[linkRow]{
		as.column("name", 56),
		{
			Column: column("from", "From", 118, "device and port at the near end, for instance SL AES50 1; what is typed plugs that end in elsewhere."),
			Text:   func(r linkRow) string { return r.from },
			Set: func(e *plan.Edit, ref plan.Ref, typed string) error {
				return fields.SetLinkEnd(e, plan.LinkID(ref.Key), true, typed)
			},
		},
		{
			Column: column("to", "To", 118, "device and port at the far end, for instance FOH AES50 1; what is typed plugs that end in elsewhere."),
			Text:   func(r linkRow) string { return r.to },
			Set: func(e *plan.Edit, ref plan.Ref, typed string) error {
				return fields.SetLinkEnd(e, plan.LinkID(ref.Key), false, typed)
			},
		},
		as.column("transport", 92),
	}
}

func linkFigures(units words.Units) []table.ColumnOf[linkRow] {
	shown := func(r linkRow) budget.Budget { return r.budget.Printed(units.Unit()) } // of the cells that are looked at alone
	return []table.ColumnOf[linkRow]{
		{
			Column: number("run", "Run", 66, "way, rises and slack together; blank while nobody gave the metres of the way."),
			Text: func(r linkRow) string {
				if r.budget.Measured.Wanting() {
					return ""
				}
				return units.NeededTenths(shown(r).Run)
			},
			Value: func(r linkRow) float64 { return numbered(r.budget.Run, !r.budget.Measured.Wanting()) },
		},
		{
			Column: column("source", "Metres", 76, "where the metres of its way have come from: a guess (straight × the plan's factor), drawn, found, paced, taped or what the venue says; doubtful where an end moved since."),
			Text:   func(r linkRow) string { return r.budget.Measured.Words() },
		},
		{
			Column: number("laid", "Cable", 66, "all cables joined in it, whole cables."),
			Text:   func(r linkRow) string { return figureText(shown(r).Laid, units.Tenths) },
			Value:  func(r linkRow) float64 { return r.budget.Laid },
		},
		{
			Column: number("missing", "To go", 60, "what its cables do not reach of the run."),
			Text:   func(r linkRow) string { return figureText(shown(r).Missing, units.NeededTenths) },
			Value:  func(r linkRow) float64 { return numbered(r.budget.Missing, r.budget.Missing > 0) },
			Tone: func(r linkRow) table.Tone {
				if r.budget.TooShort() {
					return table.Tone(budget.Over)
				}
				return table.Usual
			},
		},
		{
			Column: number("joins", "Joins", 46, "joints between its cables."),
			Text:   func(r linkRow) string { return count(r.budget.Joins) },
			Value:  func(r linkRow) float64 { return float64(r.budget.Joins) },
		},
		{
			Column: aside(number("loss", "Loss", 62, medium.References(standards.Transports()...)+", cable as warm as reckoned, catalogue maxima.")),
			Text: func(r linkRow) string {
				if !r.budget.HasMargin() {
					return ""
				}
				return budget.LossTenths(r.budget.LossDB) + " dB"
			},
			Value: func(r linkRow) float64 { return numbered(r.budget.LossDB, r.budget.HasMargin()) },
		},
		{
			Column: aside(number("limit", "Limit", 62, "what its line may lose "+medium.References(standards.Transports()...)+": its loss and its margin together.")),
			Text: func(r linkRow) string {
				if !r.budget.HasMargin() {
					return ""
				}
				_, limit, _ := budget.TenthsLeft(r.budget.LossDB, r.budget.LimitDB)
				return limit + " dB"
			},
			Value: func(r linkRow) float64 { return numbered(r.budget.LimitDB, r.budget.HasMargin()) },
		},
		{
			Column: number("margin", "Margin", 78, "what is left of the limit "+medium.References(standards.Transports()...)+"."),
			Text: func(r linkRow) string {
				if !r.budget.HasMargin() {
					return ""
				}
				return budget.TenthDB(r.budget.MarginDB) + " dB"
			},
			Value: func(r linkRow) float64 { return numbered(r.budget.MarginDB, r.budget.HasMargin()) },
		},
		{
			Column: ranked("grade", "Grade", 80, "as it lies: ample, enough, to be tested past the stated metres, tight, over, faulty, to lay, uncabled; none where the transport carries none."),
			Text:   func(r linkRow) string { return text.GradeWord(r.budget.Standing()) },
			Value: func(r linkRow) float64 {
				return float64(slices.Index(append(budget.Standings(), budget.Ungraded), r.budget.Standing()))
			},
			Tone: func(r linkRow) table.Tone {
				if r.budget.Grade == budget.Ungraded {
					return table.Muted
				}
				return table.Tone(r.budget.Standing())
			},
		},
	}
}

func linkWishes(as asField[linkRow]) []table.ColumnOf[linkRow] {
	return []table.ColumnOf[linkRow]{
		as.column("fill", 190),
		as.aside("typed", 104), as.aside("rise_from", 124), as.aside("rise_to", 112),
		as.aside("slack", 146), as.aside("slack_end", 132), as.aside("temperature", 140), as.aside("wanted", 116),
		as.aside("rule", 200), as.aside("priority", 64), as.aside("most_joins", 82), as.aside("power", 152),
	}
}

// movedMark stands behind what is done of a link that was moved since.
const movedMark = " ?"

func linkNotes(as asField[linkRow]) []table.ColumnOf[linkRow] {
	done := as.column("done", 66)
	said, put := done.Text, done.Set
	done.Kind, done.Help = table.Ranked, done.Help+" With ? it was moved on the plan since."
	done.Value = func(r linkRow) float64 { return float64(slices.Index(plan.Steps(), r.link.Done)) }
	done.Text = func(r linkRow) string {
		if r.link.Moved {
			return said(r) + movedMark
		}
		return said(r)
	}
	done.Set = func(e *plan.Edit, ref plan.Ref, typed string) error {
		return put(e, ref, strings.TrimSuffix(strings.TrimSpace(typed), movedMark))
	}
	return []table.ColumnOf[linkRow]{
		done,
		{
			Column: column("pair", "Pair", 84, "main or backup, and of which link; or a laid spare, which is plugged in nowhere."),
			Text: func(r linkRow) string {
				if r.link.Role == "" || r.partner == "" {
					return fields.RoleWord(r.link.Role)
				}
				return r.link.Role + " of " + r.partner
			},
		},
		as.aside("stands_for", 110), as.column("loom", 74), as.column("colour", 88), as.aside("phase", 82), as.aside("drum", 80), as.aside("from_theirs", 196), as.aside("to_theirs", 190), as.column("note", 160),
	}
}
