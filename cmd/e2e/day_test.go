package e2e_test

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// dayState is what the day view shows.
type dayState struct {
	Link  string `json:"link"`
	Done  string `json:"done"`
	Said  string `json:"said"`
	Cable int    `json:"cable"`
}

func (p *program) day() dayState {
	var answer struct {
		Day dayState `json:"day"`
	}
	p.ask(`{"ask":"state"}`, &answer)
	return answer.Day
}

// TestADayInTheField lays, joins and tests links by key and by tap, finds one, marks a reel faulty, saves, and sees all of it
// again at the next start.
func TestADayInTheField(t *testing.T) {
	s := newScreen(t, "1280x800")
	home, path := t.TempDir(), demoCopy(t)
	p := s.launch(home, nil, path)
	shown := func(link, done string) {
		t.Helper()
		p.until(link+" "+done, func() bool { return p.day().Link == link && p.day().Done == done })
	}
	p.press("F9")
	shown("L01", "")
	p.press("l", "j", "t")
	shown("L01", "tested")
	p.picture("day")
	p.press("n")
	shown("L02", "")
	p.click(200, 686)
	shown("L02", "laid")
	p.press("2")
	p.until("the second cable", func() bool { return p.day().Cable == 2 })
	p.press("slash")
	p.do("type", "--delay", "20", "l20")
	p.picture("day-find")
	p.press("Return")
	shown("L20", "")
	p.press("l")
	p.until("it is refused", func() bool { return p.day().Said != "" })
	p.press("ctrl+f")
	p.do("type", "--delay", "20", "l01")
	p.press("Return")
	shown("L01", "tested")
	p.press("f")
	shown("L01", "joined")
	p.picture("day-faulty")

	p.click(275, 12)
	p.do("mousemove", "640", "400", "click", "1")
	p.press("ctrl+z")
	shown("L01", "tested")
	p.press("n")
	shown("L02", "laid")
	p.press("ctrl+s")
	p.until("saved", func() bool { return !p.state().Unsaved })
	p.press("Escape")
	p.until("the plan again", func() bool { return p.day() == dayState{} })
	require.Equal(t, []string{"L02"}, p.state().Selection)
	p.press("ctrl+q")
	p.until("the program ends", p.over)

	again := s.launch(home, nil, path)
	again.press("F9")
	again.until("the first that is not done", func() bool { return again.day().Link == "L02" && again.day().Done == "laid" })
	again.press("p")
	again.until("what was tested", func() bool { return again.day().Link == "L01" && again.day().Done == "tested" })
}
