package e2e_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/demo"
	"stageloom/model/patch"
	"stageloom/model/patch/patchtest"
	"stageloom/model/plan"
	"stageloom/model/planfile"
)

// festival is a day of four acts with lists of their own, worked by keys alone; it counts what is pressed and typed.
type festival struct {
	*program
	actions int
	step    int
	saved   string
}

// houseAlone is the demo without its acts, as a house that waits for a festival.
func houseAlone(t *testing.T) string {
	t.Helper()
	p, err := plan.Do(demo.Weekender(), plan.NewIDSource(1, 2), func(e *plan.Edit) error {
		var acts []plan.ActID
		for act := range e.Now().Acts.All() {
			acts = append(acts, act.ID)
		}
		for _, id := range acts {
			e.RemoveAct(id)
		}
		return nil
	})
	require.NoError(t, err)
	path := filepath.Join(t.TempDir(), "festival.stageloom")
	file, err := os.Create(path)
	require.NoError(t, err)
	require.NoError(t, planfile.Write(file, p))
	require.NoError(t, file.Close())
	return path
}

// keys presses keys, each an action.
func (f *festival) keys(names ...string) {
	f.actions += len(names)
	f.press(names...)
}

// types writes a text, one action.
func (f *festival) types(text string) {
	f.actions++
	f.do("type", "--delay", "8", text)
}

// done waits for one more step of the history.
func (f *festival) done(what string) {
	f.t.Helper()
	f.step++
	f.until(what, func() bool { return f.state().Step >= f.step })
	f.step = f.state().Step
}

// command finds a command by its words and does it.
func (f *festival) command(words string) {
	f.keys("F5")
	f.until("the commands are listed", func() bool { return f.state().Overlays == 1 })
	f.types(words)
	f.do("sleep", "0.3")
	f.keys("Return")
}

// closed waits until no dialog is open.
func (f *festival) closed(what string) {
	f.t.Helper()
	f.until(what, func() bool { return f.state().Overlays == 0 })
}

// agree saves, and compares what the patch says of every act, as tables, paper and the command have it, with the rows read by
// hand; it returns what was saved.
func (f *festival) agree() *plan.Plan {
	f.t.Helper()
	if f.state().Unsaved {
		f.press("ctrl+s")
	}
	f.until("saved", func() bool { return !f.state().Unsaved })
	p, _, err := planfile.Open(f.saved)
	require.NoError(f.t, err)
	view := patch.Of(p)
	for _, act := range view.Acts {
		byHand := patchtest.Wires{}.Read(p, act.Act.ID)
		require.Empty(f.t, byHand.Alone(), act.Act.Name)
		require.Empty(f.t, byHand.Agrees(view, act), act.Act.Name)
	}
	return p
}

// TestAFestivalDayIsPatchedByKeys takes four odd lists of 36, 28, 44 and 12 inputs, two guest consoles, a box that dies, a
// swap, an input more and another sample rate, without a pointer.
func TestAFestivalDayIsPatchedByKeys(t *testing.T) {
	s := newScreen(t, "1280x800")
	path := houseAlone(t)
	f := &festival{program: s.launch(t.TempDir(), nil, path), saved: path}
	f.do("mousemove", "1279", "799")
	f.step = f.state().Step
	start := f.agree()
	for _, part := range []struct {
		words string
		work  func()
	}{
		{"four lists", f.lists},
		{"two guests", f.guests},
		{"their channels", f.channels},
		{"a dead box", f.deadBox},
		{"a swap", f.swap},
		{"an input more", f.inputMore},
		{"another sample rate", f.otherRate},
	} {
		before := f.actions
		part.work()
		t.Log(part.words, f.actions-before)
	}
	d := plan.Between(start, f.agree())
	cells := len(d.StagePatches.Set) + len(d.ConsolePatches.Set) + len(d.ActConsoles.Set) + len(d.Devices.Set)
	for _, input := range d.Inputs.Set {
		for _, said := range []bool{true, input.Source != "", input.Use != "", input.Phantom, input.Stand != "", input.Riser != "", input.Right != ""} {
			if said {
				cells++
			}
		}
	}
	t.Log(f.actions, "actions; cells that say it", cells)
	require.LessOrEqual(t, 3*f.actions, cells, "a third of what it takes to type each cell")
}

