package revision

import (
	"fmt"
	"slices"
	"strings"

	"stageloom/model/plan"
)

// theRest is the table of changes that are told of a whole list, not row by row.
const theRest = "rest"

// lists are what is told in numbers alone, under the name of one list; grown tells of those too that are new or gone, which
// kinds are not: they come and go with what is of them.
var lists = []struct {
	name   string
	tables []string
	grown  bool
}{
	{"Whom to ring", []string{plan.ContactsTable}, true},
	{"Limit rules", []string{plan.TransportRulesTable}, true},
	{"Levels", []string{plan.LevelsTable}, true},
	{"Ways of routes", []string{plan.RoutePointsTable}, true},
	{"Kinds of device", []string{plan.KindsTable, plan.KindPortsTable, plan.KindSocketsTable, plan.KindWaysTable}, false},
	{"Kinds of cable", []string{plan.CableKindsTable}, false},
	{"Cases", []string{plan.CasesTable}, true},
	{"Stock", []string{plan.ReelsTable}, true},
	{"Given back to the house", []string{plan.GivenBackTable}, true},
	{"Services", []string{plan.ServicesTable}, true},
	{"House lines", []string{plan.HouseLinesTable}, true},
	{"Looms", []string{plan.LoomsTable, plan.LoomPointsTable}, true},
	{"Channels on links", []string{plan.SlotPatchesTable}, true},
	{"Guest consoles", []string{plan.ActConsolesTable}, true},
	{"Owners of gain and 48 V", []string{plan.SocketOwnersTable}, true},
	{"Names of sockets on the other side", []string{plan.SocketNamesTable}, true},
}

// rest tells what changed in the lists that no words are made of row by row. What the house does not let the show have is what a
// save writes, no change.
func (d *difference) rest() []Change {
	var changes []Change
	before, after := d.before.Plan.WithoutLacking(), d.after.Plan.WithoutLacking()
	for _, list := range lists {
		var fresh, gone, other int
		for _, name := range list.tables {
			table, found := plan.TableNamed(name)
			if !found || table.Same(before, after) {
				continue
			}
			for row := range table.Rows(before) {
				if !table.Has(after, table.KeyOf(row)) {
					gone++
				}
			}
			for row := range table.Rows(after) {
				if old, stood := table.Get(before, table.KeyOf(row)); !stood {
					fresh++
				} else if old != row {
					other++
				}
			}
		}
		if !list.grown {
			fresh, gone = 0, 0
		}
		if said := rowsOtherwise(fresh, gone, other); said != "" {
			changes = append(changes, Change{Where: plan.Ref{Table: theRest}, Name: list.name, Words: said})
		}
	}
	return changes
}

// rowsOtherwise counts rows: "1 row new, 2 gone, 1 changed".
func rowsOtherwise(fresh, gone, other int) string {
	said := slices.DeleteFunc([]string{some(fresh, "new"), some(gone, "gone"), some(other, "changed")}, func(s string) bool { return s == "" })
	if len(said) == 0 {
		return ""
	}
	number, word, _ := strings.Cut(said[0], " ")
	row := "rows"
	if number == "1" {
		row = "row"
	}
	said[0] = number + " " + row + " " + word
	return strings.Join(said, ", ")
}

func some(n int, word string) string {
	if n == 0 {
		return ""
	}
	return fmt.Sprintf("%d %s", n, word)
}
