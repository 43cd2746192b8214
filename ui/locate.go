package ui

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stageloom/ui/dialogs"
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
	for _, inner := range insideOf(object) {
		if found := findIn(inner, words); found != nil {
			return found
		}
	}
	switch o := object.(type) {
	case *widget.Form:
		return fieldOf(o, words)
	case interface {
		Labelled() (string, fyne.CanvasObject)
	}:
		label, labelled := o.Labelled()
		return when(labelled, label == words)
	case *widget.Button:
		return when(o, o.Text == words)
	case *dialogs.Answer:
		return when(o, o.Text == words)
	case *widget.Entry:
		return when(o, o.Text == words || o.PlaceHolder == words)
	case *dialogs.Field:
		return when(o, o.Text == words || o.PlaceHolder == words)
	case *widget.Label:
		return when(o, o.Text == words)
	}
	return nil
}

// insideOf lists what an object holds in the open, the topmost first.
func insideOf(object fyne.CanvasObject) []fyne.CanvasObject {
	switch o := object.(type) {
	case *fyne.Container:
		inner := slices.Clone(o.Objects)
		slices.Reverse(inner)
		return inner
	case *container.Split:
		return []fyne.CanvasObject{o.Leading, o.Trailing}
	case *container.Scroll:
		return []fyne.CanvasObject{o.Content}
	case *widget.PopUp:
		return []fyne.CanvasObject{o.Content}
	case interface{ Inside() []fyne.CanvasObject }:
		return o.Inside()
	}
	return nil
}

// fieldOf returns the field of a form by its label, or by what stands in it.
func fieldOf(form *widget.Form, words string) fyne.CanvasObject {
	for _, item := range form.Items {
		if item.Text == words {
			return item.Widget
		}
		if found := findIn(item.Widget, words); found != nil {
			return found
		}
	}
	return nil
}

func when(object fyne.CanvasObject, is bool) fyne.CanvasObject {
	if is {
		return object
	}
	return nil
}
