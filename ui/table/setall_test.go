package table_test

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/stretchr/testify/require"

	"stageloom/model/desk"
	"stageloom/model/plan"
	"stageloom/ui/settings"
	"stageloom/ui/table"
)

// seated is the input list with one column more: the number is a seat, of which each holds one input, so that cells are
// changed together; columns comes and goes.
func seated(p *plan.Plan, columns ...string) table.Source {
	list := inputsOf(p).(*table.List[plan.Input])
	list.Fields[0].Set, list.Fields[0].InOrder, list.Fields[0].Draggable = nil, true, true
	list.Fields[0].SetAll = func(e *plan.Edit, cells []table.Typed, inOrder bool) []error {
		errs := make([]error, len(cells))
		for i, cell := range cells {
			number, err := strconv.Atoi(cell.Text)
			if inOrder {
				number += i
			}
			if errs[i] = err; err == nil {
				errs[i] = plan.Update(e, cell.Ref.Key, func(r *plan.Input) { r.Number = number })
			}
		}
		taken := map[int]bool{}
		for input := range e.Now().Inputs.All() {
			if taken[input.Number] {
				errs[0] = fmt.Errorf("seat %d is taken", input.Number)
			}
			taken[input.Number] = true
		}
		return errs
	}
	for _, name := range columns {
		list.Fields = slices.Insert(list.Fields, 2, table.ColumnOf[plan.Input]{
			Column: table.Column{Name: name, Title: name, Width: 60}, Text: func(plan.Input) string { return name },
		})
	}
	return list
}

func seats(t *testing.T, names ...string) *rig {
	r := &rig{t: t, desk: deskWith(t, names...)}
	r.Sheet = table.NewSheet(seated(r.desk.Plan()), r.desk.Do)
	r.desk.Listen(func(e desk.Event) { r.SetSource(seated(e.New)) })
	return r
}

func TestCellsThatAreChangedTogetherTakeEachOthersPlaces(t *testing.T) {
	r := seats(t, "a", "b", "c")
	changed, err := r.Paste("2\n1\n")
	require.NoError(t, err)
	require.Equal(t, 2, changed)
	require.Equal(t, "b a c", r.names(), "one by one the first would have been refused")
	_, err = r.Paste("3\n")
	require.ErrorContains(t, err, "seat 3 is taken")
	require.Equal(t, "b a c", r.names(), "nothing is changed by halves")
}

func TestWhatIsTypedIntoSeveralIsFilledInInOrder(t *testing.T) {
	r := seats(t, "a", "b", "c", "d")
	r.Go(1, 0, false)
	r.Go(3, 0, true)
	require.NoError(t, r.Set(r.Target(), "7"))
	require.Equal(t, []string{"1", "7", "8", "9"}, r.column(0))
	require.NoError(t, r.Set(r.Target(), "7"), "the first reads so already, and the others follow all the same")
	require.Len(t, r.steps(), 1)
	require.ErrorContains(t, r.Set(r.Target(), "x"), "invalid syntax")
}

func TestColumnsThatComeAndGoLeaveTheOthersAsTheyWereLaid(t *testing.T) {
	d := deskWith(t, "a", "b")
	s := table.NewSheet(seated(d.Plan(), "two", "one"), d.Do)
	require.Equal(t, []string{"No.", "Input", "one", "two", "Use", "Letters"}, titles(s))
	s.SetWidth(2, 111)
	s.ShowColumn("use", false)
	s.ShowColumn("two", false)
	s.Go(0, 3, false)
	require.Equal(t, "Letters", s.Columns()[3].Title)
	s.SetSource(seated(d.Plan(), "three"))
	require.Equal(t, []string{"No.", "Input", "three", "Letters"}, titles(s))
	_, column := s.Cursor()
	require.Equal(t, "Letters", s.Columns()[column].Title, "the cursor stays in its column")
	require.Contains(t, names(s.Look()), "one", "what is not there now is kept for when it comes")
	s.SetSource(seated(d.Plan(), "two", "one"))
	require.ElementsMatch(t, []string{"No.", "Input", "one", "Letters"}, titles(s))
	for i, c := range s.Columns() {
		if c.Title == "one" {
			require.Equal(t, float32(111), s.Width(i))
		}
	}
}

func names(look settings.TableLook) (all []string) {
	for _, column := range look.Columns {
		all = append(all, column.Name)
	}
	return all
}

func TestAFieldWhoseColumnGoesGoesWithIt(t *testing.T) {
	s := newScreen(t, "a", "b")
	s.press(fyne.KeyRight)
	s.write("x")
	list := inputsOf(s.desk.Plan()).(*table.List[plan.Input])
	list.Fields = slices.Delete(list.Fields, 1, 2)
	s.SetSource(list)
	require.Nil(t, s.field())
	require.True(t, s.Keep())
}

// dragged presses on a cell, whose row is selected, moves to another place and lets go.
func (s *screen) dragged(from, to fyne.Position) {
	s.t.Helper()
	target, local := s.object(from)
	press := &desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: local, AbsolutePosition: from}, Button: desktop.MouseButtonPrimary}
	target.MouseDown(press)
	by := to.Subtract(from)
	drag := &fyne.DragEvent{PointEvent: fyne.PointEvent{Position: local.Add(by), AbsolutePosition: to}}
	target.(fyne.Draggable).Dragged(drag)
	target.MouseUp(press)
	target.(fyne.Draggable).DragEnd()
}

func TestASelectedCellIsCarriedToAnotherRow(t *testing.T) {
	s := newScreen(t, "a", "b", "c")
	s.SetSource(seated(s.desk.Plan()))
	var said []string
	s.Moved = func(source table.Source, column string, from, to plan.Ref) {
		said = append(said, column)
		require.NotEqual(t, from, to)
	}
	s.DroppedBeside = func(_ table.Source, refs []plan.Ref, at fyne.Position) {
		said = append(said, fmt.Sprint(len(refs), " out"))
	}
	const top, pitch = 65, 25
	s.press(fyne.KeyDown, fyne.KeyUp)
	s.dragged(fyne.NewPos(20, top), fyne.NewPos(20, top+2*pitch))
	require.Equal(t, []string{"number"}, said)
	s.press(fyne.KeyDown)
	s.dragged(fyne.NewPos(20, top+pitch), fyne.NewPos(24, top+pitch))
	require.Equal(t, []string{"number"}, said, "on its own row nothing is carried")
	s.press(fyne.KeyDown)
	s.dragged(fyne.NewPos(20, top+2*pitch), fyne.NewPos(20, 9000))
	require.Equal(t, []string{"number", "1 out"}, said)
	require.Empty(t, s.Trouble())
}

var errSeat = errors.New("no seat")

func TestOneCellOfAColumnThatIsChangedTogether(t *testing.T) {
	list := &table.List[plan.Input]{Fields: []table.ColumnOf[plan.Input]{{
		SetAll: func(_ *plan.Edit, cells []table.Typed, _ bool) []error {
			if cells[0].Text == "" {
				return []error{errSeat}
			}
			return []error{nil}
		},
	}}}
	require.NoError(t, list.Setter(0)(nil, plan.Ref{}, "1"))
	require.ErrorIs(t, list.Setter(0)(nil, plan.Ref{}, ""), errSeat)
}
