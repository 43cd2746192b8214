package e2e_test

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// demoCopy puts a copy of the demo plan into a folder of the test.
func demoCopy(t *testing.T) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "weekender.stageloom"))
	require.NoError(t, err)
	path := filepath.Join(t.TempDir(), "weekender.stageloom")
	require.NoError(t, os.WriteFile(path, data, 0o600))
	return path
}

// TestTheDemoIsDraggedUndoneSavedAndReopened drags the FOH tower away and sees grades change on the way.
func TestTheDemoIsDraggedUndoneSavedAndReopened(t *testing.T) {
	path := demoCopy(t)
	s := newScreen(t, "1280x800")
	p := s.launch(t.TempDir(), nil, path)
	before := p.state()
	require.Empty(t, before.Notice)
	require.False(t, before.Unsaved)
	require.Equal(t, "ample", before.Links["L07"].Grade)
	p.picture("demo")

	x, y := p.where("positions", "FOH tower")
	p.do("mousemove", fmt.Sprint(x), fmt.Sprint(y), "mousedown", "1")
	shown := before.Links["L02"]
	for frame := 1; frame <= 6; frame++ {
		p.do("mousemove", fmt.Sprint(x+frame*45), fmt.Sprint(y+frame*12))
		p.until("loss and margin follow", func() bool { return p.state().Links["L02"] != shown })
		require.True(t, p.state().Dragging)
		shown = p.state().Links["L02"]
		p.picture(fmt.Sprintf("drag-%d", frame))
	}
	require.Equal(t, "over", shown.Grade, "the grade follows too")
	require.Equal(t, before.Step, p.state().Step, "nothing is done before the release")
	p.do("mouseup", "1")
	p.until("the move is one step", func() bool { return p.state().Step == before.Step+1 })
	moved := p.state()
	require.Contains(t, moved.History[moved.Step], "Move FOH tower by ")
	require.True(t, moved.Unsaved)
	require.NotEqual(t, before.Links["L02"], moved.Links["L02"])
	p.picture("moved")

	p.press("ctrl+z")
	p.until("undone", func() bool { return p.state().Step == before.Step })
	require.Equal(t, before.Links, p.state().Links)
	require.False(t, p.state().Unsaved)
	p.press("ctrl+shift+z")
	p.until("done again", func() bool { return p.state().Step == before.Step+1 })
	p.press("ctrl+s")
	p.until("saved", func() bool { return !p.state().Unsaved })
	p.press("ctrl+q")
	p.until("the program ends", p.over)

	again := s.launch(t.TempDir(), nil, path)
	require.Equal(t, moved.Links, again.state().Links, "saved is what is read again")
}

// TestAPrintLiesWhereTheWindowSays prints from the window with keys only.
func TestAPrintLiesWhereTheWindowSays(t *testing.T) {
	path := demoCopy(t)
	s := newScreen(t, "1280x800")
	p := s.launch(t.TempDir(), nil, path)
	p.press("ctrl+p")
	p.until("the print window is up", func() bool { return p.state().Overlays == 1 })
	p.picture("print")
	p.press("Return")
	pdf := filepath.Join(filepath.Dir(path), "weekender (draft, not issued).pdf")
	p.until("printed", func() bool { info, err := os.Stat(pdf); return err == nil && info.Size() > 1000 })
	p.until("the window says where", func() bool { return p.state().Overlays == 0 && p.state().Notice != "" })
	require.Contains(t, p.state().Notice, pdf)
	p.picture("printed")
}

// TestCablesArePicked picks cables for the whole demo with keys only and takes them back as one step.
func TestCablesArePicked(t *testing.T) {
	path := demoCopy(t)
	s := newScreen(t, "1280x800")
	p := s.launch(t.TempDir(), nil, path)
	require.Zero(t, p.state().Links["L20"].Cables, "one link has no cable yet")
	p.press("ctrl+m")
	p.until("the pick window is up", func() bool { return p.state().Overlays == 1 })
	p.picture("pick")
	p.until("the picks are laid", func() bool {
		p.press("Return")
		return p.state().Overlays == 0
	})
	require.Equal(t, 1, p.state().Step, "all of it is one step")
	require.Positive(t, p.state().Links["L20"].Cables)
	require.Empty(t, p.state().Links["L20"].Missing)
	p.picture("picked")
	p.press("ctrl+z")
	p.until("one undo takes it back", func() bool { return p.state().Links["L20"].Cables == 0 })
}

