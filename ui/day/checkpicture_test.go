package day_test

import (
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"stageloom/model/goldentest"
	"stageloom/model/plan"
)

// TestTheLineCheckAsAPicture keeps how the line check looks in a window of 1280 × 800, at twice the scale too.
func TestTheLineCheckAsAPicture(t *testing.T) {
	if testing.Short() {
		t.Skip("drawn by one goroutine alone")
	}
	p, acts := show(t)
	p = edited(t, p, func(e *plan.Edit) error {
		for number, result := range map[int]string{12: plan.Noisy, 20: plan.Dead, 3: plan.HeardOK} {
			if _, err := e.SetLineCheck(plan.LineCheck{Act: acts[0], Input: inputNumbered(p, number), At: "2027-06-18T16:11:00+02:00", Result: result, Note: "crackles when moved"}); err != nil {
				return err
			}
		}
		return nil
	})
	for name, scale := range map[string]float32{"linecheck": 1, "linecheck-twice": 2} {
		t.Run(name, func(t *testing.T) {
			f, _ := onCheck(t, p, acts[0])
			f.window.Canvas().(test.WindowlessCanvas).SetScale(scale)
			f.window.Resize(fyne.NewSize(1280, 800))
			f.BeginCheck(acts[0], inputNumbered(p, 12))
			require.Empty(t, f.crowding(fyne.NewSize(1280, 800)))
			goldentest.Picture(t, filepath.Join("testdata", name+".png"), f.window.Canvas().Capture())
		})
	}
	t.Run("faults", func(t *testing.T) {
		f, _ := onCheck(t, p, acts[0])
		f.window.Resize(fyne.NewSize(1280, 800))
		f.typed("f")
		require.Empty(t, f.crowding(fyne.NewSize(1280, 800)))
		goldentest.Picture(t, filepath.Join("testdata", "linecheck-faults.png"), f.window.Canvas().Capture())
	})
}
