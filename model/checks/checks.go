package checks

import (
	"fmt"
	"slices"

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
	// become one with a list.
	many, item string
}

// Subject is what rules look at: a plan, its patch, and the budgets of its links in the order of the table of links. It
// gathers what several rules want once, and may be used by one goroutine.
type Subject struct {
	Plan     *plan.Plan
	Reckoner *budget.Reckoner
	Budgets  []budget.Budget
	Patch    *patch.View

	gathered []view
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
		s.gathered = s.gather()
	}
	return s.gathered
}

// each visits every link.
func (s *Subject) each(visit func(link *plan.Link, b *budget.Budget, v *view)) {
	views := s.views()
	for i := range views {
		visit(&views[i].link, views[i].budget, &views[i])
	}
}

func (s *Subject) gather() []view {
	kinds := make(map[plan.CableKindID]*plan.CableKind, s.Plan.CableKinds.Len())
	for kind := range s.Plan.CableKinds.All() {
		kinds[kind.ID] = &kind
	}
	views := make([]view, len(s.Budgets))
	var cables []laid
	for i := range views {
		v := &views[i]
		v.link, v.budget = s.Plan.Links.At(i), &s.Budgets[i]
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

// Rule is one check: what it is called, what it reads, and how it finds.
type Rule struct {
	// ID is the rule's slug, which stays the same in files and tests.
	ID string
	// Reads names the tables the rule looks at.
	Reads []string
	// Budgets tells that it looks at budgets, and so at all that they read, settings included.
	Budgets bool
	// Patch tells that it looks at the resolved patch, and so at all that it reads, the plan's sample rate included.
	Patch bool

	find func(*Subject) []Finding
}

// Find runs the rule.
func (r Rule) Find(s *Subject) []Finding {
	found := gathered(r.find(s))
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
	reads := r.Reads
	if r.Patch {
		if a.Settings.SampleRateHz() != b.Settings.SampleRateHz() {
			return false
		}
		reads = append(slices.Clone(reads), patch.Tables()...)
	}
	for _, name := range reads {
		if table, known := plan.TableNamed(name); !known || !table.Same(a, b) {
			return false
		}
	}
	return true
}

// Rules returns all rules in a fixed order.
func Rules() []Rule { return rules }

// Tables that several rules read beside budgets.
var (
	portTables  = []string{"kinds", "kind_ports"}
	namesTables = []string{"kinds", "devices", "links"}
)

var rules = []Rule{
	{ID: "over-limit", Budgets: true, find: overLimit},
	{ID: "too-short", Budgets: true, find: tooShort},
	{ID: "uncabled", Budgets: true, find: uncabled},
	{ID: "tight", Budgets: true, find: tight},
	{ID: "unknown-loss", Budgets: true, find: unknownLoss},
	{ID: "above-standard", Budgets: true, find: aboveStandard},
	{ID: "past-distance", Budgets: true, find: pastDistance},
	{ID: "delay", Budgets: true, find: delay},
	{ID: "hot", Budgets: true, find: hot},
	{ID: "many-joins", Budgets: true, find: manyJoins},
	{ID: "ringing", Budgets: true, find: ringing},
	{ID: "no-way-through", Budgets: true, find: noWayThrough},
	{ID: "tail-unknown", Budgets: true, find: tailUnknown},
	{ID: "crosstalk", Budgets: true, find: crosstalk},
	{ID: "wrong-port", Reads: portTables, Budgets: true, find: wrongPort},
	{ID: "wrong-medium", Budgets: true, find: wrongMedium},
	{ID: "signal", Reads: portTables, Budgets: true, find: signal},
	{ID: "impedance", Budgets: true, find: impedance},
	{ID: "fibre-mode", Reads: portTables, Budgets: true, find: fibreMode},
	{ID: "fibre-core", Budgets: true, find: fibreCore},
	{ID: "fibre-reach", Budgets: true, find: fibreReach},
	{ID: "screen", Reads: portTables, Budgets: true, find: screen},
	{ID: "shell", Reads: portTables, Budgets: true, find: shell},
	{ID: "connector", Reads: portTables, Budgets: true, find: connector},
	{ID: "socket-at-device", Budgets: true, find: socketAtDevice},
	{ID: "pairs-missing", Budgets: true, find: pairsMissing},
	{ID: "supplies", Reads: []string{"areas", "area_points"}, Budgets: true, find: supplies},
	{ID: "same-way", Reads: []string{"looms"}, Budgets: true, find: sameWay},
	{ID: "crossing", Reads: []string{"areas", "area_points", "routes", "route_points"}, Budgets: true, find: crossing},
	{ID: "building", Reads: []string{"areas", "area_points"}, Budgets: true, find: buildings},
	{ID: "length-doubtful", Budgets: true, find: doubtfulLength},
	{ID: "length-unknown", Budgets: true, find: unknownLength},
	{ID: "bad-reel", Reads: []string{"reels", "segments", "links"}, find: badReel},
	{ID: "bad-house-line", Reads: []string{"house_lines", "segments", "links"}, find: badLine},
	{ID: "stand-in", Reads: portTables, Budgets: true, find: standIn},
	{ID: "measured", Reads: []string{"reels", "house_lines", "cable_kinds"}, find: measured},
	{ID: "power-on-drum", Budgets: true, find: powerOnDrum},
	{ID: "power", Reads: portTables, Budgets: true, find: power},
	{ID: "clock", Reads: portTables, Budgets: true, find: clock},
	{ID: "unknown-name", Budgets: true, find: unknownName},
	{ID: "act-times", Reads: []string{"acts"}, find: actTimes},
	{ID: "date", Budgets: true, find: date},
	{ID: "double-name", Reads: namesTables, find: doubleName},
	{ID: "retired-name", Reads: []string{"links", "revisions"}, find: retiredName},
	{ID: "cable-twice", Reads: []string{"reels", "segments", "links"}, find: cableTwice},
	{ID: "slots-over", Patch: true, find: slotsOver},
	{ID: "pair-crossed", Patch: true, find: pairCrossed},
	{ID: "no-socket", Patch: true, find: noSocket},
	{ID: "double-patched", Patch: true, find: doublePatched},
	{ID: "no-arrival", Patch: true, find: noArrival},
	{ID: "no-console", Patch: true, find: noConsole},
	{ID: "phantom-blocked", Patch: true, find: phantomBlocked},
	{ID: "phantom-left", Patch: true, find: phantomLeft},
	{ID: "two-owners", Patch: true, find: twoOwners},
	{ID: "wrong-owner", Patch: true, find: wrongOwner},
	{ID: "absent", Patch: true, find: absent},
}

// at places a finding on a link.
func at(link *plan.Link) []Place { return []Place{{"links", link.Key()}} }

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

// foreign tells whether a kind of cable is none for a transport.
func (s *Subject) foreign(transport plan.TransportID, kind *plan.CableKind) bool {
	media := s.Reckoner.Transport(transport).Media
	return media != "" && !budget.Fits(*kind, media)
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
