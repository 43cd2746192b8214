package cmd_test

import (
	"fmt"
	"path"
	"regexp"
	"slices"
	"strings"
)

// module is the import path of the root.
const module = "stageloom"

// onlyTests stands in a list of rooms for every test file, and in the list of a
// room that serves tests as its mark.
const onlyTests = "tests"

// allows reports whether a list of rooms holds room: the last entry that fits
// decides, "wing/*" fits every room below, and "-" takes out.
func allows(list []string, room string) bool {
	allowed := false
	for _, entry := range list {
		pattern := strings.TrimPrefix(entry, "-")
		below, whole := strings.CutSuffix(pattern, "*")
		if pattern == room || whole && strings.HasPrefix(room, below) {
			allowed = !strings.HasPrefix(entry, "-")
		}
	}
	return allowed
}

// roomFaults names the rooms that have no entry in the table and the imports
// that leave it. A test may import every room of its own wing and of the wings
// below: report and ui stand on model, ui on report too, cmd on all.
func roomFaults(sources []source, table map[string][]string) []string {
	testsOf := map[string][]string{
		"model": {"model/*"}, "report": {"report", "report/*", "model/*", "-model/desk"},
		"ui": {"ui", "ui/*", "report", "model/*", "assets"}, "assets": {"assets"},
		"cmd": {"cmd/*", "ui", "ui/*", "report", "report/*", "model/*", "assets"},
	}
	var faults []string
	for _, s := range sources {
		allowed, known := table[s.room]
		if !known {
			faults = append(faults, fmt.Sprintf("%s: the room %s is missing in the table of cmd/architecture_test.go", s.path, s.room))
			continue
		}
		if s.test {
			wing, _, _ := strings.Cut(s.room, "/")
			allowed = append(slices.Clone(testsOf[wing]), s.room)
		}
		for _, imported := range s.imports() {
			room, inside := strings.CutPrefix(imported, module+"/")
			forTests := slices.Contains(table[room], onlyTests)
			if inside && (!allows(allowed, room) || forTests && !serves(s, table)) {
				faults = append(faults, fmt.Sprintf("%s: %s may not import %s", s.path, s.room, room))
			}
		}
	}
	return faults
}

// serves reports whether a file is a test or lies in a room that serves tests.
func serves(s source, table map[string][]string) bool {
	return s.test || slices.Contains(table[s.room], onlyTests)
}

// libraryFaults names the imports of libraries outside the rooms they are kept
// to. The longest path in the table that fits an import decides.
func libraryFaults(sources []source, table, rooms map[string][]string) []string {
	var faults []string
	for _, s := range sources {
		for _, imported := range s.imports() {
			longest := ""
			for library := range table {
				if len(library) > len(longest) && within(imported, library) {
					longest = library
				}
			}
			kept := table[longest]
			if longest == "" || allows(kept, s.room) || serves(s, rooms) && slices.Contains(kept, onlyTests) {
				continue
			}
			faults = append(faults, fmt.Sprintf("%s: %s may not import %s, kept to %v", s.path, s.room, imported, kept))
		}
	}
	return faults
}

// within reports whether an import path is a library's or lies below it.
func within(imported, library string) bool {
	library = strings.TrimSuffix(library, "/")
	return imported == library || strings.HasPrefix(imported, library+"/")
}

// topLevelFaults names what lies at the root and may not.
func topLevelFaults(names, allowed []string) []string {
	var faults []string
	for _, name := range names {
		if !slices.Contains(allowed, name) {
			faults = append(faults, name+" may not lie at the root")
		}
	}
	return faults
}

// packageNameFaults names packages whose name says nothing of what they hold,
// and packages that are not named after their folder.
func packageNameFaults(sources []source) []string {
	empty := regexp.MustCompile(`^(util|utils|common|helper|helpers|manager|misc|shared|base|types)$`)
	var faults []string
	for _, s := range sources {
		name := strings.TrimSuffix(s.tree.Name.Name, "_test")
		folder := path.Base(s.room)
		switch {
		case empty.MatchString(name) || empty.MatchString(folder):
			faults = append(faults, fmt.Sprintf("%s: the name %s tells nothing of what it holds", s.path, name))
		case name != folder && name != "main":
			faults = append(faults, fmt.Sprintf("%s: the package %s is not named after its folder", s.path, name))
		}
	}
	return faults
}

// testPackageFaults names the tests that stand inside the package they test.
// The one file that may is export_test.go, which opens a name to the others.
func testPackageFaults(sources []source) []string {
	var faults []string
	for _, s := range sources {
		if s.test && path.Base(s.path) != "export_test.go" && !strings.HasSuffix(s.tree.Name.Name, "_test") {
			faults = append(faults, fmt.Sprintf("%s: the package should be %s_test", s.path, s.tree.Name.Name))
		}
	}
	return faults
}

// The patterns are written so that they do not find themselves.
var (
	machinePath  = regexp.MustCompile(`(?:^|[^\w.\-/~*})\]])/(?:home|root|work|tmp|Users|mnt)(?:/[\w.]|["'\s` + "`" + `)]|$)`)
	registryHost = regexp.MustCompile(`(?:proxy|sum)[.]golang|registry[.]npmjs|deb[.]debian[.]org|pypi[.]org|goproxy[.]`)
)

// machineFaults names the lines that only hold on one machine.
func machineFaults(texts []text) []string {
	var faults []string
	for _, file := range texts {
		for i, line := range strings.Split(file.content, "\n") {
			if machinePath.MatchString(line) || registryHost.MatchString(line) {
				faults = append(faults, fmt.Sprintf("%s:%d: %s", file.path, i+1, strings.TrimSpace(line)))
			}
		}
	}
	return faults
}
