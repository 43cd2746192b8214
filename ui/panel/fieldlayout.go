package panel

import "fyne.io/fyne/v2"

// fieldLayout puts a label left and its field right, or the field under the label, and a fault under both.
type fieldLayout struct{ wide bool }

// labelShare is the label's part of the width.
const labelShare = 0.48

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
		label.Move(fyne.NewPos(6, 1))
		input.Move(fyne.NewPos(0, least.Height+2))
		input.Resize(fyne.NewSize(size.Width, height))
		below = least.Height + height + 2
	} else {
		left := size.Width * labelShare
		label.Move(fyne.NewPos(6, (below-least.Height)/2))
		input.Move(fyne.NewPos(left, (below-height)/2))
		input.Resize(fyne.NewSize(size.Width-left, height))
	}
	if fault.Visible() {
		fault.Move(fyne.NewPos(0, below-overlap/2))
		fault.Resize(fyne.NewSize(size.Width, fault.MinSize().Height))
	}
}
