package patching_test

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/model/demo"
	"stageloom/model/plan"
	"stageloom/ui/dialogs"
	"stageloom/ui/dialogs/hosttest"
	"stageloom/ui/patching"
)

// host is a window, with how often the table got the keys back.
type host struct {
	*hosttest.Host
	left int
}

func open(t *testing.T, p *plan.Plan) (*host, *patching.Dialogs) {
	t.Helper()
	h := &host{Host: hosttest.New(t, p)}
	act := func() plan.ActID { return h.Desk().Assessment().Patch.Shown()[0].Act.ID }
	return h, &patching.Dialogs{
		Host: h, ActShown: act, ChannelsFollow: func() bool { return true }, Leave: func() { h.left++ },
		Listed: func() []plan.InputID { return h.inputs() },
	}
}

// inputs are those of the act that is shown, in the order of its list.
func (h *host) inputs() (ids []plan.InputID) {
	for _, line := range h.Desk().Assessment().Patch.Shown()[0].Lines {
		ids = append(ids, line.Input.ID)
	}
	return ids
}

// sorted are the fields, the texts and the buttons of the topmost dialog.
func (h *host) sorted() (fields []*dialogs.Entry, said []string, buttons map[string]*widget.Button) {
	buttons = map[string]*widget.Button{}
	for _, object := range h.Parts() {
		switch o := object.(type) {
		case *dialogs.Entry:
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
	fields, _, buttons := h.sorted()
	fields[0].SetText("999")
	_, said, _ := h.sorted()
	require.Contains(t, said, fmt.Sprintf("Only %d inputs are listed from there on.", len(h.inputs())))
	test.Tap(buttons["Plug"])
	require.Empty(t, h.Desk().NextUndo(), "not by halves")
	fields[0].SetText("1")
	at := h.Desk().Assessment().Patch.Shown()[0].Lines[0].At
	fields[1].SetText(fmt.Sprint(h.Desk().Assessment().Patch.Sockets(at.Device, false)))
	test.Tap(buttons["Plug"])
	require.NotEqual(t, at, h.Desk().Assessment().Patch.Shown()[0].Lines[0].At)
	require.Contains(t, h.Desk().NextUndo(), "Fill sockets of")
	require.Equal(t, 1, h.left, "the table has the keys again")

	d.Fill(patching.Chosen{Inputs: h.inputs()[:1]})
	h.Keys().GiveUp()
	require.Equal(t, 2, h.left)
}

func TestAStepIsMadeOfWhatIsSelected(t *testing.T) {
	h, d := open(t, demo.Weekender())
	var chosen patching.Chosen
	d.Chosen = func() (patching.Chosen, bool) { return chosen, true }
	d.Keep = func() bool { return true }
	d.Do = func(name string, edit func(*plan.Edit) error) { require.NoError(t, h.Desk().Do(name, edit)) }
	d.Swap()
	require.Equal(t, "Select two inputs in the table of the patch first: Ctrl 7.", h.Said)
	before := h.Desk().Assessment().Patch.Shown()[0].Lines
	chosen.Inputs = h.inputs()[:2]
	d.Swap()
	after := h.Desk().Assessment().Patch.Shown()[0].Lines
	require.Equal(t, before[0].At, after[1].At)
	require.Equal(t, before[1].At, after[0].At)
	require.Equal(t, "Swap 2 inputs", h.Desk().NextUndo())
	d.Keep = func() bool { return false }
	d.Clear()
	require.Equal(t, "Swap 2 inputs", h.Desk().NextUndo(), "a cell that cannot be read keeps what is done")
}

func TestInputsAreDroppedOnADeviceOrItIsSaidWhere(t *testing.T) {
	h, d := open(t, demo.Weekender())
	var on plan.Ref
	carried := ""
	d.RowAt = func(fyne.Position) (plan.Ref, bool) { return on, true }
	d.Carry, d.Hide = func(words string, _ fyne.Position) { carried = words }, func() { carried = "" }
	d.Do = func(name string, edit func(*plan.Edit) error) { require.NoError(t, h.Desk().Do(name, edit)) }
	inputs := h.inputs()[:1]
	d.Dropped(inputs, fyne.Position{})
	require.Contains(t, h.Said, "Drop inputs on a device of the plan that has sockets")
	view := h.Desk().Assessment().Patch
	boxes := view.WithSockets(false)
	on = plan.Ref{Table: plan.DevicesTable, Key: plan.Key(boxes[len(boxes)-1])}
	d.Dragging(inputs, fyne.Position{}, true)
	require.Contains(t, carried, view.Name(boxes[len(boxes)-1]))
	d.Dragging(inputs, fyne.Position{}, false)
	require.Empty(t, carried, "over the table it goes to a row")
	d.Dropped(inputs, fyne.Position{})
	require.Contains(t, h.Desk().NextUndo(), "Plug ")
	require.Equal(t, boxes[len(boxes)-1], h.Desk().Assessment().Patch.Shown()[0].Lines[0].At.Device)
}

func TestNothingIsPluggedWhereNothingHasSockets(t *testing.T) {
	h, d := open(t, plan.New("empty"))
	d.Fill(patching.Chosen{})
	require.Contains(t, h.Said, "No device has sockets yet")
	d.Rehome("")
	require.Contains(t, h.Said, "Two devices with sockets are needed")
	require.Zero(t, h.Open())
}

func TestTheDeviceThatHasThePatchIsProposed(t *testing.T) {
	h, d := open(t, demo.Weekender())
	view := h.Desk().Assessment().Patch
	boxes := view.WithSockets(false)
	require.Greater(t, len(boxes), 1)
	d.Rehome(boxes[len(boxes)-1])
	var lists []*dialogs.Chooser
	for _, object := range h.Parts() {
		if list, ok := object.(*dialogs.Chooser); ok {
			lists = append(lists, list)
		}
	}
	require.Equal(t, view.Name(boxes[len(boxes)-1]), lists[0].Selected)
}

func TestARefusalToMoveAPatchGoesWithTheDevicesItWasOf(t *testing.T) {
	h, d := open(t, demo.Weekender())
	d.Rehome("")
	lists := h.Lists()
	require.Len(t, lists, 2)
	lists[1].SetSelectedIndex(lists[0].SelectedIndex())
	h.Tap("Move the patch")
	require.Equal(t, 1, h.Open())
	require.False(t, h.Reads("keep the numbers of their sockets"), "the refusal stands there")
	lists[1].SetSelectedIndex(lists[0].SelectedIndex() + 1)
	require.True(t, h.Reads("keep the numbers of their sockets"))
}
