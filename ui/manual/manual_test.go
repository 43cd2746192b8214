package manual_test

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/assets"
	"stageloom/ui/manual"
)

func three() []assets.Page {
	return []assets.Page{
		{Name: "one", Title: "Laying out", Text: "Before.\n\n## Devices\n\nA loom is [elsewhere](two.md).\n\n## Positions\n\nThe tower."},
		{Name: "two", Title: "Looms", Text: "What lies together."},
		{Name: "three", Title: "Keys", Text: "L goes to the LOOM of the tower."},
	}
}

func TestFind(t *testing.T) {
	named := func(text string) (names []string) {
		for _, hit := range manual.Find(three(), text) {
			names = append(names, three()[hit.Page].Name)
		}
		return names
	}
	require.Equal(t, []string{"one", "two", "three"}, named(""), "a blank search finds every page")
	require.Equal(t, []string{"two", "one", "three"}, named("loom"), "titles first, then the order of reading, in any case")
	require.Equal(t, []string{"one", "three"}, named("TOWER loom"), "every word stands in a page")
	require.Empty(t, named("sea"))
	require.Equal(t, manual.Hit{Page: 0, Section: 2}, manual.Find(three(), "tower")[0], "where the words stand")
	require.Equal(t, 0, manual.Find(three(), "laying")[0].Section, "a page found by its title begins at its top")
}

func TestSections(t *testing.T) {
	sections := manual.Sections(three()[0])
	require.Equal(t, []manual.Section{"Before.", "## Devices\n\nA loom is [elsewhere](two.md).", "## Positions\n\nThe tower."}, sections)
	require.Empty(t, manual.Sections(assets.Page{}))
	require.Len(t, manual.Sections(assets.Page{Text: "## Alone\n\nText"}), 1)
}

func TestThePageOfKeysListsTheCommands(t *testing.T) {
	pages := manual.Pages([]manual.Key{{"Plan", "New", "Ctrl N"}, {"Edit, Deep", "Undo *star* [a]", "Ctrl *"}, {"Plan", "Mute", ""}, {"Plan", "Quit", "Ctrl Q"}})
	keys := pages[len(pages)-2]
	require.Equal(t, "keys", keys.Name)
	require.True(t, strings.HasSuffix(keys.Text, "\n\n## Menu Plan\n\n- New: **Ctrl N**\n- Quit: **Ctrl Q**\n\n## Menu Edit, Deep\n\n- Undo \\*star\\* \\[a]: **Ctrl \\***"), keys.Text)
	require.Len(t, pages, len(assets.Manual()))
}

// rig is a reader in a window.
type rig struct {
	*manual.Reader
	window fyne.Window
	closed int
}

func open(t *testing.T, first string) *rig {
	t.Helper()
	test.NewTempApp(t)
	r := &rig{window: test.NewTempWindow(t, nil)}
	r.Reader = manual.NewReader(r.window.Canvas(), three(), first, func() { r.closed++ })
	r.window.SetContent(r.Content())
	r.window.Resize(fyne.NewSize(600, 160))
	r.Focus()
	return r
}

func (r *rig) press(name fyne.KeyName) {
	r.window.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: name})
}

// scroll holds the text; what the list scrolls in comes before it.
func (r *rig) scroll() (last *container.Scroll) {
	for _, object := range test.LaidOutObjects(r.window.Canvas().Content()) {
		if scroll, is := object.(*container.Scroll); is {
			last = scroll
		}
	}
	return last
}

func TestTheKeysGoAlongThePages(t *testing.T) {
	r := open(t, "two")
	require.Equal(t, "two", r.Shown())
	r.press(fyne.KeyDown)
	require.Equal(t, "three", r.Shown())
	r.press(fyne.KeyDown)
	require.Equal(t, "three", r.Shown(), "the last one stays")
	r.press(fyne.KeyUp)
	r.press(fyne.KeyUp)
	require.Equal(t, "one", r.Shown())
	r.press(fyne.KeyPageDown)
	require.Positive(t, r.scroll().Offset.Y)
	r.press(fyne.KeyPageUp)
	require.Zero(t, r.scroll().Offset.Y)
	require.Zero(t, r.closed)
	r.window.Canvas().Unfocus()
	r.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	require.Equal(t, "two", r.Shown(), "after a click on the text too")
	r.window.Canvas().Unfocus()
	r.TypedRune('m')
	require.NotNil(t, r.window.Canvas().Focused())
	require.Equal(t, "two", r.Shown())
	r.press(fyne.KeyEscape)
	require.Equal(t, 1, r.closed)
}

func TestASearchShowsWhereTheWordsStand(t *testing.T) {
	r := open(t, "three")
	test.Type(r.window.Canvas().Focused(), "tower")
	require.Equal(t, "one", r.Shown())
	require.Positive(t, r.scroll().Offset.Y, "from the section in which the word stands")
	test.Type(r.window.Canvas().Focused(), " sea")
	require.Empty(t, r.Shown())
	r.press(fyne.KeyDown)
	require.Empty(t, r.Shown())
	r.Open("two")
	require.Equal(t, "two", r.Shown(), "a page that is opened ends the search")
	r.Open("nowhere")
	require.Equal(t, "one", r.Shown())
}

func TestALinkOpensItsPage(t *testing.T) {
	r := open(t, "one")
	for _, object := range test.LaidOutObjects(r.window.Canvas().Content()) {
		if link, is := object.(*widget.Hyperlink); is {
			test.TapAt(link, fyne.NewPos(link.Size().Width/2, link.Size().Height/2))
			require.Equal(t, "two", r.Shown())
			return
		}
	}
	require.Fail(t, "no link is shown")
}
