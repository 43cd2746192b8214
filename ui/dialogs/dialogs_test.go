package dialogs_test

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/model/desk"
	"stageloom/model/words"
	"stageloom/ui/answers"
	"stageloom/ui/dialogs"
)

// host is a window that holds nothing but what dialogs ask of it.
type host struct {
	window fyne.Window
	keys   *dialogs.Keys
	folder string
	said   []string
}

func newHost(t *testing.T) *host {
	t.Helper()
	window := test.NewTempWindow(t, widget.NewLabel("below"))
	window.Resize(fyne.NewSize(900, 700))
	return &host{window: window, keys: dialogs.NewKeys(window), folder: t.TempDir()}
}

func (h *host) Desk() *desk.Desk    { return nil }
func (h *host) Units() words.Units  { return words.Units{} }
func (h *host) Window() fyne.Window { return h.window }
func (h *host) Keys() *dialogs.Keys { return h.keys }
func (h *host) Say(words string)    { h.said = append(h.said, words) }
func (h *host) Warn(words string)   { h.said = append(h.said, words) }
func (h *host) Folder() string      { return h.folder }

// open are the dialogs that lie over the window.
func (h *host) open() []fyne.CanvasObject { return h.window.Canvas().Overlays().List() }

// tap taps a button of the topmost dialog.
func (h *host) tap(t *testing.T, label string) {
	t.Helper()
	for _, object := range test.LaidOutObjects(h.open()[len(h.open())-1]) {
		if button, ok := object.(*dialogs.Answer); ok && button.Text == label {
			test.Tap(button)
			return
		}
	}
	require.Fail(t, "no button "+label)
}

// show opens a dialog that Escape closes and counts how often it was closed by that.
func (h *host) show(closed *int) *dialog.CustomDialog {
	d := dialog.NewCustomWithoutButtons("A question", widget.NewLabel(""), h.window)
	h.keys.Escapable(func() { *closed++; d.Hide() })
	d.Show()
	return d
}

func TestEscapeClosesTheDialogOnTopAndThenTheOneBelow(t *testing.T) {
	h := newHost(t)
	var below, above int
	h.show(&below)
	h.show(&above)
	h.keys.GiveUp()
	require.Equal(t, []int{0, 1}, []int{below, above})
	h.keys.GiveUp()
	require.Equal(t, []int{1, 1}, []int{below, above})
	h.keys.GiveUp()
	require.Equal(t, []int{1, 1}, []int{below, above}, "nothing is open any more")
}

func TestEscapeForgetsADialogThatWasClosedOtherwise(t *testing.T) {
	h := newHost(t)
	var first, second int
	h.show(&first).Hide()
	h.show(&second)
	h.keys.GiveUp()
	h.keys.GiveUp()
	require.Equal(t, []int{0, 1}, []int{first, second})
}

func TestEnterOfADialogThatIsClosedDoesNothingInTheNext(t *testing.T) {
	h := newHost(t)
	var closed, submitted int
	d := h.show(&closed)
	h.keys.Submits(func() { submitted++ })
	h.keys.Submit()
	require.Equal(t, 1, submitted)
	above := h.show(&closed)
	h.keys.Submit()
	require.Equal(t, 2, submitted, "what lies on top has none of its own")
	above.Hide()
	d.Hide()
	h.show(&closed)
	h.keys.Submit()
	require.Equal(t, 2, submitted)
}

// parts are all parts that take keys.
func parts(h *host) map[string]fyne.Focusable {
	return map[string]fyne.Focusable{
		"field": dialogs.NewEntry(h), "long field": dialogs.NewLongEntry(h), "search": dialogs.NewSearchEntry(h, func(int) {}),
		"list": dialogs.NewChooser(h, []string{"a"}, nil), "box": dialogs.NewCheck(h, "tick", true, nil),
		"button": dialogs.NewAnswer(h, "Go", func() {}),
		"lines":  dialogs.NewPickList(h, func() int { return 0 }, func(int) (string, string, bool) { return "", "", true }, func(int) {}),
	}
}

func TestEachPartLeavesItsDialogByEscape(t *testing.T) {
	h := newHost(t)
	for name, part := range parts(h) {
		closed := 0
		h.show(&closed)
		part.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
		require.Equal(t, 1, closed, name)
	}
}

