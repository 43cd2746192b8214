package sources

import (
	"fmt"

	"stageloom/model/assess"
	"stageloom/model/fields"
	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/table"
)

// actRow is an act with the consoles that it brings.
type actRow struct {
	plan.Act
	own int
}

// Acts is a row an act in the order of the running list. The house is no row: what no act says, it says.
func Acts(a *assess.Assessment, units words.Units) table.Source {
	var rows []actRow
	for _, act := range a.Patch.Acts {
		if act.House() {
			continue
		}
		row := actRow{Act: act.Act}
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
		Fields: actColumns(asField[actRow]{plan.ActsTable, fields.On(a.Plan, a.Reckoner(), units), func(r actRow) any { return r.Act }}),
		Add: func(e *plan.Edit, _ plan.Ref) (plan.Ref, error) {
			if e.Now().Acts.Len() >= mostActs {
				return plan.Ref{}, fmt.Errorf("%d acts are there already", mostActs)
			}
			name := fmt.Sprintf("Act %d", e.Now().Acts.Len()+1)
			return plan.Ref{Table: plan.ActsTable, Key: plan.Key(patch.AddAct(e, name))}, nil
		},
		Remove: func(e *plan.Edit, refs []plan.Ref) error {
			return eachRef(refs, func(key plan.Key) error { e.RemoveAct(plan.ActID(key)); return nil })
		},
	}
}

const mostActs = 999

func actColumns(as asField[actRow]) []table.ColumnOf[actRow] {
	return []table.ColumnOf[actRow]{
		as.column("order", 50), as.column("name", 150), as.column("stage", 100), as.column("start", 60), as.column("end", 60), as.aside("check_by", 110), as.aside("check_start", 100), as.aside("check_seconds", 130),
		as.column("guests", 210),
		{
			Column: number("own", "Different", 84, "how many inputs it has different from the house."),
			Text:   func(r actRow) string { return count(r.own) },
			Value:  func(r actRow) float64 { return float64(r.own) },
		},
		as.column("note", 200),
	}
}
