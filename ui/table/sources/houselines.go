package sources

import (
	"fmt"
	"slices"
	"strings"

	"stageloom/model/assess"
	"stageloom/model/fields"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/table"
)

// lineRow is a house line with the names of what it refers to.
type lineRow struct {
	line           plan.HouseLine
	kind, from, to string
	links          []string
}

// HouseLines is a row a tie line of the venue, in the natural order of their names.
func HouseLines(a *assess.Assessment, units words.Units) table.Source {
	p := a.Plan
	used := usedIn(a, func(s plan.Segment) plan.Key { return plan.Key(s.HouseLine) })
	var rows []lineRow
	for line := range p.HouseLines.All() {
		kind, _ := p.CableKinds.Get(plan.Key(line.Kind))
		from, _ := p.Positions.Get(plan.Key(line.FromPosition))
		to, _ := p.Positions.Get(plan.Key(line.ToPosition))
		rows = append(rows, lineRow{line, kind.Name, from.Name, to.Name, used[line.Key()]})
	}
	slices.SortStableFunc(rows, func(x, y lineRow) int { return words.Natural(x.line.Name, y.line.Name) })
	return &table.List[lineRow]{
		ID: "house lines", One: "house line", Many: "house lines", Rows: rows,
		First:  "There is no house line yet. Press Insert for each tie line that the venue owns.",
		RefOf:  func(r lineRow) plan.Ref { return plan.RefOf(r.line) },
		NameOf: func(r lineRow) string { return r.line.Name },
		Fields: lineFields(asField[lineRow]{plan.HouseLinesTable, fields.On(p, a.Reckoner(), units), func(r lineRow) any { return r.line }}),
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
	return plan.Ref{Table: plan.HouseLinesTable, Key: plan.Key(e.AddHouseLine(line))}, nil
}

func lineFields(as asField[lineRow]) []table.ColumnOf[lineRow] {
	condition := as.column("condition", 90)
	condition.Tone = func(r lineRow) table.Tone { return conditionToneOf(r.line.Condition) }
	return []table.ColumnOf[lineRow]{
		as.column("name", 90), as.column("kind", 200), as.column("length", 70), as.column("measured", 110),
		{
			Column: column("links", "Lies in", 100, "the links that it is part of."),
			Text:   func(r lineRow) string { return strings.Join(r.links, ", ") },
		},
		condition, as.column("reason", 140), as.aside("found_at", 90), as.aside("found_on", 90),
		as.column("from_panel", 110), as.column("from_position", 110), as.column("to_panel", 110), as.column("to_position", 110),
		as.aside("note", 160),
	}
}
