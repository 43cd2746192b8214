package sources

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"stageloom/model/assess"
	"stageloom/model/checks"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/table"
	"stageloom/ui/text"
)

// Finding is a finding with the names of what it speaks of.
type Finding struct {
	checks.Finding
	ref   plan.Ref
	where string
}

// FixColumn is the name of the column on which Enter offers what would certainly mend a finding.
const FixColumn = "fix"

// Findings is a row a finding, the worst first.
func Findings(a *assess.Assessment, _ words.Units) table.Source {
	fixed := checks.FixedRules()
	seen := map[plan.Ref]int{}
	var rows []Finding
	for _, finding := range a.Findings {
		row := Finding{Finding: finding, ref: plan.Ref{Table: "findings", Key: plan.Key(finding.Rule)}}
		var names []string
		for _, place := range finding.Where {
			row.ref.Key += plan.Key("/" + place.Table + "/" + string(place.Key))
			names = append(names, text.NameOf(a.Plan, plan.Ref{Table: place.Table, Key: place.Key}))
		}
		if n := seen[row.ref]; n > 0 {
			row.ref.Part = fmt.Sprint(n)
		}
		seen[plan.Ref{Table: row.ref.Table, Key: row.ref.Key}]++
		row.where = strings.Join(names, ", ")
		rows = append(rows, row)
	}
	return &table.List[Finding]{
		ID: "findings", One: "finding", Many: "findings", Rows: rows,
		First:   "There is no finding: nothing in this plan stops the show, and nothing is worth a warning.",
		RefOf:   func(f Finding) plan.Ref { return f.ref },
		NameOf:  func(f Finding) string { return "finding on " + f.where },
		ShowsOf: Finding.places,
		WholeOf: func(f Finding) string { return words.Sentence(errors.New(f.What)) + " " + f.Remedy },
		Fields:  findingFields(fixed),
	}
}

func (f Finding) places() (refs []plan.Ref) {
	for _, place := range f.Where {
		refs = append(refs, plan.Ref{Table: place.Table, Key: place.Key})
	}
	return refs
}

func findingFields(fixed []string) []table.ColumnOf[Finding] {
	return []table.ColumnOf[Finding]{
		{
			Column: ranked("severity", "Severity", 76, "stop: it does not work or must not be used; warn: somebody has to accept a risk; note: worth knowing."),
			Text:   func(f Finding) string { return f.Severity.String() },
			Value:  func(f Finding) float64 { return float64(f.Severity) },
			Tone: func(f Finding) table.Tone {
				return map[checks.Severity]table.Tone{checks.Stop: table.Stop, checks.Warn: table.Warn, checks.Note: table.Muted}[f.Severity]
			},
		},
		{
			Column: column("where", "Where", 110, "what it speaks of; Enter shows it on the plan."),
			Text:   func(f Finding) string { return f.where },
		},
		{
			Column: column("what", "What", 330, "what was found."),
			Text:   func(f Finding) string { return f.What },
		},
		{
			Column: column("cure", "Cure", 330, "what would mend it."),
			Text:   func(f Finding) string { return f.Remedy },
		},
		{
			Column: column(FixColumn, "Fix", 60, "Enter offers what would certainly mend it, as one step that undo takes back."),
			Text: func(f Finding) string {
				if slices.Contains(fixed, f.Rule) {
					return "offer…"
				}
				return ""
			},
		},
	}
}

// FindingAt is the finding of a row, where the source is that of findings.
func FindingAt(source table.Source, row int) (checks.Finding, bool) {
	list, ok := source.(*table.List[Finding])
	if !ok {
		return checks.Finding{}, false
	}
	return list.Rows[row].Finding, true
}
