package e2e_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// TestAKilledWindowLosesNothingButTheLastGesture kills the real window five times in the middle of work; each next
// start offers what was not saved.
func TestAKilledWindowLosesNothingButTheLastGesture(t *testing.T) {
	home, path := t.TempDir(), demoCopy(t)
	s := newScreen(t, "1280x800")
	for kill := range 5 {
		p := s.launch(home, nil, path)
		require.Zero(t, p.state().Overlays, "nothing is offered that was recovered or saved")
		p.click(p.where("devices", "FOH console"))
		p.until("selected", func() bool { return len(p.state().Selection) == 1 })
		p.press("Right", "Right")
		p.until("nudged", func() bool { return p.state().Step == 1 })
		x, y := p.where("devices", "Broadcast van")
		p.drag(x, y, x+30, y+20)
		p.until("dragged", func() bool { return p.state().Step == 2 })
		done := p.state()
		p.do("mousemove", fmt.Sprint(x+30), fmt.Sprint(y+20), "mousedown", "1", "mousemove", fmt.Sprint(x+60), fmt.Sprint(y+30))
		time.Sleep(time.Duration(kill) * 7 * time.Millisecond) // another moment each time
		require.NoError(t, p.process.Process.Kill())
		p.until("the program is gone", p.over)
		p.do("mouseup", "1")

		again := s.launch(home, nil, path)
		again.until("the offer is up", func() bool { return again.state().Overlays == 1 })
		if kill == 0 {
			again.picture("recover")
		}
		require.NotEqual(t, done.Links, again.state().Links, "nothing is recovered without a yes")
		again.click(again.item("Recover"))
		again.until("recovered", func() bool { return again.state().Unsaved })
		require.Equal(t, done.Links, again.state().Links, "all but the gesture under way")
		require.GreaterOrEqual(t, again.state().Step, 2, "step by step")
		again.press("ctrl+s")
		again.until("saved", func() bool { return !again.state().Unsaved })
		again.press("ctrl+q")
		again.until("the program ends", again.over)
	}
}
