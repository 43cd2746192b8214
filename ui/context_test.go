package ui_test

import (
	"fmt"
	"reflect"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
	"stageloom/ui/planview"
)

// rightClick opens the menu of empty ground, which leaves the selection as it is.
func (s *screen) rightClick() {
	s.t.Helper()
	for _, object := range test.LaidOutObjects(s.window.Content()) {
		if editor, is := object.(*planview.Editor); is {
			event := &desktop.MouseEvent{Button: desktop.MouseButtonSecondary}
			event.Position = fyne.NewPos(3, 3)
			editor.MouseDown(event)
		}
	}
}

// context is the menu of a right click, which is closed again.
func (s *screen) context() map[string]*fyne.MenuItem {
	s.t.Helper()
	s.rightClick()
	items := map[string]*fyne.MenuItem{}
	for _, overlay := range s.window.Canvas().Overlays().List() {
		for _, object := range test.LaidOutObjects(overlay) {
			value := reflect.ValueOf(object)
			if value.Kind() != reflect.Pointer || value.Elem().Kind() != reflect.Struct {
				continue
			}
			if field := value.Elem().FieldByName("Item"); field.IsValid() {
				if item, is := field.Interface().(*fyne.MenuItem); is {
					items[item.Label] = item
				}
			}
		}
		s.window.Canvas().Overlays().Remove(overlay)
	}
	require.NotEmpty(s.t, items)
	return items
}

func TestPasteIsOfferedWhereThereIsSomethingToPaste(t *testing.T) {
	s := open(t, "light", demoFile(t))
	require.True(t, s.context()["Paste"].Disabled, "nothing is copied")
	s.app.Clipboard().SetContent("hello")
	require.True(t, s.context()["Paste"].Disabled, "a text is no part of a plan")
	s.desk.Select(plan.RefOf(s.device("Second console")))
	s.context()["Copy"].Action()
	paste := s.context()["Paste"]
	require.False(t, paste.Disabled)
	before := s.desk.Plan().Devices.Len()
	paste.Action()
	require.Equal(t, before+1, s.desk.Plan().Devices.Len())
}

func TestAPositionTakesInTheDevicesInside(t *testing.T) {
	s := open(t, "light", demoFile(t))
	left, right := s.device("PA left"), s.device("PA right")
	require.NoError(t, s.desk.Do("Set free", func(e *plan.Edit) error {
		for _, device := range []plan.Device{left, right} {
			if err := plan.Update(e, device.Key(), func(r *plan.Device) { r.Position = "" }); err != nil {
				return err
			}
		}
		return nil
	}))
	var stage plan.Position
	for position := range s.desk.Plan().Positions.All() {
		if position.ID == left.Position {
			stage = position
		}
	}
	require.NotContains(t, s.context(), "Take in the devices inside", "no position is selected")
	s.desk.Select(plan.RefOf(stage))
	before := s.desk.Plan()
	s.context()["Take in the devices inside"].Action()
	require.Equal(t, stage.ID, s.device("PA left").Position)
	require.Equal(t, stage.ID, s.device("PA right").Position)
	require.Contains(t, s.state().Notice, "now belongs to "+stage.Name)
	require.Contains(t, s.state().Notice, "1 more device")
	require.Equal(t, "Take devices into "+stage.Name, s.desk.NextUndo())
	s.choose("Edit", "Undo Take devices into "+stage.Name)
	require.True(t, plan.Equal(before, s.desk.Plan()), "it is one step")
	s.choose("Edit", "Take in the devices inside")
	step := s.desk.NextUndo()
	s.choose("Edit", "Take in the devices inside")
	require.Contains(t, s.state().Notice, "nothing to take in")
	require.Equal(t, step, s.desk.NextUndo(), "nothing taken in is no step")
	s.desk.Select()
	s.choose("Edit", "Take in the devices inside")
	require.Contains(t, s.state().Notice, "Select one position")
}