func TestEachPartShowsTheManualByF1AndStays(t *testing.T) {
	h := newHost(t)
	closed := 0
	h.show(&closed)
	for name, part := range parts(h) {
		shown := 0
		h.keys.Help = func() { shown++ }
		part.TypedKey(&fyne.KeyEvent{Name: fyne.KeyF1})
		require.Equal(t, 1, shown, name)
		h.keys.Help = nil
		part.TypedKey(&fyne.KeyEvent{Name: fyne.KeyF1})
		require.Equal(t, 1, shown, name+", without a manual")
	}
	require.Zero(t, closed)
}

func TestTheRealWindowsTestsFindAPartByItsWords(t *testing.T) {
	h := newHost(t)
	field, search := dialogs.NewEntry(h), dialogs.NewSearchEntry(h, func(int) {})
	field.SetText("FOH")
	search.SetPlaceHolder("find a tag")
	for _, part := range []struct {
		worded answers.Worded
		words  string
	}{{field, "FOH"}, {search, "find a tag"}, {dialogs.NewAnswer(h, "Close", func() {}), "Close"}} {
		require.True(t, part.worded.Bears(part.words), part.words)
		require.False(t, part.worded.Bears("Cancel"))
	}
}

func TestEnterPressesAnAnswerAndTakesWhatIsChosen(t *testing.T) {
	h := newHost(t)
	pressed, taken := 0, 0
	dialogs.NewAnswer(h, "Go", func() { pressed++ }).TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	list := dialogs.NewChooser(h, []string{"a"}, nil)
	list.Enter = func() { taken++ }
	list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEnter})
	require.Equal(t, []int{1, 1}, []int{pressed, taken})
}

func TestEscapeGivesTheLastAnswerUnlessItHasToBeMeant(t *testing.T) {
	for _, meant := range []bool{false, true} {
		h := newHost(t)
		given := 0
		dialogs.Ask(h, "Go?", "There is no way back.", []dialogs.Choice{{Label: "Stay"}, {Label: "Go", Meant: meant, Do: func() { given++ }}})
		h.keys.GiveUp()
		require.Empty(t, h.open())
		require.Equal(t, map[bool]int{false: 1, true: 0}[meant], given)
	}
}

func TestTheArrowsGoAlongTheListBelowASearch(t *testing.T) {
	at := 0
	field := dialogs.NewSearchEntry(newHost(t), func(by int) { at += by })
	for _, key := range []fyne.KeyName{fyne.KeyDown, fyne.KeyPageDown, fyne.KeyUp} {
		field.TypedKey(&fyne.KeyEvent{Name: key})
	}
	require.Equal(t, 8, at)
}

func TestAFileIsNamedAndNotReplacedUnasked(t *testing.T) {
	h := newHost(t)
	taken := filepath.Join(h.folder, "show.pdf")
	require.NoError(t, os.WriteFile(taken, nil, 0o600))
	var path string
	dialogs.AskName(h, "Print", "show", ".pdf", "Write", func(chosen string) { path = chosen })
	h.tap(t, "Write")
	require.Empty(t, path, "it asks first")
	h.tap(t, "Replace")
	require.Equal(t, taken, path)

	for name, reason := range map[string]string{"": "Give the file a name.", "a/b": "The name cannot hold / or \\; choose the folder below it."} {
		_, said := dialogs.PathOf(h.folder, name, ".pdf")
		require.Equal(t, reason, said)
	}
	_, said := dialogs.PathOf(filepath.Join(h.folder, "none"), "a", ".pdf")
	require.Contains(t, said, "There is no such folder")
	require.Equal(t, "show 2.pdf", dialogs.FreeName(h.folder, "show", ".pdf"))
	require.Equal(t, "A-B", dialogs.FileName("A/B"))
	require.Equal(t, "plan", dialogs.FileName(" .. "))
}

func TestWorkThatIsDoneAtOnceShowsNothing(t *testing.T) {
	h := newHost(t)
	failed := errors.New("it failed")
	var got error
	dialogs.Busy(h, "Working", func(context.Context) error { return failed }, func(err error) { got = err })
	require.Equal(t, failed, got)
	require.Empty(t, h.open())
}
