package ui_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"stageloom/model/exchange"
	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/ui/planview"
	"stageloom/ui/table"
)

// says is the way of an input in an act, as a crew reads it.
func (s *screen) says(act plan.ActID, number int) string {
	s.t.Helper()
	view := patch.Of(s.desk.Plan())
	in, found := view.Act(act)
	require.True(s.t, found)
	for _, line := range in.Lines {
		if line.Input.Number == number {
			return view.Words(line)
		}
	}
	s.t.Fatalf("there is no input %d", number)
	return ""
}

// at puts the cursor of the open table into a column.
func (s *screen) at(column string) {
	s.t.Helper()
	s.typed("", fyne.KeyHome)
	for range 40 {
		if s.table().Column == column {
			return
		}
		s.typed("", fyne.KeyRight)
	}
	s.t.Fatalf("there is no column %s", column)
}

func TestANumberTypedIsTheChannel(t *testing.T) {
	s := openTables(t, "Patch")
	require.Equal(t, "input 1 Kick in", s.table().Row)
	s.at("FOH console")
	require.Equal(t, "1", s.table().Text)
	s.typed("60", fyne.KeyReturn)
	require.Contains(t, s.says("", 1), "FOH console 60")
	require.Equal(t, "FOH console of input 1 Kick in", s.desk.NextUndo())
	s.typed("2", fyne.KeyReturn)
	require.Empty(t, s.table().Trouble, "the input has that channel already")
	s.typed("", fyne.KeyUp, fyne.KeyUp)
	s.typed("3", fyne.KeyReturn)
	require.Contains(t, s.table().Trouble, "FOH console 3 has Snare top already")
}

func TestASocketIsTypedInTheActThatIsShown(t *testing.T) {
	s := openTables(t, "Patch")
	act := s.desk.Plan().Acts.At(0).ID
	s.choose("Patch", "Next act")
	s.at("Socket")
	s.typed("not used", fyne.KeyReturn)
	require.Equal(t, "Kick in → not used", s.says(act, 1))
	require.NotContains(t, s.says("", 1), "not used", "the house stays as it is")
	s.typed("", fyne.KeyUp, fyne.KeyDelete)
	require.Equal(t, s.says("", 1), s.says(act, 1), "blank is as in the house")
	s.choose("Patch", "Previous act")
	s.typed("", fyne.KeyUp)
	s.typed("no such box", fyne.KeyReturn)
	require.Contains(t, s.table().Trouble, "names no socket")
}

func TestRowsOfThePatchAreSwappedShiftedAndStruck(t *testing.T) {
	s := openTables(t, "Patch")
	first, second := s.says("", 1), s.says("", 2)
	s.choose("Patch", "Swap the two")
	require.Contains(t, s.state().Notice, "two inputs")
	two := func() {
		t.Helper()
		var refs []plan.Ref
		for input := range s.desk.Plan().Inputs.All() {
			if input.Number <= 2 {
				refs = append(refs, plan.RefOf(input))
			}
		}
		s.desk.Select(refs...)
		require.Equal(t, 2, s.table().Selected)
	}
	two()
	s.choose("Patch", "Swap the two")
	require.Equal(t, "Swap 2 inputs", s.desk.NextUndo())
	require.NotEqual(t, first, s.says("", 1))
	two()
	s.choose("Patch", "Sort by number")
	require.Equal(t, []string{first, second}, []string{s.says("", 1), s.says("", 2)})
	s.choose("Patch", "Next act")
	two()
	act := s.desk.Plan().Acts.At(0).ID
	s.choose("Patch", "Not used in this act")
	require.Equal(t, "Kick in → not used", s.says(act, 1))
	s.choose("Patch", "As in the house")
	require.Equal(t, first, s.says(act, 1))
}

func TestInputsAreFilledInInOrder(t *testing.T) {
	s := openTables(t, "Patch")
	s.at("FOH console")
	s.choose("Patch", "In order from here…")
	require.Equal(t, 1, s.state().Overlays)
	s.typed("70", fyne.KeyReturn)
	require.Zero(t, s.state().Overlays)
	require.Contains(t, s.says("", 1), "FOH console 70")
	s.choose("Patch", "In order from here…")
	s.typed("5000", fyne.KeyReturn)
	require.Equal(t, 1, s.state().Overlays, "what can't be stays in question")
	s.typed("", fyne.KeyEscape)
	require.Zero(t, s.state().Overlays)
}

func TestThePatchOfADeviceMoves(t *testing.T) {
	s := openTables(t, "Sockets")
	s.choose("Patch", "Assign channels on the links")
	require.Contains(t, s.state().Notice, "on the links")
	s.choose("Patch", "Move the patch of a device…")
	require.Equal(t, 1, s.state().Overlays)
	s.tap("Move the patch")
	s.tap("Cancel")
	require.Zero(t, s.state().Overlays)
}

func TestAPlanWithoutActsNamesNone(t *testing.T) {
	s := open(t, "light")
	s.window.Resize(fyne.NewSize(1280, 800))
	s.choose("Tables", "Patch")
	require.Equal(t, "patch", s.table().Name)
	for _, menu := range s.window.MainMenu().Items {
		for _, item := range menu.Items {
			if menu.Label == "Patch" {
				require.NotContains(t, item.Label, "act")
			}
		}
	}
}

