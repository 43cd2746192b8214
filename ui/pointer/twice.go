package pointer

import (
	"math"
	"time"

	"fyne.io/fyne/v2"
)

// How soon and how near in points a second press follows the first one.
const (
	twiceWithin = 400 * time.Millisecond
	twiceNear   = 5.0
)

// Twice tells the second press of a double click from a press. The toolkit's own double tap would hold back each single
// one.
type Twice struct {
	last time.Time
	at   fyne.Position
}

// Press notes a press and reports whether it is the second of two. A third one is a first again.
func (t *Twice) Press(at fyne.Position, now time.Time) bool {
	away := at.Subtract(t.at)
	second := now.Sub(t.last) <= twiceWithin && math.Hypot(float64(away.X), float64(away.Y)) <= twiceNear && !t.last.IsZero()
	t.last, t.at = now, at
	if second {
		t.last = time.Time{}
	}
	return second
}

// Forget makes the next press a first one.
func (t *Twice) Forget() { t.last = time.Time{} }
