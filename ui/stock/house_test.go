package stock_test

import (
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/ui/answers"
	"stageloom/ui/dialogs"
	"stageloom/ui/dialogs/hosttest"
	"stageloom/ui/looptest"
	"stageloom/ui/stock"
	"stageloom/ui/text"
)

// lent is a window with the dialog of a house: R1 to R4 of 50 m, six of 10 m, R5 missing, R9 with another show.
type lent struct {
	t *testing.T
	*hosttest.Host
	dialogs *stock.Dialogs
	tick    chan time.Time
	app     *looptest.App
}

func openHouse(t *testing.T) *lent {
	t.Helper()
	app := looptest.NewApp(t)
	h, d := open(t)
	s := &lent{t, h, d, make(chan time.Time), app}
	d.Ticks = func() (<-chan time.Time, func()) { return s.tick, func() {} }
	s.house(func(e *plan.Edit) error {
		plan.Put(e, plan.CableKind{ID: "cat6a", Name: "Cat 6A", Media: "balanced-pair", Category: "cat6a"})
		for _, tag := range []string{"R1", "R2", "R3", "R4", "R9"} {
			e.AddReel(plan.Reel{Tag: tag, Kind: "cat6a", Length: 50})
		}
		e.AddReel(plan.Reel{Tag: "R5", Kind: "cat6a", Length: 50, State: plan.Missing, StateOn: "2027-06-03"})
		e.AddReel(plan.Reel{Kind: "cat6a", Length: 10, Quantity: 6})
		return nil
	})
	other, err := plan.Do(plan.New("Other show"), plan.NewIDSource(8, 8), func(e *plan.Edit) error {
		settings := e.Now().Settings
		settings.Identity = "other"
		e.SetSettings(settings)
		stock := s.stock()
		return stock.Take(e, house.Want{Reel: s.row("R9").ID, Quantity: 1})
	})
	require.NoError(t, err)
	_, err = d.Library().Save(other, house.ShowOf(other, "", "2027-06-01"))
	require.NoError(t, err)
	require.NoError(t, h.Desk().Do("Identity", func(e *plan.Edit) error {
		settings := e.Now().Settings
		settings.Identity = "this"
		e.SetSettings(settings)
		return nil
	}))
	d.ShowHouse()
	return s
}

func (s *lent) house(edit func(*plan.Edit) error) {
	s.t.Helper()
	require.NoError(s.t, s.dialogs.Library().ChangeStock(edit))
}

func (s *lent) stock() *house.Stock {
	s.t.Helper()
	stock, err := s.dialogs.Library().Stock()
	require.NoError(s.t, err)
	return &stock
}

// row is a row of the house by its tag.
func (s *lent) row(tag string) (found plan.Reel) {
	for row := range s.stock().Plan.Reels.All() {
		if row.Tag == tag {
			found = row
		}
	}
	return found
}

// mine are the tags, or the counts, that the plan has of the house.
func (s *lent) mine() (all []string) {
	for row := range s.Desk().Plan().Reels.All() {
		if row.Taking != "" {
			all = append(all, text.SomeWords(s.Desk().Plan(), row, row.Count(), s.Units()))
		}
	}
	return all
}

// save settles the plan with the house, as saving it does.
func (s *lent) save() {
	s.t.Helper()
	_, err := s.dialogs.Library().Save(s.Desk().Plan(), house.ShowOf(s.Desk().Plan(), "", "2027-06-02"))
	require.NoError(s.t, err)
}

// scan types into the field at the top as a scanner does.
func (s *lent) scan(words string) {
	s.t.Helper()
	field := s.scanner()
	require.True(s.t, field == s.Window().Canvas().Focused(), "the field has the keys before each scan")
	for _, sign := range words {
		field.TypedRune(sign)
	}
	field.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
}

// scanner is the field at the top.
func (s *lent) scanner() *dialogs.Entry {
	s.t.Helper()
	for _, object := range s.Parts() {
		if field, is := object.(*dialogs.Entry); is && strings.HasPrefix(field.PlaceHolder, "scan or type") {
			return field
		}
	}
	s.t.Fatal("no field for the scanner")
	return nil
}

// press presses a key where the focus is, as the window does where nothing has it.
func (s *lent) press(name fyne.KeyName) {
	switch focused := s.Window().Canvas().Focused(); {
	case focused != nil:
	case name == fyne.KeyReturn:
		s.Keys().Submit()
		return
	case name == fyne.KeyEscape:
		s.Keys().GiveUp()
		return
	default:
		s.Keys().Own(name)
		return
	}
	s.Window().Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: name})
}

func (s *lent) list(name string) *dialogs.ManyList {
	s.t.Helper()
	for _, object := range s.Parts() {
		if list, is := object.(*dialogs.ManyList); is && list.Name == name {
			return list
		}
	}
	s.t.Fatalf("no list %q", name)
	return nil
}

