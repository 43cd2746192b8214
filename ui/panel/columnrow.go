package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// The lists of the column at the left, in points: the pitch of rows, and how much is above and below the head of a group.
const (
	rowPitch  = 25
	headAbove = 10
	headBelow = 2
	rowIcon   = 16
	rowGap    = 8
	rowPitchH = headAbove + headText + headBelow
	headText  = 15
)

// pitched sets the heights of the rows of a list, which is filled anew.
func pitched(list *widget.List, rows int, head func(int) bool) {
	for i := range rows {
		if head(i) {
			list.SetItemHeight(i, rowPitchH-theme.Padding())
		} else {
			list.SetItemHeight(i, rowPitch-theme.Padding())
		}
	}
}

// asHead makes a label that of a group's head, or of a row.
func asHead(name *widget.Label, head, muted bool) {
	name.SizeName, name.Importance, name.TextStyle.Bold = theme.SizeNameText, widget.MediumImportance, false
	if head {
		name.SizeName = theme.SizeNameCaptionText
	}
	if head || muted {
		name.Importance = widget.LowImportance
	}
}

// rowLayout lays a row of the column out: an icon, a name, and at the right margin one behind the other what is told of it, the
// last one rightmost. A row whose icon is hidden is a head, or begins at the margin.
type rowLayout struct{ head bool }

// MinSize implements fyne.Layout.
func (*rowLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(80, rowPitch-theme.Padding())
}

// Layout implements fyne.Layout: objects are the icon, the name and the texts.
func (l *rowLayout) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	icon, name, right := objects[0], objects[1], size.Width-margin
	for i := len(objects) - 1; i > 1; i-- {
		told := objects[i].(*canvas.Text)
		if told.Text == "" {
			told.Resize(fyne.Size{})
			continue
		}
		least := told.MinSize()
		told.Resize(least)
		told.Move(fyne.NewPos(right-least.Width, (size.Height-least.Height)/2))
		right -= least.Width + rowGap
	}
	left := float32(margin)
	if icon.Visible() {
		icon.Resize(fyne.NewSquareSize(rowIcon))
		icon.Move(fyne.NewPos(left, (size.Height-rowIcon)/2))
		left += rowIcon + rowGap
	}
	high := name.MinSize().Height
	down := (size.Height - high) / 2
	if l.head {
		down = size.Height + theme.Padding() - headBelow - headText - inset()
	}
	name.Move(fyne.NewPos(left-inset(), down))
	name.Resize(fyne.NewSize(max(0, right-left+2*inset()), high))
}

// columnTop is what stands above a list: its head, with a button at the right where there is one, then fields as wide as the column.
func columnTop(head *canvas.Text, button fyne.CanvasObject, below ...fyne.CanvasObject) fyne.CanvasObject {
	beside := layout.NewCustomPaddedLayout(theme.Padding(), theme.Padding(), margin, margin-inset())
	top := container.NewVBox(container.New(beside, container.NewBorder(nil, nil, nil, button, head)))
	for _, each := range below {
		top.Add(container.New(layout.NewCustomPaddedLayout(0, 0, margin, margin), each))
	}
	return top
}

// stockLayout lays a row of the stock out: its line, how many are suspect, and the count at the right margin.
type stockLayout struct{ head bool }

// MinSize implements fyne.Layout.
func (*stockLayout) MinSize([]fyne.CanvasObject) fyne.Size { return (&rowLayout{}).MinSize(nil) }

// Layout implements fyne.Layout.
func (l *stockLayout) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	line, right := objects[0], size.Width-margin
	for i := len(objects) - 1; i > 0; i-- {
		told := objects[i].(*canvas.Text)
		least := told.MinSize()
		told.Hidden = told.Text == ""
		if told.Hidden {
			continue
		}
		told.Resize(least)
		told.Move(fyne.NewPos(right-least.Width, (size.Height-least.Height)/2))
		right -= least.Width + rowGap
	}
	high := line.MinSize().Height
	down := (size.Height - high) / 2
	if l.head {
		down = size.Height + theme.Padding() - headBelow - headText - inset()
	}
	line.Move(fyne.NewPos(margin-inset(), down))
	line.Resize(fyne.NewSize(max(0, right+theme.Padding()-margin+inset()), high))
}
