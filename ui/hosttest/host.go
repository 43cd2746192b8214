package hosttest

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/model/desk"
	"stageloom/model/plan"
	"stageloom/ui/dialogs"
	"stageloom/ui/text"
)

// Host is all of a window that dialogs ask for.
type Host struct {
	// Said is what was told last, Refused the last refusal of [Host.Do].
	Said    string
	Refused error

	t      testing.TB
	window fyne.Window
	desk   *desk.Desk
	keys   *dialogs.Keys
	folder string
}

var _ dialogs.Host = (*Host)(nil)

// New returns a host with a plan open, for one test.
func New(t testing.TB, p *plan.Plan) *Host {
	t.Helper()
	window := test.NewTempWindow(t, widget.NewLabel(""))
	window.Resize(fyne.NewSize(1240, 800))
	h := &Host{t: t, window: window, desk: desk.New(plan.NewIDSource(1, 2)), keys: dialogs.NewKeys(window), folder: t.TempDir()}
	t.Cleanup(func() { h.desk.Close() })
	h.desk.NewPlan(p)
	return h
}

// Desk implements dialogs.Host.
func (h *Host) Desk() *desk.Desk { return h.desk }

// Units implements dialogs.Host: metres and degrees Celsius.
func (h *Host) Units() text.Units { return text.Units{} }

// Window implements dialogs.Host.
func (h *Host) Window() fyne.Window { return h.window }

// Keys implements dialogs.Host.
func (h *Host) Keys() *dialogs.Keys { return h.keys }

// Say implements dialogs.Host.
func (h *Host) Say(words string) { h.Said = words }

// Warn implements dialogs.Host.
func (h *Host) Warn(words string) { h.Said = words }

// Folder implements dialogs.Host: a folder of the test.
func (h *Host) Folder() string { return h.folder }

// Do makes an edit and keeps why it was refused.
func (h *Host) Do(name string, edit func(*plan.Edit) error) { h.Refused = h.desk.Do(name, edit) }

// Open counts the dialogs that are open.
func (h *Host) Open() int { return len(h.window.Canvas().Overlays().List()) }

// Top lists all objects of the dialog on top.
func (h *Host) Top() []fyne.CanvasObject {
	h.t.Helper()
	overlays := h.window.Canvas().Overlays().List()
	require.NotEmpty(h.t, overlays, "no dialog is open")
	return test.LaidOutObjects(overlays[len(overlays)-1])
}

// Item returns the widget of this name in a form of the dialog on top.
func (h *Host) Item(label string) fyne.CanvasObject {
	h.t.Helper()
	for _, object := range h.Top() {
		if form, ok := object.(*widget.Form); ok {
			for _, item := range form.Items {
				if item.Text == label {
					return item.Widget
				}
			}
		}
	}
	require.Fail(h.t, "no item "+label)
	return nil
}

// Lists returns the choosers of the dialog on top, in order.
func (h *Host) Lists() (lists []*dialogs.Chooser) {
	h.t.Helper()
	for _, object := range h.Top() {
		if list, ok := object.(*dialogs.Chooser); ok {
			lists = append(lists, list)
		}
	}
	return lists
}

// Tap taps a button of the dialog on top.
func (h *Host) Tap(label string) {
	h.t.Helper()
	for _, object := range h.Top() {
		if button, ok := object.(*widget.Button); ok && button.Text == label {
			test.Tap(button)
			return
		}
	}
	require.Fail(h.t, "no button "+label)
}

// Reads reports whether a label of the dialog on top holds these words.
func (h *Host) Reads(words string) bool {
	h.t.Helper()
	for _, object := range h.Top() {
		if label, ok := object.(*widget.Label); ok && strings.Contains(label.Text, words) {
			return true
		}
	}
	return false
}
