package printing_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/model/desk"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/dialogs"
	"stageloom/ui/pointer"
	"stageloom/ui/printing"
)

// host is all of a window that these dialogs ask for.
type host struct {
	window fyne.Window
	desk   *desk.Desk
	keys   *dialogs.Keys
	folder string
	said   string
}

func (h *host) Desk() *desk.Desk    { return h.desk }
func (h *host) Units() words.Units  { return words.Units{} }
func (h *host) Window() fyne.Window { return h.window }
func (h *host) Keys() *dialogs.Keys { return h.keys }
func (h *host) Say(words string)    { h.said = words }
func (h *host) Warn(words string)   { h.said = words }
func (h *host) Folder() string      { return h.folder }

func open(t *testing.T) (*host, *printing.Dialogs) {
	t.Helper()
	window := test.NewTempWindow(t, widget.NewLabel(""))
	window.Resize(fyne.NewSize(1240, 800))
	h := &host{window: window, desk: desk.New(plan.NewIDSource(1, 2)), keys: dialogs.NewKeys(window), folder: t.TempDir()}
	t.Cleanup(func() { h.desk.Close() })
	return h, &printing.Dialogs{
		Host: h, Tips: func() *pointer.Tips { return pointer.NewTips(nil) },
		Do: func(name string, edit func(*plan.Edit) error) { require.NoError(t, h.desk.Do(name, edit)) },
	}
}

// top is all of the topmost dialog.
func (h *host) top() []fyne.CanvasObject {
	overlays := h.window.Canvas().Overlays().List()
	return test.LaidOutObjects(overlays[len(overlays)-1])
}

func (h *host) fields() (fields []*dialogs.Field) {
	for _, object := range h.top() {
		if field, ok := object.(*dialogs.Field); ok {
			fields = append(fields, field)
		}
	}
	return fields
}

func (h *host) reads(words string) bool {
	for _, object := range h.top() {
		if label, ok := object.(*widget.Label); ok && label.Text == words {
			return true
		}
	}
	return false
}

func TestTheNextLetterFollowsTheLast(t *testing.T) {
	for last, next := range map[string]string{"A": "B", "Z": "AA", "AZ": "BA", "ZZ": "AAA", "2": "2A"} {
		h, d := open(t)
		d.Issue()
		letter := h.fields()[0]
		letter.SetText(last)
		letter.OnSubmitted(last)
		require.Equal(t, 1, h.desk.Plan().Revisions.Len())
		d.Issue()
		require.Equal(t, next, h.fields()[0].Text, "after "+last)
	}
}

func TestARevisionNeedsALetter(t *testing.T) {
	h, d := open(t)
	d.Issue()
	letter := h.fields()[0]
	letter.SetText(" ")
	letter.OnSubmitted(" ")
	require.True(t, h.reads("Give the revision a letter."))
	require.Zero(t, h.desk.Plan().Revisions.Len())
	h.keys.GiveUp()
	require.Empty(t, h.window.Canvas().Overlays().List())
}
