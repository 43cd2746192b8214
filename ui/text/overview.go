package text

import (
	"fmt"
	"slices"

	"stageloom/model/assess"
	"stageloom/model/budget"
	"stageloom/model/checks"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// Item is one piece of the line that tells the whole plan. Its rows are where a click goes, one after the other.
type Item struct {
	// Grade is the grade whose line is drawn before it; Line tells that there is one.
	Grade budget.Grade
	Line  bool
	Count int
	Words string
	Rows  []plan.Ref
	// Finding tells that it counts findings, of a severity.
	Finding  bool
	Severity checks.Severity
	// Stale tells that it counts what was before a drag, beside grades of this moment.
	Stale bool
}

// OverviewOf tells the whole plan: links by grade, what is too short, findings by severity. What counts nothing
// is left out, save the grades. preview follows a drag; findings are those of before it.
func OverviewOf(a *assess.Assessment, preview Preview) []Item {
	var spares, tooShort []plan.Ref
	all := make([]plan.Ref, 0, len(a.Budgets))
	standing := map[budget.Grade][]plan.Ref{}
	moving := make(map[plan.LinkID]*budget.Budget, len(preview.Budgets))
	for i := range preview.Budgets {
		moving[preview.Budgets[i].Link] = &preview.Budgets[i]
	}
	for link, b := range a.InOrder() {
		row := plan.Ref{Table: plan.LinksTable, Key: link.Key()}
		all = append(all, row)
		if link.IsSpare() { // carries nothing
			spares = append(spares, row)
			continue
		}
		if moved := moving[link.ID]; moved != nil {
			b = moved
		}
		standing[b.Standing()] = append(standing[b.Standing()], row)
		if b.TooShort() {
			tooShort = append(tooShort, row)
		}
	}
	items := itemsOfLinks(all, standing)
	if len(spares) > 0 {
		items = append(items, Item{Count: len(spares), Words: words.Plural(len(spares), "laid spare", "laid spares"), Rows: spares})
	}
	if len(tooShort) > 0 {
		items = append(items, Item{Count: len(tooShort), Words: "too short", Rows: tooShort})
	}
	for _, severity := range checks.Severities() {
		if rows := placesOf(a, severity); len(rows) > 0 {
			items = append(items, Item{
				Count: len(rows), Words: severityWords(severity, len(rows)), Rows: rows, Finding: true, Severity: severity, Stale: preview.Runs(),
			})
		}
	}
	return items
}

// itemsOfLinks counts all links, and those of each grade.
func itemsOfLinks(all []plan.Ref, standing map[budget.Grade][]plan.Ref) []Item {
	items := []Item{{Count: len(all), Words: words.Plural(len(all), "link", "links"), Rows: all}}
	for _, grade := range append(budget.Standings(), budget.Ungraded) {
		rows := standing[grade]
		if len(rows) > 0 || slices.Contains(budget.Grades(), grade) {
			items = append(items, Item{Grade: grade, Line: true, Count: len(rows), Words: GradeWord(grade), Rows: rows})
		}
	}
	return items
}

func severityWords(severity checks.Severity, n int) string {
	switch severity {
	case checks.Stop:
		return words.Plural(n, "stops the show", "stop the show")
	case checks.Warn:
		return words.Plural(n, "warning", "warnings")
	}
	return words.Plural(n, "note", "notes")
}

// placesOf is the first place of each finding of a severity.
func placesOf(a *assess.Assessment, severity checks.Severity) []plan.Ref {
	var rows []plan.Ref
	for _, finding := range a.Findings {
		if finding.Severity == severity && len(finding.Where) > 0 {
			rows = append(rows, plan.Ref{Table: finding.Where[0].Table, Key: finding.Where[0].Key})
		}
	}
	return rows
}

// Next is the row a click goes to: the one after the selected row, round and round. A row that is counted several times, as
// one of several findings, has its turn once.
func (i Item) Next(selection []plan.Ref) (plan.Ref, bool) {
	if len(i.Rows) == 0 {
		return plan.Ref{}, false
	}
	if len(selection) != 1 {
		return i.Rows[0], true
	}
	at, gone := slices.Index(i.Rows, selection[0]), map[plan.Ref]bool{}
	for j, row := range i.Rows {
		if j > at && !gone[row] {
			return row, true
		}
		gone[row] = true
	}
	return i.Rows[0], true
}

// String is the item in words, as a screen reader or a test reads it.
func (i Item) String() string { return fmt.Sprintf("%d %s", i.Count, i.Words) }
