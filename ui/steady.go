package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// steady gives a text of a dialog, which says more or less as one goes on, a place of some lines that stays as high as it
// is, so that the buttons below stay under the pointer. A text that is longer is scrolled.
func steady(text *widget.Label, lines int) fyne.CanvasObject {
	text.Wrapping = fyne.TextWrapWord
	place := container.NewVScroll(text)
	place.SetMinSize(fyne.NewSize(0, widget.NewLabel(strings.Repeat("\n", lines-1)).MinSize().Height))
	return place
}
