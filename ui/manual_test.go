package ui_test

import (
	"image"
	"image/color"
	"maps"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"

	"stageloom/assets"
	"stageloom/model/goldentest"
	"stageloom/model/plan"
	"stageloom/ui/text"
)

// fromThePlan are the menus whose items come from the plan or from files: a page names the menu alone.
var fromThePlan = []string{"Plan, Recent", "Edit, Select links", "Patch, Act", "View, Level"}

// menuCommands are the commands of the window as the manual names them, "Links, Loom, Dissolve": those that are to be named,
// and all that may be.
func menuCommands(s *screen) (wanted, known map[string]bool) {
	wanted, known = map[string]bool{}, map[string]bool{}
	var walk func(in string, items []*fyne.MenuItem)
	walk = func(in string, items []*fyne.MenuItem) {
		for _, item := range items {
			if item.IsSeparator {
				continue
			}
			label, _, _ := strings.Cut(item.Label, "   ")
			name := in + ", " + strings.TrimSpace(label)
			for _, step := range []string{"Edit, Undo", "Edit, Redo"} {
				if strings.HasPrefix(name, step+" ") {
					name = step
				}
			}
			known[name] = true
			if item.ChildMenu != nil {
				walk(name, item.ChildMenu.Items)
			}
			if item.ChildMenu == nil && !slices.Contains(fromThePlan, in) || slices.Contains(fromThePlan, name) {
				wanted[name] = true
			}
		}
	}
	for _, menu := range s.window.MainMenu().Items {
		walk(menu.Label, menu.Items)
	}
	return wanted, known
}

// namedCommands are what a text has in italics, which is kept for commands.
func namedCommands(markdown string) (named []string) {
	text := regexp.MustCompile("`[^`\n]*`").ReplaceAllString(strings.ReplaceAll(markdown, "**", ""), "")
	for _, match := range regexp.MustCompile(`\*([^*]+)\*`).FindAllStringSubmatch(text, -1) {
		named = append(named, strings.Join(strings.Fields(match[1]), " "))
	}
	return named
}

func commandsOfTheDemo(t *testing.T) (wanted, known map[string]bool) {
	t.Helper()
	s := open(t, "light", demoFile(t))
	wanted, known = menuCommands(s)
	s.choose("Patch", "Next act")
	inAnAct, also := menuCommands(s)
	maps.Copy(wanted, inAnAct)
	maps.Copy(known, also)
	require.Greater(t, len(wanted), 80)
	require.Contains(t, wanted, "Patch, Not used in this act")
	return wanted, known
}

func TestTheManualNamesTheCommands(t *testing.T) {
	wanted, known := commandsOfTheDemo(t)
	for _, page := range assets.Manual() {
		for _, name := range namedCommands(page.Text) {
			require.True(t, known[name], "page %s names the command %q, which no menu has", page.Name, name)
			delete(wanted, name)
		}
	}
	require.Empty(t, slices.Sorted(maps.Keys(wanted)), "no page names these commands")
	require.Equal(t, []string{"Plan, New", "Plan, Gone for ever"}, namedCommands("**A** or *Plan,\nNew* `*x*` and *Plan, Gone for ever*"))
	require.False(t, known["Plan, Gone for ever"])
}

func TestTheTenStepsOfTheReadmeNameCommands(t *testing.T) {
	_, known := commandsOfTheDemo(t)
	readme, err := os.ReadFile("../README.md")
	require.NoError(t, err)
	_, below, found := strings.Cut(string(readme), "\n## Ten steps to a printed sheet\n")
	require.True(t, found)
	steps, _, _ := strings.Cut(below, "\n## ")
	require.Len(t, regexp.MustCompile(`(?m)^\d+\. `).FindAllString(steps, -1), 10)
	require.Greater(t, len(namedCommands(steps)), 8)
	for _, name := range namedCommands(string(readme)) {
		require.True(t, known[name], "README.md names the command %q, which no menu has", name)
	}
	for _, match := range regexp.MustCompile(`\]\(([^)]*)\)`).FindAllStringSubmatch(string(readme), -1) {
		require.FileExists(t, "../"+match[1])
	}
}

// manualWindow is the window of the manual, nil where it is closed.
func (s *screen) manualWindow() fyne.Window {
	for _, window := range s.app.Driver().AllWindows() {
		if window.Title() == "Stageloom manual" {
			return window
		}
	}
	return nil
}

