package plan

import (
	"iter"
	"slices"
	"strings"
	"sync"
)

// Key identifies a row in its table: an id, a slug, or parts joined by "/" (link and order, kind and port).
type Key string

// Row is a row of a table: comparable, so that == reports whether it changed.
type Row interface {
	comparable
	// Key returns the row's identity; it never changes while the row exists.
	Key() Key
}

// Table is an immutable set of rows sorted by key. Its identity is its pointer: the same pointer is the same
// content. A nil table is empty.
type Table[R Row] struct {
	keys []Key
	rows []R

	indexOnce sync.Once
	index     map[Key]int
	working   bool
}

// Len returns the number of rows.
func (t *Table[R]) Len() int {
	if t == nil {
		return 0
	}
	return len(t.rows)
}

// At returns row i of 0 ≤ i < Len in key order.
func (t *Table[R]) At(i int) R { return t.rows[i] }

// Get returns the row with this key.
func (t *Table[R]) Get(key Key) (R, bool) {
	if i, found := t.find(key); found {
		return t.rows[i], true
	}
	var none R
	return none, false
}

// Has reports whether a row with this key exists.
func (t *Table[R]) Has(key Key) bool {
	_, found := t.find(key)
	return found
}

// All yields the rows in key order.
func (t *Table[R]) All() iter.Seq[R] {
	return func(yield func(R) bool) {
		if t == nil {
			return
		}
		for _, row := range t.rows {
			if !yield(row) {
				return
			}
		}
	}
}

// Under returns the rows whose composite key begins with this parent, in order. The slice is the table's own:
// read it, never write it.
func (t *Table[R]) Under(parent Key) []R {
	if t == nil {
		return nil
	}
	prefix := string(parent) + "/"
	first, _ := slices.BinarySearch(t.keys, Key(prefix))
	last := first
	for last < len(t.keys) && strings.HasPrefix(string(t.keys[last]), prefix) {
		last++
	}
	return t.rows[first:last:last]
}

func (t *Table[R]) find(key Key) (int, bool) {
	if t == nil {
		return 0, false
	}
	if t.working {
		return slices.BinarySearch(t.keys, key)
	}
	t.indexOnce.Do(func() {
		t.index = make(map[Key]int, len(t.keys))
		for i, k := range t.keys {
			t.index[k] = i
		}
	})
	i, found := t.index[key]
	return i, found
}

// thaw returns a copy that put and drop may change.
func (t *Table[R]) thaw() *Table[R] {
	if t == nil {
		return &Table[R]{working: true}
	}
	return &Table[R]{keys: slices.Clone(t.keys), rows: slices.Clone(t.rows), working: true}
}

func (t *Table[R]) put(row R) {
	key := row.Key()
	i, found := slices.BinarySearch(t.keys, key)
	if found {
		t.rows[i] = row
		return
	}
	t.keys = slices.Insert(t.keys, i, key)
	t.rows = slices.Insert(t.rows, i, row)
}

func (t *Table[R]) drop(key Key) bool {
	i, found := slices.BinarySearch(t.keys, key)
	if !found {
		return false
	}
	t.keys = slices.Delete(t.keys, i, i+1)
	t.rows = slices.Delete(t.rows, i, i+1)
	return true
}

// Differ visits the rows in which two tables differ, in key order: as they were and as they are, nil where there is none.
func Differ[R Row](a, b *Table[R], visit func(was, is *R)) {
	if a == b {
		return
	}
	i, j := 0, 0
	for i < a.Len() || j < b.Len() {
		order := 1
		if j == b.Len() {
			order = -1
		} else if i < a.Len() {
			order = strings.Compare(string(a.keys[i]), string(b.keys[j]))
		}
		switch {
		case order < 0:
			visit(&a.rows[i], nil)
			i++
		case order > 0:
			visit(nil, &b.rows[j])
			j++
		default:
			if a.rows[i] != b.rows[j] {
				visit(&a.rows[i], &b.rows[j])
			}
			i, j = i+1, j+1
		}
	}
}

func (t *Table[R]) equal(other *Table[R]) bool {
	if t == other {
		return true
	}
	return t.Len() == other.Len() && (t.Len() == 0 || slices.Equal(t.rows, other.rows))
}
