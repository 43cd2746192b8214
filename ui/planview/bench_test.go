package planview_test

import (
	"testing"
	"time"

	"stageloom/model/demo/demotest"
	"stageloom/model/geom"
	"stageloom/ui/planview"
)

// benchmarkFrames reports the median and the 95th percentile of our own work for a frame of a plan of 500 devices
// and 750 links at 1600 × 1000 points. The toolkit's drawing is not in it.
func benchmarkFrames(b *testing.B, cause planview.Cause, gesture func(s *stand)) {
	s := newStand(b, demotest.Large(1), 1600, 1000)
	s.window.Canvas().Capture()
	s.Work.Forget()
	for b.Loop() {
		gesture(s)
	}
	b.ReportMetric(float64(s.Work.Share(cause, 0.5))/float64(time.Millisecond), "p50-ms")
	b.ReportMetric(float64(s.Work.Share(cause, 0.95))/float64(time.Millisecond), "p95-ms")
	b.ReportMetric(float64(s.Work.Count(cause))/float64(b.N), "frames/op")
}

func BenchmarkDrag(b *testing.B) {
	benchmarkFrames(b, planview.Drag, func(s *stand) {
		from := s.View().Point(s.device(s.desk.Assessment().Devices()[0].Name).At())
		var way []geom.Point
		for i := range 20 {
			way = append(way, from.Add(geom.Point{X: float64(5 * i), Y: float64(3 * i)}))
		}
		(&hand{s: s}).drag(from, way...)
		s.desk.Undo()
	})
}

func BenchmarkPan(b *testing.B) {
	benchmarkFrames(b, planview.Pan, func(s *stand) {
		for i := range 40 {
			s.SetView(s.View().Panned(geom.Point{X: 20, Y: float64(i%3 - 1)}))
			s.window.Canvas().Capture()
		}
		s.SetView(s.View().Panned(geom.Point{X: -800}))
	})
}

func BenchmarkZoom(b *testing.B) {
	benchmarkFrames(b, planview.Zoom, func(s *stand) {
		middle := geom.Point{X: 800, Y: 500}
		for _, factor := range []float64{1.08, 1.08, 1.08, 1.08, 1 / 1.08, 1 / 1.08, 1 / 1.08, 1 / 1.08} {
			s.SetView(s.View().Zoomed(factor, middle))
			s.window.Canvas().Capture()
		}
	})
}
