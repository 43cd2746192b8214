package panel

import (
	"fyne.io/fyne/v2"
)

// fieldLayout puts a label left and its field right, or the field under the label, and a fault under both.
type fieldLayout struct{ wide bool }

// labelColumn is the width of the column of labels, in points.
const labelColumn = 112

// MinSize implements fyne.Layout.
func (l *fieldLayout) MinSize(objects []fyne.CanvasObject) fyne.Size {
	label, input, fault := objects[0].MinSize(), objects[1].MinSize(), objects[2]
	height := max(label.Height, input.Height)
	if l.wide {
		height = label.Height + input.Height + 2
	}
	if fault.Visible() {
		height += fault.MinSize().Height - overlap
	}
	return fyne.NewSize(100, height)
}

// Layout implements fyne.Layout.
func (l *fieldLayout) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	label, input, fault := objects[0], objects[1], objects[2]
	least, height := label.MinSize(), input.MinSize().Height
	label.Resize(least)
	below := max(least.Height, height)
	if l.wide {
		label.Move(fyne.NewPos(inset(), 1))
		input.Move(fyne.NewPos(inset(), least.Height+2))
		input.Resize(fyne.NewSize(size.Width-2*inset(), height))
		below = least.Height + height + 2
	} else {
		left := inset() + labelColumn
		label.Move(fyne.NewPos(inset(), (below-least.Height)/2))
		input.Move(fyne.NewPos(left, (below-height)/2))
		input.Resize(fyne.NewSize(size.Width-left-inset(), height))
	}
	if fault.Visible() {
		fault.Move(fyne.NewPos(0, below-overlap/2))
		fault.Resize(fyne.NewSize(size.Width, fault.MinSize().Height))
	}
}
