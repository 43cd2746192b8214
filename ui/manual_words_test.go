package ui_test

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stageloom/ui/split"
)

// pageOf is what the window of the manual has on the right: a heading, then a text for each section.
func pageOf(window fyne.Window) (parts []*widget.RichText) {
	var walk func(fyne.CanvasObject)
	walk = func(object fyne.CanvasObject) {
		switch o := object.(type) {
		case *widget.RichText:
			parts = append(parts, o)
		case *fyne.Container:
			for _, child := range o.Objects {
				walk(child)
			}
		case *split.Split:
			walk(o.Trailing)
		case *container.Scroll:
			walk(o.Content)
		}
	}
	walk(window.Content())
	return parts
}

func headline(window fyne.Window) string { return pageOf(window)[0].String() }

func written(window fyne.Window) string {
	var all strings.Builder
	var walk func([]widget.RichTextSegment)
	walk = func(segments []widget.RichTextSegment) {
		for _, segment := range segments {
			if block, is := segment.(widget.RichTextBlock); is {
				walk(block.Segments())
				all.WriteString("\n")
				continue
			}
			all.WriteString(segment.Textual())
		}
	}
	for _, part := range pageOf(window) {
		walk(part.Segments)
	}
	return all.String()
}
