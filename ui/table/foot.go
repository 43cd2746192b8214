package table

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// explain says at the foot what is wrong, or else what stands in the cursor's row or what its column holds.
func (g *Grid) explain() {
	text, whole := g.footText()
	importance := widget.LowImportance
	if whole {
		importance = widget.MediumImportance // it is read, not glanced at
	}
	if g.carrying != nil {
		text, importance, whole = g.carryWords(), widget.MediumImportance, false
	}
	if g.trouble != "" {
		text, importance, whole = g.trouble, widget.DangerImportance, true
	}
	g.setFoot(text, importance, whole)
}

// footText is what the line at the foot says of the cursor's row, and whether that has to stand whole.
func (g *Grid) footText() (text string, whole bool) {
	row, column := g.sheet.Cursor()
	if column < 0 {
		return "", false
	}
	at, cell := g.sheet.Columns()[column], g.sheet.Cell(row, column)
	if n := len(g.sheet.Refs()); n > 1 && g.sheet.Editable(column) {
		text = at.Title + ": " + into(at, n)
	} else if said := g.sheet.Whole(row); said != "" {
		return said, true
	} else if fitted(cell.Text, g.body.width(column)-2*beside, theme.TextSize(), fyne.TextStyle{}) != cell.Text {
		return cell.Text, true // what is cut short above stands whole here
	} else {
		text = at.Title + ": " + at.Help
	}
	if at.Draggable && g.carries(row, column) {
		text += " Drag it to another row."
	}
	return text, false
}

// setFoot says something at the foot; what has to stand whole takes as many lines as it needs.
func (g *Grid) setFoot(text string, importance widget.Importance, whole bool) {
	wrapping, truncation := fyne.TextWrapOff, fyne.TextTruncateEllipsis
	if whole {
		wrapping, truncation = fyne.TextWrapWord, fyne.TextTruncateOff
	}
	if g.foot.Text == text && g.foot.Importance == importance && g.foot.Wrapping == wrapping && g.foot.Truncation == truncation {
		return
	}
	before := g.foot.MinSize().Height
	g.foot.Importance, g.foot.Wrapping, g.foot.Truncation = importance, wrapping, truncation
	g.foot.SetText(text)
	if g.foot.MinSize().Height != before {
		g.frame.Layout.Layout(g.frame.Objects, g.frame.Size())
	}
}

// footLines gives the foot the height of its text: of two lines in a table of long texts, so that rows do not jump with the cursor.
type footLines struct{ grid *Grid }

// MinSize implements fyne.Layout.
func (f footLines) MinSize(objects []fyne.CanvasObject) fyne.Size {
	height := objects[0].MinSize().Height
	if reads, is := f.grid.sheet.source.(Reader); is && f.grid.sheet.Len() > 0 && reads.Whole(0) != "" {
		line := fyne.MeasureText("M", theme.TextSize(), fyne.TextStyle{}).Height
		height = max(height, 2*line+theme.LineSpacing()+2*theme.InnerPadding())
	}
	return fyne.NewSize(0, height)
}

// Layout implements fyne.Layout.
func (footLines) Layout(objects []fyne.CanvasObject, size fyne.Size) { objects[0].Resize(size) }

// into says where what is typed goes while several rows are selected.
func into(column Column, rows int) string {
	if column.InOrder {
		return fmt.Sprintf("what is typed goes into the first of the %d selected; the others follow in order.", rows)
	}
	return fmt.Sprintf("what is typed goes into all %d selected.", rows)
}
