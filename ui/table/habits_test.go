package table_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
	"stageloom/ui/table"
)

func many(n int) (names []string) {
	for i := range n {
		names = append(names, "n"+string(rune('a'+i%26)))
	}
	return names
}

// drawn is where the cursor's cell is drawn below the top of the window, and how high the table's rows are seen.
func (s *screen) drawn() (top, bottom float32, seen fyne.Position, height float32) {
	var cursor fyne.CanvasObject
	var rows *widget.Table
	var at fyne.Position
	var walk func(o fyne.CanvasObject, origin fyne.Position)
	walk = func(o fyne.CanvasObject, origin fyne.Position) {
		here := origin.Add(o.Position())
		if cell, is := o.(interface{ IsCursor() bool }); is && cell.IsCursor() && o.Visible() {
			cursor, at = o, here
		}
		if body, is := o.(interface{ Rows() *widget.Table }); is {
			rows, seen = body.Rows(), here
		}
		switch o := o.(type) {
		case *fyne.Container:
			for _, child := range o.Objects {
				walk(child, here)
			}
		case fyne.Widget:
			for _, child := range test.WidgetRenderer(o).Objects() {
				walk(child, here)
			}
		}
	}
	walk(s.window.Content(), fyne.Position{})
	require.NotNil(s.t, cursor, "the cursor's cell is drawn")
	return at.Y, at.Y + cursor.Size().Height, seen, rows.Size().Height
}

// Headings above and the bar below: no row that the cursor goes to lies under them.
func TestTheCursorsRowIsNeverHidden(t *testing.T) {
	s := newScreen(t, many(40)...)
	seen := func(why string) {
		t.Helper()
		top, bottom, at, height := s.drawn()
		require.GreaterOrEqual(t, top, at.Y+20, "%s: below the headings", why)
		require.LessOrEqual(t, bottom, at.Y+height-8, "%s: above the bar", why)
	}
	s.shortcut(control(fyne.KeyEnd))
	seen("the last row")
	for range 30 {
		s.press(fyne.KeyUp)
		seen("going up")
	}
	for range 25 {
		s.press(fyne.KeyDown)
		seen("going down")
	}
	s.shortcut(control(fyne.KeyHome))
	seen("the first row")
}

func TestAllSelectedLeaveTheCursorInItsCell(t *testing.T) {
	r := newRig(t, "a", "b")
	r.Go(1, 0, false)
	r.SelectAll()
	row, column := r.Cursor()
	require.Equal(t, []int{1, 0}, []int{row, column})
	require.Equal(t, "1\ta\t\t1\n2\tb\t\t1", r.Copy(), "all columns are copied")
	r.Go(0, 1, false)
	require.Equal(t, "a", r.Copy())
}

func TestToTheSideTheRowsStaySelected(t *testing.T) {
	r := newRig(t, "a", "b", "c")
	r.Go(0, 0, false)
	r.Move(1, 0, true)
	r.Move(0, 2, false)
	require.Equal(t, "a b", r.chosen())
	require.NoError(t, r.Set(r.Target(), "mic"))
	require.Equal(t, []string{"mic", "mic", ""}, r.column(2))
	r.Move(-1, 0, false)
	require.Equal(t, "a", r.chosen(), "another row is selected alone")
}

func TestACellThatCannotBeReadGivesBackWhatItWas(t *testing.T) {
	s := newScreen(t, "a", "b")
	s.write("first")
	require.False(t, s.Keep(), "another table is not opened over it")
	require.NotNil(t, s.field(), "the keys are in the cell")
	s.press(fyne.KeyEscape)
	require.True(t, s.Keep())
	require.Equal(t, "No. of a reads 1 as before.", s.said)
	s.said = ""
	s.press(fyne.KeyF2, fyne.KeyEscape)
	require.Empty(t, s.said, "nothing was typed")
}

func TestEnterAfterTheFilterSelectsTheFirstHit(t *testing.T) {
	s := newScreen(t, "ab", "bb", "bc")
	s.press(fyne.KeyDown, fyne.KeyDown)
	s.FocusFilter()
	s.write("b")
	s.press(fyne.KeyReturn)
	require.Equal(t, [2]int{0, 0}, s.at())
	require.Len(t, s.desk.Selection(), 1)
	require.True(t, s.Sheet().Selected(0))
}

func TestANewRowBeginsWithItsName(t *testing.T) {
	s := newScreen(t, "a")
	s.press(fyne.KeyEnd, fyne.KeyInsert)
	require.Equal(t, [2]int{1, 1}, s.at())
}

func TestDeleteTakesMarkedRowsOut(t *testing.T) {
	s := newScreen(t, "a", "b", "c")
	s.press(fyne.KeyDown)
	s.Sheet().SelectRow()
	s.press(fyne.KeyDelete)
	require.Equal(t, []string{"a", "c"}, s.column(1))
	require.Equal(t, "b deleted. Ctrl Z brings it back.", s.said)
	asked := 0
	s.Grid.Remove = func() { asked++ }
	s.press(fyne.KeyRight, fyne.KeyDelete)
	require.Equal(t, []string{"a", ""}, s.column(1), "a cell that may be blank is blanked")
	require.Zero(t, asked)
}

func TestPastedRowsThatAreNotThereAreAdded(t *testing.T) {
	r := newRig(t, "a", "b")
	r.Go(1, 1, false)
	changed, err := r.Paste("x\tmic\ny\tDI\nz\t")
	require.NoError(t, err)
	require.Equal(t, 5, changed)
	require.Equal(t, "a x y z", r.names())
	require.Equal(t, []string{"", "mic", "DI", ""}, r.column(2))
	_, err = r.Paste("Input\tUse\tLetters\nx\tline\t1\nnew one\tmic\t9")
	require.NoError(t, err)
	require.Equal(t, "a x y z new one", r.names())
	require.Equal(t, []string{"", "line", "DI", "", "mic"}, r.column(2))
	require.Len(t, r.steps(), 2, "each is one step")
	r.SetFilter("x")
	r.Go(0, 1, false)
	_, err = r.Paste("p\nq")
	require.ErrorContains(t, err, "2 rows are pasted", "among filtered rows none is added")
}

func TestTextsShareTheRoomThatIsLeft(t *testing.T) {
	list := &table.List[int]{RefOf: func(int) plan.Ref { return plan.Ref{} }, Fields: []table.ColumnOf[int]{
		{Column: table.Column{Name: "grade", Kind: table.Ranked, Width: 80}},
		{Column: table.Column{Name: "what", Width: 300}},
		{Column: table.Column{Name: "cure", Width: 150}},
		{Column: table.Column{Name: "fix", Width: 60}},
	}}
	s := table.NewSheet(list, nil)
	require.Equal(t, []float32{80, 300, 150, 60}, s.Widths(0, 3))
	require.Equal(t, []float32{80, 400, 200, 60}, s.Widths(749, 3), "twice as long texts get twice as much")
	require.Equal(t, []float32{80, 201, 150, 60}, s.Widths(500, 3), "only long ones give way")
	require.Equal(t, []float32{80, 135, 150, 60}, s.Widths(200, 3), "not without end")
	s.SetWidth(1, 320)
	require.Equal(t, []float32{80, 320, 280, 60}, s.Widths(749, 3), "a width that was chosen stays")
}
