package stock_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
	"stageloom/ui/dialogs"
)

func TestWhatComesBackIsShownAndTakenOrNot(t *testing.T) {
	shortened := func(t *testing.T) *lent {
		s := openHouse(t)
		s.scan("R1, R2, 3 x 10 m")
		s.save()
		require.NoError(t, s.Desk().Do("Shorten", func(e *plan.Edit) error {
			for row := range e.Now().Reels.All() {
				if row.Tag == "R1" {
					row.Length = 43
					plan.Put(e, row)
				}
			}
			return nil
		}))
		s.press(fyne.KeyF3)
		return s
	}
	t.Run("scanned, and left by a key", func(t *testing.T) {
		s := shortened(t)
		s.scan("R1")
		s.says("learns: R1 50 m → 43 m")
		s.press(fyne.KeyF7)
		s.says("What the show found out is left out.")
		s.save()
		require.InDelta(t, 50, s.row("R1").Length, 0)
	})
	t.Run("scanned", func(t *testing.T) {
		s := shortened(t)
		s.scan("R1")
		s.save()
		require.InDelta(t, 43, s.row("R1").Length, 0)
	})
	t.Run("all of it, one missing", func(t *testing.T) {
		s := shortened(t)
		s.Tap("Give all back…")
		require.True(t, s.Check("R1: 50 m → 43 m").Checked)
		s.Item("Missing").(*dialogs.Entry).SetText("R2, 1 x 10 m")
		s.press(fyne.KeyReturn)
		require.Equal(t, 1, s.Open(), "Enter gives back")
		require.Empty(t, s.mine())
		s.save()
		require.InDelta(t, 43, s.row("R1").Length, 0)
		require.Equal(t, plan.Missing, s.row("R2").State)
		missing := 0
		for row := range s.stock().Plan.Reels.All() {
			if row.Tag == "" && row.State == plan.Missing {
				missing = row.Count()
			}
		}
		require.Equal(t, 1, missing)
	})
	t.Run("as it is said", func(t *testing.T) {
		s := shortened(t)
		s.selected("show", "R2")
		s.Tap("Give back as…  F11")
		s.Item("Length").(*dialogs.Entry).SetText("48,5 m")
		s.Item("Condition").(*dialogs.Chooser).SetSelected(plan.Faulty)
		s.Item("Reason").(*dialogs.Entry).SetText("bent pin")
		s.Item("Case").(*dialogs.Entry).SetText("Bench")
		s.Tap("Give back")
		s.save()
		row := s.row("R2")
		require.InDelta(t, 48.5, row.Length, 1e-9)
		require.Equal(t, "bent pin", row.Reason)
		box, _ := s.stock().Plan.Cases.Get(plan.Key(row.Case))
		require.Equal(t, "Bench", box.Name)
	})
	t.Run("not ticked", func(t *testing.T) {
		s := shortened(t)
		s.selected("show", "R1")
		s.Tap("Give back")
		test.Tap(s.Check("R1: 50 m → 43 m"))
		s.Tap("Give back")
		s.save()
		require.InDelta(t, 50, s.row("R1").Length, 0)
	})
}
