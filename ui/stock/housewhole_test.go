package stock_test

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
)

func TestALongCaseAndShowLeaveTheCablesNameWhole(t *testing.T) {
	s := openHouse(t)
	s.press(fyne.KeyEscape)
	s.house(func(e *plan.Edit) error {
		box := e.AddCase(plan.Case{Name: "Case 14, stage left, lower deck behind the ramp, with a blue lid"})
		return plan.Update(e, s.row("R9").Key(), func(r *plan.Reel) { r.Case = box })
	})
	s.Window().Resize(fyne.NewSize(1280, 720))
	s.dialogs.ShowHouse()
	const name, note = "R9 · 50 m · Cat 6A · Case 14, stage left, lower deck behind the ramp, with a blue lid", "with Other show since 1 June 2027"
	shown, cut := false, false
	for _, object := range s.Parts() {
		switch part := object.(type) {
		case *widget.Label:
			if part.Text == name {
				shown = true
				need := fyne.MeasureText(name, theme.TextSize(), fyne.TextStyle{}).Width + 2*theme.InnerPadding()
				require.GreaterOrEqual(t, part.Size().Width, need)
			}
		case *canvas.Text:
			if said, is := strings.CutSuffix(strings.TrimSpace(part.Text), "…"); is && strings.HasPrefix(note, said) {
				cut = true
			}
		}
	}
	require.True(t, shown)
	require.True(t, cut, "where it is gives way")
	s.selected("house", "R9")
	s.says(name + ": " + note)
	s.scan("R1")
	s.says(name + ": " + note)
	s.selected("show", "R1")
	s.says("R1 · 50 m · Cat 6A")
	require.False(t, s.Reads(name+": "+note), "the line that was selected last is said")
}
