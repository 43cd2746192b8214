package table_test

import (
	"errors"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
	"stageloom/ui/settings"
	"stageloom/ui/table"
)

func TestRowsAreFilteredByEveryWordInAnyColumn(t *testing.T) {
	r := newRig(t, "Kick in", "Kick out", "Snare", "Lead vocal")
	for _, c := range []struct{ name, filter, want string }{
		{"nothing typed shows all", "", "Kick in Kick out Snare Lead vocal"},
		{"capitals don't matter", "KICK", "Kick in Kick out"},
		{"each word must stand somewhere", "kick out", "Kick out"},
		{"words may stand in different columns", "kick 1", "Kick in"},
		{"blanks around are nothing", "  snare ", "Snare"},
		{"what stands nowhere shows none", "tuba", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			r.SetFilter(c.filter)
			require.Equal(t, c.want, r.names())
			require.Equal(t, 4-r.Len(), r.Hidden())
		})
	}
}

func TestSortingGoesUpThenDownThenBackToTheOrderOfReading(t *testing.T) {
	r := newRig(t, "b10", "a2", "B9", "")
	r.SortBy(1)
	require.Equal(t, []string{"a2", "B9", "b10", ""}, r.column(1), "names sort as a reader sorts them, blanks last")
	r.SortBy(1)
	require.Equal(t, []string{"b10", "B9", "a2", ""}, r.column(1), "blanks stay last")
	column, down := r.Sorted()
	require.Equal(t, 1, column)
	require.True(t, down)
	r.SortBy(1)
	require.Equal(t, []string{"b10", "a2", "B9", ""}, r.column(1))
	r.SortBy(3)
	require.Equal(t, []string{"", "a2", "B9", "b10"}, r.column(1), "a number sorts by its value")
}

func TestTheCursorStaysWithItsRow(t *testing.T) {
	r := newRig(t, "c", "b", "a")
	r.Go(0, 1, false)
	r.SortBy(1)
	row, column := r.Cursor()
	require.Equal(t, []int{2, 1}, []int{row, column})
	require.Equal(t, "c", r.chosen())
	require.NoError(t, r.RemoveRows())
	row, _ = r.Cursor()
	require.Equal(t, 1, row, "where its row is gone, it stands on the last")
	require.Equal(t, "a b", r.names())
}

func TestRowsAreSelectedAsInASpreadsheet(t *testing.T) {
	r := newRig(t, "a", "b", "c", "d", "e")
	r.Go(1, 1, false)
	r.Move(2, 0, true)
	require.Equal(t, "b c d", r.chosen(), "Shift takes all from where the stretch began")
	r.Move(-3, 0, true)
	require.Equal(t, "a b", r.chosen(), "and turns round there")
	r.Toggle(4, 1)
	require.Equal(t, "a b e", r.chosen())
	r.Toggle(0, 1)
	require.Equal(t, "b e", r.chosen())
	r.SelectAll()
	require.Equal(t, "a b c d e", r.chosen())
	r.SetFilter("b")
	require.Equal(t, "b", r.chosen(), "what is not shown is not selected")
	r.SetFilter("")
	require.Equal(t, "b", r.chosen())
	r.Go(99, 99, false)
	row, column := r.Cursor()
	require.Equal(t, []int{4, 3}, []int{row, column}, "beyond the edge is the edge")
}

func TestThePlansSelectionComesToTheTable(t *testing.T) {
	r := newRig(t, "a", "b", "c")
	r.Go(0, 1, false)
	require.True(t, r.ShowSelection([]plan.Ref{r.Ref(2), r.Ref(1)}))
	row, column := r.Cursor()
	require.Equal(t, []int{1, 1}, []int{row, column})
	require.Equal(t, "b c", r.chosen())
	require.Equal(t, []plan.Ref{r.Ref(1), r.Ref(2)}, r.Shows())
	require.False(t, r.ShowSelection([]plan.Ref{r.Ref(1)}), "the cursor stands there already")
	require.False(t, r.ShowSelection(nil))
	require.Empty(t, r.Shows())
	require.Equal(t, []plan.Ref{r.Ref(1)}, r.Refs(), "an edit is about the cursor's row then")
}

