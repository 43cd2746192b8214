package find_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/stretchr/testify/require"

	"stageloom/model/demo"
	"stageloom/model/plan"
	"stageloom/ui/dialogs/hosttest"
	"stageloom/ui/find"
	"stageloom/ui/text"
)

// menu is one with everything that a menu of the window may hold; done are the labels of what was done.
func menu(done *[]string) *fyne.MainMenu {
	item := func(label string, shortcut fyne.Shortcut) *fyne.MenuItem {
		item := fyne.NewMenuItem(label, func() { *done = append(*done, label) })
		item.Shortcut = shortcut
		return item
	}
	below := fyne.NewMenuItem("Look", nil)
	dark := item("dark", nil)
	dark.Checked = true
	below.ChildMenu = fyne.NewMenu("", dark)
	quit := fyne.NewMenuItem("Quit", nil)
	quit.IsQuit = true
	undo := item("Undo", &fyne.ShortcutUndo{})
	undo.Disabled = true
	return fyne.NewMainMenu(fyne.NewMenu("Edit", undo, fyne.NewMenuItemSeparator(),
		item("Save as…", &desktop.CustomShortcut{KeyName: fyne.KeyS, Modifier: fyne.KeyModifierShortcutDefault | fyne.KeyModifierShift}),
		item("Rename…   F2", nil), below, quit))
}

func TestTheCommandsOfAMenu(t *testing.T) {
	var done []string
	all, do := find.Commands(menu(&done), func() { done = append(done, "quit") })
	require.Equal(t, []text.Command{
		{Name: "Undo", In: "Edit", Keys: "Ctrl Z"},
		{Name: "Save as…", In: "Edit", Keys: "Ctrl Shift S", Ready: true},
		{Name: "Rename…", In: "Edit", Keys: "F2", Ready: true},
		{Name: text.Ticked + "dark", In: "Edit, Look", Ready: true},
		{Name: "Quit", In: "Edit", Ready: true},
	}, all)
	do[len(do)-1]()
	require.Equal(t, []string{"quit"}, done)
}

func TestACommandIsDoneOnceTheListIsGone(t *testing.T) {
	h := hosttest.New(t, plan.New("Show"))
	var done []string
	all, do := find.Commands(menu(&done), func() {})
	find.Command(h, all, do)
	h.Field().SetText("undo")
	h.Tap("Do it")
	require.Equal(t, 1, h.Open(), "it has nothing to work on")
	h.Field().SetText("ren")
	h.Tap("Do it")
	require.Zero(t, h.Open())
	require.Equal(t, []string{"Rename…   F2"}, done)
}

func TestARowIsFoundByItsName(t *testing.T) {
	h := hosttest.New(t, demo.Weekender())
	var shown []plan.Ref
	find.Row(h, func(ref plan.Ref) { shown = append(shown, ref) })
	field := h.Field()
	field.SetText("L02")
	field.OnSubmitted("")
	require.Len(t, shown, 1)
	require.Equal(t, "L02", text.NameOf(h.Desk().Plan(), shown[0]))
	require.Zero(t, h.Open())
}

func TestACommandSearchWithoutAHitSaysSo(t *testing.T) {
	h := hosttest.New(t, plan.New("Show"))
	var done []string
	all, do := find.Commands(menu(&done), func() {})
	find.Command(h, all, do)
	require.False(t, h.Reads("No command holds"))
	h.Field().SetText("no such thing")
	require.True(t, h.Reads("No command holds “no such thing”."))
	h.Field().SetText("ren")
	require.False(t, h.Reads("No command holds"))
}

func TestShortcutsOfCommandsStandInAColumn(t *testing.T) {
	h := hosttest.New(t, plan.New("Show"))
	var done []string
	all, do := find.Commands(menu(&done), func() {})
	find.Command(h, all, do)
	columns, told := map[float32]bool{}, 0
	for _, part := range h.Parts() {
		said, is := part.(*canvas.Text)
		if !is || said.Text != "Ctrl Z" && said.Text != "Ctrl Shift S" && said.Text != "F2" {
			continue
		}
		at := fyne.CurrentApp().Driver().AbsolutePositionForObject(said)
		columns[at.X], told = true, told+1
	}
	require.Equal(t, 3, told)
	require.Len(t, columns, 1, "they begin below each other")
}
