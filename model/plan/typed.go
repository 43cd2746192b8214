package plan

import (
	"fmt"
	"iter"
	"slices"
)

func (o typedOps[R]) length(p *Plan) int         { return (*o.table(p)).Len() }
func (o typedOps[R]) same(a, b *Plan) bool       { return *o.table(a) == *o.table(b) }
func (o typedOps[R]) equal(a, b *Plan) bool      { return (*o.table(a)).equal(*o.table(b)) }
func (o typedOps[R]) has(p *Plan, key Key) bool  { return (*o.table(p)).Has(key) }
func (o typedOps[R]) keyOf(row any) Key          { return row.(R).Key() }
func (o typedOps[R]) put(e *Edit, row any)       { o.work(e).put(normal(row.(R))) }
func (o typedOps[R]) drop(e *Edit, key Key) bool { return o.work(e).drop(key) }
func (o typedOps[R]) addSet(d *Delta, row any)   { o.changes(d).Set = append(o.changes(d).Set, row.(R)) }

func (o typedOps[R]) addDrop(d *Delta, key Key) { o.changes(d).Drop = append(o.changes(d).Drop, key) }

func (o typedOps[R]) get(p *Plan, key Key) (any, bool) {
	row, found := (*o.table(p)).Get(key)
	return row, found
}

func (o typedOps[R]) rows(p *Plan) iter.Seq[any] {
	return func(yield func(any) bool) {
		for row := range (*o.table(p)).All() {
			if !yield(row) {
				return
			}
		}
	}
}

// work returns the edit's own copy of the table, made at the first touch.
func (o typedOps[R]) work(e *Edit) *Table[R] {
	at := o.table(&e.next)
	if *at == nil || !(*at).working {
		*at = (*at).thaw()
	}
	return *at
}

// freeze makes the edit's copy immutable; one that ends as it began gives the old identity back.
func (o typedOps[R]) freeze(p *Plan) {
	at := o.table(p)
	if *at != nil && (*at).working {
		*at = &Table[R]{keys: (*at).keys, rows: (*at).rows}
		if len((*at).rows) == 0 {
			*at = nil
		}
	}
}

func (o typedOps[R]) between(a, b *Plan, d *Delta) {
	from, to, changes := *o.table(a), *o.table(b), o.changes(d)
	if from == to {
		return
	}
	for row := range to.All() {
		if old, found := from.Get(row.Key()); !found || old != row {
			changes.Set = append(changes.Set, row)
		}
	}
	for row := range from.All() {
		if !to.Has(row.Key()) {
			changes.Drop = append(changes.Drop, row.Key())
		}
	}
}

func (o typedOps[R]) apply(e *Edit, d *Delta) []Problem {
	changes := o.changes(d)
	if len(changes.Set) == 0 && len(changes.Drop) == 0 {
		return nil
	}
	var problems []Problem
	table := o.work(e)
	for _, key := range changes.Drop {
		if !table.drop(key) {
			problems = append(problems, Problem{Key: key, Reason: fmt.Sprintf("there is no row %q to drop", Clipped(string(key)))})
		}
	}
	for _, row := range changes.Set {
		table.put(normal(row))
	}
	return problems
}

func (o typedOps[R]) changed(d *Delta) ([]any, []Key) {
	changes := o.changes(d)
	set := make([]any, len(changes.Set))
	for i, row := range changes.Set {
		set[i] = row
	}
	return set, slices.Clone(changes.Drop)
}

func (o typedOps[R]) share(from, to *Plan) { *o.table(to) = *o.table(from) }
