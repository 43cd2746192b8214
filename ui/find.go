package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// find returns the topmost widget that bears these words: a button, a field by what stands in it, a label.
func (w *window) find(words string) place {
	overlays := w.window.Canvas().Overlays().List()
	for i := len(overlays) - 1; i >= 0; i-- {
		if found := findIn(overlays[i], words); found != nil {
			return w.middleOf(found)
		}
	}
	if len(overlays) == 0 {
		if found := findIn(w.window.Content(), words); found != nil {
			return w.middleOf(found)
		}
	}
	return place{}
}

func (w *window) middleOf(object fyne.CanvasObject) place {
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(object)
	size, scale := object.Size(), float64(w.window.Canvas().Scale())
	return place{X: float64(at.X+size.Width/2) * scale, Y: float64(at.Y+size.Height/2) * scale, Found: true}
}

// findIn looks through what holds other objects in the open; a widget's inner parts are its own affair.
func findIn(object fyne.CanvasObject, words string) fyne.CanvasObject {
	if object == nil || !object.Visible() {
		return nil
	}
	switch o := object.(type) {
	case *fyne.Container:
		for i := len(o.Objects) - 1; i >= 0; i-- {
			if found := findIn(o.Objects[i], words); found != nil {
				return found
			}
		}
	case *container.Split:
		if found := findIn(o.Leading, words); found != nil {
			return found
		}
		return findIn(o.Trailing, words)
	case *container.Scroll:
		return findIn(o.Content, words)
	case *widget.PopUp:
		return findIn(o.Content, words)
	case *widget.Form:
		for _, item := range o.Items {
			if item.Text == words {
				return item.Widget
			}
			if found := findIn(item.Widget, words); found != nil {
				return found
			}
		}
	case *widget.Button:
		return when(o, o.Text == words)
	case *widget.Entry:
		return when(o, o.Text == words || o.PlaceHolder == words)
	case *widget.Label:
		return when(o, o.Text == words)
	}
	return nil
}

func when(object fyne.CanvasObject, is bool) fyne.CanvasObject {
	if is {
		return object
	}
	return nil
}
