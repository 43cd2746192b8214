package panel_test

import (
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"stageloom/model/demo"
	"stageloom/model/plan"
)

func l02(t *testing.T) *desk {
	t.Helper()
	p := demo.Weekender()
	return deskOf(t, p, linkNamed(p, "L02"))
}

func TestTabGoesThroughAllFieldsAndHeadingsInTheirOrderAndRound(t *testing.T) {
	d := l02(t)
	var order []string
	for _, each := range d.view.Inside() {
		switch is := each.(type) {
		case interface{ Group() string }:
			order = append(order, "["+is.Group()+"]")
		case interface {
			Labelled() (string, fyne.CanvasObject)
		}:
			name, _ := is.Labelled()
			order = append(order, name)
		}
	}
	require.Greater(t, len(order), 12)
	require.True(t, d.view.Focus(""))
	require.Equal(t, order[0], d.focused(), "the first field without an id")
	var went []string
	for range order {
		went = append(went, d.focused())
		test.FocusNext(d.canvas)
	}
	require.Equal(t, order, went)
	require.Equal(t, order[0], d.focused(), "round")
	test.FocusPrevious(d.canvas)
	require.Equal(t, order[len(order)-1], d.focused())
	require.Empty(t, d.steps, "to pass a field changes nothing")
	require.True(t, d.view.Focus("rise_to"))
	require.Equal(t, "Rise at far end", d.focused())
	require.False(t, d.view.Focus("no such field"))
	require.Equal(t, "Rise at far end", d.focused())
}

func TestEnterKeepsAStepAndTheCursorAndEscapePutsBackThenLeaves(t *testing.T) {
	d := l02(t)
	was := d.plan
	d.types("Rise at near end", "7,5")
	require.Empty(t, d.steps, "nothing is kept while somebody types")
	d.press(fyne.KeyReturn)
	require.Equal(t, []string{"L02: rise at near end"}, d.steps)
	require.InDelta(t, 7.5, d.link("L02").RiseFrom, 1e-9)
	require.Equal(t, "7.5 m", d.entry("Rise at near end").Text, "as the plan says it")
	require.Equal(t, "Rise at near end", d.focused())
	d.press(fyne.KeyReturn)
	require.Len(t, d.steps, 1, "the same again is no step")
	now := d.plan
	d.types("Rise at near end", "9")
	d.press(fyne.KeyEscape)
	require.Equal(t, "7.5 m", d.entry("Rise at near end").Text)
	require.Zero(t, d.left, "the first Escape only puts back")
	d.press(fyne.KeyEscape)
	require.Equal(t, 1, d.left)
	require.Same(t, now, d.plan)
	require.NotSame(t, was, d.plan)
}

func TestKeysOfTheWindowGoThroughAFieldAndLettersDoNot(t *testing.T) {
	functions := []fyne.KeyName{
		fyne.KeyF1, fyne.KeyF2, fyne.KeyF3, fyne.KeyF4, fyne.KeyF5, fyne.KeyF6,
		fyne.KeyF7, fyne.KeyF8, fyne.KeyF9, fyne.KeyF10, fyne.KeyF11, fyne.KeyF12,
	}
	d := l02(t)
	for _, id := range []string{"name", "fill"} {
		d.keys = nil
		require.True(t, d.view.Focus(id))
		d.press(functions...)
		d.press(fyne.KeyLeft, fyne.KeyRight, fyne.KeyHome, fyne.KeyDelete)
		require.Equal(t, functions, d.keys, id)
	}
	d.keys = nil
	for _, each := range d.view.Inside() {
		if head, is := each.(interface{ Group() string }); is && head.Group() == "Run" {
			d.canvas.Focus(each.(fyne.Focusable))
		}
	}
	d.press(fyne.KeyF3, fyne.KeyN)
	require.Equal(t, []fyne.KeyName{fyne.KeyF3, fyne.KeyN}, d.keys, "a heading takes no letters itself")
	d.press(fyne.KeyEscape)
	require.Equal(t, 1, d.left)
}

