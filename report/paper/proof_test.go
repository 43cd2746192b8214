package paper_test

import (
	"context"
	"image/color"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/report/paper"
)

// A proof draws lines as ISO 32000-1, 8.4.3 has a viewer draw what is written.
func TestAProofDrawsLinesAsTheyArePrinted(t *testing.T) {
	var box paper.Box
	const scale = 10
	proof, _, err := paper.Proof(context.Background(), setup(), 1, scale, draw(func(b *paper.Book) {
		box = b.Take(100)
		pen := b.Pen(box)
		level := func(y float64, line paper.Stroke) {
			line.Colour = paper.Black
			pen.Polyline([]paper.Point{{X: 10, Y: y}, {X: 40, Y: y}}, line)
		}
		level(10, paper.Stroke{Width: 4})
		level(20, paper.Stroke{Width: 4, Round: true})
		level(30, paper.Stroke{Width: 4, Dash: []float64{5}})
		level(40, paper.Stroke{Width: 4, Dash: []float64{0, 10}, Round: true})
		pen.Polygon([]paper.Point{{X: 0, Y: 50}, {X: 50, Y: 50}, {X: 50, Y: 70}, {X: 0, Y: 70}}, paper.Grey(100), paper.Stroke{})
		level(60, paper.Stroke{Width: 2, Casing: 1})
		pen.Polygon([]paper.Point{{X: 20, Y: 80}, {X: 40, Y: 80}, {X: 40, Y: 90}, {X: 20, Y: 90}}, paper.None, paper.Stroke{Colour: paper.Black, Width: 4, Casing: 1})
	}))
	require.NoError(t, err)
	for _, c := range []struct {
		sentence string
		x, y     float64
		want     uint8
	}{
		{"a plain end stops at its point", 9.5, 10, 255},
		{"a round one goes beyond", 8.5, 20, 0},
		{"but not into the corner", 8.3, 18.3, 255},
		{"a single length is dash and gap", 12, 30, 0},
		{"a single length is dash and gap", 17, 30, 255},
		{"a single length is dash and gap", 22, 30, 0},
		{"a dash of no length is a dot", 20, 40, 0},
		{"that is round", 21.7, 41.7, 255},
		{"a casing parts a line from what lies under it", 25, 61.5, 255},
		{"which is seen beyond it", 25, 62.5, 100},
		{"a corner is pointed", 18.2, 78.2, 0},
	} {
		got := proof.RGBAAt(int((box.X+c.x)*scale), int((box.Y+c.y)*scale))
		require.Equal(t, color.RGBA{c.want, c.want, c.want, 255}, got, "%s: %g, %g", c.sentence, c.x, c.y)
	}
}
