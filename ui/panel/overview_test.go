package panel_test

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/checks"
	"stageloom/model/demo"
	"stageloom/model/plan"
	"stageloom/ui/look"
	"stageloom/ui/panel"
	"stageloom/ui/text"
)

// lineOf is an overview of a plan whose presses select what they go to.
func lineOf(t *testing.T, a *assess.Assessment) (overview *panel.Overview, selected *[]plan.Ref) {
	t.Helper()
	start(t)
	selected = new([]plan.Ref)
	overview = panel.NewOverview(look.NewInks(look.PaletteNamed("light")),
		func() []plan.Ref { return *selected }, func(ref plan.Ref) { *selected = []plan.Ref{ref} })
	overview.Set(text.OverviewOf(a, text.Preview{}))
	show(t, overview, 1400, 40)
	return overview, selected
}

func TestEachPieceOfTheOverviewCountsThePlanAndGoesToEachOfItsRows(t *testing.T) {
	a := assess.Of(demo.Weekender())
	overview, selected := lineOf(t, a)
	want := map[string]map[plan.Ref]bool{"links": {}, "stop the show": {}, "warnings": {}, "notes": {}}
	counts := map[string]int{"links": a.Plan.Links.Len()}
	for link := range a.Plan.Links.All() {
		want["links"][plan.RefOf(link)] = true
	}
	for _, finding := range a.Findings {
		words := map[checks.Severity]string{checks.Stop: "stop the show", checks.Warn: "warnings", checks.Note: "notes"}[finding.Severity]
		counts[words]++
		want[words][plan.Ref{Table: finding.Where[0].Table, Key: finding.Where[0].Key}] = true
	}
	pieces := 0
	for _, piece := range allOf[fyne.Tappable](overview) {
		drawn := drawnOf(piece.(fyne.CanvasObject))
		count, err := strconv.Atoi(drawn[0])
		require.NoError(t, err)
		*selected = nil
		went := map[plan.Ref]bool{}
		for range count {
			piece.Tapped(&fyne.PointEvent{})
			if len(*selected) > 0 {
				went[(*selected)[0]] = true
			}
		}
		cursor := piece.(desktop.Cursorable).Cursor()
		require.Equal(t, count > 0, cursor == desktop.PointerCursor, drawn[1])
		for ref := range went {
			require.True(t, ref.Exists(a.Plan), drawn[1])
		}
		if refs, known := want[drawn[1]]; known {
			require.Equal(t, counts[drawn[1]], count, drawn[1])
			require.Equal(t, refs, went, "each place of %s comes in turn", drawn[1])
			pieces++
		}
	}
	require.GreaterOrEqual(t, pieces, 3)
}

func TestAPressOnFindingsComesToEveryRowAlsoWhereSeveralSpeakOfOne(t *testing.T) {
	row := func(key plan.Key) plan.Ref { return plan.Ref{Table: plan.LinksTable, Key: key} }
	for name, rows := range map[string][]plan.Ref{
		"two of one link":        {row("a"), row("a"), row("b")},
		"two rules of two links": {row("a"), row("b"), row("a"), row("c"), row("b")},
		"of one link alone":      {row("a"), row("a")},
	} {
		t.Run(name, func(t *testing.T) {
			overview, selected := lineOf(t, assess.Of(plan.New("x")))
			overview.Set([]text.Item{{Count: len(rows), Words: "warnings", Rows: rows}})
			left, went := map[plan.Ref]bool{}, map[plan.Ref]bool{}
			for _, ref := range rows {
				left[ref] = true
			}
			for range len(left) {
				test.Tap(allOf[fyne.Tappable](overview)[0])
				went[(*selected)[0]] = true
			}
			require.Equal(t, left, went)
			test.Tap(allOf[fyne.Tappable](overview)[0])
			require.Equal(t, []plan.Ref{rows[0]}, *selected, "and round")
		})
	}
}

func TestThePiecesOfTheOverviewStandSideBySideAndSayWhenTheyNeedAnotherWidth(t *testing.T) {
	overview, _ := lineOf(t, assess.Of(demo.Weekender()))
	items := text.OverviewOf(assess.Of(demo.Weekender()), text.Preview{})
	right := float32(0)
	for _, line := range allOf[*canvas.Text](overview) {
		left := placeOf(line).X
		require.GreaterOrEqual(t, left, right, line.Text)
		right = left + line.MinSize().Width
	}
	require.InDelta(t, overview.MinSize().Width, right, 1)
	pieces := allOf[fyne.Tappable](overview)
	require.Len(t, pieces, len(items))
	require.False(t, overview.Set(items))
	items = slices.Clone(items)
	items[0].Count++
	require.False(t, overview.Set(items), "as many figures need as much room")
	require.Same(t, pieces[0], allOf[fyne.Tappable](overview)[0], "a drag makes nothing new")
	require.Contains(t, drawnOf(overview), strconv.Itoa(items[0].Count))
	items = slices.Clone(items)
	items[0].Count = 12345
	require.True(t, overview.Set(items))
	require.Contains(t, drawnOf(overview), "12345")
	overview.SetInks(look.NewInks(look.PaletteNamed("dark")))
	require.Contains(t, drawnOf(overview), "12345", "another theme says the same")
	require.True(t, overview.Set(nil))
	require.Empty(t, drawnOf(overview))
}

