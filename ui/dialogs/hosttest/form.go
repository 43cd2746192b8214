package hosttest

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"stageloom/ui/dialogs"
)

// Item is what stands beside a label in a form of the topmost dialog.
func (h *Host) Item(label string) fyne.CanvasObject {
	h.t.Helper()
	for _, object := range h.Parts() {
		form, is := object.(*widget.Form)
		if !is {
			continue
		}
		for _, item := range form.Items {
			if item.Text == label {
				return item.Widget
			}
		}
	}
	h.t.Fatalf("no item %q", label)
	return nil
}

// Lists are the lists to choose from of the topmost dialog, in order.
func (h *Host) Lists() (lists []*dialogs.Chooser) {
	h.t.Helper()
	for _, object := range h.Parts() {
		if list, is := object.(*dialogs.Chooser); is {
			lists = append(lists, list)
		}
	}
	return lists
}

// Reads reports whether a label of the topmost dialog holds these words.
func (h *Host) Reads(words string) bool {
	h.t.Helper()
	for _, object := range h.Parts() {
		if label, is := object.(*widget.Label); is && strings.Contains(label.Text, words) {
			return true
		}
	}
	return false
}
