package stock_test

import (
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
	"stageloom/ui/dialogs"
)

// rows are how many rows and how many cables the house has.
func (s *lent) rows() (rows, cables int) {
	for row := range s.stock().Plan.Reels.All() {
		rows, cables = rows+1, cables+row.Count()
	}
	return rows, cables
}

func TestAddEditAndImportIntoTheHouseAreTakenBackOneByOne(t *testing.T) {
	s := openHouse(t)
	s.Tap("Add…")
	s.field("What there is", "3 x 20 m")
	s.Tap("Add and another")
	s.field("What there is", "2 x 30 m")
	s.Tap("Add")
	require.Len(t, s.list("house").Lines(), 9, "the list shows them")

	s.selected("house", "R1")
	s.Tap("Edit…  F10")
	s.field("Work done today", "new plug")
	s.Tap("Keep")
	require.Len(t, s.stock().Plan.History(s.row("R1").ID), 1)

	list := filepath.Join(t.TempDir(), "list.csv")
	require.NoError(t, os.WriteFile(list, []byte("Tag,Kind,Length\nX1,Cat 6A,40 m\nX2,Cat 6A,40 m\n"), 0o600))
	s.Tap("Import…  F12")
	s.Field().SetText(list)
	s.Field().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	s.app.Until(t, "the list is read", func() bool { return s.Reads("2 rows") || s.Reads("2 reels") || s.Reads("2 cables") })
	s.Tap("Import")
	require.Equal(t, 1, s.Open())
	require.InDelta(t, 40, s.row("X2").Length, 0)

	s.press(fyne.KeyF8)
	s.says("Taken back: Import list.csv")
	require.Empty(t, s.row("X2").Tag, "the whole list is one step")
	require.Empty(t, s.row("X1").Tag)
	s.list("house").TypedShortcut(&fyne.ShortcutUndo{})
	s.says("Taken back: Edit R1")
	require.Empty(t, s.stock().Plan.History(s.row("R1").ID))
	rows, cables := s.rows()
	require.Equal(t, []int{9, 17}, []int{rows, cables}, "each adding is a step of its own")
	s.press(fyne.KeyF8)
	s.says("Taken back: Add reels.")
	s.press(fyne.KeyF8)
	rows, cables = s.rows()
	require.Equal(t, []int{7, 12}, []int{rows, cables})
	s.press(fyne.KeyF8)
	s.says("Nothing was done here yet")
}

func TestWhatChangesNothingOfTheHouseIsNoStep(t *testing.T) {
	s := openHouse(t)
	s.selected("house", "R1")
	s.Tap("Edit…  F10")
	s.Tap("Keep")
	s.says("That changes nothing")
	s.press(fyne.KeyF8)
	s.says("Nothing was done here yet")
	s.selected("house", "R1")
	s.Tap("Edit…  F10")
	s.Item("Work done today").(*dialogs.Entry).SetText("measured")
	s.Tap("Keep")
	s.press(fyne.KeyF8)
	s.says("Taken back: Edit R1")
}

func TestACaseIsRemovedAndOneInUseAsksFirst(t *testing.T) {
	s := openHouse(t)
	s.house(func(e *plan.Edit) error {
		e.AddCase(plan.Case{Name: "Case 1"})
		used := e.AddCase(plan.Case{Name: "Case 2"})
		for row := range e.Now().Reels.All() {
			if row.Tag == "R9" || row.Quantity == 6 {
				row.Case = used
				plan.Put(e, row)
			}
		}
		return nil
	})
	s.tickOnce()
	s.Tap("Cases…")
	s.list("cases").SelectNone()
	s.Tap("Remove…")
	require.True(t, s.Reads("Select the case that is removed."))

	s.list("cases").SelectLine(0)
	s.Tap("Remove…")
	require.True(t, s.Reads("Case 1 is removed."), "an empty one goes at once")
	require.Equal(t, 1, s.stock().Plan.Cases.Len())

	s.list("cases").SelectLine(0)
	s.Tap("Remove…")
	require.True(t, s.Reads("7 pieces live in Case 2"), "six untagged ones, and one that is with another show")
	s.Tap("Cancel")
	require.Equal(t, 1, s.stock().Plan.Cases.Len())
	s.Tap("Remove…")
	s.Tap("Remove it")
	require.True(t, s.Reads("Case 2 is removed: 7 pieces have no case now."))
	require.Zero(t, s.stock().Plan.Cases.Len())
	require.Empty(t, s.row("R9").Case)
	rows, cables := s.rows()
	require.Equal(t, []int{7, 12}, []int{rows, cables}, "all of it stays in the stock")
	s.press(fyne.KeyEscape)
	s.press(fyne.KeyF8)
	require.NotEmpty(t, s.row("R9").Case, "it is taken back with what lives in it")
}

func TestACaseThatWasFilledMeanwhileIsNotRemovedUnasked(t *testing.T) {
	s := openHouse(t)
	var box plan.CaseID
	s.house(func(e *plan.Edit) error { box = e.AddCase(plan.Case{Name: "Case 1"}); return nil })
	s.tickOnce()
	s.Tap("Cases…")
	s.list("cases").SelectLine(0)
	s.house(func(e *plan.Edit) error {
		return plan.Update(e, s.row("R1").Key(), func(r *plan.Reel) { r.Case = box })
	})
	s.Tap("Remove…")
	require.True(t, s.Reads("1 piece lives in Case 1 by now"))
	require.Equal(t, 1, s.stock().Plan.Cases.Len())
	s.Tap("Remove…")
	require.True(t, s.Reads("1 piece lives in Case 1"))
	s.Tap("Remove it")
	require.Zero(t, s.stock().Plan.Cases.Len())
}
