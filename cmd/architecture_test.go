// Package cmd_test holds the guards of the architecture: who may import whom, what lies
// where, what is documented. They read the tree's own text with go/parser; the
// table in this file is the map of the rooms, and DEVELOPERS.md tells it in words.
package cmd_test

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// rooms says for each room (a folder with Go files) which other rooms its code
// may import. "model/*" stands for every room of a wing, and a leading "-" takes
// a room back out; [onlyTests] marks a room that serves tests, which nothing else
// may import. A room that is missing here fails the guard: it has to be given its
// place first, here and in DEVELOPERS.md.
var rooms = map[string][]string{
	"assets": {},

	"model/atomicfile":        {},
	"model/geom":              {},
	"model/quantity":          {},
	"model/pairline":          {},
	"model/standards":         {"model/pairline", "model/quantity"},
	"model/plan":              {"model/geom"},
	"model/plan/plantest":     {onlyTests, "model/geom", "model/plan"},
	"model/catalogue":         {"model/plan", "model/standards", "model/budget"},
	"model/demo":              {"model/catalogue", "model/demo/builder", "model/geom", "model/patch", "model/plan"},
	"model/demo/builder":      {"model/catalogue", "model/geom", "model/plan"},
	"model/demo/demotest":     {onlyTests, "model/catalogue", "model/demo", "model/demo/builder", "model/geom", "model/plan"},
	"model/medium":            {"model/plan", "model/pairline", "model/standards"},
	"model/medium/mediumtest": {onlyTests, "model/plan", "model/standards", "model/medium"},
	"model/budget":            {"model/geom", "model/plan", "model/pairline", "model/standards", "model/medium"},
	"model/patch":             {"model/plan", "model/standards"},
	"model/words":             {"model/plan", "model/quantity"},
	"model/patch/patchtest":   {onlyTests, "model/patch", "model/plan"},
	"model/fields":            {"model/geom", "model/plan", "model/budget", "model/catalogue", "model/medium", "model/patch", "model/quantity", "model/standards", "model/words"},
	"model/checks":            {"model/plan", "model/budget", "model/patch", "model/standards", "model/words"},
	"model/assess":            {"model/geom", "model/plan", "model/budget", "model/patch", "model/checks", "model/words"},
	"model/planfile":          {"model/atomicfile", "model/plan"},
	"model/journal":           {"model/plan", "model/planfile", "model/atomicfile"},
	"model/picture":           {"model/budget", "model/geom", "model/plan", "model/standards"},
	"model/clip":              {"model/geom", "model/plan", "model/planfile"},
	"model/desk":              {"model/assess", "model/atomicfile", "model/journal", "model/plan", "model/planfile", "model/revision"},
	"model/house":             {"model/plan", "model/planfile", "model/catalogue", "model/atomicfile", "model/quantity", "model/words"},
	"model/beside":            {"model/atomicfile"},
	"model/stocklist":         {"model/house", "model/plan", "model/words"},
	"model/picking":           {},
	"model/cabling":           {"model/plan", "model/budget", "model/picking", "model/words"},
	"model/supply":            {"model/plan", "model/budget", "model/cabling", "model/house", "model/words"},
	"model/exchange":          {"model/fields", "model/patch", "model/plan", "model/quantity", "model/words"},
	"model/revision":          {"model/geom", "model/quantity", "model/plan", "model/planfile", "model/budget", "model/patch", "model/cabling", "model/assess", "model/words"},
	"model/raster":            {},
	"model/raster/rastertest": {onlyTests, "model/raster"},
	"model/goldentest":        {onlyTests},

	"report":       {"report/paper", "model/assess", "model/atomicfile", "model/budget", "model/cabling", "model/checks", "model/exchange", "model/geom", "model/house", "model/medium", "model/patch", "model/picture", "model/plan", "model/quantity", "model/revision", "model/standards", "model/stocklist", "model/words"},
	"report/paper": {"model/atomicfile", "model/raster"},

	"ui":                  {"ui/*", "model/*"},
	"ui/look":             {"assets", "model/geom", "model/picture", "model/raster"},
	"ui/pointer":          {},
	"ui/split":            {},
	"ui/ahead":            {},
	"ui/looptest":         {onlyTests},
	"ui/answers":          {},
	"ui/planview":         {"ui/look", "ui/planview/tool", "ui/pointer", "model/desk", "model/geom", "model/picture", "model/plan", "model/raster"},
	"ui/planview/tool":    {"model/geom", "model/plan", "model/budget", "model/catalogue", "model/picture", "model/desk"},
	"ui/strip":            {"ui/look", "ui/pointer", "model/budget", "model/catalogue", "model/plan", "model/quantity", "model/raster", "model/standards"},
	"ui/laying":           {"ui/dialogs", "ui/panel", "ui/pointer", "ui/strip", "ui/text", "model/*", "-model/raster"},
	"ui/devices":          {"ui/dialogs", "ui/pointer", "ui/text", "model/*", "-model/raster"},
	"ui/chart":            {"ui/look", "ui/pointer", "model/budget", "model/pairline", "model/raster", "model/standards"},
	"ui/text":             {"model/*", "-model/raster"},
	"ui/panel":            {"ui/ahead", "ui/pointer", "ui/look", "ui/chart", "ui/text", "model/*"},
	"ui/manual":           {"ui/dialogs", "ui/split", "assets", "model/standards"},
	"ui/dialogs":          {"ui/ahead", "ui/pointer", "model/desk", "model/words"},
	"ui/stock":            {"ui/dialogs", "ui/panel", "ui/split", "ui/text", "model/*", "-model/raster"},
	"ui/printing":         {"ui/dialogs", "ui/pointer", "ui/text", "model/*", "-model/raster", "report"},
	"ui/patching":         {"ui/dialogs", "ui/table/sources", "ui/text", "model/*", "-model/raster"},
	"ui/files":            {"ui/dialogs", "ui/settings", "model/*", "-model/raster"},
	"ui/preferences":      {"ui/dialogs", "ui/files", "ui/panel", "ui/settings", "ui/text", "model/*", "-model/raster"},
	"ui/find":             {"ui/dialogs", "ui/text", "model/plan"},
	"ui/dialogs/hosttest": {onlyTests, "ui/dialogs", "model/desk", "model/plan", "model/words"},
	"ui/drawer":           {"ui/answers", "ui/dialogs", "ui/patching", "ui/pointer", "ui/settings", "ui/split", "ui/table", "ui/table/sources", "ui/text", "model/*", "-model/raster"},
	"ui/settings":         {},
	"ui/day":              {"ui/look", "ui/panel", "ui/text", "model/assess", "model/budget", "model/cabling", "model/checks", "model/patch", "model/picture", "model/plan", "model/raster", "model/standards", "model/words"},
	"ui/table":            {"ui/ahead", "ui/look", "ui/settings", "model/exchange", "model/plan", "model/words"},
	"ui/table/sources":    {"ui/text", "ui/table", "model/assess", "model/budget", "model/catalogue", "model/checks", "model/fields", "model/medium", "model/patch", "model/plan", "model/quantity", "model/standards", "model/words"},

	"cmd":                  {},
	"cmd/stageloom":        {"ui", "ui/answers", "model/desk", "model/house", "model/plan", "assets"},
	"cmd/e2e":              {},
	"cmd/outside/cascades": {"model/pairline", "model/standards"},
	"cmd/loomsheet":        {"model/assess", "model/atomicfile", "model/budget", "model/cabling", "model/checks", "model/house", "model/medium", "model/pairline", "model/patch", "model/plan", "model/planfile", "model/quantity", "model/revision", "model/standards", "model/stocklist", "model/supply", "model/words", "report"},
}

