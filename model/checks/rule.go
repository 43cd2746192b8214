package checks

import (
	"slices"
	"strings"

	"stageloom/model/budget"
	"stageloom/model/patch"
	"stageloom/model/plan"
)

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
	// Plugs tells that it looks at devices and links for what budget.Touched calls plugged alone, and not at how they stand
	// and lie.
	Plugs bool
	// Links tells that it visits links one by one, and that a finding whose first place is a link rests on that link, its
	// partner and its line alone: what was found of a link that an edit did not touch stands.
	Links bool

	find func(*Subject) []Finding
	// join tells together what was found, link by link; without it those findings become one that say the same.
	join func(*Subject, []Finding) []Finding
}

// Found is what a rule found.
type Found struct {
	// Told are its findings.
	Told []Finding
	// said is what they are told of.
	said []Finding
}

// Find runs the rule.
func (r Rule) Find(s *Subject) []Finding { return r.Run(s).Told }

// Run runs the rule.
func (r Rule) Run(s *Subject) Found { return r.tell(s, r.find(s)) }

// Edited is an edit as rules see it: the subject before and what was touched since.
type Edited struct {
	Before  *plan.Plan
	Patch   *patch.View
	Touched *budget.Touched
}

// Next is Run on the plan that an edit made of the one before, in which the rule found this: what reads nothing that was
// touched is taken over.
func (r Rule) Next(s *Subject, e *Edited, before Found) Found {
	switch {
	case r.Same(e.Before, s.Plan):
		return before
	case r.Patch && !r.Budgets && len(r.Reads) == 0 && patch.Same(e.Patch, s.Patch):
		return before
	case !r.readsSame(e.Before, s.Plan):
	case r.Plugs && !e.Touched.Plugged:
		return before
	case r.Links && !e.Touched.All:
		return r.again(s, e.Touched, before)
	}
	return r.Run(s)
}

// again looks at the touched links alone, and takes over what was said of the others.
func (r Rule) again(s *Subject, t *budget.Touched, before Found) Found {
	said := s.lookingAt(t, r.find)
	kept := 0
	for i := range before.said {
		if link, about := before.said[i].link(); about && !t.Links[link] {
			said = append(said, before.said[i])
			kept++
		}
	}
	if kept == len(before.said) && kept == len(said) {
		return before
	}
	return r.tell(s, said)
}

// tell makes findings of what was found.
func (r Rule) tell(s *Subject, said []Finding) Found {
	if r.Links { // in one order, whichever links were looked at
		slices.SortStableFunc(said, func(a, b Finding) int {
			x, _ := a.link()
			y, _ := b.link()
			return strings.Compare(string(x), string(y))
		})
	}
	for i := range said {
		said[i].Rule = r.ID
	}
	found := Found{said: said}
	if r.join != nil {
		found.Told = r.join(s, said)
	} else {
		found.Told = gathered(said)
	}
	for i := range found.Told {
		found.Told[i].Rule = r.ID
	}
	return found
}

// link is the link that stands first among the places of a finding.
func (f *Finding) link() (plan.LinkID, bool) {
	if len(f.Where) == 0 || f.Where[0].Table != plan.LinksTable {
		return "", false
	}
	return plan.LinkID(f.Where[0].Key), true
}

// Same reports whether the rule finds the same in both plans because they share all that it reads.
func (r Rule) Same(a, b *plan.Plan) bool {
	switch {
	case r.Budgets && !budget.Same(a, b):
		return false
	case r.Plugs && (a.Devices != b.Devices || a.Links != b.Links):
		return false
	case r.Patch && !samePatch(a, b):
		return false
	}
	return r.readsSame(a, b)
}

// samePatch reports whether two plans share all that a patch reads.
func samePatch(a, b *plan.Plan) bool {
	for _, name := range patch.Tables() {
		if table, known := plan.TableNamed(name); !known || !table.Same(a, b) {
			return false
		}
	}
	return a.Settings.SampleRateHz() == b.Settings.SampleRateHz()
}

