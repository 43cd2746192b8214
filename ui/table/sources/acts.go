package sources

import (
	"fmt"
	"strconv"
	"strings"

	"stageloom/model/assess"
	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/ui/panel"
	"stageloom/ui/table"
)

// actRow is an act with the consoles that it brings.
type actRow struct {
	plan.Act
	guests string
	own    int
}

// Acts is a row an act in the order of the running list. The house is no row: what no act says, it says.
func Acts(a *assess.Assessment, units panel.Units) table.Source {
	var rows []actRow
	for _, act := range a.Patch.Acts {
		if act.House() {
			continue
		}
		row := actRow{Act: act.Act, guests: guestWords(a.Plan, act.Act.ID, units)}
		for _, line := range act.Lines {
			if a.Patch.Differs(act, line) {
				row.own++
			}
		}
		rows = append(rows, row)
	}
	return &table.List[actRow]{
		ID: "acts", One: "act", Many: "acts", Rows: rows,
		First:  "There is no act: one patch holds for the whole show. Press Insert where bands change.",
		RefOf:  func(r actRow) plan.Ref { return plan.RefOf(r.Act) },
		NameOf: func(r actRow) string { return r.Name },
		Fields: actFields(a.Patch, units),
		Add: func(e *plan.Edit, _ plan.Ref) (plan.Ref, error) {
			if e.Now().Acts.Len() >= mostActs {
				return plan.Ref{}, fmt.Errorf("%d acts are there already", mostActs)
			}
			name := fmt.Sprintf("Act %d", e.Now().Acts.Len()+1)
			return plan.Ref{Table: "acts", Key: plan.Key(patch.AddAct(e, name))}, nil
		},
		Remove: func(e *plan.Edit, refs []plan.Ref) error {
			return eachRef(refs, func(key plan.Key) error { e.RemoveAct(plan.ActID(key)); return nil })
		},
	}
}

const mostActs = 999

func actFields(v *patch.View, units panel.Units) []table.Field[actRow] {
	return []table.Field[actRow]{
		{
			Column: number("order", "Order", 50, "its place in the running list; another number moves it there."),
			Text:   func(r actRow) string { return strconv.Itoa(r.Order) },
			Value:  func(r actRow) float64 { return float64(r.Order) },
			Set: func(e *plan.Edit, ref plan.Ref, typed string) error {
				place, err := strconv.Atoi(strings.TrimSpace(typed))
				if err != nil || place < 1 || place > mostActs {
					return fmt.Errorf("%q is no whole number from 1 to %d", typed, mostActs)
				}
				return patch.MoveAct(e, plan.ActID(ref.Key), place)
			},
		},
		{
			Column: naming(column("name", "Act", 150, "the band, or whatever comes on.")),
			Text:   func(r actRow) string { return r.Name },
			Set:    named(func(l *plan.Act) *string { return &l.Name }),
		},
		{
			Column: column("stage", "Stage", 100, "the stage that it plays on; acts of one stage follow each other."),
			Text:   func(r actRow) string { return r.Stage },
			Set:    words(func(l *plan.Act) *string { return &l.Stage }),
		},
		{
			Column: column("start", "From", 60, "when it begins, as the running list has it: 20:15."),
			Text:   func(r actRow) string { return r.Start },
			Set:    words(func(l *plan.Act) *string { return &l.Start }),
		},
		{
			Column: column("end", "Until", 60, "when it ends."),
			Text:   func(r actRow) string { return r.End },
			Set:    words(func(l *plan.Act) *string { return &l.End }),
		},
		{
			Column: column("guests", "Guest consoles", 210, "consoles that it alone brings, by name, parted by semicolons; “at” names the drop that one plugs into, “tail” the cable from there: Guest FOH at FOH drop, tail 5 m of Cat 6A tail."),
			Text:   func(r actRow) string { return r.guests },
			Set: func(e *plan.Edit, ref plan.Ref, typed string) error {
				guests, err := readGuests(e.Now(), v, plan.ActID(ref.Key), units, typed)
				if err != nil {
					return err
				}
				return patch.Bring(e, plan.ActID(ref.Key), guests)
			},
		},
		{
			Column: number("own", "Own rows", 84, "how many inputs it has otherwise than the house."),
			Text:   func(r actRow) string { return count(r.own) },
			Value:  func(r actRow) float64 { return float64(r.own) },
		},
		{
			Column: column("note", "Note", 200, "anything the crew should know."),
			Text:   func(r actRow) string { return r.Note },
			Set:    note(func(l *plan.Act) *string { return &l.Note }),
		},
	}
}
