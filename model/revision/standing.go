package revision

import (
	"slices"
	"sync/atomic"

	"stageloom/model/plan"
	"stageloom/model/planfile"
)

// Standing is how a plan stands to the revisions issued of it.
type Standing struct {
	// Issued is the revision issued last; its number is 0 where none was.
	Issued plan.Revision
	// Changed tells that the plan is otherwise in substance than what was issued, or cannot be compared with it.
	Changed bool
}

// StandingOf tells how a plan stands. No substance are: what is marked as done on site, what was heard in a line check, who
// chose a cable, the letter of the next revision, and on which paper and with which ink the plan is printed.
func StandingOf(p *plan.Plan) Standing {
	n := p.Revisions.Len()
	if n == 0 {
		return Standing{}
	}
	then, err := issuedState(p)
	return Standing{Issued: p.Revisions.At(n - 1), Changed: err != nil || !sameSubstance(then, p)}
}

// Drafted tells that no revision was issued of the plan yet.
func (s Standing) Drafted() bool { return s.Issued.Number == 0 }

// AsIssued tells that the plan is what was issued last.
func (s Standing) AsIssued() bool { return !s.Drafted() && !s.Changed }

// Mark is what a sheet bears: "A", "A + changes, not issued" or "draft, not issued".
func (s Standing) Mark() string {
	switch {
	case s.Drafted():
		return "draft, not issued"
	case s.Changed:
		return s.Issued.Letter + " + changes, not issued"
	}
	return s.Issued.Letter
}

// String is the mark in a sentence: "revision A", "revision A + changes, not issued" or "draft, not issued".
func (s Standing) String() string {
	if s.Drafted() {
		return s.Mark()
	}
	return "revision " + s.Mark()
}

// Date says when the last revision was issued, blank where that is not told: "issued 2027-05-30" of a plan as issued,
// "A issued 2027-05-30" of one that changed since.
func (s Standing) Date() string {
	switch {
	case s.Issued.Date == "":
		return ""
	case s.Changed:
		return s.Issued.Letter + " issued " + s.Issued.Date
	}
	return "issued " + s.Issued.Date
}

// Sentence says how the plan stands, and what that means for who works by it.
func (s Standing) Sentence() string {
	switch {
	case s.Drafted():
		return "Draft, not issued: no revision was issued of this plan yet."
	case s.Changed:
		return s.Mark() + ": the plan was changed since revision " + s.Issued.Letter + dated(" was issued", s.Issued) + ". Issue the next revision before anything is laid by this."
	}
	return "Revision " + s.Issued.Letter + dated(", issued", s.Issued) + "."
}

// dated is a word with the date of a revision, where that has one.
func dated(word string, r plan.Revision) string {
	if r.Date == "" {
		return word
	}
	return word + " " + r.Date
}

// Issues lists the revisions issued of a plan, each in a line, the first one first: "A, issued 2027-05-30: to the venue".
func Issues(p *plan.Plan) []string {
	var lines []string
	for row := range p.Revisions.All() {
		line := row.Letter + dated(", issued", row)
		if row.Note != "" {
			line += ": " + row.Note
		}
		lines = append(lines, line)
	}
	return lines
}

// stateOfIssue is the plan as some revisions have it.
type stateOfIssue struct {
	of   []plan.Revision
	plan *plan.Plan
	err  error
}

// lastState keeps the state that was put together last: a window asks at every edit.
var lastState atomic.Pointer[stateOfIssue]

func issuedState(p *plan.Plan) (*plan.Plan, error) {
	rows := slices.Collect(p.Revisions.All())
	if last := lastState.Load(); last != nil && slices.Equal(last.of, rows) {
		return last.plan, last.err
	}
	then, err := planfile.AtRevision(p, len(rows))
	lastState.Store(&stateOfIssue{rows, then, err})
	return then, err
}

// sameSubstance reports whether two plans say the same to whoever works by them.
func sameSubstance(a, b *plan.Plan) bool {
	return plan.Equal(bare(a), bare(b)) && sameRows(a.Links, b.Links, bareLink) && sameRows(a.Segments, b.Segments, bareSegment)
}

// bare is a plan without its revisions, its links and their segments, its line checks, what the house's stock says of it, and
// what of its settings is no substance.
func bare(p *plan.Plan) *plan.Plan {
	q := *p.WithoutLacking()
	q.Settings.Identity = ""
	q.Revisions, q.Links, q.Segments, q.LineChecks = nil, nil, nil, nil
	q.Settings.Revision, q.Settings.PrintPaper, q.Settings.PrintGrey = "", "", false
	return &q
}

func bareLink(l plan.Link) plan.Link {
	l.Done, l.Moved = "", false
	return l
}

func bareSegment(s plan.Segment) plan.Segment {
	s.Kept = false
	return s
}

func sameRows[R plan.Row](a, b *plan.Table[R], bare func(R) R) bool {
	if a == b {
		return true
	}
	if a.Len() != b.Len() {
		return false
	}
	for i := range a.Len() {
		if bare(a.At(i)) != bare(b.At(i)) {
			return false
		}
	}
	return true
}
