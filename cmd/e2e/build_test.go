package e2e_test

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// port is the place of a port of a selected device.
func (p *program) port(device, port string) (x, y int) {
	p.t.Helper()
	var place struct {
		X     float64 `json:"x_px"`
		Y     float64 `json:"y_px"`
		Found bool    `json:"found"`
	}
	p.until("port "+port+" of "+device, func() bool {
		p.ask(fmt.Sprintf(`{"ask":"where","table":"devices","name":%q,"port":%q}`, device, port), &place)
		return place.Found
	})
	return int(place.X), int(place.Y)
}

// listed scrolls the list of equipment until a kind is in view, and returns its place.
func (p *program) listed(kind string) (x, y int) {
	p.t.Helper()
	p.until(kind+" is listed", func() bool {
		var place struct {
			X     float64 `json:"x_px"`
			Y     float64 `json:"y_px"`
			Found bool    `json:"found"`
		}
		p.ask(fmt.Sprintf(`{"ask":"item","name":%q}`, kind), &place)
		if x, y = int(place.X), int(place.Y); place.Found && y > 140 && y < 390 {
			return true
		}
		p.do("mousemove", "100", "300", "click", "5")
		return false
	})
	return x, y
}

// links are the three links of the stories.
var links = []struct{ from, port, to string }{
	{"Stage box", "AES50 1", "Console"},
	{"Stage box", "AES50 2", "Console 2"},
	{"Console", "AES50 2", "Console 2"},
}

// requireCabled demands three graded links that reach, each of joined cables, in a plan that is saved.
func requireCabled(t *testing.T, s state) {
	t.Helper()
	require.Len(t, s.Links, 3)
	for name, link := range s.Links {
		require.Contains(t, []string{"ample", "enough", "tight", "over"}, link.Grade, "%s is graded", name)
		require.NotEmpty(t, link.Label)
		require.GreaterOrEqual(t, link.Cables, 2, "%s is made of joined cables", name)
		require.Zero(t, link.Missing, "%s reaches", name)
	}
	require.False(t, s.Unsaved)
}

// TestAPlanIsBuiltWithTheMouseOnly builds a stage box, two consoles and three cabled links from nothing, and saves.
func TestAPlanIsBuiltWithTheMouseOnly(t *testing.T) {
	home := t.TempDir()
	s := newScreen(t, "1280x800")
	p := s.launch(home, nil)
	for range 7 {
		p.do("mousemove", "620", "300", "click", "5")
	}
	for _, each := range []struct {
		kind string
		x, y int
	}{{"Stage box 24 in, 12 out", 300, 320}, {"Console, 40 channels", 930, 110}, {"Console, 40 channels", 930, 520}} {
		before := p.state().Step
		x, y := p.listed(each.kind)
		p.drag(x, y, each.x, each.y)
		p.until(each.kind+" is placed", func() bool { return p.state().Step == before+1 })
	}
	p.picture("mouse-placed")
	for i, link := range links {
		p.click(p.where("devices", link.from))
		p.until(link.from+" is selected", func() bool { return len(p.state().Selection) == 1 && p.state().Selection[0] == link.from })
		x, y := p.port(link.from, link.port)
		toX, toY := p.where("devices", link.to)
		p.drag(x, y, toX, toY-4)
		p.until("the link is there", func() bool { return len(p.state().Links) == i+1 })
		step := p.state().Step
		p.click(p.item("Lay…"))
		p.click(p.item("Add and another"))
		p.until("the first cable is laid", func() bool { return p.state().Step == step+1 })
		p.click(p.item("Add"))
		p.until("the second cable is laid", func() bool { return p.state().Step == step+2 && p.state().Overlays == 0 })
	}
	p.picture("mouse-cabled")
	p.click(24, 12)  // the Plan menu
	p.click(40, 172) // Save as…
	p.click(p.item("Save"))
	p.until("saved", func() bool { return p.state().Path != "" })
	requireCabled(t, p.state())
	saved := p.state()
	again := s.launch(t.TempDir(), nil, saved.Path)
	require.Equal(t, saved.Links, again.state().Links)
}

