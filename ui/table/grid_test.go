package table_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
)

func TestKeysGoWhereHandsExpect(t *testing.T) {
	s := newScreen(t, "a", "b", "c")
	for _, c := range []struct {
		name string
		do   func()
		want [2]int
	}{
		{"down", func() { s.press(fyne.KeyDown) }, [2]int{1, 0}},
		{"right", func() { s.press(fyne.KeyRight) }, [2]int{1, 1}},
		{"End is the last column", func() { s.press(fyne.KeyEnd) }, [2]int{1, 3}},
		{"Tab at the end of a row begins the next", func() { s.press(fyne.KeyTab) }, [2]int{2, 0}},
		{"Shift Tab goes back", func() { s.shifted(fyne.KeyTab) }, [2]int{1, 3}},
		{"Home is the first column", func() { s.press(fyne.KeyHome) }, [2]int{1, 0}},
		{"Page Down stops at the last row", func() { s.press(fyne.KeyPageDown) }, [2]int{2, 0}},
		{"Ctrl Up is the first row", func() { s.shortcut(control(fyne.KeyUp)) }, [2]int{0, 0}},
		{"Ctrl Right is the last column", func() { s.shortcut(control(fyne.KeyRight)) }, [2]int{0, 3}},
		{"Ctrl End is the last corner", func() { s.shortcut(control(fyne.KeyEnd)) }, [2]int{2, 3}},
		{"Ctrl Home is the first", func() { s.shortcut(control(fyne.KeyHome)) }, [2]int{0, 0}},
	} {
		t.Run(c.name, func(t *testing.T) {
			c.do()
			require.Equal(t, c.want, s.at())
		})
	}
	s.press(fyne.KeyEscape)
	require.True(t, s.left, "Escape goes back to the plan")
}

func TestTypingBeginsAndEnterKeepsAndGoesDown(t *testing.T) {
	s := newScreen(t, "a", "b", "c")
	s.press(fyne.KeyRight)
	s.write("xy")
	require.Equal(t, "xy", s.field().Text, "what is typed takes the cell's place")
	s.press(fyne.KeyReturn)
	require.Equal(t, []string{"xy", "b", "c"}, s.column(1))
	require.Equal(t, [2]int{1, 1}, s.at())
	require.Nil(t, s.field())
	s.press(fyne.KeyF2)
	require.Equal(t, "b", s.field().Text, "F2 edits what stands there")
	s.write("z")
	s.press(fyne.KeyTab)
	require.Equal(t, []string{"xy", "z", "c"}, s.column(1), "all of it was marked")
	require.Equal(t, [2]int{1, 2}, s.at())
	require.Equal(t, "Input of b", s.desk.NextUndo())
	s.press(fyne.KeyLeft, fyne.KeyReturn)
	s.write("gone")
	s.press(fyne.KeyEscape)
	require.Equal(t, []string{"xy", "z", "c"}, s.column(1), "Escape discards")
	require.Equal(t, [2]int{1, 1}, s.at())
	require.False(t, s.left)
	s.write("up")
	s.shifted(fyne.KeyTab)
	require.Equal(t, [2]int{1, 0}, s.at())
}

func TestRowsSortedAnewDoNotLeadTheCursorAstray(t *testing.T) {
	s := newScreen(t, "a", "b", "c")
	s.press(fyne.KeyRight, fyne.KeyF3)
	s.write("zz")
	s.press(fyne.KeyReturn)
	require.Equal(t, []string{"b", "c", "zz"}, s.column(1))
	require.Equal(t, [2]int{0, 1}, s.at(), "the next row is the one that stood below when typing began")
}

func TestWhatCannotBeKeptStaysWithItsReason(t *testing.T) {
	s := newScreen(t, "a", "b")
	s.write("first")
	s.press(fyne.KeyReturn)
	require.Equal(t, "It must be a whole number.", s.Trouble())
	require.Equal(t, "first", s.field().Text, "the text is kept, and the keys go to it")
	require.Equal(t, [2]int{0, 0}, s.at())
	s.window.Canvas().Unfocus()
	require.Equal(t, "It must be a whole number.", s.Trouble(), "also when the focus goes elsewhere")
	s.Focus()
	s.press(fyne.KeyDown)
	require.Equal(t, []string{"1", "2"}, s.column(0))
	require.False(t, s.Keep())
	require.Empty(t, s.desk.NextRedo())
}

func TestFocusLossKeepsWhatWasTyped(t *testing.T) {
	s := newScreen(t, "a", "b")
	s.write("7")
	s.window.Canvas().Unfocus()
	require.Equal(t, []string{"2", "7"}, s.column(0), "kept, and sorted anew by the source")
	require.Empty(t, s.Trouble())
}

