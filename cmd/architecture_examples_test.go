package cmd_test

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"
)

// example parses one small Go file that lies at the given path.
func example(t *testing.T, name, content string) []source {
	t.Helper()
	parsed, err := parse(name, content)
	require.NoError(t, err)
	return []source{parsed}
}

func TestReadHouse(t *testing.T) {
	tree := fstest.MapFS{
		"go.mod":                       {Data: []byte("module stageloom\n")},
		"build/made.go":                {Data: []byte("not Go at all")},
		".git/config":                  {Data: []byte("[core]\n")},
		"model/geom/point.go":          {Data: []byte("package geom\n")},
		"model/geom/testdata/bad.go":   {Data: []byte("not Go at all")},
		"assets/icon.png":              {Data: []byte("\x89PNG\x00\x00")},
		"model/geom/geom_test.go":      {Data: []byte("package geom_test\n")},
		"model/geom/geom.test":         {Data: []byte("made")},
		"model/geom/testdata/rapid/f":  {Data: []byte("made")},
		"testdata/weekender.something": {Data: []byte("{}")},
	}
	t.Run("it leaves out what git does not keep, binary files and test data in Go", func(t *testing.T) {
		all, err := readProject(tree)
		require.NoError(t, err)
		require.Equal(t, []string{"assets", "go.mod", "model", "testdata"}, all.topLevel)
		require.Len(t, all.sources, 2)
		require.True(t, all.sources[0].test != all.sources[1].test)
		require.Len(t, all.texts, 5)
	})
	t.Run("a file that does not parse is an error", func(t *testing.T) {
		tree["model/geom/broken.go"] = &fstest.MapFile{Data: []byte("package")}
		_, err := readProject(tree)
		require.Error(t, err)
	})
}

func TestRoomFaults(t *testing.T) {
	table := map[string][]string{
		"model/geom": {}, "model/plan": {"model/geom"}, "model/desk": {"model/*", "-model/picture"},
		"report": {"model/*", "-model/desk"}, "model/plan/plantest": {onlyTests, "model/plan"},
	}
	for _, c := range []struct{ name, path, content, fault string }{
		{"an import in the table passes", "model/plan/a.go", `package plan; import "stageloom/model/geom"`, ""},
		{"an import against the grain trips", "model/geom/a.go", `package geom; import "stageloom/model/plan"`, "model/geom may not import model/plan"},
		{"a wing passes as a whole", "model/desk/a.go", `package desk; import "stageloom/model/plan"`, ""},
		{"a room taken out of a wing trips", "model/desk/a.go", `package desk; import "stageloom/model/picture"`, "may not import model/picture"},
		{"a room without a place trips", "model/new/a.go", `package new`, "the room model/new is missing in the table"},
		{"a Go file at the root trips", "a.go", `package main`, "the room . is missing in the table"},
		{"a test may use the rooms of its wing", "model/geom/a_test.go", `package geom_test; import "stageloom/model/plan"`, ""},
		{"a test may use a room that serves tests", "model/desk/a_test.go", `package desk_test; import "stageloom/model/plan/plantest"`, ""},
		{"a program may not", "model/desk/a.go", `package desk; import "stageloom/model/plan/plantest"`, "may not import model/plan/plantest"},
		{"a test of the model may not use the screen", "model/geom/a_test.go", `package geom_test; import "stageloom/ui"`, "may not import ui"},
		{"a test of paper may not use the desk", "report/a_test.go", `package report_test; import "stageloom/model/desk"`, "may not import model/desk"},
	} {
		t.Run(c.name, func(t *testing.T) {
			requireFault(t, c.fault, roomFaults(example(t, c.path, c.content), table))
		})
	}
}

// requireFault wants one fault that says fault, or none where fault is empty.
func requireFault(t *testing.T, fault string, faults []string) {
	t.Helper()
	if fault == "" {
		require.Empty(t, faults)
		return
	}
	require.Len(t, faults, 1)
	require.Contains(t, faults[0], fault)
}

