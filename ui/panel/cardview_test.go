package panel_test

import (
	"slices"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/checks"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/panel"
	"stageloom/ui/pointer"
	"stageloom/ui/text"
)

// cardOf is a card in a window as narrow as it lets itself be made.
func cardOf(t *testing.T, height float32) (*panel.CardView, *canvas.Rectangle, fyne.Canvas) {
	t.Helper()
	start(t)
	curve := canvas.NewRectangle(nil)
	card := panel.NewCardView(curve, func(plan.Ref) {})
	return card, curve, show(t, card, card.MinSize().Width, height).Canvas()
}

// heading is a heading of the card or of its form.
func heading(t *testing.T, card *panel.CardView, name string) interface {
	fyne.Focusable
	fyne.Tappable
} {
	t.Helper()
	for _, object := range append(card.Inside(), card.Form.Inside()...) {
		if head, is := object.(interface{ Group() string }); is && head.Group() == name {
			return object.(interface {
				fyne.Focusable
				fyne.Tappable
			})
		}
	}
	t.Fatalf("there is no %s", name)
	return nil
}

func holds(card *panel.CardView, object fyne.CanvasObject) bool {
	for _, each := range card.Inside() {
		if box, is := each.(*fyne.Container); each == object || is && slices.Contains(box.Objects, object) {
			return true
		}
	}
	return false
}

const (
	curveHead  = "Loss over frequency"
	adviceHead = "What would cure it, and advice"
)

func linkFacts() text.Card {
	return text.Card{
		Title: "Link L7", Kind: "AES50", Subtitle: "Box A → Desk B", Link: "k-22222",
		Figures: []text.Figure{{Name: "run", Value: "72 m", Note: "60 m + 12 m"}, {Name: "cables", Value: "none"}},
		Findings: []checks.Finding{
			{Rule: "a", Severity: checks.Stop, What: "It is too long...", Remedy: "Lay less."},
			{Rule: "b", Severity: checks.Note, What: "It is red"},
		},
	}
}

func TestACardSaysAllItsFactsAndWarnsOfWhatStopsTheShow(t *testing.T) {
	card, _, _ := cardOf(t, 900)
	card.Set(linkFacts())
	said := append(labelsOf(card), drawnOf(card)...)
	for _, words := range []string{"Link L7", "AES50", "Box A → Desk B", "run", "72 m", "60 m + 12 m", "cables", "none", "It is too long.", "Lay less.", "It is red."} {
		require.Contains(t, said, words)
	}
	var icons []string
	for _, icon := range allOf[*widget.Icon](card) {
		icons = append(icons, icon.Resource.Name())
	}
	require.Equal(t, []string{theme.WarningIcon().Name(), theme.InfoIcon().Name()}, icons[:2])
	for _, label := range allOf[*widget.Label](card) {
		require.Equal(t, label.Text == "It is too long.", label.Importance == widget.DangerImportance, label.Text)
	}
}

func TestOnlyFiguresThatChangeAreSetAnew(t *testing.T) {
	card, _, _ := cardOf(t, 900)
	facts := linkFacts()
	card.Set(facts)
	before := card.Inside()
	facts.Figures = []text.Figure{{Name: "run", Value: "80 m"}, {Name: "cables", Value: "1", Note: "of 80 m"}}
	card.Set(facts)
	for i, object := range card.Inside() {
		require.Same(t, before[i], object, "a drag makes nothing new")
	}
	require.Subset(t, append(labelsOf(card), drawnOf(card)...), []string{"80 m", "1", "of 80 m"})
	require.NotContains(t, labelsOf(card), "60 m + 12 m")
	for what, change := range map[string]func(*text.Card){
		"another row":            func(c *text.Card) { c.Title = "Link L8" },
		"another kind":           func(c *text.Card) { c.Kind = "Dante" },
		"another end":            func(c *text.Card) { c.Subtitle = "Box A → Desk C" },
		"a figure less":          func(c *text.Card) { c.Figures = c.Figures[:1] },
		"a figure of other name": func(c *text.Card) { c.Figures = []text.Figure{{Name: "laid"}, c.Figures[1]} },
		"a finding less":         func(c *text.Card) { c.Findings = c.Findings[:1] },
		"another finding":        func(c *text.Card) { c.Findings = []checks.Finding{{What: "Nothing"}, c.Findings[1]} },
	} {
		card.Set(facts)
		old := card.Inside()[0]
		changed := facts
		change(&changed)
		card.Set(changed)
		require.NotSame(t, old, card.Inside()[0], what)
	}
}