// readsSame reports whether two plans share the tables that the rule names.
func (r Rule) readsSame(a, b *plan.Plan) bool {
	for _, name := range r.Reads {
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
	portTables = []string{plan.KindsTable, plan.KindPortsTable}
	areaTables = []string{plan.AreasTable, plan.AreaPointsTable}
)

var rules = []Rule{
	{ID: "over-limit", Budgets: true, Links: true, find: overLimit},
	{ID: "too-short", Budgets: true, Links: true, find: tooShort},
	{ID: "uncabled", Budgets: true, Links: true, find: uncabled},
	{ID: "tight", Budgets: true, Links: true, find: tight},
	{ID: "bad-kind", Reads: []string{plan.CableKindsTable, plan.ReelsTable}, Budgets: true, find: badKind},
	{ID: "unknown-loss", Budgets: true, Links: true, find: unknownLoss},
	{ID: "above-standard", Budgets: true, Links: true, find: aboveStandard},
	{ID: "past-distance", Budgets: true, Links: true, find: pastDistance},
	{ID: "delay", Budgets: true, Links: true, find: delay},
	{ID: "hot", Budgets: true, Links: true, find: hot},
	{ID: "many-joins", Budgets: true, Links: true, find: manyJoins},
	{ID: "ringing", Budgets: true, Links: true, find: ringing},
	{ID: "no-way-through", Budgets: true, Links: true, find: noWayThrough},
	{ID: "tail-unknown", Budgets: true, Links: true, find: tailUnknown},
	{ID: "crosstalk", Budgets: true, Links: true, find: crosstalk},
	{ID: "wrong-port", Reads: portTables, Budgets: true, Links: true, find: wrongPort},
	{ID: "wrong-medium", Budgets: true, Links: true, find: wrongMedium},
	{ID: "other-kind", Budgets: true, Links: true, find: otherKind},
	{ID: "signal", Reads: portTables, Plugs: true, find: signal},
	{ID: "impedance", Budgets: true, Links: true, find: impedance},
	{ID: "fibre-mode", Reads: portTables, Budgets: true, Links: true, find: fibreMode},
	{ID: "fibre-core", Budgets: true, Links: true, find: fibreCore},
	{ID: "fibre-reach", Budgets: true, Links: true, find: fibreReach},
	{ID: "screen", Reads: portTables, Budgets: true, Links: true, find: screen},
	{ID: "shell", Reads: portTables, Budgets: true, Links: true, find: shell},
	{ID: "connector", Reads: portTables, Budgets: true, Links: true, find: connector},
	{ID: "socket-at-device", Budgets: true, Links: true, find: socketAtDevice},
	{ID: "pairs-missing", Budgets: true, Links: true, find: pairsMissing},
	{ID: "supplies", Reads: areaTables, Budgets: true, Links: true, find: supplies},
	{ID: "same-way", Reads: []string{plan.LoomsTable}, Budgets: true, Links: true, find: sameWay},
	{ID: "crossing", Reads: []string{plan.AreasTable, plan.AreaPointsTable, plan.RoutesTable, plan.RoutePointsTable}, Budgets: true, Links: true, find: crosses, join: crossing},
	{ID: "building", Reads: areaTables, Budgets: true, Links: true, find: entersBuilding, join: buildings},
	{ID: "length-doubtful", Budgets: true, Links: true, find: doubtfulLength},
	{ID: "length-unknown", Budgets: true, Links: true, find: unknownLength},
	{ID: "bad-reel", Reads: []string{plan.ReelsTable, plan.SegmentsTable, plan.LinksTable}, find: badReel},
	{ID: "not-there", Reads: []string{plan.ReelsTable, plan.SegmentsTable, plan.LinksTable}, find: notThere},
	{ID: "bad-house-line", Reads: []string{plan.HouseLinesTable, plan.SegmentsTable, plan.LinksTable}, find: badLine},
	{ID: "stand-in", Reads: portTables, Budgets: true, find: standIn},
	{ID: "measured", Reads: []string{plan.ReelsTable, plan.HouseLinesTable, plan.CableKindsTable}, find: measured},
	{ID: "power-on-drum", Budgets: true, Links: true, find: powerOnDrum},
	{ID: "power", Reads: portTables, Budgets: true, Links: true, find: power},
	{ID: "clock", Reads: portTables, Plugs: true, find: clock},
	{ID: "unknown-name", Budgets: true, Links: true, find: unknownName},
	{ID: "act-times", Reads: []string{plan.ActsTable}, find: actTimes},
	{ID: "date", Reads: []string{plan.ReelsTable, plan.HouseLinesTable, plan.RevisionsTable}, Budgets: true, find: date},
	{ID: "double-name", Plugs: true, find: doubleName},
	{ID: "retired-name", Reads: []string{plan.RevisionsTable}, Plugs: true, find: retiredName},
	{ID: "cable-twice", Reads: []string{plan.ReelsTable, plan.SegmentsTable, plan.LinksTable}, find: cableTwice},
	{ID: "slots-over", Patch: true, find: slotsOver},
	{ID: "rates-apart", Patch: true, find: ratesApart},
	{ID: "detour", Budgets: true, Patch: true, find: detour},
	{ID: "pair-crossed", Patch: true, find: pairCrossed},
	{ID: "no-socket", Patch: true, find: noSocket},
	{ID: "double-patched", Patch: true, find: doublePatched},
	{ID: "no-arrival", Patch: true, find: noArrival},
	{ID: "no-console", Patch: true, find: noConsole},
	{ID: "channel-left", Patch: true, find: channelLeft},
	{ID: "phantom-blocked", Patch: true, find: phantomBlocked},
	{ID: "phantom-missing", Reads: []string{plan.InputsTable}, find: phantomMissing},
	{ID: "phantom-arrives", Patch: true, find: phantomArrives},
	{ID: "phantom-left", Patch: true, find: phantomLeft},
	{ID: "two-owners", Patch: true, find: twoOwners},
	{ID: "wrong-owner", Patch: true, find: wrongOwner},
	{ID: "absent", Patch: true, find: absent},
	{ID: "stereo-side", Reads: []string{plan.InputsTable, plan.OutputsTable, plan.ActsTable}, find: stereoSide},
	{ID: "stereo-unlike", Reads: []string{plan.InputsTable}, find: stereoUnlike},
	{ID: "stereo-half", Patch: true, find: stereoHalf},
	{ID: "stereo-apart", Patch: true, find: stereoApart},
	{ID: "same-frequency", Patch: true, find: sameFrequency},
	{ID: "same-transmitter", Patch: true, find: sameTransmitter},
	{ID: "double-input", Patch: true, find: doubleInput},
	{ID: "their-name", Reads: []string{plan.SocketNamesTable, plan.DevicesTable}, find: theirName},
}
