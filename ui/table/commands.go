package table

import (
	"errors"
	"fmt"

	"fyne.io/fyne/v2"

	"stageloom/model/words"
)

// keptMoved is moved without scrolling: a selection of everything leaves the view where it is.
func (g *Grid) keptMoved() {
	g.trouble = ""
	g.refreshCells()
	g.explain()
	g.tell()
}

func (g *Grid) leave() {
	if g.Leave != nil {
		g.Leave()
	}
}

// open shows the cursor's row on the plan.
func (g *Grid) open() {
	if row, _ := g.sheet.Cursor(); row >= 0 && g.Open != nil {
		g.Open(g.sheet.source, g.sheet.rows[row])
	}
}

func (g *Grid) copy(headings bool) {
	if g.sheet.Len() == 0 {
		return
	}
	text := g.sheet.Copy()
	if headings {
		text = g.sheet.CopyWithHeadings()
	}
	fyne.CurrentApp().Clipboard().SetContent(text)
	one, many := g.sheet.source.Words()
	n := len(g.sheet.block())
	what := countWords(n, n, one, many)
	if first, last := g.sheet.stretch(); first == last && n == 1 && !headings {
		what = "One cell"
	}
	g.say(what + " copied, for a spreadsheet too.")
}

func (g *Grid) paste() {
	changed, err := g.sheet.Paste(fyne.CurrentApp().Clipboard().Content())
	switch {
	case err != nil:
		g.warn(unchanged(err))
	case changed == 0:
		g.say("What was pasted reads as it stands already.")
	default:
		g.say(fmt.Sprintf("%d %s set from the clipboard. Ctrl Z takes them back.", changed, words.Plural(changed, "cell", "cells")))
	}
}

// unchanged adds to the reasons of several cells that nothing was changed at all.
func unchanged(err error) error {
	var misfits *Misfits
	if errors.As(err, &misfits) {
		return fmt.Errorf("%w. Nothing was changed", err)
	}
	return err
}

func (g *Grid) clear() {
	if err := g.sheet.Clear(); err != nil {
		g.warn(unchanged(err))
	}
}

func (g *Grid) addRow() {
	if adds, _ := g.sheet.Grows(); !adds || !g.keepEdit() {
		return
	}
	if g.NewRow != nil {
		g.NewRow()
		return
	}
	g.filter.SetText("")
	if _, err := g.sheet.Add(); err != nil {
		g.warn(err)
		return
	}
	g.show()
	g.Focus()
	g.moved()
}

func (g *Grid) removeRows() {
	if _, removes := g.sheet.Grows(); !removes {
		if g.Remove != nil {
			g.Remove()
		}
		return
	}
	what, n := "", len(g.sheet.block())
	if n == 0 {
		return
	}
	what = g.sheet.RowName(g.sheet.block()[0])
	if n > 1 {
		_, many := g.sheet.source.Words()
		what = fmt.Sprintf("%d %s", n, many)
	}
	if err := g.sheet.RemoveRows(); err != nil {
		g.warn(err)
		return
	}
	g.say(what + " deleted. Ctrl Z brings it back.")
}
