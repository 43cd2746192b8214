package table

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// filterField is the line that filters as one types.
type filterField struct {
	widget.Entry
	grid    *Grid
	pointed bool
}

func newFilterField(g *Grid) *filterField {
	f := &filterField{grid: g}
	f.PlaceHolder = "Filter rows   Ctrl F"
	f.OnChanged = func(text string) {
		if text == g.sheet.Filter() {
			return
		}
		if g.editing != nil && !g.keepEdit() {
			f.SetText(g.sheet.Filter()) // the line says what filters
			return
		}
		g.sheet.SetFilter(text)
		g.show()
		g.scroll()
	}
	f.ExtendBaseWidget(f)
	return f
}

// leftOut says, behind the number of rows, which a setting leaves out.
func (g *Grid) leftOut() string {
	if sifter, is := g.sheet.Source().(Sifter); is && sifter.LeftOut() != "" {
		return "; " + sifter.LeftOut()
	}
	return ""
}

// Inner is the toolkit's entry, for tests.
func (f *filterField) Inner() *widget.Entry { return &f.Entry }

// MouseDown implements desktop.Mouseable.
func (f *filterField) MouseDown(event *desktop.MouseEvent) {
	f.pointed = true
	f.Entry.MouseDown(event)
	f.pointed = false
}

// FocusGained implements fyne.Focusable. Reached by key, what filters is selected, so that typing replaces it.
func (f *filterField) FocusGained() {
	f.Entry.FocusGained()
	if !f.pointed {
		f.Entry.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
}

// TypedKey implements fyne.Focusable: Escape shows all rows again and then leaves, Enter and Down go to the cells.
func (f *filterField) TypedKey(event *fyne.KeyEvent) {
	switch event.Name {
	case fyne.KeyEscape:
		if !f.clear() {
			f.grid.Focus()
		}
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeyDown:
		f.grid.toHits()
	case fyne.KeyF1:
		f.grid.tellKey(event.Name)
	default:
		f.Entry.TypedKey(event)
	}
}

// toHits goes to the cells; of rows that are filtered the first is selected.
func (g *Grid) toHits() {
	g.Focus()
	if _, column := g.sheet.Cursor(); column >= 0 && g.sheet.Filter() != "" {
		g.sheet.Pick(0, column)
		g.moved()
	}
}

// clear shows all rows again, and reports whether some were filtered away.
func (f *filterField) clear() bool {
	was := f.Text
	f.SetText("")
	return was != ""
}