func TestAnUndoUnderATypedFieldKeepsTheTextAndARowThatGoesTakesItAlong(t *testing.T) {
	s := newScreen(t, "a", "b")
	s.press(fyne.KeyRight)
	s.write("x")
	require.NoError(t, s.desk.Do("Other", func(e *plan.Edit) error {
		e.AddInput(plan.Input{Number: 9, Name: "i", Note: "c"})
		return nil
	}))
	require.Equal(t, "x", s.field().Text)
	s.press(fyne.KeyReturn)
	require.Equal(t, []string{"x", "b", "c"}, s.column(1))
	s.write("y")
	ref := s.Sheet().Ref(1)
	require.NoError(t, s.desk.Do("Other", func(e *plan.Edit) error { e.RemoveInput(plan.InputID(ref.Key)); return nil }))
	require.Equal(t, []string{"x", "c"}, s.column(1))
	require.True(t, s.Keep(), "nothing is being typed any more")
	require.Nil(t, s.field(), "the keys go to the cells again")
}

func TestAFieldThatScrollsOutOfViewLosesNothing(t *testing.T) {
	names := make([]string, 500)
	for i := range names {
		names[i] = "row"
	}
	s := newScreen(t, names...)
	s.press(fyne.KeyRight)
	s.write("kept")
	first := s.Sheet().Ref(0)
	s.desk.Select(s.Sheet().Ref(400)) // the plan's selection scrolls the table
	require.Equal(t, 400, s.at()[0])
	s.press(fyne.KeyReturn)
	input, _ := s.desk.Plan().Inputs.Get(first.Key)
	require.Equal(t, "kept", input.Note, "it goes into the row in which it was begun")
	require.Equal(t, 1, count(s.column(1), "kept"))
}

func TestManyRowsAreEditedAsOneStep(t *testing.T) {
	s := newScreen(t, "a", "b", "c")
	s.press(fyne.KeyRight)
	s.shifted(fyne.KeyDown)
	require.Len(t, s.desk.Selection(), 2, "the plan selects what the table selects")
	s.write("both")
	s.press(fyne.KeyReturn)
	require.Equal(t, []string{"both", "both", "c"}, s.column(1))
	require.Equal(t, "Input of 2 inputs", s.desk.NextUndo())
	require.True(t, s.desk.Undo())
	require.Equal(t, []string{"a", "b", "c"}, s.column(1))
	s.shortcut(&fyne.ShortcutSelectAll{})
	require.Len(t, s.desk.Selection(), 3)
}

func TestSelectionGoesBothWays(t *testing.T) {
	s := newScreen(t, "a", "b", "c")
	s.press(fyne.KeyDown)
	require.Equal(t, []plan.Ref{s.Sheet().Ref(1)}, s.desk.Selection())
	s.desk.Select(s.Sheet().Ref(2))
	require.Equal(t, 2, s.at()[0])
	require.True(t, s.Sheet().Selected(2))
	require.False(t, s.Sheet().Selected(1))
	s.desk.Select()
	require.False(t, s.Sheet().Selected(2))
	require.Equal(t, 2, s.at()[0], "the cursor stays")
}

func TestTheFilterLineFiltersAsOneTypes(t *testing.T) {
	s := newScreen(t, "alpha", "beta", "gamma")
	s.shortcut(control(fyne.KeyF))
	s.write("bet")
	require.Equal(t, []string{"beta"}, s.column(1))
	s.press(fyne.KeyDown)
	s.press(fyne.KeyRight)
	s.write("delta")
	s.press(fyne.KeyReturn)
	require.Empty(t, s.column(1), "what no longer fits the filter is not shown")
	s.shortcut(control(fyne.KeyF))
	s.press(fyne.KeyEscape)
	require.Equal(t, []string{"alpha", "delta", "gamma"}, s.column(1))
	require.NotNil(t, s.field())
	s.press(fyne.KeyEscape)
	require.Nil(t, s.field(), "a second Escape goes to the cells")
}

func TestCopyAndPasteThroughTheKeys(t *testing.T) {
	s := newScreen(t, "a", "b", "c")
	s.press(fyne.KeyRight)
	s.shortcut(&fyne.ShortcutCopy{})
	require.Equal(t, "a", fyne.CurrentApp().Clipboard().Content())
	require.Contains(t, s.said, "One cell copied")
	s.press(fyne.KeyDown)
	fyne.CurrentApp().Clipboard().SetContent("x\ny\n")
	s.shortcut(&fyne.ShortcutPaste{})
	require.Equal(t, []string{"a", "x", "y"}, s.column(1))
	require.Contains(t, s.said, "2 cells set")
	s.press(fyne.KeyLeft)
	s.shortcut(&fyne.ShortcutPaste{})
	require.Equal(t, "B, No.: it must be a whole number; y, No.: it must be a whole number. Nothing was changed.", "B"+s.Trouble()[1:])
	s.press(fyne.KeyRight, fyne.KeyDelete)
	require.Equal(t, []string{"a", "", "y"}, s.column(1))
	s.shortcut(control(fyne.KeyDelete))
	require.Equal(t, []string{"a", "y"}, s.column(1))
	s.press(fyne.KeyInsert)
	require.Equal(t, []string{"a", "y", "new"}, s.column(1))
	require.Equal(t, 2, s.at()[0])
}