func TestLibraryFaults(t *testing.T) {
	for _, c := range []struct{ name, path, imported, fault string }{
		{"paper prints", "report/paper/a.go", "github.com/jung-kurt/gofpdf", ""},
		{"a chapter may not print by itself", "report/a.go", "github.com/jung-kurt/gofpdf", "report may not import"},
		{"a widget may use fyne", "ui/planview/a.go", "fyne.io/fyne/v2/widget", ""},
		{"a tool may not", "ui/planview/tool/a.go", "fyne.io/fyne/v2", "may not import fyne.io/fyne/v2"},
		{"nor may its test", "ui/planview/tool/a_test.go", "fyne.io/fyne/v2/test", "may not import fyne.io/fyne/v2/test"},
		{"the model may not", "model/desk/a.go", "fyne.io/fyne/v2/canvas", "may not import"},
		{"the window program starts fyne", "cmd/stageloom/main.go", "fyne.io/fyne/v2/app", ""},
		{"the window's room may not start it", "ui/window.go", "fyne.io/fyne/v2/app", "may not import fyne.io/fyne/v2/app"},
		{"a longer name is another library", "ui/window.go", "fyne.io/fyne/v2/application", ""},
		{"a test may require", "model/geom/a_test.go", "github.com/stretchr/testify/require", ""},
		{"a program may not", "model/geom/a.go", "github.com/stretchr/testify/require", "may not import"},
		{"a room that serves tests may", "model/plan/plantest/a.go", "pgregory.net/rapid", ""},
		{"a library that is not named is free", "model/geom/a.go", "golang.org/x/image/font", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			requireFault(t, c.fault, libraryFaults(example(t, c.path, `package a; import _ "`+c.imported+`"`), libraries, rooms))
		})
	}
}

func TestTopLevelFaults(t *testing.T) {
	t.Run("a stray file at the root trips", func(t *testing.T) {
		requireFault(t, "main.go may not lie at the root", topLevelFaults([]string{"cmd", "go.mod", "main.go"}, topLevel))
	})
}

func TestDocFaults(t *testing.T) {
	const head = "// Package geom is told.\npackage geom\n"
	for _, c := range []struct{ name, content, fault string }{
		{"a package without a word trips", "package geom", "no file says what the package is for"},
		{"a told function passes", head + "// F is told.\nfunc F() {}", ""},
		{"an untold function trips", head + "func F() {}", "func F has no comment"},
		{"a function of our own needs no word", head + "func f() {}", ""},
		{"an untold method trips", head + "// T is told.\ntype T[A any] struct{}\nfunc (t *T[A]) F() {}", "func F has no comment"},
		{"a method of an unexported type needs no word", head + "type t struct{}\nfunc (t) F() {}", ""},
		{"an untold type trips", head + "type T int", "type T has no comment"},
		{"a type told by its own line in a group passes", head + "type (\n\tT int // T is told.\n)", ""},
		{"a comment over a group tells no type", head + "// Types.\ntype (\n\tT int\n\tu int\n)", "type T has no comment"},
		{"an untold variable trips", head + "var A, b = 1, 2", "A has no comment"},
		{"a told group of constants passes", head + "// Kinds.\nconst (\n\tA = 1\n\tB = 2\n)", ""},
		{"a comment stands for its run of lines", head + "const (\n\t// A and B are told.\n\tA = 1\n\tB = 2\n)", ""},
		{"a blank line ends the run", head + "const (\n\t// A is told.\n\tA = 1\n\n\tB = 2\n)", "B has no comment"},
		{"a measure in a struct needs its unit", head + "// T is told.\ntype T struct { Name string; Length float64 }", "T.Length has no comment"},
		{"a list of measures too", head + "// T is told.\ntype T struct { Lengths []float64 }", "T.Lengths has no comment"},
		{"a measure named in the struct's comment passes", head + "// T has a Length in metres.\ntype T struct { Length float64 }", ""},
		{"a unit in the struct's comment passes", head + "// T is told, in metres.\ntype T struct { X, Y float64 }", ""},
		{"a unit in the JSON key passes", head + "// T is told.\ntype T struct { X float64 `json:\"x_m\"` }", ""},
		{"a unit in the name passes", head + "// T is told.\ntype T struct { LossDB float64 }", ""},
		{"a count needs no unit", head + "// T is told.\ntype T struct { Order int }", ""},
		{"a measure with its own words passes", head + "// T is told.\ntype T struct {\n\tLength float64 // metres\n}", ""},
		{"a method of an interface needs words", head + "// T is told.\ntype T interface { F() }", "T.F has no comment"},
	} {
		t.Run(c.name, func(t *testing.T) {
			requireFault(t, c.fault, docFaults(example(t, "model/geom/a.go", c.content)))
		})
	}
	t.Run("a test's comment does not tell the package", func(t *testing.T) {
		both := append(example(t, "model/geom/a.go", "package geom"), example(t, "model/geom/a_test.go", head)...)
		requireFault(t, "no file says what the package is for", docFaults(both))
	})
}

