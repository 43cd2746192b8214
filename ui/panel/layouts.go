package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
)

// margin is the room left and right of what stands in a card or in the column at the left, in points. What is made of the
// toolkit's labels and buttons has a part of it inside.
const margin = 12

// inset is the part of the margin that labels and buttons have inside; the rest is beside them.
func inset() float32 { return theme.InnerPadding() }

// inMargins puts an object between the margins of a card or column.
func inMargins(object fyne.CanvasObject) *fyne.Container {
	beside := margin - inset()
	return container.New(layout.NewCustomPaddedLayout(0, 0, beside, beside), object)
}

// figureLayout puts a name left and its figure right on one base line, and what it means under both.
type figureLayout struct{}

// The pitch of figures, with one line of small words and without, in points.
const (
	pitchNoted = 40
	pitchBare  = 24
)

// bare is how high the line of name and figure is.
func (*figureLayout) bare(objects []fyne.CanvasObject) float32 {
	if objects[0].(*canvas.Text).Text == "" && objects[1].(*canvas.Text).Text == "" {
		return 0
	}
	return pitchBare - theme.Padding()
}

// MinSize implements fyne.Layout.
func (l *figureLayout) MinSize(objects []fyne.CanvasObject) fyne.Size {
	a, b, note := objects[0].MinSize(), objects[1].MinSize(), objects[2]
	height := l.bare(objects)
	if note.Visible() {
		line := fyne.MeasureText("f", theme.CaptionTextSize(), fyne.TextStyle{}).Height
		height += pitchNoted - pitchBare + note.MinSize().Height - line - 2*inset()
	}
	return fyne.NewSize(a.Width+b.Width+2*inset()+8, height)
}

// Layout implements fyne.Layout.
func (l *figureLayout) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	name, value, note := objects[0].(*canvas.Text), objects[1].(*canvas.Text), objects[2]
	a, b, top := name.MinSize(), value.MinSize(), l.bare(objects)
	down := (top - b.Height) / 2
	name.Resize(a)
	name.Move(fyne.NewPos(inset(), down+baseOf(value)-baseOf(name)))
	value.Resize(b)
	value.Move(fyne.NewPos(size.Width-b.Width-inset(), down))
	note.Move(fyne.NewPos(0, top-inset()-1))
	note.Resize(fyne.NewSize(size.Width, note.MinSize().Height))
}

// baseOf is how far a text's base line is below its top.
func baseOf(text *canvas.Text) float32 {
	_, base := fyne.CurrentApp().Driver().RenderedTextSize("f", text.TextSize, text.TextStyle, nil)
	return base
}

// findingLayout rules a finding off and puts its icon left of its text; what cures it stands under that.
type findingLayout struct{}

// The icon of a finding and the gap beside it, in points.
const (
	findingIcon = 16
	findingGap  = 8
)

// MinSize implements fyne.Layout.
func (*findingLayout) MinSize(objects []fyne.CanvasObject) fyne.Size {
	height := float32(1)
	for _, object := range objects[2:] {
		height += object.MinSize().Height
	}
	return fyne.NewSize(120, height+2)
}

// Layout implements fyne.Layout.
func (*findingLayout) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	objects[0].Move(fyne.NewPos(inset(), 0))
	objects[0].Resize(fyne.NewSize(size.Width-2*inset(), 1))
	objects[1].Move(fyne.NewPos(inset(), 1+inset()+2))
	objects[1].Resize(fyne.NewSquareSize(findingIcon))
	left, down := float32(findingIcon+findingGap), float32(1)
	for _, object := range objects[2:] {
		object.Resize(fyne.NewSize(size.Width-left, 1)) // wrapped text knows its height by its width
		high := object.MinSize().Height
		object.Move(fyne.NewPos(left, down))
		object.Resize(fyne.NewSize(size.Width-left, high))
		down += high
	}
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
