package e2e_test

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

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
		p.gestures()
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

// steps is how many steps a gesture has, each of which is painted.
const steps = 110

// gestures draws a rubber band, zooms, pans and drags a device, each in steps that wait for their frame.
func (p *program) gestures() {
	p.gesture(600, 400, "1", 2, 1)
	for i := range steps {
		wheel := "4"
		if i/10%2 == 1 {
			wheel = "5"
		}
		p.paced("mousemove", fmt.Sprint(600+i), "400", "click", wheel)
	}
	p.gesture(900, 300, "2", -4, 2)
	p.press("ctrl+d")
	p.until("a device is selected", func() bool { return len(p.state().Selection) == 1 })
	x, y := p.where("devices", p.state().Selection[0])
	p.gesture(x, y, "1", 2, 1)
}

// gesture presses a button at a place, goes on in steps and releases it there.
func (p *program) gesture(x, y int, button string, stepX, stepY int) {
	p.do("mousemove", fmt.Sprint(x), fmt.Sprint(y), "mousedown", button)
	for i := range steps {
		p.paced("mousemove", fmt.Sprint(x+(i+1)*stepX), fmt.Sprint(y+(i+1)*stepY))
	}
	p.do("mouseup", button)
}

// paced does one step of a gesture and waits for the frame that shows it, a moment at most.
func (p *program) paced(words ...string) {
	before := p.state().Frames
	p.do(words...)
	for limit := time.Now().Add(200 * time.Millisecond); p.state().Frames == before && time.Now().Before(limit); {
		time.Sleep(2 * time.Millisecond)
	}
}