func TestTheOverviewGivesTheTitleWhatRoomIsLeft(t *testing.T) {
	start(t)
	overview, _ := lineOf(t, assess.Of(demo.Weekender()))
	title := panel.NewTitle()
	title.SetText(strings.Repeat("ليلة طويلة 🎶 ", 20))
	line := panel.NewTopLine(overview, title)
	w := show(t, line, 1600, 40)
	least := line.MinSize().Width
	for _, width := range []float32{least, least + 40, least + 400} {
		w.Resize(fyne.NewSize(width, 40))
		end := overview.Position().X + overview.Size().Width
		require.LessOrEqual(t, title.Position().X+title.Size().Width, width)
		require.GreaterOrEqual(t, title.Position().X, min(end, width-8), width)
		require.GreaterOrEqual(t, overview.Size().Width, overview.MinSize().Width)
		if width > least+100 {
			require.Greater(t, title.Size().Width, float32(300), "all that is left")
		}
	}
}

func TestANoticeIsReplacedByTheNextAndClosedByItsButton(t *testing.T) {
	start(t)
	notice := panel.NewNotice(nil)
	show(t, notice, 400, 200)
	label := func() *widget.Label { return allOf[*widget.Label](notice)[0] }
	icon := func() fyne.Resource { return allOf[*widget.Icon](notice)[0].Resource }
	for _, c := range []struct {
		say        func()
		words      string
		icon       fyne.Resource
		importance widget.Importance
	}{
		{func() { notice.Say("Saved.") }, "Saved.", theme.InfoIcon(), widget.MediumImportance},
		{func() { notice.Warn("القرص ممتلئ 💾.") }, "القرص ممتلئ 💾.", theme.WarningIcon(), widget.DangerImportance},
		{
			func() { notice.Tell(checks.Finding{Severity: checks.Note, What: "L1 is long"}) },
			"L1 is long.", theme.InfoIcon(), widget.MediumImportance,
		},
		{
			func() {
				notice.Tell(checks.Finding{Severity: checks.Warn, What: "L1 is long. ", Remedy: "Lay less..."})
			},
			"L1 is long. Lay less.", theme.WarningIcon(), widget.WarningImportance,
		},
		{
			func() {
				notice.Tell(checks.Finding{Severity: checks.Stop, What: "L1 is long...", Remedy: "Lay less. "})
			},
			"L1 is long. Lay less.", theme.WarningIcon(), widget.DangerImportance,
		},
	} {
		c.say()
		require.True(t, notice.Visible())
		require.Equal(t, []string{c.words}, labelsOf(notice), "one thing at a time")
		require.Equal(t, c.words, notice.Text())
		require.Equal(t, c.icon.Name(), icon().Name(), c.words)
		require.Equal(t, c.importance, label().Importance, c.words)
	}
	buttons := allOf[fyne.Tappable](notice)
	require.Len(t, buttons, 1)
	test.Tap(buttons[0])
	require.False(t, notice.Visible())
	require.Empty(t, notice.Text())
	notice.Say("Again.")
	require.True(t, notice.Visible(), "the next is told again")
}

func TestALongNoticeGrowsInHeightAndNotInWidth(t *testing.T) {
	start(t)
	notice := panel.NewNotice(nil)
	w := show(t, notice, 300, 600)
	notice.Say("Short.")
	one := notice.MinSize()
	for _, long := range []string{strings.Repeat("a sentence of words ", 20), strings.Repeat("x", 400), strings.Repeat("كابل 🎚 ", 80)} {
		notice.Say(long)
		w.Resize(fyne.NewSize(300, 600))
		require.Greater(t, notice.MinSize().Height, 2*one.Height)
		require.LessOrEqual(t, notice.MinSize().Width, float32(300))
		for _, line := range allOf[*canvas.Text](notice) {
			at := placeOf(line)
			require.LessOrEqual(t, at.X+line.MinSize().Width, float32(301), line.Text)
		}
	}
}