// TestClosingAsksForUnsavedWork nudges a device and quits: nothing is lost without a word.
func TestClosingAsksForUnsavedWork(t *testing.T) {
	path := demoCopy(t)
	s := newScreen(t, "1280x800")
	p := s.launch(t.TempDir(), nil, path)
	x, y := p.where("devices", "FOH console")
	p.click(x, y)
	p.until("selected", func() bool { return len(p.state().Selection) == 1 })
	p.press("Right", "Right", "Right")
	p.until("three nudges are one step", func() bool { return p.state().Unsaved && p.state().Step == 1 })
	p.press("ctrl+q")
	p.until("the question is up", func() bool { return p.state().Overlays == 1 })
	p.picture("question")
	p.click(p.item("Cancel"))
	p.until("the question is gone", func() bool { return p.state().Overlays == 0 })
	p.press("ctrl+q")
	p.click(p.item("Don't save"))
	p.until("the program ends", p.over)
	held, err := os.ReadFile(path)
	require.NoError(t, err)
	original, err := os.ReadFile(filepath.Join("..", "..", "testdata", "weekender.stageloom"))
	require.NoError(t, err)
	require.Equal(t, string(original), string(held))
}

// TestABadFileLeavesThePlanBefore starts with a broken plan: the window says place and reason.
func TestABadFileLeavesThePlanBefore(t *testing.T) {
	path := demoCopy(t)
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(path, data[:len(data)/2], 0o600))
	s := newScreen(t, "1280x800")
	p := s.launch(t.TempDir(), nil, path)
	require.Contains(t, p.state().Notice, "eekender.stageloom")
	require.Equal(t, "New plan · draft, not issued", p.state().Title)
	p.picture("bad-file")
}

// TestTheSecondWindowOnOneFileIsReadOnly opens a plan twice.
func TestTheSecondWindowOnOneFileIsReadOnly(t *testing.T) {
	path := demoCopy(t)
	s := newScreen(t, "1280x800")
	first := s.launch(t.TempDir(), nil, path)
	require.Empty(t, first.state().ReadOnly)
	second := s.launch(t.TempDir(), nil, path)
	require.Contains(t, second.state().ReadOnly, "edited in another window")
}

// TestNoCallComesFromAWrongThread works the window with the toolkit's thread check on.
func TestNoCallComesFromAWrongThread(t *testing.T) {
	s := newScreen(t, "1280x800")
	p := s.launch(t.TempDir(), []string{"STAGELOOM_CHECK_THREADS=1"}, demoCopy(t))
	x, y := p.where("devices", "FOH console")
	p.drag(x, y, x+80, y+40)
	p.until("moved", func() bool { return p.state().Step == 1 })
	p.press("ctrl+p")
	p.until("the print window is up", func() bool { return p.state().Overlays == 1 })
	p.press("Return")
	p.until("printed", func() bool { return p.state().Notice != "" })
	require.NotContains(t, p.output.String(), "Error in Fyne call thread")
}

// TestWithoutADisplayThereIsOneSentence starts the program with no display.
func TestWithoutADisplayThereIsOneSentence(t *testing.T) {
	output, code := runWithoutDisplay(t)
	require.Equal(t, 2, code)
	require.Equal(t, "There is no display to open a window on; loomsheet checks and prints plans without one.\n", output)
}

// TestEscapeClosesFileDialogs closes what the toolkit itself lets only its buttons close.
func TestEscapeClosesFileDialogs(t *testing.T) {
	s := newScreen(t, "1280x800")
	p := s.launch(t.TempDir(), nil, demoCopy(t))
	p.press("ctrl+o")
	p.until("the file dialog is there", func() bool { return p.state().Overlays == 1 })
	p.click(700, 400) // somewhere in its list
	p.picture("file-dialog")
	p.press("Escape")
	p.until("it is gone", func() bool { return p.state().Overlays == 0 })
	p.press("ctrl+shift+s")
	p.click(p.item("Browse…"))
	p.until("the folder dialog lies on top", func() bool { return p.state().Overlays == 2 })
	p.press("Escape")
	p.until("one is left", func() bool { return p.state().Overlays == 1 })
	p.press("Escape")
	p.until("none is left", func() bool { return p.state().Overlays == 0 })
}
