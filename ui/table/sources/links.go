package sources

import (
	"cmp"
	"slices"
	"strings"

	"stageloom/model/assess"
	"stageloom/model/budget"
	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/ui/panel"
	"stageloom/ui/table"
)

// linkRow is a link with its figures.
type linkRow struct {
	link     plan.Link
	budget   *budget.Budget
	shown    budget.Budget
	from, to string
	kind     string
	loom     string
	partner  string
}

// Links is a row a link, in the natural order of their names, with what the assessment reckons of each.
func Links(a *assess.Assessment, units panel.Units) table.Source {
	var rows []linkRow
	for _, link := range a.Links() {
		b, found := budgetOf(a, link.ID)
		if !found {
			continue
		}
		row := linkRow{link: link, budget: b, shown: units.Shown(*b), from: endOf(a.Plan, link.From, link.FromPort), to: endOf(a.Plan, link.To, link.ToPort)}
		kind, _ := a.Plan.CableKinds.Get(plan.Key(link.FillKind))
		loom, _ := a.Plan.Looms.Get(plan.Key(link.Loom))
		partner, _ := a.Plan.Link(link.Partner)
		row.kind, row.loom, row.partner = kind.Name, loom.Name, partner.Name
		rows = append(rows, row)
	}
	return &table.List[linkRow]{
		ID: "links", One: "link", Many: "links", Rows: rows,
		First:  "There is no link yet. Put devices on the plan, then drag from a free port of one to another, or press Ctrl K.",
		RefOf:  func(r linkRow) plan.Ref { return plan.RefOf(r.link) },
		NameOf: func(r linkRow) string { return r.link.Name },
		Fields: slices.Concat(linkEnds(), linkFigures(units), linkWishes(a, units), linkNotes(a.Plan)),
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

func linkEnds() []table.Field[linkRow] {
	return []table.Field[linkRow]{
		{
			Column: naming(column("name", "Link", 56, "what it is called on plan and labels.")),
			Text:   func(r linkRow) string { return r.link.Name },
			Set:    named(func(l *plan.Link) *string { return &l.Name }),
		},
		{
			Column: column("from", "From", 118, "device and port at the near end."),
			Text:   func(r linkRow) string { return r.from },
		},
		{
			Column: column("to", "To", 118, "device and port at the far end."),
			Text:   func(r linkRow) string { return r.to },
		},
		{
			Column: column("transport", "Transport", 92, "what goes over it."),
			Text:   func(r linkRow) string { return r.budget.TransportName },
		},
	}
}

func linkFigures(units panel.Units) []table.Field[linkRow] {
	return []table.Field[linkRow]{
		{
			Column: number("run", "Run", 66, "way, rises and slack together; blank while nobody gave the metres of the way."),
			Text: func(r linkRow) string {
				if r.budget.Measured.Wanting() {
					return ""
				}
				return units.Needed(r.shown.Run)
			},
			Value: func(r linkRow) float64 { return numbered(r.budget.Run, !r.budget.Measured.Wanting()) },
		},
		{
			Column: column("source", "Metres", 76, "where the metres of its way have come from: a guess (straight × the plan's factor), drawn, found, paced, taped or what the venue says; doubtful where an end moved since."),
			Text:   func(r linkRow) string { return r.budget.Measured.Words() },
		},
		{
			Column: number("laid", "Cable", 66, "all cables joined in it, whole cables."),
			Text:   func(r linkRow) string { return figureText(r.shown.Laid, units.Metres) },
			Value:  func(r linkRow) float64 { return r.budget.Laid },
		},
		{
			Column: number("missing", "To go", 60, "what its cables do not reach of the run."),
			Text:   func(r linkRow) string { return figureText(r.shown.Missing, units.Needed) },
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
			Column: aside(number("loss", "Loss", 62, "at 100 MHz, cable as warm as reckoned, catalogue maxima.")),
			Text: func(r linkRow) string {
				if !r.budget.HasMargin() {
					return ""
				}
				return budget.LossTenths(r.budget.LossDB) + " dB"
			},
			Value: func(r linkRow) float64 { return numbered(r.budget.LossDB, r.budget.HasMargin()) },
		},
		{
			Column: number("margin", "Margin", 78, "what is left of the limit at 100 MHz."),
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
			Text:   func(r linkRow) string { return panel.GradeWord(r.budget.Standing()) },
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

func linkWishes(a *assess.Assessment, units panel.Units) []table.Field[linkRow] {
	temperature := degrees(units, -20, 60)
	kinds := fillKinds(a.Plan)
	return []table.Field[linkRow]{
		{
			Column:  choice("fill", "Wanted kind", 190, "the kind its missing metres are reckoned as and picked from; blank is none."),
			Text:    func(r linkRow) string { return r.kind },
			Choices: func(r linkRow) []string { return fitting(a.Plan, r.link) },
			Set:     isOfKind(kinds, true, func(l *plan.Link) *plan.CableKindID { return &l.FillKind }),
		},
		{
			Column: aside(number("typed way", "Way as typed", 104, "the length of the way as somebody gave it, for instance 62 m, paced; it stands for what the plan measures. Blank takes it back.")),
			Text:   func(r linkRow) string { return panel.TypedText(r.link, units) },
			Value:  func(r linkRow) float64 { return numbered(r.link.TypedWay, r.link.TypedWay > 0) },
			Set:    updates(func(row *plan.Link, typed string) error { return panel.SetTyped(row, typed, units) }),
		},
		{
			Column: aside(number("rise from", "Rise near", 70, "up or down at the near end, for instance 4 m or 12 ft.")),
			Text:   func(r linkRow) string { return figureText(r.link.RiseFrom, units.Metres) },
			Value:  func(r linkRow) float64 { return r.link.RiseFrom },
			Set:    measured(metres(units, 0, 500), true, func(l *plan.Link) *float64 { return &l.RiseFrom }),
		},
		{
			Column: aside(number("rise to", "Rise far", 70, "up or down at the far end, for instance 4 m or 12 ft.")),
			Text:   func(r linkRow) string { return figureText(r.link.RiseTo, units.Metres) },
			Value:  func(r linkRow) float64 { return r.link.RiseTo },
			Set:    measured(metres(units, 0, 500), true, func(l *plan.Link) *float64 { return &l.RiseTo }),
		},
		{
			Column: aside(number("slack", "Slack", 60, "share of the way added along it; blank is the plan's, or 0 to 10 % by where its metres come from.")),
			Text:   func(r linkRow) string { return optionalText(r.link.SlackPercent, percent(0, 100).print) },
			Value:  func(r linkRow) float64 { return optionalValue(r.link.SlackPercent) },
			Set:    optional(percent(0, 100), func(l *plan.Link) *plan.Optional { return &l.SlackPercent }),
		},
		{
			Column: aside(number("slack end", "Slack at ends", 84, "added at each end; blank is the plan's, or by what stands there.")),
			Text:   func(r linkRow) string { return optionalText(r.link.SlackEnd, units.Metres) },
			Value:  func(r linkRow) float64 { return optionalValue(r.link.SlackEnd) },
			Set:    optional(metres(units, 0, 100), func(l *plan.Link) *plan.Optional { return &l.SlackEnd }),
		},
		{
			Column: aside(number("temperature", "Cable at", 66, "temperature of its cable, for instance 30 °C or 86 °F; blank is by plan and place.")),
			Text:   func(r linkRow) string { return optionalText(r.link.Temperature, temperature.print) },
			Value:  func(r linkRow) float64 { return optionalValue(r.link.Temperature) },
			Set:    optional(temperature, func(l *plan.Link) *plan.Optional { return &l.Temperature }),
		},
		{
			Column: aside(number("wanted", "Wanted", 64, "margin it should have, 1 to 20 dB; blank is the plan's.")),
			Text: func(r linkRow) string {
				return optionalText(r.link.WantedMargin, func(dB float64) string { return quantity.PrintDecibels(dB, 1) })
			},
			Value: func(r linkRow) float64 { return optionalValue(r.link.WantedMargin) },
			Set:   optional(decibels(1, 20), func(l *plan.Link) *plan.Optional { return &l.WantedMargin }),
		},
		{
			Column: aside(number("priority", "Priority", 60, "0 to 9 for the picking of cables; higher is served first.")),
			Text:   func(r linkRow) string { return count(r.link.Priority) },
			Value:  func(r linkRow) float64 { return float64(r.link.Priority) },
			Set:    whole(0, 9, func(l *plan.Link) *int { return &l.Priority }),
		},
		{
			Column: aside(number("most joins", "Most joins", 72, "the most joints it may have, 0 to 31; blank is no bound.")),
			Text:   func(r linkRow) string { return count(r.link.MaxJoins) },
			Value:  func(r linkRow) float64 { return float64(r.link.MaxJoins) },
			Set:    whole(0, 31, func(l *plan.Link) *int { return &l.MaxJoins }),
		},
	}
}

// movedMark stands behind what is done of a link that was moved since.
const movedMark = " ?"

func linkNotes(p *plan.Plan) []table.Field[linkRow] {
	return []table.Field[linkRow]{
		{
			Column: ranked("done", "On site", 62, "what is done of it on site: laid, joined or tested, each with those before it; with ? it was moved on the plan since."),
			Text: func(r linkRow) string {
				if r.link.Moved {
					return r.link.Done + movedMark
				}
				return r.link.Done
			},
			Value:   func(r linkRow) float64 { return float64(slices.Index(plan.Steps(), r.link.Done)) },
			Choices: fixed[linkRow](append([]string{""}, plan.Steps()...)...),
			Set: func(e *plan.Edit, ref plan.Ref, typed string) error {
				step, err := picked(strings.TrimSuffix(strings.TrimSpace(typed), movedMark), append([]string{""}, plan.Steps()...))
				if err != nil {
					return err
				}
				return e.SetDone(plan.LinkID(ref.Key), step)
			},
		},
		{
			Column: column("pair", "Pair", 84, "main or backup, and of which link; or a laid spare, which is plugged in nowhere."),
			Text: func(r linkRow) string {
				if r.link.Role == "" || r.partner == "" {
					return panel.RoleWord(r.link.Role)
				}
				return r.link.Role + " of " + r.partner
			},
		},
		standsFor(p),
		{
			Column: column("loom", "Loom", 74, "the loom that it is laid in."),
			Text:   func(r linkRow) string { return r.loom },
		},
		{
			Column: column("tape", "Tape", 62, "colour of the tape at both ends."),
			Text:   func(r linkRow) string { return r.link.Colour },
			Set:    words(func(l *plan.Link) *string { return &l.Colour }),
		},
		{
			Column: aside(number("phase", "Lay", 44, "in which phase it is laid, 1 to 99.")),
			Text:   func(r linkRow) string { return count(r.link.LayPhase) },
			Value:  func(r linkRow) float64 { return numbered(float64(r.link.LayPhase), r.link.LayPhase > 0) },
			Set:    whole(0, 99, func(l *plan.Link) *int { return &l.LayPhase }),
		},
		{
			Column: column("note", "Note", 160, "anything the crew should know."),
			Text:   func(r linkRow) string { return r.link.Note },
			Set:    note(func(l *plan.Link) *string { return &l.Note }),
		},
	}
}
