package dialogs

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stageloom/ui/pointer"
)

// RoomFor gives a text of a dialog, which says more or less as one goes on, a place of some lines that stays as high as it
// is, so that the buttons below stay under the pointer. A text that is longer is scrolled.
func RoomFor(text *widget.Label, lines int) fyne.CanvasObject {
	text.Wrapping = fyne.TextWrapWord
	place := container.NewVScroll(text)
	place.SetMinSize(fyne.NewSize(0, widget.NewLabel(strings.Repeat("\n", lines-1)).MinSize().Height))
	return place
}

// LeastWidth is a layout that gives its one content a width.
type LeastWidth struct {
	// Width in units of the window.
	Width float32
}

// MinSize implements fyne.Layout.
func (l *LeastWidth) MinSize(objects []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(l.Width, objects[0].MinSize().Height)
}

// Layout implements fyne.Layout.
func (*LeastWidth) Layout(objects []fyne.CanvasObject, size fyne.Size) { objects[0].Resize(size) }

// RevealIn returns what brings a row of a form into view that is scrolled.
func RevealIn(scroll *container.Scroll) func(fyne.CanvasObject) {
	return func(object fyne.CanvasObject) {
		if top := object.Position().Y; top < scroll.Offset.Y || top+object.Size().Height > scroll.Offset.Y+scroll.Size().Height {
			scroll.ScrollToOffset(fyne.NewPos(0, top))
		}
	}
}

// Tipped puts tips of its own on top of a dialog's content: those of the window lie under it.
func Tipped(content fyne.CanvasObject, tips *pointer.Tips) fyne.CanvasObject {
	return container.NewStack(content, tips.Layer)
}
