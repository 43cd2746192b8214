package exchange

import (
	"errors"
	"fmt"
	"strings"

	"stageloom/model/plan"
)

// CaseFields are what a column of a list of cases can mean.
func CaseFields() []Field {
	return []Field{
		{CaseName, []string{"case", "name", "box", "flight case", "flightcase", "crate", "trunk", "number", "no", "kiste", "koffer"}, nil, nil, nil},
		{Note, []string{"note", "notes", "remark", "remarks", "contents", "content", "comment", "comments", "description", "bemerkung"}, nil, nil, nil},
	}
}

// CaseRow is one good row of a list of cases; the case bears no id.
type CaseRow struct {
	Row  int
	Case plan.Case
}

// Cases is a list of cases as read.
type Cases struct {
	Rows   []CaseRow
	Faults []Fault
}

// ReadCases reads the cases of a grid; taken tells which names are in the plan already, nil for none.
func ReadCases(g Grid, l Layout, taken func(name string) bool) Cases {
	r := sheetRows{table: plan.CasesTable, grid: g, layout: l}
	if l.column(CaseName) < 0 {
		return Cases{Faults: []Fault{{Row: max(1, l.Head), Words: "no column is the name of the case: say which one is"}}}
	}
	var rows []CaseRow
	seen := map[string]int{}
	r.each(func() {
		before := len(r.faults)
		box := plan.Case{Name: r.words(CaseName), Note: r.words(Note)}
		key := strings.ToLower(box.Name)
		switch {
		case box.Name == "" && len(r.faults) == before:
			r.fail(CaseName, errors.New("the case has no name"))
		case seen[key] > 0:
			r.fail(CaseName, fmt.Errorf("case %q stands in row %d already", plan.Clipped(box.Name), seen[key]))
		case taken != nil && taken(box.Name):
			r.fail(CaseName, fmt.Errorf("case %q is there already", plan.Clipped(box.Name)))
		}
		if len(r.faults) == before {
			seen[key] = r.number()
			rows = append(rows, CaseRow{r.number(), box})
		}
	})
	return Cases{rows, r.faults}
}
