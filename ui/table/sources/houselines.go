package sources

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stageloom/model/assess"
	"stageloom/model/plan"
	"stageloom/ui/panel"
	"stageloom/ui/table"
)

// lineRow is a house line with the names of what it refers to.
type lineRow struct {
	line           plan.HouseLine
	kind, from, to string
	links          []string
}

// HouseLines is a row a tie line of the venue, in the natural order of their names.
func HouseLines(a *assess.Assessment, units panel.Units) table.Source {
	p := a.Plan
	used := usedIn(a, func(s plan.Segment) plan.Key { return plan.Key(s.HouseLine) })
	var rows []lineRow
	for line := range p.HouseLines.All() {
		kind, _ := p.CableKinds.Get(plan.Key(line.Kind))
		from, _ := p.Positions.Get(plan.Key(line.FromPosition))
		to, _ := p.Positions.Get(plan.Key(line.ToPosition))
		rows = append(rows, lineRow{line, kind.Name, from.Name, to.Name, used[line.Key()]})
	}
	slices.SortStableFunc(rows, func(x, y lineRow) int { return assess.Natural(x.line.Name, y.line.Name) })
	return &table.List[lineRow]{
		ID: "house lines", One: "house line", Many: "house lines", Rows: rows,
		First:  "There is no house line yet. Press Insert for each tie line that the venue owns.",
		RefOf:  func(r lineRow) plan.Ref { return plan.RefOf(r.line) },
		NameOf: func(r lineRow) string { return r.line.Name },
		Fields: slices.Concat(lineNames(p, units), lineConditions(), lineEnds(p)),
		Add:    addHouseLine,
		Remove: func(e *plan.Edit, refs []plan.Ref) error {
			return eachRef(refs, func(key plan.Key) error { return e.RemoveHouseLine(plan.HouseLineID(key)) })
		},
	}
}

// addHouseLine makes a line like the one under the cursor, and says that it is a guess; without one nobody knows what the venue
// has.
func addHouseLine(e *plan.Edit, at plan.Ref) (plan.Ref, error) {
	like, found := e.Now().HouseLines.Get(at.Key)
	if !found {
		return plan.Ref{}, fmt.Errorf("%w: ask the venue which kind of cable it is and how long, and say both", plan.ErrRefused)
	}
	line := plan.HouseLine{
		Name: fmt.Sprintf("H%02d", e.Now().HouseLines.Len()+1), Kind: like.Kind, Length: like.Length,
		Note: "kind and length guessed, as of " + like.Name,
	}
	return plan.Ref{Table: "house_lines", Key: plan.Key(e.AddHouseLine(line))}, nil
}

func lineNames(p *plan.Plan, units panel.Units) []table.Field[lineRow] {
	kinds := fillKinds(p)
	return []table.Field[lineRow]{
		{
			Column: naming(column("name", "House line", 90, "what the venue calls it.")),
			Text:   func(r lineRow) string { return r.line.Name },
			Set:    named(func(l *plan.HouseLine) *string { return &l.Name }),
		},
		{
			Column:  choice("kind", "Kind", 200, "what cable it is."),
			Text:    func(r lineRow) string { return r.kind },
			Choices: fixed[lineRow](kinds.names...),
			Set:     isOfKind(kinds, false, func(l *plan.HouseLine) *plan.CableKindID { return &l.Kind }),
		},
		{
			Column: number("length", "Length", 70, "from panel to panel, for instance 45 m or 148 ft."),
			Text:   func(r lineRow) string { return units.Metres(r.line.Length) },
			Value:  func(r lineRow) float64 { return r.line.Length },
			Set:    measured(metres(units, 0.1, 10000), false, func(l *plan.HouseLine) *float64 { return &l.Length }),
		},
		{
			Column: number("measured", "Measured", 86, "its loss at 100 MHz as measured, in dB; it then counts instead of the catalogue's."),
			Text:   func(r lineRow) string { return optionalText(r.line.Measured, decibels(0, 200).print) },
			Value:  func(r lineRow) float64 { return optionalValue(r.line.Measured) },
			Set:    optional(decibels(0, 200), func(l *plan.HouseLine) *plan.Optional { return &l.Measured }),
		},
		{
			Column: column("links", "Lies in", 100, "the links that it is part of."),
			Text:   func(r lineRow) string { return strings.Join(r.links, ", ") },
		},
	}
}

