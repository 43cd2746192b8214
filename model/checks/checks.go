package checks

import (
	"fmt"

	"stageloom/model/budget"
	"stageloom/model/patch"
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
	// Acts are those in which it was found, in running order, the house under a blank id; none where no act changes it.
	Acts   []plan.ActID
	What   string
	Remedy string
	// Short is what a finding on many links says of each of them, without its name; blank where it speaks of one.
	Short string

	// many is what is said of several such rows, and item this one among them: the findings of a rule that say the same
	// become one with a list. They are links unless noun says otherwise. each are those that became this one.
	many, item, noun string
	each             []Finding
}

// Subject is what rules look at: a plan, its patch, and the budgets of its links in the order of the table of links. It
// gathers what several rules want once, and may be used by one goroutine.
type Subject struct {
	Plan     *plan.Plan
	Reckoner *budget.Reckoner
	Budgets  []budget.Budget
	Patch    *patch.View

	gathered []view
	touched  []view // of the links that an edit touched
	some     []view // of those that are looked at now, where not all are
	arrivals *patch.Arrivals
}

// NewSubject reckons a plan for the rules.
func NewSubject(p *plan.Plan) *Subject {
	r := budget.NewReckoner(p)
	return &Subject{Plan: p, Reckoner: r, Budgets: r.All(), Patch: patch.Of(p)}
}

// view is one link with all that rules ask about it.
type view struct {
	link   plan.Link
	budget *budget.Budget
	// cables are the cables and inner leads whose kind the plan holds, with the assumed one.
	cables []laid
	ends   [2]plugged
}

// views gathers all links at the first call.
func (s *Subject) views() []view {
	if s.gathered == nil && len(s.Budgets) > 0 {
		s.gathered = s.gather(func(plan.LinkID) bool { return true })
	}
	return s.gathered
}

// each visits every link that is looked at.
func (s *Subject) each(visit func(link *plan.Link, b *budget.Budget, v *view)) {
	views := s.some
	if views == nil {
		views = s.views()
	}
	for i := range views {
		visit(&views[i].link, views[i].budget, &views[i])
	}
}

// lookingAt runs a rule on the touched links alone.
func (s *Subject) lookingAt(t *budget.Touched, find func(*Subject) []Finding) []Finding {
	if s.touched == nil {
		s.touched = s.gather(t.Has)
	}
	s.some = s.touched
	defer func() { s.some = nil }()
	return find(s)
}

// gather gathers the links that are wanted.
func (s *Subject) gather(wanted func(plan.LinkID) bool) []view {
	kinds := make(map[plan.CableKindID]*plan.CableKind, s.Plan.CableKinds.Len())
	for kind := range s.Plan.CableKinds.All() {
		kinds[kind.ID] = &kind
	}
	var places []int
	for i := range s.Budgets {
		if wanted(s.Budgets[i].Link) {
			places = append(places, i)
		}
	}
	views := make([]view, len(places))
	var cables []laid
	for i, at := range places {
		v := &views[i]
		v.link, v.budget = s.Plan.Links.At(at), &s.Budgets[at]
		first := len(cables)
		for j := range v.budget.Parts {
			part := &v.budget.Parts[j]
			if part.What != budget.Cable && part.What != budget.Lead {
				continue
			}
			if kind, found := kinds[part.Kind]; found {
				cables = append(cables, laid{part, kind, s.foreign(v.link.Transport, kind)})
			}
		}
		v.cables = cables[first:len(cables):len(cables)]
		v.ends = s.endsOf(v)
	}
	return views
}

// at places a finding on a link.
func at(link *plan.Link) []Place { return []Place{{plan.LinksTable, link.Key()}} }

// and adds a row to the places of a finding.
func and(places []Place, table string, key plan.Key) []Place {
	return append(places, Place{table, key})
}

// device returns a device of the plan; a link's ends are always there.
func (s *Subject) device(id plan.DeviceID) plan.Device {
	device, _ := s.Plan.Device(id)
	return device
}

// laid is one cable of a link, or the inner lead of a panel, with its kind.
type laid struct {
	part *budget.Part
	kind *plan.CableKind
	// foreign: it is no cable for the link's transport; that is one fault, whatever else its ends are.
	foreign bool
}

// foreign reports whether a kind of cable is none for a transport.
func (s *Subject) foreign(transport plan.TransportID, kind *plan.CableKind) bool {
	media := s.Reckoner.Transport(transport).Media
	return media != "" && !budget.Fits(*kind, media)
}

// ofMany says which sort of cable is meant where several links have one.
func (l laid) ofMany() string {
	switch {
	case l.part.Assumed:
		return fmt.Sprintf("the %s wanted for their missing metres", l.kind.Name)
	case l.part.What == budget.Lead:
		return fmt.Sprintf("an inner lead of %s", l.kind.Name)
	}
	return l.kind.Name
}

// named says which cable of a link is meant.
func (l laid) named() string {
	switch {
	case l.part.Assumed:
		return fmt.Sprintf("the %s wanted for its missing metres", l.kind.Name)
	case l.part.What == budget.Lead:
		return fmt.Sprintf("the inner lead of %s", l.kind.Name)
	}
	return fmt.Sprintf("cable %d (%s)", l.part.Order, l.kind.Name)
}
