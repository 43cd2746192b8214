package table

import "fyne.io/fyne/v2"

// Holds reports whether what has the focus is the table's: its cells, the field in one of them or the line that filters.
func (g *Grid) Holds(focused fyne.Focusable) bool {
	switch f := focused.(type) {
	case *body:
		return f.grid == g
	case *filterField:
		return f.grid == g
	case *cellField:
		return f.grid == g
	}
	return false
}

// tellKey hands a function key on from a field.
func (g *Grid) tellKey(name fyne.KeyName) {
	if g.Key != nil {
		g.Key(name)
	}
}
