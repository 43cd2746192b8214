package cmd_test

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// grantFaults names what the table of rooms grants and nothing needs: a room without code, an import that no file of the
// room has, tests left out, and a room taken out of a wing that has none of that name.
func grantFaults(sources []source, table map[string][]string) []string {
	used := map[string][]string{} // by room
	exists := map[string]bool{}
	for _, s := range sources {
		exists[s.room] = true
		for _, imported := range s.imports() {
			if room, inside := strings.CutPrefix(imported, module+"/"); inside && !s.test {
				used[s.room] = append(used[s.room], room)
			}
		}
	}
	var faults []string
	for _, room := range slices.Sorted(maps.Keys(table)) {
		if !exists[room] {
			faults = append(faults, room+" has its place in the table of cmd/architecture_test.go and no code")
			continue
		}
		for _, entry := range table[room] {
			out, taken := strings.CutPrefix(entry, "-")
			fits := func(imported string) bool { return allows([]string{out}, imported) }
			switch {
			case entry == onlyTests:
			case taken && !slices.ContainsFunc(slices.Collect(maps.Keys(exists)), fits):
				faults = append(faults, fmt.Sprintf("%s: %s takes out a room that there is not", room, entry))
			case !taken && !slices.ContainsFunc(used[room], fits):
				faults = append(faults, fmt.Sprintf("%s may import %s and does not: take it from the table", room, entry))
			}
		}
	}
	return faults
}

// mapFaults names the rooms that have no row of their own in the table of DEVELOPERS.md, the rows of rooms that there
// are not, and those whose last column says something else than the table of rooms. The guards' own folder needs no row.
func mapFaults(sources []source, texts []text, table map[string][]string) []string {
	rooms := map[string]bool{}
	for _, s := range sources {
		rooms[s.room] = s.room != "cmd"
	}
	var faults []string
	told := map[string]bool{"room": true} // the head of the table
	for _, file := range texts {
		if file.path != "DEVELOPERS.md" {
			continue
		}
		for _, row := range regexp.MustCompile(`(?m)^\| ([\w/]+) \|.*\| ([^|]*) \|$`).FindAllStringSubmatch(file.content, -1) {
			room, says := row[1], row[2]
			if told[room] {
				continue
			}
			told[room] = true
			if wanted := inWords(room, table[room]); rooms[room] && says != wanted {
				faults = append(faults, fmt.Sprintf("DEVELOPERS.md says that %s may import %q, the table of cmd/architecture_test.go says %q", room, says, wanted))
			} else if !rooms[room] {
				faults = append(faults, room+" has a row in DEVELOPERS.md and no code")
			}
		}
	}
	for _, room := range slices.Sorted(maps.Keys(rooms)) {
		if rooms[room] && !told[room] {
			faults = append(faults, room+" is in no row of the table in DEVELOPERS.md")
		}
	}
	return faults
}

// inWords is what DEVELOPERS.md says of the imports of a room: rooms of its own wing without the wing's name, those of
// another wing together, a whole wing by its name.
func inWords(room string, list []string) string {
	own, _, _ := strings.Cut(room, "/")
	var words, without []string
	of := map[string][]string{} // by wing, the rooms named alone
	var wings []string
	for _, entry := range list {
		wing, inner, below := strings.Cut(strings.TrimPrefix(entry, "-"), "/")
		switch {
		case entry == onlyTests:
		case strings.HasPrefix(entry, "-"):
			without = append(without, inner)
		case !below || inner == "*":
			if !slices.Contains(words, wing) {
				words = append(words, wing)
			}
		case wing == own:
			words = append(words, inner)
		default:
			if of[wing] == nil {
				wings = append(wings, wing)
			}
			of[wing] = append(of[wing], inner)
		}
	}
	for _, wing := range wings {
		inner := strings.Join(of[wing], ", ")
		if len(of[wing]) > 1 {
			inner = "{" + inner + "}"
		}
		words = append(words, wing+"/"+inner)
	}
	if len(words) == 0 {
		return "–"
	}
	said := strings.Join(words, ", ")
	if len(without) > 0 {
		said += ", but not " + strings.Join(without, " or ")
	}
	return said
}