func TestALoomIsMadeFromTheContextMenu(t *testing.T) {
	s := open(t, "light", demoFile(t))
	require.NotContains(t, s.context(), "Loom")
	before := s.desk.Plan().Looms.Len()
	s.desk.Select(plan.RefOf(s.link("L28")), plan.RefOf(s.link("L29")))
	for _, item := range s.context()["Loom"].ChildMenu.Items {
		if item.Label == "Made of the selected links" {
			item.Action()
		}
	}
	require.Equal(t, before+1, s.desk.Plan().Looms.Len())
	require.Equal(t, "looms", s.desk.Selection()[0].Table)
	require.Contains(t, s.context(), "Loom", "for the loom itself too")
}

func TestAPlacedPositionHoldsWhatStandsThere(t *testing.T) {
	s := open(t, "light", demoFile(t))
	console := s.device("Second console")
	require.NoError(t, s.desk.Do("Free ground", func(e *plan.Edit) error {
		e.RemovePosition(console.Position)
		return nil
	}))
	s.dropPosition(console)
	require.Len(t, s.desk.Selection(), 1)
	placed := s.desk.Selection()[0]
	require.Equal(t, "positions", placed.Table)
	require.Equal(t, plan.PositionID(placed.Key), s.device("Second console").Position)
	require.Contains(t, s.state().Notice, "Second console stands inside Position and moves with it")
	require.Regexp(t, `^Place Position at −?\d+\.\d m, −?\d+\.\d m$`, s.desk.NextUndo())
}

// dropPosition drags the equipment's position onto a device.
func (s *screen) dropPosition(onto plan.Device) {
	s.t.Helper()
	var row fyne.Draggable
	var position fyne.Draggable
	var editor *planview.Editor
	for _, object := range test.LaidOutObjects(s.window.Content()) {
		if found, is := object.(*planview.Editor); is {
			editor = found
		}
		if found, is := object.(fyne.Draggable); is && strings.HasSuffix(fmt.Sprintf("%T", object), "kindRow") {
			row = found
		}
		if label, is := object.(*widget.Label); is && label.Text == "Position" && position == nil {
			position = row
		}
	}
	require.NotNil(s.t, position)
	at := fyne.PointEvent{AbsolutePosition: editor.PlaceOf(onto.At())}
	position.Dragged(&fyne.DragEvent{PointEvent: at})
	position.DragEnd()
}

func TestADoubleClickRenamesButNoArea(t *testing.T) {
	s := open(t, "light", demoFile(t))
	var editor *planview.Editor
	for _, object := range test.LaidOutObjects(s.window.Content()) {
		if found, is := object.(*planview.Editor); is {
			editor = found
		}
	}
	editor.Open(plan.RefOf(s.device("Riser box")))
	require.Equal(t, 1, s.state().Overlays)
	require.Equal(t, "Riser box", s.entries()[0].Text)
	s.entries()[0].SetText("Drum box")
	s.tap("Rename")
	require.NotEmpty(t, s.device("Drum box").ID)
	for area := range s.desk.Plan().Areas.All() {
		editor.Open(plan.RefOf(area))
		require.Zero(t, s.state().Overlays, "the ground under everything is not meant")
	}
}

func TestTheRightClickIsInGroupsWithTheirKeys(t *testing.T) {
	s := open(t, "light", demoFile(t))
	link := s.link("L03")
	s.desk.Select(plan.RefOf(link))
	items := s.context()
	for label, name := range map[string]fyne.KeyName{"Rename…": fyne.KeyF2, "Delete": fyne.KeyDelete, "Lay cable…": fyne.KeyJ, "Reverse": fyne.KeyR, "Whole plan": fyne.Key0} {
		require.Contains(t, items, label)
		require.Equal(t, name, items[label].Shortcut.(*desktop.CustomShortcut).KeyName, label)
	}
	s.rightClick()
	var above []string // what stands above a line
	last := ""
	for _, overlay := range s.window.Canvas().Overlays().List() {
		for _, object := range test.LaidOutObjects(overlay) {
			value := reflect.ValueOf(object)
			if _, line := object.(*widget.Separator); line {
				above = append(above, last)
			} else if value.Kind() == reflect.Pointer && value.Elem().Kind() == reflect.Struct {
				if field := value.Elem().FieldByName("Item"); field.IsValid() {
					last = field.Interface().(*fyne.MenuItem).Label
				}
			}
		}
	}
	require.Equal(t, []string{"Figures of the link…", "Loom", "Delete"}, above)
}
