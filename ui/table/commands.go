package table

import (
	"errors"
	"fmt"
	"slices"

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
	before := g.sheet.source.Len()
	changed, err := g.sheet.Paste(fyne.CurrentApp().Clipboard().Content())
	one, many := g.sheet.source.Words()
	switch {
	case err != nil:
		g.warn(unchanged(err))
	case g.sheet.source.Len() > before:
		g.say(fmt.Sprintf("%s added and %s set from the clipboard. Ctrl Z takes them back.",
			words.Counted(g.sheet.source.Len()-before, one, many), words.Counted(changed, "cell", "cells")))
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

// removes reports whether rows can be taken out here.
func (g *Grid) removes() bool {
	_, removes := g.sheet.Grows()
	return removes || g.Remove != nil
}

// delete takes marked rows out, and blanks marked cells. A name that can't be blank stands for its row.
func (g *Grid) delete() {
	if g.sheet.WholeRows() && g.removes() {
		g.removeRows()
		return
	}
	err := g.sheet.Clear()
	if err == nil {
		return
	}
	if first, last := g.sheet.stretch(); g.removes() && first == last && g.sheet.Columns()[first].Names {
		g.removeRows()
		return
	}
	g.warn(unchanged(err))
}

// GoToName puts the cursor into the column by which rows are told apart, where a new row begins.
func (g *Grid) GoToName() {
	row, _ := g.sheet.Cursor()
	if at := slices.IndexFunc(g.sheet.Columns(), func(c Column) bool { return c.Names }); at >= 0 && row >= 0 {
		g.sheet.Aim(row, at)
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
	g.GoToName()
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