func TestNameFaults(t *testing.T) {
	t.Run("a package named after nothing trips", func(t *testing.T) {
		requireFault(t, "tells nothing", packageNameFaults(example(t, "model/helpers/a.go", "package helpers")))
	})
	t.Run("so does a folder named after nothing", func(t *testing.T) {
		requireFault(t, "tells nothing", packageNameFaults(example(t, "cmd/util/main.go", "package main")))
	})
	t.Run("a package that is not named after its folder trips", func(t *testing.T) {
		requireFault(t, "not named after its folder", packageNameFaults(example(t, "model/geom/a.go", "package geometry")))
	})
	t.Run("a program and a test pass", func(t *testing.T) {
		require.Empty(t, packageNameFaults(example(t, "cmd/loomsheet/main.go", "package main")))
		require.Empty(t, packageNameFaults(example(t, "model/geom/a_test.go", "package geom_test")))
	})
	t.Run("a test inside its package trips", func(t *testing.T) {
		requireFault(t, "should be geom_test", testPackageFaults(example(t, "model/geom/a_test.go", "package geom")))
		require.Empty(t, testPackageFaults(example(t, "model/geom/export_test.go", "package geom")))
	})
}

func TestJSONKeyFaults(t *testing.T) {
	for _, c := range []struct{ name, field, fault string }{
		{"a length in metres passes", "Length float64 `json:\"length_m\"`", ""},
		{"a length without its unit trips", "Length float64 `json:\"length,omitempty\"`", `"length" does not tell its unit`},
		{"a coordinate without its unit trips", "X float64 `json:\"x\"`", `"x" does not tell its unit`},
		{"a rise to somewhere without its unit trips", "R float64 `json:\"rise_to\"`", `"rise_to" does not tell its unit`},
		{"a number that is no measure passes", "Order int `json:\"order\"`", ""},
		{"a rule's name passes", "Limit string `json:\"limit\"`", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			requireFault(t, c.fault, jsonKeyFaults(example(t, "model/plan/a.go", "package plan\ntype row struct {\n"+c.field+"\n}")))
		})
	}
}

func TestMachineFaults(t *testing.T) {
	// Put together here, so that this file does not trip the guard itself.
	slash, dot := "/", "."
	for _, c := range []struct {
		name, line string
		trips      bool
	}{
		{"a home folder", `open "` + slash + `home/someone/plan"`, true},
		{"a folder of the superuser", "see " + slash + "root", true},
		{"a folder for passing files", slash + "tmp/out.pdf", true},
		{"a folder on another system", "(" + slash + "Users/someone)", true},
		{"a module's proxy", "https:" + slash + slash + "proxy" + dot + "golang" + dot + "org", true},
		{"a place in a file", `/devices/0/x_m`, false},
		{"a folder of the project", "model/work/home/tmp.go", false},
		{"the null device", "2>/dev/null", false},
		{"a page on the net", "https://example.org/home/page", false},
	} {
		t.Run(c.name, func(t *testing.T) {
			faults := machineFaults([]text{{path: "README.md", content: "first\n" + c.line + "\n"}})
			if c.trips {
				requireFault(t, "README.md:2: ", faults)
			} else {
				require.Empty(t, faults)
			}
		})
	}
}
