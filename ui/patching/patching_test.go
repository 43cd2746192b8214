package patching_test

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/model/demo"
	"stageloom/model/desk"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/dialogs"
	"stageloom/ui/patching"
)

// host is all of a window that these dialogs ask for.
type host struct {
	window fyne.Window
	desk   *desk.Desk
	keys   *dialogs.Keys
	said   string
	left   int
}

func (h *host) Desk() *desk.Desk    { return h.desk }
func (h *host) Units() words.Units  { return words.Units{} }
func (h *host) Window() fyne.Window { return h.window }
func (h *host) Keys() *dialogs.Keys { return h.keys }
func (h *host) Say(words string)    { h.said = words }
func (h *host) Warn(words string)   { h.said = words }
func (h *host) Folder() string      { return "." }

func open(t *testing.T, p *plan.Plan) (*host, *patching.Dialogs) {
	t.Helper()
	window := test.NewTempWindow(t, widget.NewLabel(""))
	window.Resize(fyne.NewSize(1240, 800))
	h := &host{window: window, desk: desk.New(plan.NewIDSource(1, 2)), keys: dialogs.NewKeys(window)}
	t.Cleanup(func() { h.desk.Close() })
	h.desk.NewPlan(p)
	act := func() plan.ActID { return h.desk.Assessment().Patch.Shown()[0].Act.ID }
	return h, &patching.Dialogs{
		Host: h, ActShown: act, ChannelsFollow: func() bool { return true }, Leave: func() { h.left++ },
		Listed: func() []plan.InputID { return h.inputs() },
	}
}

// inputs are those of the act that is shown, in the order of its list.
func (h *host) inputs() (ids []plan.InputID) {
	for _, line := range h.desk.Assessment().Patch.Shown()[0].Lines {
		ids = append(ids, line.Input.ID)
	}
	return ids
}

// parts are the fields, the texts and the buttons of the topmost dialog.
func (h *host) parts() (fields []*dialogs.Field, said []string, buttons map[string]*widget.Button) {
	buttons = map[string]*widget.Button{}
	overlays := h.window.Canvas().Overlays().List()
	for _, object := range test.LaidOutObjects(overlays[len(overlays)-1]) {
		switch o := object.(type) {
		case *dialogs.Field:
			fields = append(fields, o)
		case *widget.Label:
			said = append(said, o.Text)
		case *dialogs.Answer:
			buttons[o.Text] = o.Answer()
		}
	}
	return fields, said, buttons
}

func TestInputsArePluggedInOrderOrItIsSaidWhyNot(t *testing.T) {
	h, d := open(t, demo.Weekender())
	d.Fill(patching.Chosen{Inputs: h.inputs()[:1]})
	fields, _, buttons := h.parts()
	fields[0].SetText("999")
	_, said, _ := h.parts()
	require.Contains(t, said, fmt.Sprintf("Only %d inputs are listed from there on.", len(h.inputs())))
	test.Tap(buttons["Plug"])
	require.Empty(t, h.desk.NextUndo(), "not by halves")
	fields[0].SetText("1")
	at := h.desk.Assessment().Patch.Shown()[0].Lines[0].At
	fields[1].SetText(fmt.Sprint(h.desk.Assessment().Patch.Sockets(at.Device, false)))
	test.Tap(buttons["Plug"])
	require.NotEqual(t, at, h.desk.Assessment().Patch.Shown()[0].Lines[0].At)
	require.Contains(t, h.desk.NextUndo(), "Fill sockets of")
	require.Equal(t, 1, h.left, "the table has the keys again")

	d.Fill(patching.Chosen{Inputs: h.inputs()[:1]})
	h.keys.GiveUp()
	require.Equal(t, 2, h.left)
}

func TestNothingIsPluggedWhereNothingHasSockets(t *testing.T) {
	h, d := open(t, plan.New("empty"))
	d.Fill(patching.Chosen{})
	require.Contains(t, h.said, "No device has sockets yet")
	d.Rehome("")
	require.Contains(t, h.said, "Two devices with sockets are needed")
	require.Empty(t, h.window.Canvas().Overlays().List())
}

func TestTheDeviceThatHasThePatchIsProposed(t *testing.T) {
	h, d := open(t, demo.Weekender())
	view := h.desk.Assessment().Patch
	boxes := view.WithSockets(false)
	require.Greater(t, len(boxes), 1)
	d.Rehome(boxes[len(boxes)-1])
	overlays := h.window.Canvas().Overlays().List()
	var lists []*dialogs.Chooser
	for _, object := range test.LaidOutObjects(overlays[0]) {
		if list, ok := object.(*dialogs.Chooser); ok {
			lists = append(lists, list)
		}
	}
	require.Equal(t, view.Name(boxes[len(boxes)-1]), lists[0].Selected)
}