// TestAPlanIsBuiltWithKeysOnly does the same without a pointer.
func TestAPlanIsBuiltWithKeysOnly(t *testing.T) {
	home := t.TempDir()
	s := newScreen(t, "1280x800")
	p := s.launch(home, nil)
	p.do("mousemove", "1279", "799")
	place := func(words string, nudges ...string) {
		step := p.state().Step
		p.press("ctrl+e")
		p.press("ctrl+a")
		p.do("type", "--delay", "20", words)
		p.press("Return")
		p.until(words+" is placed", func() bool { return p.state().Step == step+1 })
		p.press("Escape")
		for _, key := range nudges {
			p.do("key", "--repeat", "60", "--repeat-delay", "8", key)
		}
		p.until("nudged", func() bool { return len(nudges) == 0 || p.state().Step == step+2 })
	}
	place("stage box 12")
	place("console 40", "Right", "Up")
	place("console 40", "Right", "Down")
	p.press("ctrl+0")
	p.picture("keys-placed")
	for i, link := range links {
		p.selectByKeys(link.from)
		p.press("ctrl+k")
		p.until("the dialog is up", func() bool { return p.state().Overlays == 1 })
		p.press("space") // the far end's list has the focus
		p.until("the list is down", func() bool { return p.state().Overlays == 2 })
		for range devicePlace(link.to, link.from) {
			p.press("Down")
		}
		p.press("Return")
		p.until("the list is up", func() bool { return p.state().Overlays == 1 })
		p.press("Return") // both ends are chosen: it links them
		p.until("the link is there", func() bool { return len(p.state().Links) == i+1 })
		step := p.state().Step
		for cable := range 2 {
			p.press("ctrl+j")
			p.until("the dialog is up", func() bool { return p.state().Overlays == 1 })
			p.press("Tab", "Return")
			p.until("a cable is laid", func() bool { return p.state().Step == step+1+cable && p.state().Overlays == 0 })
		}
	}
	p.picture("keys-cabled")
	p.press("ctrl+s")
	p.until("the name is asked for", func() bool { return p.state().Overlays == 1 })
	p.press("Return")
	p.until("saved", func() bool { return p.state().Path != "" })
	requireCabled(t, p.state())
	_, err := os.Stat(filepath.Join(home, "New plan.stageloom"))
	require.NoError(t, err)
}

// devicePlace is how many times Down leads to a device in the dialog's list of names, which leaves that of the near end out.
func devicePlace(name, near string) int {
	places := map[string]int{"Console": 1, "Console 2": 2, "Stage box": 3}
	if places[near] < places[name] {
		return places[name] - 1
	}
	return places[name]
}

// selectByKeys goes through the devices until one is selected.
func (p *program) selectByKeys(name string) {
	p.t.Helper()
	for range 4 {
		if s := p.state().Selection; len(s) == 1 && s[0] == name {
			return
		}
		before := fmt.Sprint(p.state().Selection)
		p.press("ctrl+d")
		p.until("another device is selected", func() bool { return fmt.Sprint(p.state().Selection) != before })
	}
	require.Equal(p.t, []string{name}, p.state().Selection)
}

// TestTheRunStripIsWorkedByKeys lays a cable, cuts it, joins it again, replaces it and takes it off.
func TestTheRunStripIsWorkedByKeys(t *testing.T) {
	s := newScreen(t, "1280x800")
	path := filepath.Join(t.TempDir(), "weekender.stageloom")
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "weekender.stageloom"))
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(path, data, 0o600))
	p := s.launch(t.TempDir(), nil, path)
	p.do("mousemove", "1279", "799")
	cables := func() int { return p.state().Links["L20"].Cables }
	p.press("ctrl+f")
	p.until("the search is up", func() bool { return p.state().Overlays == 1 })
	p.do("type", "--delay", "20", "L20")
	p.press("Return")
	p.until("the link is selected", func() bool {
		s := p.state()
		return len(s.Selection) == 1 && s.Selection[0] == "L20" && s.Overlays == 0
	})
	require.Zero(t, cables())
	p.press("ctrl+j")
	p.until("the dialog is up", func() bool { return p.state().Overlays == 1 })
	p.do("type", "--delay", "20", "cat 6a")
	p.press("Tab", "Return")
	p.until("a cable is laid", func() bool { return cables() == 1 && p.state().Overlays == 0 })
	p.press("F6", "s", "Left", "Left")
	p.picture("strip-cutting")
	p.press("Return")
	p.until("it is cut", func() bool { return cables() == 2 })
	p.press("j")
	p.until("it is joined again", func() bool { return cables() == 1 })
	p.press("r")
	p.until("the dialog is up", func() bool { return p.state().Overlays == 1 })
	p.picture("strip-replace")
	p.do("type", "--delay", "20", "cat 6a")
	p.press("Tab", "ctrl+a")
	p.do("type", "--delay", "20", "90")
	p.press("Return")
	p.until("it is replaced", func() bool {
		now := p.state()
		return now.History[now.Step] == "Replace a cable of L20" && now.Overlays == 0
	})
	p.press("Delete")
	p.until("it is taken off", func() bool { return cables() == 0 })
	require.Equal(t, []string{"Lay a cable of L20", "Cut a cable of L20", "Join cables of L20", "Replace a cable of L20", "Take a cable off of L20"}, p.state().History[1:])
}