func TestAChoiceIsTakenFromAListByKeys(t *testing.T) {
	s := newScreen(t, "a")
	s.press(fyne.KeyRight, fyne.KeyRight, fyne.KeyReturn)
	s.press(fyne.KeyDown, fyne.KeyDown, fyne.KeyReturn)
	require.Equal(t, []string{"DI"}, s.column(2))
	require.True(t, s.Focused())
	s.press(fyne.KeyReturn)
	s.write("mi")
	s.press(fyne.KeyReturn)
	require.Equal(t, []string{"mic"}, s.column(2), "letters find it")
	s.press(fyne.KeyReturn, fyne.KeyEnd, fyne.KeyEscape)
	require.Equal(t, []string{"mic"}, s.column(2))
	s.Focus()
	s.write("line")
	s.press(fyne.KeyReturn)
	require.Equal(t, []string{"line"}, s.column(2), "it can be typed too")
}

func TestReckonedCellsSayWhyTheyAreNotTyped(t *testing.T) {
	s := newScreen(t, "a")
	s.press(fyne.KeyEnd)
	s.write("9")
	require.Contains(t, s.Trouble(), "It is reckoned from the plan")
	s.shortcut(control(fyne.KeyReturn))
	require.Equal(t, "a", s.opened)
}

func TestPointerSortsWidensMovesAndSelects(t *testing.T) {
	s := newScreen(t, "c", "a", "b")
	press := func(x, y float32, modifier fyne.KeyModifier) {
		at := fyne.NewPos(x, y)
		target, local := s.object(at)
		target.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: local, AbsolutePosition: at}, Button: desktop.MouseButtonPrimary, Modifier: modifier})
		target.MouseUp(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: local, AbsolutePosition: at}, Button: desktop.MouseButtonPrimary})
	}
	press(80, 45, 0)
	require.Equal(t, []string{"a", "b", "c"}, s.column(1), "a click on a heading sorts")
	require.Equal(t, "name", s.laid.Sort)
	press(80, 65, 0)
	press(80, 115, fyne.KeyModifierShift)
	require.Len(t, s.desk.Selection(), 3)
	press(80, 90, fyne.KeyModifierControl)
	require.Len(t, s.desk.Selection(), 2)
	press(80, 65, 0)
	press(80, 65, 0)
	require.NotNil(t, s.field(), "a double click edits")
	s.press(fyne.KeyEscape)

	drag := func(x, by float32) {
		at := fyne.NewPos(x, 45)
		target, local := s.object(at)
		target.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: local}, Button: desktop.MouseButtonPrimary})
		dragged := target.(fyne.Draggable)
		dragged.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: local.AddXY(by, 0)}})
		target.MouseUp(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: local.AddXY(by, 0)}, Button: desktop.MouseButtonPrimary})
		dragged.DragEnd()
	}
	wide := s.Sheet().Width(1)
	drag(50+3+wide-2, 40)
	require.Equal(t, wide+40, s.Sheet().Width(1), "the edge of a heading makes it wider")
	drag(80, -60)
	require.Equal(t, "Input", s.Sheet().Columns()[0].Title, "a heading dragged moves its column")
	require.Equal(t, "name", s.laid.Columns[0].Name)
}

func TestTheGridAsMarkup(t *testing.T) {
	s := newScreen(t, "a", "b")
	s.press(fyne.KeyDown, fyne.KeyRight)
	test.AssertRendersToMarkup(t, "grid.xml", s.window.Canvas())
}

func TestAFilterIsSeenAndEscapeClearsItFromTheCellsToo(t *testing.T) {
	s := newScreen(t, "alpha", "beta", "gamma")
	s.shortcut(control(fyne.KeyF))
	s.write("bet")
	s.press(fyne.KeyReturn)
	require.True(t, s.Focused())
	s.press(fyne.KeyEscape)
	require.Equal(t, []string{"alpha", "beta", "gamma"}, s.column(1))
	require.Empty(t, s.Sheet().Filter())
	require.False(t, s.left, "the first Escape shows all rows")
	require.Equal(t, 1, s.at()[0], "the cursor stays on its row")
	s.press(fyne.KeyEscape)
	require.True(t, s.left)
	t.Run("the line says what filters, where a cell keeps a filter from going", func(t *testing.T) {
		s := newScreen(t, "alpha", "beta", "gamma")
		s.SetFilter("bet")
		s.press(fyne.KeyHome)
		s.write("no number")
		s.SetFilter("")
		require.Equal(t, []string{"beta"}, s.column(1))
		require.Equal(t, "bet", s.Sheet().Filter())
		s.press(fyne.KeyEscape)
		s.shortcut(control(fyne.KeyF))
		require.Equal(t, "bet", s.window.Canvas().Focused().(interface{ Inner() *widget.Entry }).Inner().Text)
	})
}
