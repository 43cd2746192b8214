package plan

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
)

// MaxRows is the most rows a table may hold.
const MaxRows = 20000

// MaxSegments is the most segments a link may have.
const MaxSegments = 32

// Problem is one reason why a plan cannot stand.
type Problem struct {
	Table  string
	Key    Key
	Field  string
	Reason string
}

// String says the problem with its place.
func (p Problem) String() string {
	return strings.Join(slices.DeleteFunc([]string{p.Table, Clipped(string(p.Key)), p.Field, p.Reason}, func(s string) bool { return s == "" }), " ")
}

// Invalid is the error of an edit that would leave the plan broken; the plan before it stays.
type Invalid struct{ Problems []Problem }

// Error names the first problems in words.
func (i *Invalid) Error() string {
	var b strings.Builder
	b.WriteString("not changed: ")
	for n, problem := range i.Problems {
		if n == 3 {
			fmt.Fprintf(&b, " (and %d more)", len(i.Problems)-n)
			break
		}
		if n > 0 {
			b.WriteString("; ")
		}
		b.WriteString(problem.String())
	}
	return b.String()
}

// Unwrap lets errors.Is find ErrRefused.
func (i *Invalid) Unwrap() error { return ErrRefused }

// Check returns every reason why p cannot stand; a committed plan has none.
func Check(p *Plan) []Problem { return checkChange(&Plan{}, p) }

// checkChange checks the rows that differ from base. Where a row went, every reference is checked again.
func checkChange(base, next *Plan) []Problem {
	c := &checker{base: base, next: next}
	if base.Settings != next.Settings || next.Settings == (Settings{}) {
		c.fields("plan", "", settingsFields, reflect.ValueOf(next.Settings))
	}
	gone := false
	for _, table := range tables {
		gone = gone || c.loses(table)
	}
	for _, table := range tables {
		c.table(table, gone)
	}
	c.structure()
	return c.problems
}

type checker struct {
	base, next *Plan
	problems   []Problem
}

func (c *checker) add(table string, key Key, field, reason string) {
	c.problems = append(c.problems, Problem{table, key, field, reason})
}

func (c *checker) loses(table *TableInfo) bool {
	if table.Same(c.base, c.next) {
		return false
	}
	for row := range table.Rows(c.base) {
		if !table.Has(c.next, table.KeyOf(row)) {
			return true
		}
	}
	return false
}

func (c *checker) table(table *TableInfo, all bool) {
	same := table.Same(c.base, c.next)
	if same && !all {
		return
	}
	if n := table.Len(c.next); n > MaxRows {
		c.add(table.Name, "", "", fmt.Sprintf("has %d rows, but at most %d are kept", n, MaxRows))
		return
	}
	for row := range table.Rows(c.next) {
		key := table.KeyOf(row)
		if old, found := table.Get(c.base, key); !found || old != row {
			c.row(table, key, row)
		} else if all {
			c.refs(table.Name, key, table.fields, reflect.ValueOf(row))
		}
	}
}

func (c *checker) row(table *TableInfo, key Key, row any) {
	v := reflect.ValueOf(row)
	if table.Letter != "" && (!idForm.MatchString(string(key)) || string(key[:1]) != table.Letter) {
		c.add(table.Name, key, "id", fmt.Sprintf("must be %s- and five of the signs %s", table.Letter, Signs))
	}
	c.fields(table.Name, key, table.fields, v)
	c.refs(table.Name, key, table.fields, v)
}

func (c *checker) fields(table string, key Key, fields []field, v reflect.Value) {
	for _, f := range fields {
		if reason := f.check(v.Field(f.index)); reason != "" {
			c.add(table, key, f.name, reason)
		}
	}
}

func (c *checker) refs(table string, key Key, fields []field, v reflect.Value) {
	for _, f := range fields {
		if f.ref == "" {
			continue
		}
		id := v.Field(f.index).String()
		if id == "" {
			continue
		}
		if target, _ := TableNamed(f.ref); !target.Has(c.next, Key(id)) {
			c.add(table, key, f.name, fmt.Sprintf("names %q, but %s has no such row", Clipped(id), f.ref))
		}
	}
}