// libraries says for the outside libraries that are kept to some rooms which
// rooms those are, with the same signs as [rooms]; tests keep to it too. The
// longest path that fits decides; a library that is not named is free.
var libraries = map[string][]string{
	"github.com/jung-kurt/gofpdf":            {"report/paper"},
	"github.com/xuri/excelize/v2":            {"model/exchange"},
	"github.com/go-json-experiment/json":     {"model/planfile"},
	"github.com/alecthomas/kong":             {"cmd/loomsheet"},
	"fyne.io/fyne/v2":                        {"ui", "ui/*", "-ui/planview/tool", "-ui/text", "cmd/stageloom"},
	"fyne.io/fyne/v2/app":                    {"cmd/stageloom"},
	"fyne.io/fyne/v2/internal":               {},
	"github.com/go-gl":                       {},
	"golang.org/x/image/vector":              {onlyTests}, // there is one painter: model/raster
	"net/http":                               {},
	"github.com/stretchr/testify":            {onlyTests},
	"pgregory.net/rapid":                     {onlyTests},
	"github.com/rogpeppe/go-internal":        {onlyTests},
	"github.com/santhosh-tekuri/jsonschema/": {onlyTests},
}

// topLevel is all that may lie at the root.
var topLevel = strings.Fields(`cmd ui model report assets testdata go.mod go.sum
	README.md DEVELOPERS.md FyneApp.toml LICENSE .gitignore .ci`)

// notOurs is what git does not keep: what .gitignore says, and git's own folder.
var notOurs = []string{".git", "build", ".stageloom-cache", ".*.stageloom.lock", ".*.saving", "*.test", "*.prof", "testdata/rapid", "testdata/failed"}

// stillTooLong are files, and functions as "file: name", that wait to be split. The list only shrinks: what is no longer
// too long has to leave it.
var stillTooLong []string

func TestTheGuardsLeaveOutWhatGitDoes(t *testing.T) {
	ignored, err := os.ReadFile("../.gitignore")
	require.NoError(t, err)
	for _, line := range strings.Fields(string(ignored)) {
		require.Contains(t, notOurs, strings.Trim(strings.TrimPrefix(line, "**/"), "/"))
	}
}

func TestArchitecture(t *testing.T) {
	tree := os.DirFS("..")
	project, err := readProject(tree)
	require.NoError(t, err)
	require.Greater(t, len(project.sources), 10, "the walk found next to nothing: is this the project's tree?")

	for _, guard := range []struct {
		sentence string
		faults   []string
	}{
		{"every room has its place in the table and imports only what it may", roomFaults(project.sources, rooms)},
		{"a library that is kept to some rooms is imported nowhere else", libraryFaults(project.sources, libraries, rooms)},
		{"the table grants nothing that no import uses", grantFaults(project.sources, rooms)},
		{"DEVELOPERS.md tells what every room is for and what it may import", mapFaults(project.sources, project.texts, rooms)},
		{"nothing unexpected lies at the root", topLevelFaults(project.topLevel, topLevel)},
		{"every package and every exported name is documented", docFaults(project.sources)},
		{"a package is named after what it holds", packageNameFaults(project.sources)},
		{"tests stand outside the package they test", testPackageFaults(project.sources)},
		{"a JSON key of a measure carries its unit", jsonKeyFaults(project.sources)},
		{"no text names a path of one machine or a registry's host", machineFaults(project.texts)},
		{"no file is too long", fileFaults(project.texts, mostLines, stillTooLong)},
		{"no function is too long", functionFaults(project.sources, mostFunction, mostFunctionTests, stillTooLong)},
	} {
		t.Run(guard.sentence, func(t *testing.T) {
			require.Empty(t, guard.faults, "\n"+strings.Join(guard.faults, "\n"))
		})
	}
}
