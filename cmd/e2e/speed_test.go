package e2e_test

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/demo/demotest"
	"stageloom/model/planfile"
)

type frames struct {
	Count  int     `json:"count"`
	Median float64 `json:"p50_ms"`
	P95    float64 `json:"p95_ms"`
	Max    float64 `json:"max_ms"`
}

// BenchmarkWindow reports our own work for a frame of the large plan, 500 devices and 750 links, in a real window of
// 1600 × 1000, the time from launch to the first frame, and the heap after a collection.
func BenchmarkWindow(b *testing.B) {
	if os.Getenv("STAGELOOM_WINDOW") == "" {
		b.Skip("STAGELOOM_WINDOW names no program; run cmd/e2e/window")
	}
	path := filepath.Join(b.TempDir(), "large.stageloom")
	_, err := planfile.Replace(path, demotest.Large(1), nil)
	require.NoError(b, err)
	s := newScreen(b, "1600x1000")
	for b.Loop() {
		p := s.launch(b.TempDir(), nil, path)
		p.ask(`{"ask":"frames","forget":true}`, &map[string]frames{})
		p.drag(600, 400, 900, 500)
		for i := range 20 {
			p.do("mousemove", "--sync", fmt.Sprint(600+i), "400", "click", "4")
		}
		for range 20 {
			p.do("click", "5")
		}
		p.do("mousemove", "900", "300", "mousedown", "2")
		for i := range 40 {
			p.do("mousemove", "--sync", fmt.Sprint(900-i*12), fmt.Sprint(300+i*3))
		}
		p.do("mouseup", "2")
		p.dragSlowly()
		var work map[string]frames
		p.ask(`{"ask":"frames"}`, &work)
		for cause, f := range work {
			b.Logf("%s: %d frames, p50 %.1f ms, p95 %.1f ms, max %.1f ms", cause, f.Count, f.Median, f.P95, f.Max)
			b.ReportMetric(f.P95, cause+"-p95-ms")
		}
		var memory struct {
			Heap  float64 `json:"heap_MB"`
			Start float64 `json:"start_ms"`
		}
		p.ask(`{"ask":"memory"}`, &memory)
		b.ReportMetric(memory.Heap, "heap-MB")
		b.ReportMetric(memory.Start, "start-ms")
		_ = p.process.Process.Kill()
	}
}

// dragSlowly drags the first device of the plan in forty steps.
func (p *program) dragSlowly() {
	p.press("ctrl+d")
	p.until("a device is selected", func() bool { return len(p.state().Selection) == 1 })
	x, y := p.where("devices", p.state().Selection[0])
	p.do("mousemove", fmt.Sprint(x), fmt.Sprint(y), "mousedown", "1")
	for i := range 40 {
		p.do("mousemove", "--sync", fmt.Sprint(x+i*3+3), fmt.Sprint(y+i))
	}
	p.do("mouseup", "1")
}
