package picture_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"stageloom/model/geom"
	"stageloom/model/picture"
	"stageloom/model/plan"
)

func largeScene() *picture.Scene {
	random := rand.New(rand.NewPCG(1, 2))
	s := &picture.Scene{Bounds: geom.BoxOf(geom.Point{}, geom.Point{X: 600, Y: 400})}
	for i := range 500 {
		s.Devices = append(s.Devices, picture.DeviceFigure{
			ID: plan.DeviceID(fmt.Sprintf("d%d", i)), Name: fmt.Sprintf("Stage box %d", i), Kind: "32 in / 16 out",
			At: geom.Point{X: random.Float64() * 600, Y: random.Float64() * 400},
		})
	}
	for i := range 750 {
		s.Links = append(s.Links, picture.LinkFigure{
			ID: plan.LinkID(fmt.Sprintf("k%d", i)), Label: fmt.Sprintf("L%03d +3", i), Grade: grades[i%6], Standing: grades[i%6], Reached: 1,
			From: s.Devices[i%500].ID, To: s.Devices[random.IntN(500)].ID, Joins: []float64{0.3, 0.6},
		})
	}
	return s
}

// BenchmarkArrange and BenchmarkLetter are the picture's share of a frame for 500 devices and 750 links.
func BenchmarkArrange(b *testing.B) {
	s := largeScene()
	b.ReportAllocs()
	for b.Loop() {
		picture.Arrange(s, 2.5, 1, wide)
	}
}

func BenchmarkLetter(b *testing.B) {
	s := largeScene()
	a := picture.Arrange(s, 2.5, 1, wide)
	view := picture.Fit(s.Bounds, 1600, 1000, 0)
	view.Scale = 2.5
	b.ReportAllocs()
	for b.Loop() {
		picture.Letter(a, view, picture.Options{})
	}
}
