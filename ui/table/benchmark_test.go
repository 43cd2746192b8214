package table_test

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"stageloom/ui/table"
)

// manyRows is a grid of 2,000 rows in a window of 1280 × 400, with all keys on it.
func manyRows(b *testing.B) (*table.Grid, fyne.Window) {
	b.Helper()
	app := test.NewTempApp(b)
	names := make([]string, 2000)
	for i := range names {
		names[i] = fmt.Sprintf("Channel %d of a long show", i)
	}
	d := deskWith(b, names...)
	g := table.NewGrid(table.NewSheet(inputsOf(d.Plan()), d.Do))
	window := app.NewWindow("")
	b.Cleanup(window.Close)
	window.SetContent(g)
	window.Resize(fyne.NewSize(1280, 400))
	g.Focus()
	return g, window
}

// BenchmarkScroll is one page of 2,000 rows at a step: our own work of a frame, without the driver's painting.
func BenchmarkScroll(b *testing.B) {
	_, window := manyRows(b)
	key, back := &fyne.KeyEvent{Name: fyne.KeyPageDown}, &fyne.KeyEvent{Name: fyne.KeyPageUp}
	for i := 0; b.Loop(); i++ {
		if i/100%2 == 0 {
			window.Canvas().Focused().TypedKey(key)
		} else {
			window.Canvas().Focused().TypedKey(back)
		}
	}
}

// BenchmarkSort sorts 2,000 rows by a text.
func BenchmarkSort(b *testing.B) {
	g, _ := manyRows(b)
	for b.Loop() {
		g.SortBy(1)
	}
}

// BenchmarkFilter types a letter and takes it back.
func BenchmarkFilter(b *testing.B) {
	g, _ := manyRows(b)
	for b.Loop() {
		g.SetFilter("7")
		g.SetFilter("")
	}
}

// BenchmarkNextPlan shows the plan after an edit.
func BenchmarkNextPlan(b *testing.B) {
	g, _ := manyRows(b)
	source := g.Sheet().Source()
	for b.Loop() {
		g.SetSource(source)
	}
}