func TestGrantFaults(t *testing.T) {
	tree := slices.Concat(
		example(t, "model/geom/a.go", "package geom"),
		example(t, "model/plan/a.go", `package plan; import "stageloom/model/geom"`),
		example(t, "model/desk/a_test.go", `package desk_test; import "stageloom/model/geom"`),
	)
	for _, c := range []struct {
		name, room, fault string
		grants            []string
	}{
		{"a grant that is used passes", "model/plan", "", []string{"model/geom"}},
		{"a wing of which a room is used passes", "model/plan", "", []string{"model/*"}},
		{"a room taken out of a wing passes", "model/plan", "", []string{"model/*", "-model/desk"}},
		{"the mark of rooms for tests passes", "model/geom", "", []string{onlyTests}},
		{"a grant that is not used trips", "model/plan", "model/plan may import model/desk and does not", []string{"model/geom", "model/desk"}},
		{"a wing of which none is used trips", "model/geom", "model/geom may import ui/* and does not", []string{"ui/*"}},
		{"what only a test uses trips", "model/desk", "model/desk may import model/geom and does not", []string{"model/geom"}},
		{"a room taken out that there is not trips", "model/plan", "-model/ways takes out a room", []string{"model/*", "-model/ways"}},
		{"a room without code trips", "model/ways", "model/ways has its place", nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			requireFault(t, c.fault, grantFaults(tree, map[string][]string{c.room: c.grants}))
		})
	}
}

func TestMapFaults(t *testing.T) {
	table := map[string][]string{"model/geom": {}, "model/plan": {"model/geom"}}
	tree := slices.Concat(example(t, "model/geom/a.go", "package geom"), example(t, "model/plan/a.go", "package plan"), example(t, "cmd/a_test.go", "package cmd_test"))
	const head, geom, plan = "| room | for | may import |\n|---|---|---|\n", "| model/geom | points | – |\n", "| model/plan | rows | geom |\n"
	for _, c := range []struct{ name, page, fault string }{
		{"a room in a row passes", geom + plan, ""},
		{"a room in no row trips", geom, "model/plan is in no row"},
		{"a row without a room trips", geom + plan + "| model/ways | ways | geom |\n", "model/ways has a row"},
		{"a row that grants too little trips", geom + "| model/plan | rows | – |\n", `model/plan may import "–", the table of cmd/architecture_test.go says "geom"`},
		{"a row that grants too much trips", "| model/geom | points | plan |\n" + plan, `model/geom may import "plan", the table of cmd/architecture_test.go says "–"`},
	} {
		t.Run(c.name, func(t *testing.T) {
			requireFault(t, c.fault, mapFaults(tree, []text{{path: "DEVELOPERS.md", content: head + c.page}}, table))
		})
	}
}

func TestHowTheMapNamesRooms(t *testing.T) {
	for _, c := range []struct {
		room, said string
		list       []string
	}{
		{"model/geom", "–", nil},
		{"model/goldentest", "–", []string{onlyTests}},
		{"model/plan", "geom, plan/plantest", []string{"model/geom", "model/plan/plantest"}},
		{"ui/chart", "look, pointer, model/{budget, pairline}", []string{"model/budget", "ui/look", "model/pairline", "ui/pointer"}},
		{"report", "paper, model/plan", []string{"report/paper", "model/plan"}},
		{"ui", "ui, model, report, assets, but not desk or house", []string{"ui/*", "model/*", "-model/desk", "-model/house", "report", "assets"}},
		{"cmd/stageloom", "ui, ui/answers", []string{"ui", "ui/answers"}},
	} {
		t.Run(c.room, func(t *testing.T) {
			require.Equal(t, c.said, inWords(c.room, c.list))
		})
	}
}