func TestOneEntryGoesIntoAllSelectedRowsAsOneStep(t *testing.T) {
	r := newRig(t, "a", "b", "c", "d")
	r.Go(1, 2, false)
	r.Move(2, 0, true)
	require.NoError(t, r.Set(r.Target(), "DI"))
	require.Equal(t, []string{"", "DI", "DI", "DI"}, r.column(2))
	require.Equal(t, []string{"Use of 3 inputs"}, r.steps())
	require.True(t, r.desk.Undo())
	require.Equal(t, []string{"", "", "", ""}, r.column(2))
}

func TestAnEntryThatReadsAsItStandsIsNoStep(t *testing.T) {
	r := newRig(t, "a")
	r.Go(0, 1, false)
	require.NoError(t, r.Set(r.Target(), " a "))
	require.Empty(t, r.steps())
}

func TestAnEntryThatDoesNotFitChangesNothing(t *testing.T) {
	r := newRig(t, "a", "b")
	r.Go(0, 0, false)
	require.ErrorIs(t, r.Set(r.Target(), "first"), errNumber)
	r.SelectAll()
	r.Aim(0, 0)
	err := r.Set(r.Target(), "first")
	require.EqualError(t, err, "a, No.: it must be a whole number; b, No.: it must be a whole number")
	require.ErrorIs(t, err, errNumber)
	r.Go(0, 3, false)
	require.ErrorIs(t, r.Set(r.Target(), "7"), table.ErrReckoned)
	require.Empty(t, r.steps())
	target := r.Target()
	require.NoError(t, r.RemoveRows())
	require.ErrorIs(t, r.Set(target, "7"), plan.ErrRefused, "a row that is gone takes nothing")
}

func TestBlankingClearsTheMarkedBlock(t *testing.T) {
	r := newRig(t, "a", "b", "c")
	r.SelectColumn()
	r.Aim(0, 2)
	require.NoError(t, r.Set(r.Target(), "mic"))
	r.Go(0, 1, false)
	r.Move(1, 1, true)
	require.NoError(t, r.Clear())
	require.Equal(t, []string{"", "", "c"}, r.column(1))
	require.Equal(t, []string{"", "", "mic"}, r.column(2))
	require.Equal(t, "Edit 2 columns of 2 inputs", r.steps()[1])
	r.Go(0, 3, false)
	require.ErrorIs(t, r.Clear(), table.ErrReckoned)
}

func TestRowsComeAndGo(t *testing.T) {
	r := newRig(t)
	require.Equal(t, "Press Insert to begin.", r.Source().Empty())
	row, column := r.Cursor()
	require.Equal(t, []int{-1, -1}, []int{row, column})
	r.Move(1, 1, true)
	require.NoError(t, r.RemoveRows())
	require.NoError(t, r.Set(r.Target(), "x"))
	for range 2 {
		_, err := r.Add()
		require.NoError(t, err)
	}
	require.Equal(t, "new new", r.names())
	row, _ = r.Cursor()
	require.Equal(t, 1, row, "the cursor goes to the new row")
	names, _ := r.desk.History()
	require.Equal(t, []string{"New input", "New input"}, names[len(names)-2:])
	r.SelectAll()
	require.NoError(t, r.RemoveRows())
	require.Equal(t, "Delete 2 inputs", r.desk.NextUndo())
}

