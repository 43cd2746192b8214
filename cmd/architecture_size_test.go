package cmd_test

import (
	"fmt"
	"go/ast"
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// The most lines there may be: of a file, test or not; of a function, from its "func" to its last brace; of a function
// in a test.
const (
	mostLines         = 350
	mostFunction      = 40
	mostFunctionTests = 80
)

// fileFaults names the Go files of more than most lines, and those of long that are no longer so: the list only shrinks.
func fileFaults(texts []text, most int, long []string) []string {
	var faults []string
	known := knownAsLong(long, false)
	for _, file := range texts {
		lines := strings.Count(file.content, "\n")
		if strings.HasSuffix(file.path, ".go") && lines > most && !known.has(file.path) {
			faults = append(faults, fmt.Sprintf("%s: %d lines, %d at most: split it", file.path, lines, most))
		}
	}
	return append(faults, known.idle()...)
}

// functionFaults names the functions of more lines than they may have, and those of long that are no longer so.
func functionFaults(sources []source, most, mostInTests int, long []string) []string {
	var faults []string
	known := knownAsLong(long, true)
	for _, s := range sources {
		limit := most
		if s.test {
			limit = mostInTests
		}
		for _, f := range s.functions() {
			if f.lines > limit && !known.has(s.path+": "+f.name) {
				faults = append(faults, fmt.Sprintf("%s: %s has %d lines, %d at most: split it", s.at(f.node), f.name, f.lines, limit))
			}
		}
	}
	return append(faults, known.idle()...)
}

// known are the entries of [stillTooLong] of one sort, and which of them were met.
type known map[string]bool

func knownAsLong(long []string, functions bool) known {
	entries := known{}
	for _, entry := range long {
		if strings.Contains(entry, ": ") == functions {
			entries[entry] = false
		}
	}
	return entries
}

func (k known) has(entry string) bool {
	_, has := k[entry]
	if has {
		k[entry] = true
	}
	return has
}

// idle names the entries that were not met.
func (k known) idle() []string {
	var faults []string
	for _, entry := range slices.Sorted(maps.Keys(k)) {
		if !k[entry] {
			faults = append(faults, entry+" is no longer too long: take it from stillTooLong in cmd/architecture_test.go")
		}
	}
	return faults
}

// function is one that is declared, or written down as a value within another, with the lines that count.
type function struct {
	node  ast.Node
	name  string
	lines int
}

func (s source) functions() (all []function) {
	for _, declared := range s.tree.Decls {
		name := "a function value"
		if f, is := declared.(*ast.FuncDecl); is {
			name = f.Name.Name
			if f.Body != nil {
				all = append(all, function{f, name, s.counted(f, f.Body)})
			}
			name = "a function value in " + name
		}
		ast.Inspect(declared, func(node ast.Node) bool {
			if f, is := node.(*ast.FuncLit); is {
				all = append(all, function{f, name, s.counted(f, f.Body)})
			}
			return true
		})
	}
	return all
}

// counted is how many lines of a function count. A table in it, a list or a map, is data and counts as one line; so does
// the value of a function that does nothing but return one. Functions in such data are counted by themselves.
func (s source) counted(whole ast.Node, body *ast.BlockStmt) int {
	lines := s.height(whole) + 1
	if len(body.List) == 1 {
		if back, is := body.List[0].(*ast.ReturnStmt); is && len(back.Results) == 1 && isLiteral(back.Results[0]) {
			return lines - s.height(back.Results[0])
		}
	}
	ast.Inspect(body, func(node ast.Node) bool {
		table, is := node.(*ast.CompositeLit)
		if !is {
			return true
		}
		switch table.Type.(type) {
		case *ast.ArrayType, *ast.MapType:
			lines -= s.height(table)
			return false
		}
		return true
	})
	return lines
}

// height is how many lines further down a node ends than it begins.
func (s source) height(node ast.Node) int { return s.line(node.End()) - s.line(node.Pos()) }

// isLiteral reports whether an expression is a composite literal, or its address.
func isLiteral(expr ast.Expr) bool {
	if address, is := expr.(*ast.UnaryExpr); is {
		expr = address.X
	}
	_, is := expr.(*ast.CompositeLit)
	return is
}

func TestFileFaults(t *testing.T) {
	file := func(path string, lines int) []text {
		return []text{{path: path, content: strings.Repeat("// line\n", lines)}}
	}
	t.Run("a long file trips, a test too", func(t *testing.T) {
		requireFault(t, "a.go: 351 lines", fileFaults(file("model/geom/a.go", 351), 350, nil))
		requireFault(t, "a_test.go: 351 lines", fileFaults(file("model/geom/a_test.go", 351), 350, nil))
	})
	t.Run("one of as many lines as may be passes, and a long page", func(t *testing.T) {
		require.Empty(t, fileFaults(file("model/geom/a.go", 350), 350, nil))
		require.Empty(t, fileFaults(file("README.md", 351), 350, nil))
	})
	long := []string{"model/geom/a.go"}
	t.Run("one that is known passes", func(t *testing.T) {
		require.Empty(t, fileFaults(file("model/geom/a.go", 351), 350, long))
	})
	t.Run("one that is known and short trips", func(t *testing.T) {
		requireFault(t, "a.go is no longer too long", fileFaults(file("model/geom/a.go", 350), 350, long))
	})
	t.Run("one that is known and gone trips", func(t *testing.T) {
		requireFault(t, "a.go is no longer too long", fileFaults(file("model/geom/b.go", 1), 350, long))
	})
}

func TestFunctionFaults(t *testing.T) {
	lines := func(n int) string { return strings.Repeat("\tx++\n", n) }
	rows := func(n int) string { return strings.Repeat("\t{1},\n", n) }
	for _, c := range []struct{ name, path, content, fault string }{
		{"a function of forty lines passes", "a.go", "func f() {\n" + lines(38) + "}", ""},
		{"one of more trips", "a.go", "func f() {\n" + lines(39) + "}", "a.go:2: f has 41 lines, 40 at most"},
		{"a method too", "a.go", "func (t T) f() {\n" + lines(39) + "}", "f has 41 lines"},
		{"a test may be longer", "a_test.go", "func f() {\n" + lines(78) + "}", ""},
		{"but not without end", "a_test.go", "func f() {\n" + lines(79) + "}", "f has 81 lines, 80 at most"},
		{"a body that is one list passes", "a.go", "func f() []T {\nreturn []T{\n" + rows(50) + "}\n}", ""},
		{"a body that is one struct passes", "a.go", "func f() *T {\nreturn &T{\n" + strings.Repeat("A: 1,\n", 50) + "}\n}", ""},
		{"a list beside other lines does not count", "a.go", "func f() {\n" + lines(37) + "g([]T{\n" + rows(50) + "})\n}", ""},
		{"the other lines do", "a.go", "func f() {\n" + lines(39) + "g([]T{\n" + rows(50) + "})\n}", "f has 42 lines"},
		{"a struct beside other lines counts", "a.go", "func f() {\nx := T{\n" + strings.Repeat("A: 1,\n", 37) + "}\ng(x)\n}", "f has 42 lines"},
		{"a function in a list is counted by itself", "a.go", "func f() []T {\nreturn []T{\n{func() {\n" + lines(39) + "}},\n}\n}", "a function value in f has 41 lines"},
		{"one that a variable holds too", "a.go", "var f = func() {\n" + lines(39) + "}", "a function value has 41 lines"},
		{"a variable that is a list passes", "a.go", "var f = []T{\n" + rows(50) + "}", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			requireFault(t, c.fault, functionFaults(example(t, c.path, "package a\n"+c.content), mostFunction, mostFunctionTests, nil))
		})
	}
	long := []string{"a.go: f"}
	t.Run("one that is known passes", func(t *testing.T) {
		require.Empty(t, functionFaults(example(t, "a.go", "package a\nfunc f() {\n"+lines(39)+"}"), mostFunction, mostFunctionTests, long))
	})
	t.Run("one that is known and gone trips", func(t *testing.T) {
		requireFault(t, "f is no longer too long", functionFaults(example(t, "a.go", "package a\nfunc g() {}"), mostFunction, mostFunctionTests, long))
	})
	t.Run("one that is known and short trips", func(t *testing.T) {
		requireFault(t, "f is no longer too long", functionFaults(example(t, "a.go", "package a\nfunc f() {}"), mostFunction, mostFunctionTests, long))
	})
}