// lists makes the acts and takes their lists.
func (f *festival) lists() {
	f.opens("ctrl+9", "acts")
	for _, act := range []struct{ name, list string }{{"Copper Wells", "copper-wells.csv"}, {"Kapelle Unterhang", "kapelle-unterhang.tsv"}, {"Brickworks", "brickworks.csv"}, {"Two Ladders", "two-ladders.txt"}} {
		f.keys("Insert")
		f.done("an act")
		f.to("Act")
		f.types(act.name)
		f.keys("Return")
		f.done("its name")
		f.command("input list")
		f.until("the list is asked for", func() bool { return f.state().Overlays == 1 })
		list, err := filepath.Abs(filepath.Join("../../testdata/lists/festival", act.list))
		require.NoError(f.t, err)
		f.types(list)
		f.keys("Return")
		f.until("it is read, and can be taken", func() bool { return strings.Contains(f.state().Focus, "Answer") })
		f.picture("festival-" + act.list)
		f.keys("Return")
		f.done("the list of " + act.name)
		f.closed("the list is in")
	}
	f.agree()
}

func (f *festival) guests() {
	for _, name := range []string{"Copper Wells", "Brickworks"} {
		f.cell(name, "Guest consoles", "Guest console at FOH drop")
	}
	f.keys("ctrl+f", "Escape")
	f.agree()
}

// channels gives each guest the inputs of its act; four that the list put where others are go to free sockets first.
func (f *festival) channels() {
	f.opens("ctrl+7", "patch")
	f.keys("ctrl+Next", "ctrl+shift+g")
	f.until("what the act does not use is hidden", func() bool { return f.table().Rows == 48 })
	f.guest()
	f.keys("ctrl+Next", "ctrl+Next")
	f.find("French horn 1")
	f.to("Socket")
	f.keys("Escape", "shift+Down", "shift+Down", "shift+Down")
	f.until("four have no socket", func() bool { return f.table().Selected == 4 })
	f.types("Stage right box free")
	f.keys("Return")
	f.done("they have the first that are free")
	require.Empty(f.t, f.table().Trouble)
	f.guest()
	f.picture("festival-guest")
}

func (f *festival) deadBox() {
	f.opens("ctrl+3", "devices")
	f.find("Riser box")
	f.until("it is selected", func() bool { return len(f.state().Selection) == 1 && f.state().Selection[0] == "Riser box" })
	f.command("box is dead")
	f.until("the dialog is open", func() bool { return f.state().Overlays == 1 })
	f.picture("festival-dead")
	f.keys("Return")
	f.done("the box is dead")
	f.closed("and all of it moved")
	f.agree()
}

func (f *festival) swap() {
	f.opens("ctrl+7", "patch")
	f.find("Trombone 1")
	f.keys("Escape", "shift+Down")
	f.until("two are selected", func() bool { return f.table().Selected == 2 })
	f.command("swap the two")
	f.done("they change places")
	f.agree()
}

func (f *festival) inputMore() {
	f.keys("ctrl+shift+v")
	f.until("the dialog is open", func() bool { return f.state().Overlays == 1 })
	f.types("Theremin")
	f.keys("Return")
	f.done("an input more")
	f.closed("it is in")
	f.agree()
}

// otherRate sets a console to 96 kHz, and lets it convert when the finding says that nothing arrives there.
func (f *festival) otherRate() {
	f.opens("ctrl+3", "devices")
	f.cell("Monitor console", "Sample rate", "96 kHz")
	f.agree()
	f.opens("ctrl+6", "findings")
	f.keys("ctrl+f")
	f.types("96 kHz")
	f.keys("Down")
	f.to("Fix")
	f.keys("Return")
	f.until("the fixes are offered", func() bool { return f.state().Overlays == 1 })
	f.picture("festival-rates")
	f.keys("Down", "Down", "Return")
	f.done("the console converts")
	f.agree()
}

// opens opens a table by its key.
func (f *festival) opens(key, table string) {
	f.t.Helper()
	f.keys(key)
	f.until("the table is open: "+table, func() bool { return f.table().Name == table })
}

// guest gives the guest console all inputs of the act in order.
func (f *festival) guest() {
	f.t.Helper()
	f.keys("ctrl+Home")
	f.to("Guest console")
	f.keys("ctrl+space")
	f.types("1")
	f.keys("Return")
	f.done("the guest has all of the act in order")
	f.agree()
}

// cell goes to a row and a column of the open table by keys, types and keeps it.
func (f *festival) cell(row, column, text string) {
	f.t.Helper()
	f.find(row)
	f.to(column)
	f.types(text)
	f.keys("Return")
	f.done(text)
	require.Empty(f.t, f.table().Trouble)
}

// to goes along the row to a column.
func (f *festival) to(column string) {
	f.t.Helper()
	if f.table().Column == column {
		return
	}
	f.keys("Home")
	for range 40 {
		if f.table().Column == column {
			return
		}
		f.keys("Right")
	}
	require.Fail(f.t, "no column "+column)
}

// find filters the open table and goes to the row.
func (f *festival) find(row string) {
	f.t.Helper()
	f.keys("ctrl+f")
	f.types(row)
	f.keys("Down", "Home")
	f.until("the row", func() bool { return strings.Contains(f.table().Row, row) })
}
