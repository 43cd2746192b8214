package checks

import (
	"stageloom/model/budget"
	"stageloom/model/plan"
)

// Severity says what a finding means for the show.
type Severity uint8

// The severities, worst first.
const (
	Stop Severity = iota // does not work, or must not be used
	Warn                 // works, with a risk that somebody has to accept
	Note                 // worth knowing
)

// Severities lists the severities, worst first.
func Severities() []Severity { return []Severity{Stop, Warn, Note} }

// String is the severity's word: stop, warn or note.
func (s Severity) String() string { return [...]string{"stop", "warn", "note"}[s] }

// Place is the row that a finding speaks of: a table's name in the file and a key in it.
type Place struct {
	Table string
	Key   plan.Key
}

// Finding is one thing found. Its first place is what it is about; the others are what else to look at.
type Finding struct {
	Rule     string
	Severity Severity
	Where    []Place
	What     string
	Remedy   string
}

// Subject is what rules look at: a plan and the budgets of its links, in the order of the table of links.
type Subject struct {
	Plan     *plan.Plan
	Reckoner *budget.Reckoner
	Budgets  []budget.Budget
}

// NewSubject reckons a plan for the rules.
func NewSubject(p *plan.Plan) *Subject {
	r := budget.NewReckoner(p)
	return &Subject{p, r, r.All()}
}

// links yields every link with its budget.
func (s *Subject) links(visit func(link plan.Link, b *budget.Budget)) {
	for i := range s.Budgets {
		visit(s.Plan.Links.At(i), &s.Budgets[i])
	}
}

// Rule is one check: what it is called, what it reads, and how it finds.
type Rule struct {
	// ID is the rule's slug, which stays the same in files and tests.
	ID string
	// Reads names the tables the rule looks at.
	Reads []string
	// Budgets tells that it looks at budgets, and so at all that they read, settings included.
	Budgets bool

	find func(*Subject) []Finding
}

// Find runs the rule.
func (r Rule) Find(s *Subject) []Finding {
	found := r.find(s)
	for i := range found {
		found[i].Rule = r.ID
	}
	return found
}

// Same tells whether the rule finds the same in both plans because they share all that it reads.
func (r Rule) Same(a, b *plan.Plan) bool {
	if r.Budgets && !budget.Same(a, b) {
		return false
	}
	for _, name := range r.Reads {
		if table, known := plan.TableNamed(name); !known || !table.Same(a, b) {
			return false
		}
	}
	return true
}

// Rules returns all rules in a fixed order.
func Rules() []Rule { return rules }

var rules = []Rule{
	{ID: "over-limit", Reads: nil, Budgets: true, find: overLimit},
	{ID: "too-short", Reads: nil, Budgets: true, find: tooShort},
	{ID: "uncabled", Reads: nil, Budgets: true, find: uncabled},
	{ID: "tight", Reads: nil, Budgets: true, find: tight},
	{ID: "past-distance", Reads: nil, Budgets: true, find: pastDistance},
	{ID: "many-joins", Reads: nil, Budgets: true, find: manyJoins},
}

// at places a finding on a link.
func at(link plan.Link) []Place { return []Place{{"links", link.Key()}} }