func TestACertainCureIsDoneByAPressAndByKeys(t *testing.T) {
	card, _, c := cardOf(t, 900)
	var done []string
	card.Fixes = func(f checks.Finding) []checks.Fix {
		if f.Rule == "a" {
			return []checks.Fix{{Label: "Use Cat 6A"}, {Label: "Lay X60-01"}, {}}
		}
		return nil
	}
	card.Fix = func(f checks.Finding, fix checks.Fix) { done = append(done, f.Rule+" "+fix.Label) }
	left := 0
	var keys []fyne.KeyName
	card.Form.Leave, card.Form.Key = func() { left++ }, func(key fyne.KeyName) { keys = append(keys, key) }
	card.Set(linkFacts())
	links := allOf[interface {
		Words() string
		fyne.Focusable
		fyne.Tappable
	}](card)
	require.Len(t, links, 3)
	require.Equal(t, "Fix: lay X60-01", links[1].Words())
	c.Focus(links[1])
	pressOn(c, fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace)
	middle := links[1].(fyne.CanvasObject).Size().Height / 2
	links[1].Tapped(&fyne.PointEvent{Position: fyne.NewPos(20, middle)})
	require.Equal(t, []string{"a Lay X60-01", "a Lay X60-01", "a Lay X60-01", "a Lay X60-01"}, done)
	pressOn(c, fyne.KeyF3, fyne.KeyEscape)
	require.Equal(t, []fyne.KeyName{fyne.KeyF3}, keys)
	require.Equal(t, 1, left)
	require.Equal(t, "Fix: use Cat 6A", links[0].Words())
}

func TestTheFoldsOfALinkOpenAndStayAndAdviceIsAskedForOnlyThen(t *testing.T) {
	card, curve, c := cardOf(t, 900)
	asked := 0
	card.Advice = func() []text.Figure { asked++; return []text.Figure{{Name: "shorter by 4 m", Value: "+1.0 dB"}} }
	card.Tools = widget.NewButton("Lay", nil)
	card.Set(linkFacts())
	require.True(t, holds(card, curve), "the curve is looked at from the first")
	require.True(t, holds(card, card.Tools))
	require.Zero(t, asked)
	c.Focus(heading(t, card, adviceHead))
	pressOn(c, fyne.KeyReturn)
	require.Equal(t, 1, asked)
	require.Contains(t, drawnOf(card), "shorter by 4 m")
	require.Equal(t, heading(t, card, adviceHead), c.Focused(), "the cursor stays on the heading")
	test.Tap(heading(t, card, curveHead))
	require.False(t, holds(card, curve))
	next := linkFacts()
	next.Title, next.Link = "Link L8", "k-33333"
	card.Set(next)
	require.False(t, holds(card, curve), "folded for the next link too")
	require.Contains(t, drawnOf(card), "shorter by 4 m")
	next.Title, next.Link = "Box A", ""
	card.Set(next)
	require.False(t, holds(card, card.Tools), "a device has neither curve nor what is done to links")
	for _, object := range card.Inside() {
		_, folds := object.(interface{ Group() string })
		require.False(t, folds)
	}
	require.NotContains(t, drawnOf(card), "shorter by 4 m")
}

func TestAFigureIsExplainedWhereThePointerRests(t *testing.T) {
	card, _, _ := cardOf(t, 900)
	card.Set(linkFacts())
	var tell func()
	hover := func() (rows []desktop.Hoverable) {
		for _, object := range card.Inside() {
			if row, is := object.(desktop.Hoverable); is {
				if _, head := object.(interface{ Group() string }); !head {
					rows = append(rows, row)
				}
			}
		}
		return rows
	}
	hover()[0].MouseIn(&desktop.MouseEvent{}) // without tips nothing is told
	card.Tips = pointer.NewTips(func(_ time.Duration, do func()) func() { tell = do; return func() {} })
	show(t, card.Tips.Layer, 300, 300)
	card.Rebuild()
	hover()[0].MouseMoved(&desktop.MouseEvent{})
	tell()
	require.Equal(t, text.MeaningOf("run"), card.Tips.Words())
	require.NotEmpty(t, card.Tips.Words())
	hover()[0].MouseOut()
	require.Empty(t, card.Tips.Words())
}

func TestTheCardScrollsToTheFieldThatHasTheCursor(t *testing.T) {
	card, _, c := cardOf(t, 220)
	d := l02(t)
	card.Set(linkFacts())
	card.Form.Set(text.FormOf(assess.Of(d.plan), d.selected, words.Units{}))
	c = show(t, card, 272, 220).Canvas()
	inView := func() {
		focused := c.Focused().(fyne.CanvasObject)
		top := placeOf(focused).Y
		require.GreaterOrEqual(t, top, float32(-1))
		require.LessOrEqual(t, top+focused.Size().Height, float32(221))
	}
	require.True(t, card.Form.Focus(""))
	for range 20 {
		inView()
		test.FocusNext(c)
	}
	for range 20 {
		test.FocusPrevious(c)
		inView()
	}
}
