// Package hosttest is a window for tests of dialogs: it holds a plan and nothing but what dialogs ask of it.
package hosttest

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/desk"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/dialogs"
)

// Host is the window, with what it was told.
type Host struct {
	// Said is what the notice was given last, for good news and bad.
	Said string

	t      testing.TB
	window fyne.Window
	desk   *desk.Desk
	keys   *dialogs.Keys
	folder string
}

var _ dialogs.Host = (*Host)(nil)

// New returns a window on a plan, with a folder of the test's.
func New(t testing.TB, p *plan.Plan) *Host {
	t.Helper()
	window := test.NewTempWindow(t, widget.NewLabel("below"))
	window.Resize(fyne.NewSize(1240, 800))
	h := &Host{t: t, window: window, desk: desk.New(plan.NewIDSource(1, 2)), keys: dialogs.NewKeys(window), folder: t.TempDir()}
	t.Cleanup(func() { h.desk.Close() })
	h.desk.NewPlan(p)
	return h
}

// Desk implements dialogs.Host.
func (h *Host) Desk() *desk.Desk { return h.desk }

// Units implements dialogs.Host.
func (h *Host) Units() words.Units { return words.Units{} }

// Window implements dialogs.Host.
func (h *Host) Window() fyne.Window { return h.window }

// Keys implements dialogs.Host.
func (h *Host) Keys() *dialogs.Keys { return h.keys }

// Say implements dialogs.Host.
func (h *Host) Say(words string) { h.Said = words }

// Warn implements dialogs.Host.
func (h *Host) Warn(words string) { h.Said = words }

// Folder implements dialogs.Host.
func (h *Host) Folder() string { return h.folder }

// Text is what the notice says, Clear takes it away.
func (h *Host) Text() string { return h.Said }

// Clear takes away what the notice says.
func (h *Host) Clear() { h.Said = "" }

// Open is how many dialogs lie over the window.
func (h *Host) Open() int { return len(h.window.Canvas().Overlays().List()) }

// Parts are what the topmost dialog is made of.
func (h *Host) Parts() []fyne.CanvasObject {
	h.t.Helper()
	top := h.window.Canvas().Overlays().Top()
	if top == nil {
		h.t.Fatal("no dialog is open")
	}
	return test.LaidOutObjects(top)
}

// Tap taps the button of the topmost dialog that says so.
func (h *Host) Tap(label string) {
	h.t.Helper()
	for _, object := range h.Parts() {
		switch button := object.(type) {
		case *widget.Button:
			if button.Text == label {
				test.Tap(button)
				return
			}
		case *dialogs.Answer:
			if button.Text == label {
				test.Tap(button)
				return
			}
		}
	}
	h.t.Fatalf("no button %q", label)
}

// Field is the first field of the topmost dialog.
func (h *Host) Field() *dialogs.Entry {
	h.t.Helper()
	for _, object := range h.Parts() {
		switch field := object.(type) {
		case *dialogs.Entry:
			return field
		case *dialogs.SearchEntry:
			return &field.Entry
		}
	}
	h.t.Fatal("no field")
	return nil
}

// Check is the box of the topmost dialog that says so.
func (h *Host) Check(words string) *widget.Check {
	h.t.Helper()
	for _, object := range h.Parts() {
		if check, is := object.(*dialogs.Check); is && check.Text == words {
			return check.Inner()
		}
	}
	h.t.Fatalf("no box %q", words)
	return nil
}