// lineConditions are how a line is, as of a reel.
func lineConditions() []table.Field[lineRow] {
	return []table.Field[lineRow]{
		{
			Column:  choice("condition", "Condition", 90, "good, suspect or faulty; a faulty one is laid and picked no more."),
			Text:    func(r lineRow) string { return cmp.Or(r.line.Condition, plan.Good) },
			Tone:    func(r lineRow) table.Tone { return conditionToneOf(r.line.Condition) },
			Choices: fixed[lineRow](plan.Good, plan.Suspect, plan.Faulty),
			Set:     setLineCondition,
		},
		{
			Column: column("reason", "Reason", 140, "why it is suspect or faulty."),
			Text:   func(r lineRow) string { return r.line.Reason },
			Set:    note(func(l *plan.HouseLine) *string { return &l.Reason }),
		},
		{
			Column: aside(column("found at", "Found at", 90, "where that was found.")),
			Text:   func(r lineRow) string { return r.line.FoundAt },
			Set:    words(func(l *plan.HouseLine) *string { return &l.FoundAt }),
		},
		{
			Column: aside(column("found on", "Found on", 84, "the day that it was found.")),
			Text:   func(r lineRow) string { return r.line.FoundOn },
			Set:    dated(func(l *plan.HouseLine) *string { return &l.FoundOn }),
		},
	}
}

func setLineCondition(e *plan.Edit, ref plan.Ref, typed string) error {
	word, err := picked(strings.TrimSpace(typed), []string{plan.Good, plan.Suspect, plan.Faulty})
	if err != nil {
		return err
	}
	line, _ := e.Now().HouseLines.Get(ref.Key)
	return e.MarkHouseLine(line.ID, plan.Mark{Condition: word, Reason: line.Reason, FoundAt: line.FoundAt, FoundOn: line.FoundOn})
}

func lineEnds(p *plan.Plan) []table.Field[lineRow] {
	positions := &catalogued{}
	for position := range p.Positions.All() {
		positions.add(position.Name, string(position.ID))
	}
	choices := fixed[lineRow](append([]string{""}, positions.names...)...)
	return []table.Field[lineRow]{
		{
			Column: column("from panel", "Panel near", 90, "the venue's panel at its near end."),
			Text:   func(r lineRow) string { return r.line.FromPanel },
			Set:    words(func(l *plan.HouseLine) *string { return &l.FromPanel }),
		},
		{
			Column:  choice("from", "Position near", 110, "the position that panel is at; blank is none."),
			Text:    func(r lineRow) string { return r.from },
			Choices: choices,
			Set:     refers(positions, func(l *plan.HouseLine, id string) { l.FromPosition = plan.PositionID(id) }),
		},
		{
			Column: column("to panel", "Panel far", 90, "the venue's panel at its far end."),
			Text:   func(r lineRow) string { return r.line.ToPanel },
			Set:    words(func(l *plan.HouseLine) *string { return &l.ToPanel }),
		},
		{
			Column:  choice("to", "Position far", 110, "the position that panel is at; blank is none."),
			Text:    func(r lineRow) string { return r.to },
			Choices: choices,
			Set:     refers(positions, func(l *plan.HouseLine, id string) { l.ToPosition = plan.PositionID(id) }),
		},
		{
			Column: column("note", "Note", 160, "anything the crew should know."),
			Text:   func(r lineRow) string { return r.line.Note },
			Set:    note(func(l *plan.HouseLine) *string { return &l.Note }),
		},
	}
}