func TestAListIsImportedForOneAct(t *testing.T) {
	s := openTables(t, "Patch")
	act := s.desk.Plan().Acts.At(0).ID
	s.choose("Patch", "Next act")
	s.choose("Patch", "Import an input list…")
	s.load(list(t, "band.csv", "Ch,Input\n1,Kick in\n2,Cajon\n"))
	require.True(t, s.reads("1 as in the house, 1 of this act alone; 1 of the house are not used in it; 46 of the house stay, of which the list says nothing"))
	s.check("what it lacks is not used").SetChecked(true)
	require.True(t, s.reads("47 of the house are not used in it"))
	s.check("what it lacks is not used").SetChecked(false)
	s.tap("Import")
	require.Contains(t, s.says(act, 1), "Kick in → ")
	require.Equal(t, 49, s.desk.Plan().Inputs.Len())
	s.desk.Undo()
	require.Equal(t, 48, s.desk.Plan().Inputs.Len())
}

func TestADeviceShowsItsSocketsAndAnInputItsBox(t *testing.T) {
	s := openTables(t, "Patch")
	s.window.Canvas().Focused().(fyne.Shortcutable).TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyReturn, Modifier: fyne.KeyModifierShortcutDefault})
	require.Equal(t, []string{"Riser box"}, s.state().Selection)
	require.Empty(t, s.state().Notice)
}

func TestAWholeColumnIsFilledInByKeys(t *testing.T) {
	s := openTables(t, "Patch")
	s.at("FOH console")
	s.window.Canvas().Focused().(fyne.Shortcutable).TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.KeySpace, Modifier: fyne.KeyModifierShortcutDefault})
	require.Equal(t, 48, s.table().Selected)
	s.typed("9", fyne.KeyReturn)
	require.Contains(t, s.table().Trouble, "not changed: FOH console 27 has Trumpet already in Low Tide Brass", "an act has an input of its own there")
	s.typed("", fyne.KeyEscape)
	require.NoError(t, s.desk.Do("Leave the acts out", func(e *plan.Edit) error {
		for act := range e.Now().Acts.All() {
			e.RemoveAct(act.ID)
		}
		return nil
	}))
	s.typed("9", fyne.KeyReturn)
	require.Empty(t, s.table().Trouble)
	require.Contains(t, s.says("", 1), "FOH console 9")
	require.Contains(t, s.says("", 48), "FOH console 56")
	s.window.Canvas().Focused().(fyne.Shortcutable).TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyDelete, Modifier: fyne.KeyModifierShortcutDefault})
	require.Equal(t, 48, s.desk.Plan().Inputs.Len(), "rows of the patch are not deleted there")
	require.Equal(t, "FOH console of 48 inputs", s.desk.NextUndo())
}

// dragOut drags the selected cell under the cursor of the open table to a place of the window.
func (s *screen) dragOut(to fyne.Position) {
	s.t.Helper()
	for _, object := range test.LaidOutObjects(s.window.Content()) {
		grid, is := object.(*table.Grid)
		if !is {
			continue
		}
		row, _ := grid.Sheet().Cursor()
		grid.DroppedBeside(grid.Sheet().Source(), []plan.Ref{grid.Sheet().Ref(row)}, to)
		return
	}
	s.t.Fatal("no table is open")
}

func TestInputsDroppedOnADeviceTakeItsFirstFreeSocket(t *testing.T) {
	s := openTables(t, "Patch")
	var box plan.Device
	for device := range s.desk.Plan().Devices.All() {
		if device.Name == "Second stage box" {
			box = device
		}
	}
	require.NotEmpty(t, box.ID)
	s.dragOut(fyne.NewPos(5, 5))
	require.Contains(t, s.state().Notice, "Drop inputs on a device of the plan")
	require.Empty(t, s.desk.NextUndo())
	var where fyne.Position
	for _, object := range test.LaidOutObjects(s.window.Content()) {
		if editor, is := object.(*planview.Editor); is {
			at := editor.View().Point(box.At())
			editor.SetView(editor.View().Zoomed(8, at)) // its position opens, and it stands where it is
			where = editor.PlaceOf(box.At())
		}
	}
	s.dragOut(where)
	require.Contains(t, s.says("", 1), "Kick in → Second stage box in ")
	require.Equal(t, "Plug Kick in into Second stage box", s.desk.NextUndo())
}

func TestAListPatchesAnActAndCountsOn(t *testing.T) {
	s := openTables(t, "Patch")
	act := s.desk.Plan().Acts.At(0).ID
	s.choose("Patch", "Next act")
	s.choose("Patch", "Import an input list…")
	s.load(list(t, "more.csv", "Source,Mic,Stage box,FOH ch,Mon ch\nCajon,dynamic,Stage right box 20,60,50\nShaker,condenser,Riser box-1,61,\nTheremin,DI,Truck 4,62,\n"))
	require.Equal(t, []string{exchange.Name, exchange.Source, exchange.Box, "FOH console channel", "Monitor console channel"}, s.meanings())
	require.True(t, s.reads("All rows are good: 3 inputs for "))
	require.True(t, s.reads("1 socket and 2 channels patched as the list says; what 2 rows say of sockets or channels is left out"))
	require.True(t, s.reads(`Row 3, column C "Stage box": Riser box in 1 has Kick in already: free it, or write another socket; its channels wait for that.`))
	require.True(t, s.reads(`Row 4, column C "Stage box": no device with such sockets is called Truck; write for instance`))
	s.picture("patch-import-light")
	s.tap("Import")
	require.Contains(t, s.says(act, 49), "Cajon → Stage right box in 20 → FOH console 60, Monitor console 50")
	require.Equal(t, "Shaker → not patched", s.says(act, 50))
	require.Equal(t, "Theremin → not patched", s.says(act, 51))
	s.desk.Undo()
	require.Equal(t, 48, s.desk.Plan().Inputs.Len(), "inputs and patch are one step")
}
