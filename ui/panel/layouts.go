package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// apart puts the first object left and the second right, on one base.
type apart struct{}

// MinSize implements fyne.Layout.
func (*apart) MinSize(objects []fyne.CanvasObject) fyne.Size {
	a, b := objects[0].MinSize(), objects[1].MinSize()
	return fyne.NewSize(a.Width+b.Width+12, max(a.Height, b.Height)+4)
}

// Layout implements fyne.Layout.
func (*apart) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	a, b := objects[0].MinSize(), objects[1].MinSize()
	objects[0].Resize(a)
	objects[0].Move(fyne.NewPos(6, size.Height-a.Height-2))
	objects[1].Resize(b)
	objects[1].Move(fyne.NewPos(size.Width-b.Width-6, size.Height-b.Height-1))
}

// stacked puts the second object close under the first.
type stacked struct{}

// overlap is how far the label's own padding may slide under what stands above it.
const overlap = 7

// MinSize implements fyne.Layout.
func (*stacked) MinSize(objects []fyne.CanvasObject) fyne.Size {
	size := objects[0].MinSize()
	if below := objects[1]; below.Visible() {
		size.Height += below.MinSize().Height - overlap
	}
	return size
}

// Layout implements fyne.Layout.
func (*stacked) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	first := objects[0].MinSize().Height
	objects[0].Resize(fyne.NewSize(size.Width, first))
	objects[0].Move(fyne.NewPos(0, 0))
	objects[1].Resize(fyne.NewSize(size.Width, size.Height-first+overlap))
	objects[1].Move(fyne.NewPos(0, first-overlap))
}

// NewStacked puts one object close under another.
func NewStacked(above, below fyne.CanvasObject) fyne.CanvasObject {
	return container.New(&stacked{}, above, below)
}

// NewTopLine puts the overview left and gives what room is left to the title, which may be cut.
func NewTopLine(overview, title fyne.CanvasObject) fyne.CanvasObject {
	return container.New(&topLine{}, overview, title)
}

type topLine struct{}

// edge is the room left and right of the line.
const edge = 8

// MinSize implements fyne.Layout.
func (*topLine) MinSize(objects []fyne.CanvasObject) fyne.Size {
	size := objects[0].MinSize()
	return fyne.NewSize(size.Width+2*edge, max(size.Height, objects[1].MinSize().Height)+4)
}

// Layout implements fyne.Layout.
func (*topLine) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	left := objects[0].MinSize().Width
	objects[0].Resize(fyne.NewSize(left, size.Height))
	objects[0].Move(fyne.NewPos(edge, 0))
	rest := max(0, size.Width-left-2*edge-16)
	height := objects[1].MinSize().Height
	objects[1].Resize(fyne.NewSize(rest, height))
	objects[1].Move(fyne.NewPos(size.Width-edge-rest, (size.Height-height)/2))
}