func TestTheManualOpensAtWhatOneIsAt(t *testing.T) {
	pressF1 := func(s *screen) {
		if focused := s.window.Canvas().Focused(); focused != nil {
			focused.TypedKey(&fyne.KeyEvent{Name: fyne.KeyF1})
			return
		}
		s.window.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyF1})
	}
	cases := map[string]struct {
		at   func(*screen)
		page string
	}{
		"the plan":            {func(*screen) {}, "Laying out"},
		"a link":              {func(s *screen) { s.choose("Edit", "Next link") }, "Links and cables"},
		"a table":             {func(s *screen) { s.choose("Tables", "Links") }, "Tables"},
		"a table's filter":    {func(s *screen) { s.choose("Tables", "Links"); s.choose("Tables", "Filter rows   Ctrl F in a table") }, "Tables"},
		"the patch":           {func(s *screen) { s.choose("Tables", "Patch") }, "Patch"},
		"the stock":           {func(s *screen) { s.choose("Stock", "Find a cable of the stock") }, "Stock and picking"},
		"the run strip":       {func(s *screen) { s.choose("Links", "Cables in the run strip") }, "Links and cables"},
		"the day view":        {func(s *screen) { s.choose("View", "Day view") }, "On site"},
		"the print":           {func(s *screen) { s.choose("Plan", "Print to PDF…") }, "Printing"},
		"a field of a dialog": {func(s *screen) { s.choose("Stock", "Add reels…") }, "Stock and picking"},
		"a list of a dialog":  {func(s *screen) { s.choose("Links", "Link two ports…") }, "Links and cables"},
		"a revision":          {func(s *screen) { s.choose("Plan", "Issue a revision…") }, "Revisions"},
		"the list of devices": {func(s *screen) { s.choose("Edit", "Find a kind of equipment") }, "Laying out"},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			s := open(t, "light", demoFile(t))
			s.window.Resize(fyne.NewSize(1280, 800))
			c.at(s)
			pressF1(s)
			shown := s.manualWindow()
			require.NotNil(t, shown)
			require.Equal(t, c.page, headline(shown))
			shown.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
			require.Nil(t, s.manualWindow())
		})
	}
}

func TestTheManualStaysOneWindowAndListsTheKeys(t *testing.T) {
	s := open(t, "light", demoFile(t))
	s.choose("Help", "Manual")
	s.choose("Help", "Pointer and keys")
	require.Equal(t, "Keys", headline(s.manualWindow()))
	all := written(s.manualWindow())
	require.Contains(t, all, "Save as…: Ctrl Shift S")
	require.Contains(t, all, "Day view: F9")
	require.NotContains(t, all, text.Ticked)
	s.choose("Help", "Find a command…")
	s.typed("quit", fyne.KeyReturn)
	require.Nil(t, s.manualWindow(), "it goes with the window that it belongs to")
}

// The picture that README.md shows: the window with the demo plan, one link selected.
const (
	pictureFile = "../assets/window.png"
	mostBytes   = 200_000
)

func TestThePictureOfTheReadmeShowsTheWindow(t *testing.T) {
	s := open(t, "light", demoFile(t))
	s.window.Resize(fyne.NewSize(1280, 800))
	for link := range s.desk.Plan().Links.All() {
		if link.Name == "L03" {
			s.desk.Select(plan.RefOf(link))
		}
	}
	goldentest.Picture(t, pictureFile, fewColours(s.window.Canvas().Capture()))
	about, err := os.Stat(pictureFile)
	require.NoError(t, err)
	require.LessOrEqual(t, about.Size(), int64(mostBytes))
}

// fewColours is a picture of the 256 commonest colours, which takes a third of the room.
func fewColours(picture image.Image) *image.Paletted {
	counts := map[color.RGBA]int{}
	at := func(x, y int) color.RGBA {
		c := color.RGBAModel.Convert(picture.At(x, y)).(color.RGBA)
		return color.RGBA{c.R &^ 3, c.G &^ 3, c.B &^ 3, 255}
	}
	b := picture.Bounds()
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			counts[at(x, y)]++
		}
	}
	colours := slices.SortedFunc(maps.Keys(counts), func(a, b color.RGBA) int {
		return (counts[b]-counts[a])*1<<24 + (int(a.R)-int(b.R))<<16 + (int(a.G)-int(b.G))<<8 + int(a.B) - int(b.B)
	})
	var palette color.Palette
	for _, c := range colours[:min(len(colours), 256)] {
		palette = append(palette, c)
	}
	few := image.NewPaletted(b, palette)
	index := map[color.RGBA]uint8{}
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			c := at(x, y)
			if _, known := index[c]; !known {
				index[c] = uint8(palette.Index(c))
			}
			few.SetColorIndex(x, y, index[c])
		}
	}
	return few
}