func TestAGroupFoldsByKeysAndKeepsTheCursorAndWhatWasTyped(t *testing.T) {
	d := l02(t)
	d.types("Rise at far end", "much")
	d.canvas.Unfocus()
	require.NotEmpty(t, d.fault("Rise at far end"))
	head := func() fyne.Focusable {
		for _, each := range d.view.Inside() {
			if is, ok := each.(interface{ Group() string }); ok && is.Group() == "Run" {
				return each.(fyne.Focusable)
			}
		}
		return nil
	}
	d.canvas.Focus(head())
	for _, key := range []fyne.KeyName{fyne.KeyReturn, fyne.KeySpace} {
		d.press(key)
		require.NotContains(t, d.fields(), "Rise at far end")
		require.Equal(t, "[Run]", d.focused())
		d.press(key)
		require.Equal(t, "much", d.entry("Rise at far end").Text)
		require.NotEmpty(t, d.fault("Rise at far end"))
		require.Equal(t, "[Run]", d.focused())
	}
	d.press(fyne.KeyReturn)
	d.selects(linkNamed(d.plan, "L03"))
	require.NotContains(t, d.fields(), "Rise at far end", "folded is folded for the next link too")
	require.Contains(t, d.fields(), "Wanted margin")
}

func TestTheCursorStaysInTheSameFieldFromLinkToLink(t *testing.T) {
	d := l02(t)
	d.types("Rise at near end", "3")
	d.press(fyne.KeyReturn)
	d.selects(linkNamed(d.plan, "L03"))
	require.Equal(t, "Rise at near end", d.focused())
	d.types("Rise at near end", "4")
	d.press(fyne.KeyReturn)
	require.InDelta(t, 3, d.link("L02").RiseFrom, 1e-9)
	require.InDelta(t, 4, d.link("L03").RiseFrom, 1e-9)
	d.selects(plan.RefOf(d.plan.Devices.At(0)))
	require.Equal(t, 1, d.left, "a device has no rise: back to the plan")
	require.Empty(t, d.focused())
}

func TestANoteTakesLinesAndTabLeavesIt(t *testing.T) {
	d := deskOf(t, demo.Weekender())
	d.selects(plan.RefOf(d.plan.Devices.At(0)))
	for _, each := range d.view.Inside() {
		if head, is := each.(interface{ Group() string }); is && head.Group() == "Note" && !slices.Contains(d.fields(), "Note") {
			test.Tap(each.(fyne.Tappable))
			break
		}
	}
	d.types("Note", "first")
	d.press(fyne.KeyReturn)
	test.Type(d.canvas.Focused(), "ثانٍ 🎸")
	require.Empty(t, d.steps, "Enter is a new line there")
	_, input := d.row("Note")
	require.False(t, input.(fyne.Tabbable).AcceptsTab())
	test.FocusNext(d.canvas)
	require.Len(t, d.steps, 1, "who leaves it keeps it")
	require.Equal(t, "first\nثانٍ 🎸", d.plan.Devices.At(0).Note)
	require.True(t, d.entry("Note").MultiLine)
	require.Equal(t, fyne.TextWrapWord, d.entry("Note").Wrapping)
}

func TestAFieldReachedByKeyIsReplacedByWhatIsTyped(t *testing.T) {
	d := l02(t)
	require.True(t, d.view.Focus("rise_to"))
	test.Type(d.canvas.Focused(), "4 m")
	d.press(fyne.KeyReturn)
	require.True(t, d.view.Focus("rise_from"))
	test.FocusNext(d.canvas)
	require.Equal(t, "Rise at far end", d.focused())
	test.Type(d.canvas.Focused(), "10 m")
	require.Equal(t, "10 m", d.entry("Rise at far end").Text, "not beside what stood there")
}

func TestLettersChooseInAListOfTheCard(t *testing.T) {
	d := l02(t)
	list := d.list("Wanted kind")
	require.Greater(t, len(list.Options), 3)
	_, input := d.row("Wanted kind")
	d.canvas.Focus(input.(fyne.Focusable))
	test.Type(input.(fyne.Focusable), "cat 7")
	require.Contains(t, d.list("Wanted kind").Selected, "Cat 7")
	require.NotEmpty(t, d.steps)
}
