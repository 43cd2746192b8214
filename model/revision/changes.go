package revision

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stageloom/model/assess"
	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/model/words"
)

// Change is one thing that is otherwise than before.
type Change struct {
	// Where is what changed, in the plan after, or before where it is gone.
	Where plan.Ref
	// Name is its name as a reader knows it; blank for the plan as a whole.
	Name string
	// What it is in a word: "device", "position", "link"; blank where the name says so itself, as "Input 1 Kick in" does.
	What string
	// Words say what changed, without the name: "moved 30.0 m right".
	Words string
}

// String is the change as a sentence without its full stop.
func (c Change) String() string {
	if c.Name == "" {
		return c.Words
	}
	return c.Subject() + ": " + c.Words
}

// Subject is the name with what it is: "Stage box 2 (device)".
func (c Change) Subject() string {
	if c.What == "" {
		return c.Name
	}
	return c.Name + " (" + c.What + ")"
}

// Changes lists what the plan after has otherwise than the plan before: the plan's own figures, then positions, devices,
// links and what lies round them, each in the natural order of the names. Lengths are in the units of a system. Where
// anything of substance changed, at least one change is told.
func Changes(before, after *assess.Assessment, system quantity.System) []Change {
	d := &difference{before: before, after: after, system: system}
	var changes []Change
	for _, part := range []func() []Change{d.settings, d.positions, d.devices, d.links, d.surroundings, d.patch} {
		some := part()
		slices.SortStableFunc(some, func(a, b Change) int { return words.Natural(a.Name, b.Name) })
		changes = append(changes, some...)
	}
	changes = append(changes, d.rest()...)
	if len(changes) == 0 && !sameSubstance(before.Plan, after.Plan) {
		return []Change{{Words: "Details that no sheet of the crew shows"}}
	}
	return changes
}

// Links returns which links of the plan after are to be laid or labelled otherwise than before: new ones, and those with
// other ends, cables or name.
func Links(before, after *assess.Assessment) map[plan.LinkID]bool {
	d := &difference{before: before, after: after}
	touched := map[plan.LinkID]bool{}
	for link := range after.Plan.Links.All() {
		old, stood := before.Plan.Link(link.ID)
		if !stood || link.Name != old.Name || d.plugged(old, link) != "" || d.cables(link.ID) {
			touched[link.ID] = true
		}
	}
	return touched
}

// Summary says the changes in one line: what moved by name, the rest counted. It is blank where nothing changed.
func Summary(changes []Change) string {
	var said []string
	counts := map[string]int{}
	var tables []string
	for _, change := range changes {
		if change.Name == "" {
			said = append(said, change.Words)
			continue
		}
		if change.Where.Table == plan.PositionsTable && len(said) < mostNamed {
			said = append(said, change.Subject()+" "+change.Words)
			continue
		}
		if counts[change.Where.Table] == 0 {
			tables = append(tables, change.Where.Table)
		}
		counts[change.Where.Table]++
	}
	for _, table := range tables {
		said = append(said, words.Counted(counts[table], tableWords[table][0], tableWords[table][1]))
	}
	return strings.Join(said, "; ")
}

// mostNamed is how many positions a summary names before it counts.
const mostNamed = 3

// words name what a table holds, one and many.
var tableWords = map[string][2]string{
	"":          {"figure of the plan", "figures of the plan"},
	"positions": {"more position", "more positions"},
	"devices":   {"device", "devices"},
	"links":     {"link", "links"},
	"areas":     {"area", "areas"},
	"routes":    {"route", "routes"},
	"inputs":    {"row of the patch", "rows of the patch"},
	"outputs":   {"output", "outputs"},
	"acts":      {"act", "acts"},
	theRest:     {"other list", "other lists"},
}

// difference looks at two assessed plans.
type difference struct {
	before, after *assess.Assessment
	system        quantity.System
}

// rows compares two tables row by row: gone, new, and both for those that stand in both and differ.
func rows[R plan.Row](before, after *plan.Table[R], gone, fresh func(R), both func(old, row R)) {
	if before == after {
		return
	}
	for row := range before.All() {
		if !after.Has(row.Key()) {
			gone(row)
		}
	}
	for row := range after.All() {
		old, stood := before.Get(row.Key())
		switch {
		case !stood:
			fresh(row)
		case old != row:
			both(old, row)
		}
	}
}

// list gathers changes of one table.
type list struct{ changes []Change }

// whatIs says what a row of a table is, where its name does not.
var whatIs = map[string]string{
	plan.PositionsTable: "position", plan.DevicesTable: "device", plan.LinksTable: "link", plan.AreasTable: "area", plan.RoutesTable: "route", plan.ActsTable: "act",
}

func (l *list) add(where plan.Ref, name string, said ...string) {
	said = slices.DeleteFunc(said, func(s string) bool { return s == "" })
	if len(said) > 0 {
		l.changes = append(l.changes, Change{Where: where, Name: cmp.Or(name, "without a name"), What: whatIs[where.Table], Words: strings.Join(said, ", ")})
	}
}

func renamed(old, now string) string {
	if old == now {
		return ""
	}
	return fmt.Sprintf("was called %s", cmp.Or(old, "nothing"))
}
