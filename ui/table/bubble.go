package table

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// bubble says under a cell why it cannot be what was typed.
type bubble struct {
	widget.BaseWidget
	text   *widget.Label
	ground *canvas.Rectangle
}

func newBubble() *bubble {
	b := &bubble{text: widget.NewLabel(""), ground: canvas.NewRectangle(theme.Color(theme.ColorNameOverlayBackground))}
	b.text.Importance, b.text.Wrapping = widget.DangerImportance, fyne.TextWrapWord
	b.ExtendBaseWidget(b)
	b.Hide()
	return b
}

// CreateRenderer implements fyne.Widget.
func (b *bubble) CreateRenderer() fyne.WidgetRenderer {
	b.ground.StrokeWidth, b.ground.CornerRadius = 1, 3
	return widget.NewSimpleRenderer(container.NewStack(b.ground, b.text))
}

// Refresh implements fyne.Widget.
func (b *bubble) Refresh() {
	b.ground.FillColor = theme.Color(theme.ColorNameOverlayBackground)
	b.ground.StrokeColor = theme.Color(theme.ColorNameError)
	b.BaseWidget.Refresh()
}

// atLeast is a layout that gives its one object a width of at least so much.
type atLeast struct{ width float32 }

// MinSize implements fyne.Layout.
func (a atLeast) MinSize(objects []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(a.width, objects[0].MinSize().Height)
}

// Layout implements fyne.Layout.
func (a atLeast) Layout(objects []fyne.CanvasObject, size fyne.Size) { objects[0].Resize(size) }

// topLine lays what filters, how many rows there are, and to the right what else can be done.
type topLine struct{}

// The width of what filters, and the least of it.
const (
	filterWidth      = 240
	leastFilterWidth = 90
)

// MinSize implements fyne.Layout.
func (topLine) MinSize(objects []fyne.CanvasObject) fyne.Size {
	count, rest := objects[1].MinSize(), objects[2].MinSize()
	height := max(objects[0].MinSize().Height, count.Height, rest.Height)
	return fyne.NewSize(leastFilterWidth+count.Width+rest.Width+theme.Padding(), height)
}

// Layout implements fyne.Layout.
func (topLine) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	count, rest := objects[1].MinSize(), objects[2].MinSize()
	width := max(leastFilterWidth, min(filterWidth, size.Width-count.Width-rest.Width-theme.Padding()))
	objects[0].Move(fyne.NewPos(0, 0))
	objects[0].Resize(fyne.NewSize(width, size.Height))
	objects[1].Move(fyne.NewPos(width+theme.Padding(), 0))
	objects[1].Resize(fyne.NewSize(count.Width, size.Height))
	objects[2].Move(fyne.NewPos(size.Width-rest.Width, 0))
	objects[2].Resize(fyne.NewSize(rest.Width, size.Height))
}

// below is where a menu hangs under an object.
func below(object fyne.CanvasObject) fyne.Position {
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(object)
	return at.AddXY(0, object.Size().Height+1)
}
