package chart_test

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"stageloom/model/raster"
	"stageloom/ui/chart"
	"stageloom/ui/pointer"
)

// explained are the meanings in a chart of a size, in the order in which a pointer meets them, and where the first lies.
func explained(c chart.Curves, width, height float64) (words []string, first raster.Point) {
	met := map[string]bool{}
	for y := 0.0; y < height; y += 4 {
		for x := 0.0; x < width; x += 4 {
			at := raster.Point{X: x, Y: y}
			said := c.Explain(at, width, height)
			if said == "" || met[said] {
				continue
			}
			if len(words) == 0 {
				first = at
			}
			met[said] = true
			words = append(words, said)
		}
	}
	return words, first
}

func TestNamesInTheKeyAreExplained(t *testing.T) {
	words, first := explained(chart.Of(tight()), 280, 230)
	require.Len(t, words, 4, "loss, limit, the limit that grades, the worst point")
	require.Contains(t, words[len(words)-1], "the frequency at which least is in hand of the standard's limit. It is advice")
	require.Greater(t, first.Y, 150.0, "the key stands at the foot")
	none, _ := explained(chart.Curves{Hint: "nothing"}, 280, 230)
	require.Empty(t, none)

	test.NewTempApp(t)
	var shown func()
	c := chart.New(chart.Of(tight()))
	c.Tips = pointer.NewTips(func(_ time.Duration, do func()) func() { shown = do; return func() {} })
	c.Resize(fyne.NewSize(280, 230))
	c.MouseIn(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(float32(first.X), float32(first.Y))}})
	shown()
	require.Equal(t, words[0], c.Tips.Words())
	c.MouseOut()
	require.Empty(t, c.Tips.Words())
}
