package planview

import (
	"slices"
	"time"
)

// mostFrames is how many frames of each kind are remembered.
const mostFrames = 2048

// Cause is why a frame was painted.
type Cause string

// The causes.
const (
	Drag  Cause = "drag"
	Pan   Cause = "pan"
	Zoom  Cause = "zoom"
	Other Cause = "other"
)

// Causes lists the causes.
func Causes() []Cause { return []Cause{Drag, Pan, Zoom, Other} }

// Work remembers how long our own work for each frame took: composing, lettering, painting. The toolkit's drawing
// of it is not in it.
type Work struct{ frames map[Cause][]time.Duration }

func (w *Work) add(cause Cause, took time.Duration) {
	if w.frames == nil {
		w.frames = map[Cause][]time.Duration{}
	}
	frames := append(w.frames[cause], took)
	if len(frames) > mostFrames {
		frames = frames[len(frames)-mostFrames:]
	}
	w.frames[cause] = frames
}

// Forget begins anew.
func (w *Work) Forget() { w.frames = nil }

// Count is how many frames of a cause are remembered.
func (w *Work) Count(cause Cause) int { return len(w.frames[cause]) }

// Share returns the time that a share 0…1 of the frames of a cause took at most, 0 for no frames.
func (w *Work) Share(cause Cause, share float64) time.Duration {
	frames := slices.Clone(w.frames[cause])
	if len(frames) == 0 {
		return 0
	}
	slices.Sort(frames)
	return frames[min(len(frames)-1, int(share*float64(len(frames))))]
}