// selected selects lines of a list that begin so.
func (s *lent) selected(name string, begin ...string) {
	s.t.Helper()
	list := s.list(name)
	list.SelectNone()
	for i, line := range list.Lines() {
		for _, each := range begin {
			if strings.HasPrefix(line.Words, each) {
				if len(list.Selected()) == 0 {
					list.SelectLine(i)
					continue
				}
				list.KeyDown(&fyne.KeyEvent{Name: "LeftShift"})
				for list.Selected()[len(list.Selected())-1] < i {
					list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
				}
				list.KeyUp(&fyne.KeyEvent{Name: "LeftShift"})
			}
		}
	}
	require.NotEmpty(s.t, list.Selected(), begin)
}

// says is what the dialog told last, with its trouble.
func (s *lent) says(words string) {
	s.t.Helper()
	var all []string
	for _, object := range s.Parts() {
		if label, is := object.(*widget.Label); is {
			all = append(all, label.Text)
		}
	}
	require.Contains(s.t, strings.Join(all, "\n"), words)
}

func TestAScannerTakesGivesBackAndReceives(t *testing.T) {
	s := openHouse(t)
	s.scan("r1")
	s.says("New plan has R1.")
	s.scan("R2-R3")
	s.says("New plan has R2, R3: 2 cables.")
	s.scan("2 x 10 m")
	require.ElementsMatch(t, []string{"R1", "R2", "R3", "2 × 10 m Cat 6A"}, s.mine())
	require.Empty(t, s.scanner().Text)

	s.scan("R9")
	s.says("R9 is with Other show since 1 June 2027.")
	require.Equal(t, "R9", s.scanner().Text)
	require.Equal(t, "R9", s.scanner().SelectedText(), "the next scan replaces it")
	s.scan("R5")
	s.says("R5 is missing since 3 June 2027.")
	s.scan("R4, R9")
	s.says("New plan has R4. But: R9 is with Other show")

	s.press(fyne.KeyF3)
	s.scan("R4")
	s.says("The house has R4 back, once the plan is saved.")
	s.scan("R9")
	s.says("R9 is not with this show: with Other show since 1 June 2027.")
	s.press(fyne.KeyF4)
	s.scan("R9")
	s.says("Received R9, from Other show.")
	s.scan("R5")
	s.says("Received R5, there again.")
	require.Empty(t, s.row("R5").State)
	require.Empty(t, s.stock().With("other"))

	s.press(fyne.KeyF8)
	s.says("Taken back: Received R5")
	require.Equal(t, plan.Missing, s.row("R5").State)
	s.scanner().SetText("")
	s.scanner().TypedShortcut(&fyne.ShortcutUndo{})
	require.Len(t, s.stock().With("other"), 1)
	for range 5 {
		s.press(fyne.KeyF8)
	}
	require.Empty(t, s.mine())
	s.press(fyne.KeyF8)
	s.says("Nothing was done here yet")
	s.press(fyne.KeyEscape)
	require.Zero(t, s.Open())
}

func TestSeveralAreTakenAndGivenBackFromTheLists(t *testing.T) {
	s := openHouse(t)
	s.selected("house", "R1", "R2")
	s.Tap("Take for this show")
	require.ElementsMatch(t, []string{"R1", "R2"}, s.mine())
	name, lines, selected := s.list("house").Listed()
	require.Equal(t, "house", name)
	require.Len(t, selected, 2, "the selection does not jump")
	require.Contains(t, lines[selected[0]], "taken for this show, not saved yet")
	require.True(t, s.scanner() == s.Window().Canvas().Focused(), "it is ready for the next scan")
	s.Tap("Take for this show")
	s.says("is in the house, taken for this show, not saved yet")
	s.selected("house", "6 × 10 m")
	s.Tap("Take for this show")
	require.Contains(t, s.mine(), "1 × 10 m Cat 6A", "one is proposed")
	s.Tap("All   F6")
	s.Tap("Take for this show")
	require.Contains(t, s.mine(), "5 × 10 m Cat 6A")
	s.selected("house", "R9")
	s.Tap("Receive")
	s.says("Received R9, from Other show.")
	s.selected("show", "R1")
	s.list("show").TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	require.NotContains(t, s.mine(), "R1")

	var searches []*dialogs.SearchEntry
	for _, object := range s.Parts() {
		if field, is := object.(*dialogs.SearchEntry); is {
			searches = append(searches, field)
		}
	}
	require.Len(t, searches, 2)
	searches[0].SetText("zzz")
	s.says("Nothing here holds “zzz”.")
	searches[0].SetText("4 x 10 m")
	require.Len(t, s.list("house").Lines(), 1)
	searches[1].SetText("R2")
	require.Len(t, s.list("show").Lines(), 1)
	searches[0].SetText("")
	s.Lists()[0].SetSelected("missing")
	require.Len(t, s.list("house").Lines(), 1)
	s.Lists()[0].SetSelected("overdue")
	s.says("Nothing is overdue.")
	lists := answers.Lists(s.Window().Canvas())
	require.Len(t, lists, 2, "a test of the real window reads them")
	require.Len(t, lists[1].Lines, 1)
	searches[0].TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	require.Zero(t, s.Open())
}