func TestColumnsAreChosenMovedAndKept(t *testing.T) {
	r := newRig(t, "a", "b")
	require.Equal(t, []string{"No.", "Input", "Use", "Letters"}, titles(r.Sheet), "what stands aside is not shown at first")
	r.ShowColumn("note", true)
	r.ShowColumn("use", false)
	r.ShiftColumn(0, 2)
	r.SetWidth(0, 222)
	r.SetWidth(1, 1)
	r.SortBy(0)
	r.SortBy(0)
	want := []string{"Input", "Letters", "No.", "Note"}
	require.Equal(t, want, titles(r.Sheet))
	again := table.NewSheet(inputsOf(r.desk.Plan()), r.desk.Do)
	again.SetLook(r.Look())
	require.Equal(t, want, titles(again))
	require.Equal(t, float32(222), again.Width(0))
	require.Equal(t, r.Width(1), again.Width(1), "no column is narrower than can be gripped")
	require.Equal(t, r.Look(), again.Look())
	column, down := again.Sorted()
	require.Equal(t, 0, column)
	require.True(t, down)
	again.SetLook(settings.TableLook{Columns: []settings.ColumnLook{{Name: "gone", Width: 50}, {Name: "use", Width: 70}}})
	require.Equal(t, []string{"No.", "Input", "Use", "Letters"}, titles(again), "columns that were not known then stand behind their neighbours")
	again.UsualColumns()
	require.Equal(t, []string{"No.", "Input", "Use", "Letters"}, titles(again))
	for _, column := range again.Columns() {
		again.ShowColumn(column.Name, false)
	}
	require.Len(t, again.Columns(), 1, "the last one stays")
}

func TestSheetErrorsKeepTheirCause(t *testing.T) {
	cause := errors.New("cause")
	err := error(&table.Misfits{All: []table.Misfit{{Row: "a", Column: "b", Why: cause}, {}, {}, {Why: cause}}})
	require.ErrorIs(t, err, cause)
	require.Contains(t, err.Error(), "and 1 more")
}

// titles are the headings of the columns that are shown.
func titles(s *table.Sheet) (titles []string) {
	for _, column := range s.Columns() {
		titles = append(titles, column.Title)
	}
	return titles
}

// withConsoles is the input list with a column for each console, in the place where the patch has them.
func withConsoles(p *plan.Plan, consoles ...string) table.Source {
	list := inputsOf(p).(*table.List[plan.Input])
	for i, name := range consoles {
		column := table.ColumnOf[plan.Input]{Column: table.Column{Name: "console " + name, Title: name, Width: 60}, Text: func(plan.Input) string { return name }}
		list.Fields = slices.Insert(list.Fields, 2+i, column)
	}
	return list
}

func TestColumnsOfConsolesKeepTheirPlaceWhileAnotherPlanIsOpen(t *testing.T) {
	p := deskWith(t, "a").Plan()
	titles := func(s *table.Sheet) (all []string) {
		for _, column := range s.Columns() {
			all = append(all, column.Title)
		}
		return all
	}
	s := table.NewSheet(withConsoles(p, "FOH", "Monitor"), nil)
	s.ShiftColumn(2, 1) // FOH behind Monitor
	s.SetWidth(2, 99)
	s.ShowColumn("letters", false)
	laid := titles(s)
	require.Equal(t, []string{"No.", "Input", "Monitor", "FOH", "Use"}, laid)
	look := s.Look()

	next := table.NewSheet(withConsoles(p), nil)
	next.SetLook(look)
	require.Equal(t, []string{"No.", "Input", "Use"}, titles(next), "a plan without consoles, as the window begins with")
	require.Equal(t, look.Columns, next.Look().Columns, "what is kept of it says the same")
	next.SetSource(withConsoles(p, "Broadcast", "Late"))
	require.Equal(t, []string{"No.", "Input", "Broadcast", "Late", "Use"}, titles(next), "consoles that are new stand behind the others")
	again := table.NewSheet(withConsoles(p), nil)
	again.SetLook(next.Look())
	again.SetSource(withConsoles(p, "FOH", "Monitor"))
	require.Equal(t, laid, titles(again))
	require.Equal(t, float32(99), again.Width(2))
	_, shown := again.AllColumns()
	require.Equal(t, []bool{true, true, true, true, true, false, false}, shown)
}
