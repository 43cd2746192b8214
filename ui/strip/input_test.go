package strip_test

import (
	"fmt"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"stageloom/model/budget"
	"stageloom/ui/look"
	"stageloom/ui/strip"
)

// threeCables is a run of cables of 10, 20 and 30 m.
func threeCables() strip.Run {
	run := strip.Run{Title: "Run of L01", Length: 60}
	start := 0.0
	for i, length := range []float64{10, 20, 30} {
		if i > 0 {
			run.Parts = append(run.Parts, strip.Part{What: budget.Coupler, Order: i + 1, Start: start})
		}
		run.Parts = append(run.Parts, strip.Part{
			What: budget.Cable, Order: i + 1, Start: start, Length: length, Labels: []string{fmt.Sprint(length)}, Cuttable: true,
		})
		start += length
	}
	return run
}

// held is a strip of three cables in a window, with what it asks for written down.
func held(t *testing.T) (*strip.Strip, *[]string) {
	t.Helper()
	test.NewTempApp(t).Settings().SetTheme(look.NewTheme(look.PaletteNamed("light")))
	s := strip.New(threeCables())
	asked := &[]string{}
	ask := func(format string, words ...any) { *asked = append(*asked, fmt.Sprintf(format, words...)) }
	s.Do = func(c strip.Change) { ask("do %s", told(c)) }
	s.Try = func(c strip.Change) string {
		ask("try %s", told(c))
		return "L01: +2 dB"
	}
	s.Menu = func(order int, _ fyne.Position) { ask("menu of %d", order) }
	s.Couplers = func(order int, _ fyne.Position) { ask("couplers of %d", order) }
	s.Choose = func(c strip.Change) { ask("choose for %s", told(c)) }
	s.Open = func(c strip.Change) { ask("open for %s", told(c)) }
	s.Leave = func() { ask("leave") }
	w := test.NewTempWindow(t, s)
	w.SetPadded(false)
	w.Resize(fyne.NewSize(800, 200))
	return s, asked
}

// told is a change in few words.
func told(c strip.Change) string {
	switch c.Doing {
	case strip.Nothing:
		return "nothing"
	case strip.Cut:
		return fmt.Sprintf("cut %d at %g", c.Order, c.Metres)
	case strip.Insert:
		return fmt.Sprintf("insert at %d", c.Place)
	case strip.Move:
		return fmt.Sprintf("move %d to %d", c.Order, c.Place)
	}
	return fmt.Sprintf("%s %d", map[strip.Doing]string{strip.Remove: "remove", strip.Join: "join", strip.Replace: "replace"}[c.Doing], c.Order)
}

func event(x, y float32) fyne.PointEvent { return fyne.PointEvent{Position: fyne.NewPos(x, y)} }

// over is a place on the cable of an order.
func over(s *strip.Strip, order int) (x, y float32) {
	size := s.Size()
	layout := strip.LayOut(s.Run(), float64(size.Width), float64(size.Height))
	cell := layout.Cells[2*(order-1)]
	return float32(cell.Centre().X), float32(cell.Centre().Y)
}

func press(s *strip.Strip, x, y float32) {
	s.MouseDown(&desktop.MouseEvent{PointEvent: event(x, y), Button: desktop.MouseButtonPrimary})
}

func click(s *strip.Strip, x, y float32) {
	press(s, x, y)
	s.MouseUp(&desktop.MouseEvent{PointEvent: event(x, y), Button: desktop.MouseButtonPrimary})
}

func drag(s *strip.Strip, x, y, toX float32) {
	press(s, x, y)
	s.Dragged(&fyne.DragEvent{PointEvent: event((x+toX)/2, y)})
	s.Dragged(&fyne.DragEvent{PointEvent: event(toX, y)})
	s.MouseUp(&desktop.MouseEvent{PointEvent: event(toX, y), Button: desktop.MouseButtonPrimary})
	s.DragEnd()
}

func TestACableIsDraggedToAnotherPlace(t *testing.T) {
	s, asked := held(t)
	x, y := over(s, 1)
	third, _ := over(s, 3)
	drag(s, x, y, third+60)
	require.Equal(t, []string{"try move 1 to 1", "try move 1 to 2", "try nothing", "do move 1 to 2"}, *asked, "each place is told before the drop")
	*asked = nil
	x, y = over(s, 2)
	drag(s, x, y, x+5)
	require.Empty(t, *asked, "dropped where it was, it stays")
}

func TestEscapeGivesADragOfACableUp(t *testing.T) {
	s, asked := held(t)
	x, y := over(s, 1)
	press(s, x, y)
	s.Dragged(&fyne.DragEvent{PointEvent: event(x+300, y)})
	s.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	s.MouseUp(&desktop.MouseEvent{PointEvent: event(x+300, y)})
	s.DragEnd()
	require.Equal(t, []string{"try move 1 to 1", "try nothing"}, *asked)
	s.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	require.Equal(t, "leave", (*asked)[2])
}

func TestTheEndOfACableIsDraggedOntoTheNext(t *testing.T) {
	s, asked := held(t)
	size := s.Size()
	cells := strip.LayOut(s.Run(), float64(size.Width), float64(size.Height)).Cells
	_, y := over(s, 2)
	second, _ := over(s, 2)
	drag(s, float32(cells[0].Right)-9, y, second)
	require.Contains(t, *asked, "do join 1")
	*asked = nil
	drag(s, float32(cells[4].Left)+9, y, second)
	require.Contains(t, *asked, "do join 2")
	*asked = nil
	drag(s, float32(cells[0].Right)-9, y, float32(cells[0].Left)+5)
	require.Empty(t, *asked, "dropped on itself, it joins nothing")
}

