package answers

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// Find is where the topmost widget lies that bears these words: a button, a field by what stands in it, a label. What lies
// over the content hides it.
func Find(canvas fyne.Canvas, words string) Place {
	overlays := canvas.Overlays().List()
	for i := len(overlays) - 1; i >= 0; i-- {
		if found := findIn(overlays[i], words); found != nil {
			return middleOf(canvas, found)
		}
	}
	if len(overlays) == 0 {
		if found := findIn(canvas.Content(), words); found != nil {
			return middleOf(canvas, found)
		}
	}
	return Place{}
}

func middleOf(canvas fyne.Canvas, object fyne.CanvasObject) Place {
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(object)
	size, scale := object.Size(), float64(canvas.Scale())
	return Place{X: float64(at.X+size.Width/2) * scale, Y: float64(at.Y+size.Height/2) * scale, Found: true}
}

// Worded is a widget of the house that says by itself whether it bears some words.
type Worded interface {
	// Bears reports whether it bears these words.
	Bears(words string) bool
}

// Lister is a list that says what stands in it.
type Lister interface {
	// Listed is its name, its lines and which of them are selected.
	Listed() (name string, lines []string, selected []int)
}

// Lists are the lists of the dialog on top.
func Lists(canvas fyne.Canvas) (all []List) {
	top := canvas.Overlays().Top()
	if top == nil {
		return nil
	}
	var walk func(fyne.CanvasObject)
	walk = func(object fyne.CanvasObject) {
		if lister, is := object.(Lister); is && object.Visible() {
			list := List{}
			list.Name, list.Lines, list.Selected = lister.Listed()
			all = append(all, list)
			return
		}
		for _, each := range insideOf(object) {
			walk(each)
		}
	}
	walk(top)
	return all
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
	case Worded:
		return when(object, o.Bears(words))
	case *widget.Button:
		return when(o, o.Text == words)
	case *widget.Entry:
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
