package e2e_test

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// tableState is what the answers say of the table that is open.
type tableState struct {
	Name     string   `json:"name"`
	Rows     int      `json:"rows"`
	Row      string   `json:"row"`
	Column   string   `json:"column"`
	Text     string   `json:"text"`
	Filter   string   `json:"filter"`
	Trouble  string   `json:"trouble"`
	Selected int      `json:"selected"`
	Line     []string `json:"line"`
}

func (p *program) table() tableState {
	p.t.Helper()
	var answer struct {
		Table tableState `json:"table"`
	}
	p.ask(`{"ask":"state"}`, &answer)
	return answer.Table
}

// TestTheDaysWorkIsDoneInTablesByKeys filters, edits one cell and many, meets a refusal, copies, pastes, undoes and saves,
// without a pointer.
func TestTheDaysWorkIsDoneInTablesByKeys(t *testing.T) {
	s := newScreen(t, "1280x800")
	p := s.launch(t.TempDir(), nil, demoCopy(t))
	p.do("mousemove", "1279", "799")
	write := func(words string) { p.do("type", "--delay", "20", words) }
	before := p.state()

	p.press("ctrl+1")
	p.until("the links are open", func() bool { return p.table().Name == "links" && p.table().Rows == len(before.Links) })
	p.picture("tables-links")
	p.press("ctrl+f")
	write("l20")
	p.until("one is left", func() bool { return p.table().Rows == 1 })
	p.press("Down", "Right", "Left")
	p.until("the plan selects it", func() bool { return len(p.state().Selection) == 1 && p.state().Selection[0] == "L20" })
	p.press("F2")
	write("Kick line")
	p.press("Return")
	p.until("it is renamed", func() bool { return p.state().Step == before.Step+1 })
	p.press("ctrl+z")
	p.until("the plan's undo", func() bool { return p.state().Step == before.Step })

	p.press("ctrl+f", "Escape", "Escape", "ctrl+Home")
	p.until("all are shown again", func() bool { return p.table().Rows == len(before.Links) })
	p.press("shift+Down", "shift+Down")
	p.until("three are selected", func() bool { return p.table().Selected == 3 && len(p.state().Selection) == 3 })
	p.press("ctrl+4")
	p.until("the stock is open", func() bool { return p.table().Name == "stock" })
	p.press("ctrl+Home", "Right", "Right")
	p.until("on a length", func() bool { return p.table().Column == "Length" })
	write("12 parsec")
	p.press("Return")
	p.until("it says why not", func() bool { return p.table().Trouble != "" })
	p.picture("tables-refused")
	require.Equal(t, before.Step, p.state().Step)
	p.press("ctrl+z") // the field's own undo
	require.Equal(t, before.Step, p.state().Step)
	p.press("ctrl+a")
	write("40 ft")
	p.press("Return")
	p.until("forty feet", func() bool { return p.state().Step == before.Step+1 && p.table().Trouble == "" })
	p.press("ctrl+Home", "Right", "Right", "ctrl+c")
	copied := p.table().Text
	p.press("ctrl+Down", "ctrl+v")
	p.until("pasted", func() bool { return p.state().Step == before.Step+2 })
	require.Equal(t, copied, p.table().Text)

	p.press("ctrl+6")
	p.until("the findings are open", func() bool { return p.table().Name == "findings" && p.table().Rows > 0 })
	p.press("ctrl+Home", "Return")
	p.until("it is shown on the plan", func() bool { return len(p.state().Selection) > 0 && p.state().Selection[0] == "L03" })
	p.press("ctrl+s")
	p.until("saved", func() bool { return !p.state().Unsaved })
	p.press("ctrl+6", "ctrl+6")
	p.until("the drawer is shut", func() bool { return p.table().Name == "" })
	p.picture("tables-shut")
	p.cardAndCommandsByKeys()
}

// cardAndCommandsByKeys renames a link in its card, takes that back, and does a command by its words.
func (p *program) cardAndCommandsByKeys() {
	p.t.Helper()
	write := func(words string) { p.do("type", "--delay", "20", words) }
	p.press("ctrl+l")
	p.until("a link is selected on the plan", func() bool { return len(p.state().Selection) == 1 })
	step, links := p.state().Step, len(p.state().Links)
	p.press("F4", "ctrl+a")
	write("Main run")
	p.press("Tab")
	p.until("its name is kept as the keys go on", func() bool { return p.state().Step == step+1 })
	p.until("it bears it", func() bool { return len(p.state().Selection) == 1 && p.state().Selection[0] == "Main run" })
	require.Len(p.t, p.state().Links, links)
	p.picture("card-by-keys")
	p.press("Escape", "Escape", "ctrl+z")
	p.until("undone on the plan", func() bool { return p.state().Step == step })
	p.press("F5")
	p.until("the commands are listed", func() bool { return p.state().Overlays == 1 })
	write("feet")
	p.picture("commands")
	p.press("Return")
	p.until("the command is done", func() bool { return p.state().Overlays == 0 })
	p.press("F5")
	write("metres")
	p.press("Return", "ctrl+comma")
	p.until("the settings are open", func() bool { return p.state().Overlays == 1 })
	p.picture("settings")
	p.press("Escape")
	p.until("they are shut", func() bool { return p.state().Overlays == 0 })
}
