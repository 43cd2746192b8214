package main

import (
	"fmt"
	"slices"
	"strings"

	"stageloom/model/budget"
	"stageloom/model/checks"
	"stageloom/model/plan"
	"stageloom/model/revision"
)

// print lays out what a plan amounts to: links by grade, what is too short, findings.
func (c checked) print(p *page, everyLink bool) {
	totals := c.assessment.Totals
	p.hang("", titleOf(c.assessment.Plan))
	p.hang("", fmt.Sprintf("%s: %s, %s of cable, %s", c.path, counted(totals.Links, "link"), metres(totals.Metres), counted(totals.Joins, "join")))
	if remark := editionRemark(c.assessment.Plan); remark != "" {
		p.hang("", remark)
	}
	if totals.Links > 0 {
		p.blank()
		c.printGrades(p)
	}
	if everyLink && totals.Links > 0 {
		p.blank()
		c.printLinks(p)
	}
	p.blank()
	c.printFindings(p)
}

// titleOf is a plan's name and how it stands to its revisions.
func titleOf(p *plan.Plan) string {
	return p.Settings.Name + " · " + revision.StandingOf(p).String()
}

// printGrades counts the links by grade and names those that want looking at.
func (c checked) printGrades(p *page) {
	totals := c.assessment.Totals
	for _, grade := range budget.Standings() {
		if totals.Count(grade) == 0 && !slices.Contains(budget.Grades(), grade) {
			continue
		}
		p.hang(fmt.Sprintf("  %s%s  ", left(string(grade), gradeColumn), right(fmt.Sprint(totals.Count(grade)), 5)), c.named(grade))
	}
	if totals.Ungraded > 0 {
		p.line("  %s%s", left(noGrade, gradeColumn), right(fmt.Sprint(totals.Ungraded), 5))
	}
	if totals.TooShort > 0 {
		p.hang(fmt.Sprintf("  %s%s  ", left("too short", gradeColumn), right(fmt.Sprint(totals.TooShort), 5)), c.tooShort())
	}
}

// named lists the links of a grade that is not good, with their margins where they have one.
func (c checked) named(grade budget.Grade) string {
	if grade == budget.Ample || grade == budget.Enough {
		return ""
	}
	var names []string
	for b := range c.inOrder() {
		if b.Standing() != grade {
			continue
		}
		if b.HasMargin() {
			names = append(names, fmt.Sprintf("%s %s", b.Name, margin(b.MarginDB)))
		} else {
			names = append(names, b.Name)
		}
	}
	return strings.Join(names, ", ")
}

func (c checked) tooShort() string {
	var names []string
	for b := range c.inOrder() {
		if b.TooShort() {
			names = append(names, fmt.Sprintf("%s by %s", b.Name, budget.Metres(b.Printed(1).Missing)))
		}
	}
	return strings.Join(names, ", ")
}

// inOrder yields the budgets in the natural order of the links' names.
func (c checked) inOrder() func(func(budget.Budget) bool) {
	return func(yield func(budget.Budget) bool) {
		for _, link := range c.assessment.Links() {
			if b, found := c.assessment.Budget(link.ID); found && !yield(b) {
				return
			}
		}
	}
}

// noGrade stands for the grade of a link whose transport carries none.
const noGrade = "no grade"

// gradeColumn is as wide as the longest word for how links stand.
const gradeColumn = 14

// Columns of the table of links.
const (
	linkColumn      = 9
	transportColumn = 10
	sourceColumn    = 6
)

// sourceWord is where the metres of a run have come from, short; with ? an end moved since they were typed.
func sourceWord(m budget.Measured) string {
	switch {
	case m.Source == budget.Unknown:
		return "none"
	case m.Doubtful:
		return m.Source.Key() + "?"
	}
	return m.Source.Key()
}

func (c checked) printLinks(p *page) {
	row := func(name, transport, run, source, laid, joins, loss, margin, grade string) {
		names, transports := wrap(name, linkColumn-1), wrap(transport, transportColumn)
		p.line("  %s%s%s %s%s%s%s%s %s", left(names[0], linkColumn), left(transports[0], transportColumn),
			right(run, 8), left(source, sourceColumn), right(laid, 8), right(joins, 6), right(loss, 8), right(margin, 9), grade)
		for i := 1; i < max(len(names), len(transports)); i++ {
			p.line("  %s%s", left(nth(names, i), linkColumn), nth(transports, i))
		}
	}
	row("link", "transport", "run", "by", "laid", "joins", "loss", "margin", "grade")
	for b := range c.inOrder() {
		loss, margin, grade := "", "", string(b.Standing())
		if b.Grade == budget.Ungraded {
			grade = noGrade
		}
		if b.HasMargin() {
			loss, margin = budget.LossTenths(b.LossDB)+" dB", budget.TenthDB(b.MarginDB)+" dB"
		}
		shown := b.Printed(1)
		row(b.Name, b.TransportName, budget.Metres(shown.Run), sourceWord(b.Measured), metres(shown.Laid), fmt.Sprint(b.Joins), loss, margin, grade)
		if part := shown.PartIn(budget.Metres); part != "" {
			p.hang(left("", 2+linkColumn), part)
		}
	}
}

// printFindings lists what was found, worst first, with place and remedy.
func (c checked) printFindings(p *page) {
	findings, totals := c.assessment.Findings, c.assessment.Totals
	if len(findings) == 0 {
		p.line("Nothing found.")
		return
	}
	p.line("%s, %s, %s", counted(totals.Stops, "stop"), counted(totals.Warns, "warning"), counted(totals.Notes, "note"))
	for _, finding := range findings {
		p.blank()
		c.printFinding(p, finding)
	}
}

func (c checked) printFinding(p *page, finding checks.Finding) {
	p.hang(left("  "+strings.ToUpper(finding.Severity.String()), 8), finding.What)
	lead := "where:  "
	for _, name := range whereabouts(c.assessment.Plan, finding) {
		p.hang(left("", 8)+lead, name)
		lead = "        "
	}
	p.hang(left("", 8)+"remedy: ", finding.Remedy)
}
