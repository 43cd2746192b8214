package patching_test

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"stageloom/model/demo"
	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/ui/dialogs"
	"stageloom/ui/patching"
)

// preview is the table of the topmost dialog, row by row.
func (h *host) preview(t *testing.T) [][]string {
	t.Helper()
	for _, object := range h.Parts() {
		if rows, is := object.(*dialogs.Rows); is {
			return rows.Read()
		}
	}
	t.Fatal("no preview")
	return nil
}

// press gives keys to what has the focus.
func (h *host) press(keys ...fyne.KeyName) {
	for _, key := range keys {
		h.Window().Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: key})
	}
}

func (h *host) chosen(d *patching.Dialogs, c *patching.Chosen) {
	d.Chosen = func() (patching.Chosen, bool) { return *c, true }
	d.Keep = func() bool { return true }
}

// undone takes the last step back and finds the plan as it was.
func (h *host) undone(t *testing.T, before *plan.Plan, step string) {
	t.Helper()
	require.Contains(t, h.Desk().NextUndo(), step)
	require.NotSame(t, before, h.Desk().Plan())
	h.Desk().Undo()
	require.True(t, plan.Equal(before, h.Desk().Plan()), "one step is the whole of it")
	require.Empty(t, h.Desk().NextUndo())
}

// boxOf is the device of the first input of the house.
func (h *host) boxOf() (plan.DeviceID, string) {
	view := h.Desk().Assessment().Patch
	for _, line := range view.House().Lines {
		if line.Patched() && view.Supplies(line.At.Device) && !line.At.Output {
			return line.At.Device, view.Name(line.At.Device)
		}
	}
	return "", ""
}

func TestABoxThatDiesIsMovedOffByKeys(t *testing.T) {
	h, d := open(t, demo.Weekender())
	before := h.Desk().Plan()
	box, name := h.boxOf()
	d.BoxDead(box)
	rows := h.preview(t)
	require.NotEmpty(t, rows)
	require.Len(t, rows[0], 5)
	moved := slices.IndexFunc(rows, func(row []string) bool {
		return strings.Contains(row[2], name+" in") && strings.Contains(row[2], " → ")
	})
	require.GreaterOrEqual(t, moved, 0, "%v", rows)
	h.press(fyne.KeyReturn)
	require.Zero(t, h.Open())
	require.Contains(t, h.Said, "Ctrl Z takes it back.")
	require.Equal(t, 1, h.left)
	h.undone(t, before, " off "+name)
	d.BoxDead(box)
	h.press(fyne.KeyEscape)
	require.Zero(t, h.Open())
	require.Empty(t, h.Desk().NextUndo(), "Escape leaves it as it is")
}

func TestTheDeadBoxItselfTakesNothingOver(t *testing.T) {
	h, d := open(t, demo.Weekender())
	box, name := h.boxOf()
	d.BoxDead(box)
	h.Lists()[1].SetSelected(name)
	require.True(t, h.Reads(name+" is the one that is dead"))
	h.press(fyne.KeyReturn)
	require.Equal(t, 1, h.Open(), "what is refused is not done")
	require.Empty(t, h.preview(t))
	h.press(fyne.KeyEscape)
}

func TestTwoBoxesAreSwappedByKeys(t *testing.T) {
	h, d := open(t, demo.Weekender())
	before, view := h.Desk().Plan(), h.Desk().Assessment().Patch
	box, name := h.boxOf()
	other := slices.IndexFunc(view.WithSockets(false), func(id plan.DeviceID) bool {
		_, err := plan.Do(before, nil, func(e *plan.Edit) error { return patch.SwapBoxes(e, box, id) })
		return err == nil
	})
	require.GreaterOrEqual(t, other, 0)
	d.SwapBoxes(box)
	h.Lists()[1].SetSelected(view.Name(view.WithSockets(false)[other]))
	require.NotEmpty(t, h.preview(t))
	h.press(fyne.KeyReturn)
	require.Zero(t, h.Open())
	h.undone(t, before, "Swap "+name+" and ")
}

func TestInputsAndChannelsMoveByAnOffset(t *testing.T) {
	h, d := open(t, demo.Weekender())
	before, view := h.Desk().Plan(), h.Desk().Assessment().Patch
	chosen := patching.Chosen{Console: view.Consoles()[0]}
	h.chosen(d, &chosen)
	d.Offset()
	require.Equal(t, "channels of "+view.Name(chosen.Console), h.Lists()[0].Selected)
	fields, _, _ := h.sorted()
	fields[0].SetText("many")
	require.True(t, h.Reads("“many” is no offset") || h.Reads(`"many" is no offset`))
	fields[0].SetText("2")
	require.NotEmpty(t, h.preview(t))
	h.press(fyne.KeyReturn)
	require.Zero(t, h.Open())
	h.undone(t, before, " by 2")
}

func TestAnInputIsInsertedWhereTheCursorStands(t *testing.T) {
	h, d := open(t, demo.Weekender())
	before := h.Desk().Plan()
	var chosen patching.Chosen
	h.chosen(d, &chosen)
	d.Insert()
	require.Contains(t, h.Said, "Select the input in the table of the patch first")
	chosen.Inputs = h.inputs()[1:2]
	d.Insert()
	require.True(t, h.Reads("Write what the new input is called."))
	test.Type(h.Window().Canvas().Focused(), "Kick sub")
	rows := h.preview(t)
	at := slices.IndexFunc(rows, func(row []string) bool { return strings.HasSuffix(row[1], "Kick sub") })
	require.GreaterOrEqual(t, at, 0)
	require.Equal(t, "new: 2 Kick sub", rows[at][1])
	h.press(fyne.KeyReturn)
	require.Zero(t, h.Open())
	h.undone(t, before, "Insert Kick sub")
}

func TestSelectedInputsGoToTheFirstFree(t *testing.T) {
	h, d := open(t, demo.Weekender())
	d.Do = func(name string, edit func(*plan.Edit) error) { require.NoError(t, h.Desk().Do(name, edit)) }
	d.Do("gap", func(e *plan.Edit) error { return patch.Unplug(e, "", h.inputs()[0]) })
	view := h.Desk().Assessment().Patch
	chosen := patching.Chosen{Inputs: h.inputs()[1:3]}
	h.chosen(d, &chosen)
	act := view.Shown()[0]
	line, _ := act.Line(chosen.Inputs[0])
	want, err := view.FreeSockets(act, line.At.Device, chosen.Inputs)
	require.NoError(t, err)
	d.FirstFree()
	line, _ = h.Desk().Assessment().Patch.Shown()[0].Line(chosen.Inputs[1])
	require.Equal(t, want[1], line.At)
	require.Equal(t, "First free for 2 inputs", h.Desk().NextUndo())
	chosen.Console = view.Consoles()[0]
	numbers, err := view.FreeChannels(act, chosen.Console, chosen.Inputs)
	require.NoError(t, err)
	d.FirstFree()
	line, _ = h.Desk().Assessment().Patch.Shown()[0].Line(chosen.Inputs[1])
	require.Equal(t, numbers[1], line.Number(chosen.Console))
}

func TestAToolSaysWhatItNeeds(t *testing.T) {
	h, d := open(t, plan.New("empty"))
	h.chosen(d, &patching.Chosen{})
	for _, ask := range []func(){func() { d.BoxDead("") }, func() { d.SwapBoxes("") }, d.Offset} {
		h.Said = ""
		ask()
		require.NotEmpty(t, h.Said)
		require.Zero(t, h.Open())
	}
}
