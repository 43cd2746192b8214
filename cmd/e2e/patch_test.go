package e2e_test

import (
	"testing"
)

// TestThePatchIsWorked types sockets and channels, fills in order, goes through the acts, drags two sockets over each other
// and inputs onto the plan.
func TestThePatchIsWorked(t *testing.T) {
	s := newScreen(t, "1280x800")
	p := s.launch(t.TempDir(), nil, demoCopy(t))
	p.do("mousemove", "1279", "799")
	write := func(words string) { p.do("type", "--delay", "20", words) }
	step := p.state().Step
	line := func(column string) string {
		for _, cell := range p.table().Line {
			if len(cell) > len(column) && cell[:len(column)+1] == column+":" {
				return cell[len(column)+2:]
			}
		}
		return ""
	}
	next := func(what string) {
		step++
		p.until(what, func() bool { return p.state().Step == step && p.table().Trouble == "" })
	}

	p.press("ctrl+7")
	p.until("the patch is open", func() bool { return p.table().Name == "patch" && p.table().Rows == 48 })
	p.press("ctrl+Home", "Right", "Right", "Right", "Right")
	p.until("on a socket", func() bool { return p.table().Column == "Socket" })
	write("not used")
	p.press("Return")
	p.until("the house does without nothing", func() bool { return p.table().Trouble != "" })
	p.press("Escape", "ctrl+Next")
	write("not used")
	p.press("Return")
	next("the act does")
	p.press("Up")
	p.until("the act does without", func() bool { return line("Socket") == "not used" })
	p.picture("patch-act")
	p.press("ctrl+Prior")
	p.until("the house has it", func() bool { return line("Socket") == "Riser box in 1" })

	p.press("Right", "Right", "shift+Down", "shift+Down")
	p.until("three channels", func() bool { return p.table().Selected == 3 && p.table().Column == "FOH console" })
	write("60")
	p.press("Return")
	next("in order")
	p.press("Down")
	p.until("the last of them", func() bool { return p.table().Row == "input 4 Snare bottom" })
	p.press("Up")
	p.until("the channels go on", func() bool { return line("FOH console") == "62" })
	p.press("ctrl+shift+k")
	p.until("it asks where", func() bool { return p.state().Overlays == 1 })
	p.picture("patch-fill")
	write("50")
	p.press("Return")
	next("filled")
	p.until("the window is shut", func() bool { return p.state().Overlays == 0 })
	p.until("it has the first", func() bool { return line("FOH console") == "50" })

	p.press("ctrl+Home")
	p.click(640, 477)
	p.until("the first row", func() bool { return p.table().Row == "input 1 Kick in" && p.table().Selected == 1 })
	p.picture("patch-before-drag")
	x, y := 640, 477
	p.do("sleep", "0.6") // two presses at once would be a double click
	p.drag(x, y, x, y+75)
	next("two sockets change places")
	p.until("it has the other's", func() bool { return line("Socket") == "Riser box in 4" })
	p.press("ctrl+z")
	p.until("undone", func() bool { return p.state().Step == step-1 })
}
