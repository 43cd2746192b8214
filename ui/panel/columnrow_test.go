package panel_test

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/model/demo"
	"stageloom/ui/look"
	"stageloom/ui/panel"
)

// linesOf are the texts of a list by what stands in them, with their places beside the list.
func linesOf(list fyne.CanvasObject) map[string]*canvas.Text {
	lines := map[string]*canvas.Text{}
	for _, line := range allOf[*canvas.Text](list) {
		lines[line.Text] = line
	}
	return lines
}

func TestTheListsAtTheLeftHaveOneMarginAndOnePitch(t *testing.T) {
	start(t)
	equipment := panel.NewEquipment(demo.Weekender())
	show(t, equipment, 260, 900)
	lines := linesOf(equipment)
	for words, left := range map[string]float32{"Equipment": 12, "Site": 12, "Stage": 12, "Stage box 12 in, 6 out": 36} {
		require.Contains(t, lines, words)
		require.InDelta(t, left, placeOf(lines[words]).X, 0.6, words)
	}
	require.Equal(t, float32(14), lines["Equipment"].TextSize)
	require.True(t, lines["Equipment"].TextStyle.Bold)
	require.Equal(t, float32(12), lines["Stage"].TextSize)
	require.False(t, lines["Stage"].TextStyle.Bold)
	require.Equal(t, theme.Color(theme.ColorNamePlaceHolder), lines["Stage"].Color)
	require.InDelta(t, 260-12, placeOf(lines["×2"]).X+lines["×2"].MinSize().Width, 0.6)
	rows := rowsOf(equipment, "kindRow")
	at := func(name string) float32 { return placeOf(rows[name]).Y }
	require.InDelta(t, 25, at("Stage box 24 in, 12 out")-at("Stage box 12 in, 6 out"), 0.1)
	above := placeOf(lines["Stage"]).Y - at("Position") - 25
	require.InDelta(t, 10, above, 3, "room above a head")
	for _, icon := range allOf[*widget.Icon](rows["Position"]) {
		require.Equal(t, fyne.NewSquareSize(16), icon.Size())
		require.InDelta(t, 12, placeOf(icon).X, 0.1)
	}
}

func TestCountsOfTheStockAreTabularAndMutedWhereNothingIsLeft(t *testing.T) {
	for digit := range 10 {
		wide := fyne.MeasureText(fmt.Sprint(digit), 12, fyne.TextStyle{}).Width
		require.Equal(t, fyne.MeasureText("0", 12, fyne.TextStyle{}).Width, wide, "digit %d is as wide as any", digit)
	}
	start(t)
	s := panel.NewStockList(demo.Weekender(), func() {})
	show(t, s, 260, 2600)
	counts := 0
	for _, palette := range look.Palettes() {
		fyne.CurrentApp().Settings().SetTheme(look.NewTheme(palette))
		s.Refresh()
		for _, line := range allOf[*canvas.Text](s) {
			left, all, fraction := strings.Cut(line.Text, "/")
			switch {
			case line.Text == "1 suspect":
				require.Equal(t, palette.GradeInk("tight"), line.Color, palette.Name)
			case fraction && all != "":
				counts++
				require.InDelta(t, 260-12, placeOf(line).X+line.MinSize().Width, 0.6, line.Text)
				ink := theme.Color(theme.ColorNameForeground)
				if left == "0" {
					ink = theme.Color(theme.ColorNamePlaceHolder)
				}
				require.Equal(t, ink, line.Color, "%s in %s", line.Text, palette.Name)
			}
		}
	}
	require.Greater(t, counts, 30)
}
