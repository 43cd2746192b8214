package e2e_test

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

// goes moves the pointer without a press.
func (p *program) goes(x, y int) {
	p.t.Helper()
	p.do("mousemove", strconv.Itoa(x), strconv.Itoa(y))
}

func TestAPointerThatRestsIsTold(t *testing.T) {
	s := newScreen(t, "1280x800")
	p := s.launch(t.TempDir(), nil, demoCopy(t))
	x, y := p.where("devices", "Second console")
	p.goes(x, y)
	p.until("the device is told", func() bool { return p.state().Tip == "Second console\nConsole, 40 channels\nat Second FOH" })
	p.picture("tip")
	p.click(x, y)
	p.until("a press takes it away", func() bool { return p.state().Tip == "" })
	p.goes(p.port("Second console", "AES50 1"))
	p.until("its port is told", func() bool {
		return p.state().Tip == "Second console, port AES50 1\nAES50\nlinked to Second stage box AES50 1 by L28"
	})
	p.picture("tip-port")
	p.press("Escape")
	p.until("a key takes it away", func() bool { return p.state().Tip == "" })
}

func TestADoubleClickRenames(t *testing.T) {
	s := newScreen(t, "1280x800")
	p := s.launch(t.TempDir(), nil, demoCopy(t))
	x, y := p.where("devices", "Second console")
	p.goes(x, y)
	p.do("click", "--repeat", "2", "--delay", "60", "1")
	p.until("the name is asked for", func() bool { return p.state().Overlays == 1 })
	p.picture("double-click")
	p.do("type", "--delay", "15", "Small console")
	p.press("Return")
	p.until("renamed", func() bool { return p.state().Overlays == 0 })
	require.Equal(t, []string{"Small console"}, p.state().Selection)
}

func TestADoubleClickOnACableOffersOthers(t *testing.T) {
	s := newScreen(t, "1280x800")
	p := s.launch(t.TempDir(), nil, demoCopy(t))
	p.press("ctrl+l", "ctrl+l")
	p.until("L02 is selected", func() bool { return len(p.state().Selection) == 1 && p.state().Selection[0] == "L02" })
	p.do("mousemove", "450", "755", "click", "--repeat", "2", "--delay", "60", "1")
	p.until("a cable is asked for", func() bool { return p.state().Overlays == 1 })
	p.item("Replace")
	p.picture("double-click-strip")
	p.press("Escape")
	p.until("given up", func() bool { return p.state().Overlays == 0 })
}