func TestACableIsCutWhereItsMarkIsDragged(t *testing.T) {
	s, asked := held(t)
	x, y := over(s, 3)
	press(s, x, y) // chooses it, which shows the mark over its middle
	s.MouseUp(&desktop.MouseEvent{})
	size := s.Size()
	cell := strip.LayOut(s.Run(), float64(size.Width), float64(size.Height)).Cells[4]
	top, fifth := float32(cell.Top)-5, float32(cell.Left+cell.Width()/5)
	drag(s, x, top, fifth)
	require.Equal(t, "do cut 3 at 6", (*asked)[len(*asked)-1], "a fifth of 30 m")
	press(s, x, top)
	s.MouseUp(&desktop.MouseEvent{})
	require.Equal(t, "do cut 3 at 15", (*asked)[len(*asked)-1], "a click cuts it where the mark stands")
}

func TestAClickOnACouplerAsksWhichOne(t *testing.T) {
	s, asked := held(t)
	size := s.Size()
	coupler := strip.LayOut(s.Run(), float64(size.Width), float64(size.Height)).Cells[3].Centre()
	press(s, float32(coupler.X), float32(coupler.Y))
	s.MouseUp(&desktop.MouseEvent{})
	require.Equal(t, []string{"couplers of 3"}, *asked)
}

func TestKeysGoAlongTheCablesAndMoveThem(t *testing.T) {
	s, asked := held(t)
	s.FocusGained()
	for _, name := range []fyne.KeyName{fyne.KeyRight, fyne.KeyUp, fyne.KeyReturn, fyne.KeyDelete} {
		s.TypedKey(&fyne.KeyEvent{Name: name})
	}
	require.Equal(t, []string{"do move 2 to 0", "menu of 1", "do remove 1"}, *asked, "the cable that was moved stays chosen")
	s.FocusLost()
}

func TestLettersDoWhatTheMenuOfACableDoes(t *testing.T) {
	s, asked := held(t)
	s.FocusGained()
	s.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	for _, sign := range "jcrba" {
		s.TypedRune(sign)
	}
	require.Equal(t, []string{"do join 2", "couplers of 2", "choose for replace 2", "choose for insert at 1", "choose for insert at 2"}, *asked)
	*asked = nil
	s.TypedRune('s')
	for _, name := range []fyne.KeyName{fyne.KeyLeft, fyne.KeyLeft, fyne.KeyRight, fyne.KeyReturn} {
		s.TypedKey(&fyne.KeyEvent{Name: name})
	}
	require.Equal(t, "try cut 2 at 10", (*asked)[0])
	require.Equal(t, "do cut 2 at 9", (*asked)[len(*asked)-1])
	*asked = nil
	s.TypedRune('s')
	s.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	s.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	require.Equal(t, []string{"try cut 2 at 10", "try nothing"}, *asked, "given up, the arrows go along the cables again")
}

func TestACableFromAListIsCarriedOverTheStrip(t *testing.T) {
	s, asked := held(t)
	x, y := over(s, 2)
	require.Equal(t, "replace 2", told(s.Carry(fyne.NewPos(x, y))))
	left := float32(strip.LayOut(s.Run(), 800, 200).Cells[2].Left)
	require.Equal(t, "insert at 1", told(s.Carry(fyne.NewPos(left+3, y))))
	require.Equal(t, "insert at 3", told(s.Carry(fyne.NewPos(790, y))))
	require.Equal(t, "nothing", told(s.Carry(fyne.NewPos(x, -40))), "beside the strip it has no place")
	s.Tell("L01: +2 dB")
	s.Dropped()
	require.NotContains(t, *asked, "do replace 2", "the window lays what it knows")
}

func TestARightClickAsksForTheMenuOfACable(t *testing.T) {
	s, asked := held(t)
	x, y := over(s, 3)
	s.MouseDown(&desktop.MouseEvent{PointEvent: event(x, y), Button: desktop.MouseButtonSecondary})
	require.Equal(t, []string{"menu of 3"}, *asked)
	s.MouseDown(&desktop.MouseEvent{PointEvent: event(2, 2), Button: desktop.MouseButtonSecondary})
	require.Len(t, *asked, 1, "beside the cables there is no menu")
}

func TestADoubleClickOnACableAsksForAnother(t *testing.T) {
	now := time.Date(2026, 6, 1, 12, 0, 0, 0, time.UTC)
	for name, each := range map[string]struct {
		do   func(*strip.Strip)
		want []string
	}{
		"two clicks on one cable": {
			func(s *strip.Strip) {
				x, y := over(s, 2)
				click(s, x, y)
				click(s, x+2, y)
			},
			[]string{"open for replace 2"},
		},
		"a third one is a first again": {
			func(s *strip.Strip) {
				x, y := over(s, 2)
				click(s, x, y)
				click(s, x, y)
				click(s, x, y)
			},
			[]string{"open for replace 2"},
		},
		"two slow ones do nothing": {
			func(s *strip.Strip) {
				x, y := over(s, 2)
				click(s, x, y)
				now = now.Add(time.Second)
				click(s, x, y)
			},
			[]string{},
		},
		"nor do clicks on two cables": {
			func(s *strip.Strip) {
				x, y := over(s, 2)
				click(s, x, y)
				x, y = over(s, 3)
				click(s, x, y)
			},
			[]string{},
		},
		"nor do two beside the cables": {
			func(s *strip.Strip) {
				click(s, 5, 5)
				click(s, 5, 5)
			},
			[]string{},
		},
	} {
		t.Run(name, func(t *testing.T) {
			s, asked := held(t)
			s.Now = func() time.Time { return now }
			*asked = []string{}
			each.do(s)
			require.Equal(t, each.want, *asked)
		})
	}
}
