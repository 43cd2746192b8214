package ui_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"

	"stageloom/model/desk"
	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/ui"
	"stageloom/ui/answers"
	"stageloom/ui/looptest"
)

// scan types into the field that has the keys when the dialog of the house is open, as a scanner does.
func (s *screen) scan(words string) {
	s.t.Helper()
	field := s.entryWith("scan or type")
	require.Equal(s.t, "*dialogs.Entry", s.focus())
	for _, sign := range words {
		s.window.Canvas().Focused().TypedRune(sign)
	}
	require.Equal(s.t, words, field.Text, "the field has the keys")
	s.press(fyne.KeyReturn)
	s.app.Turn()
}

// inHouse fills the house's stock: tags H101 to H104 of 90 m, six of 20 m.
func (s *screen) inHouse() house.Library {
	s.t.Helper()
	library := house.Open(s.folder)
	require.NoError(s.t, library.ChangeStock(func(e *plan.Edit) error {
		plan.Put(e, plan.CableKind{ID: "cat6a", Name: "Cat 6A", Media: "balanced-pair", Category: "cat6a"})
		box := e.AddCase(plan.Case{Name: "Case 90", Pieces: 4})
		for _, tag := range []string{"H101", "H102", "H103"} {
			e.AddReel(plan.Reel{Tag: tag, Kind: "cat6a", Length: 90, Case: box})
		}
		e.AddReel(plan.Reel{Tag: "H104", Kind: "cat6a", Length: 90, State: plan.Missing, StateOn: "2027-06-03"})
		e.AddReel(plan.Reel{Kind: "cat6a", Length: 20, Quantity: 6})
		return nil
	}))
	return library
}

func TestTheHouseLendsAndGetsBack(t *testing.T) {
	for _, look := range []string{"light", "dark"} {
		t.Run(look, func(t *testing.T) {
			s := open(t, look, demoFile(t))
			s.window.Resize(fyne.NewSize(1280, 800))
			s.choose("Stock", "House stock…")
			require.True(t, s.reads("The house's stock is kept beside all plans"))
			require.True(t, s.reads("The house has no cables yet."))
			s.press(fyne.KeyEscape)
			require.Zero(t, s.state().Overlays, "Escape closes it from the field")

			s.inHouse()
			s.choose("Stock", "House stock…")
			before := s.desk.Plan().Reels.Len()
			s.scan("h101")
			require.Equal(t, before+1, s.desk.Plan().Reels.Len())
			require.True(t, s.reads("Harrow Meadow Weekender has H101."))
			require.Contains(t, s.desk.NextUndo(), "from the house")
			s.scan("3 x 20 m")
			s.scan("Case 90")
			require.True(t, s.reads("has H102, H103: 2 cables. But: H101 is in this show already."))
			s.scan("H104")
			require.True(t, s.reads("H104 is missing since 3 June 2027."))
			s.picture("house-" + look)
			s.press(fyne.KeyF8)
			require.True(t, s.reads("Taken back: Harrow Meadow Weekender has H102, H103"))
			s.press(fyne.KeyF3)
			s.scan("all")
			require.Equal(t, before, s.desk.Plan().Reels.Len())
			require.True(t, s.reads("once the plan is saved"))
			lists := s.lists()
			require.Len(t, lists, 2, "a test of the real window reads the lists")
			require.True(t, strings.HasPrefix(lists["house"].Lines[0], "H10"))
			require.Empty(t, lists["show"].Lines)
			s.press(fyne.KeyF4)
			s.scan("H104")
			require.True(t, s.reads("Received H104, there again."))
			s.press(fyne.KeyEscape)
			require.Zero(t, s.state().Overlays)
		})
	}
}

// lists are the lists of the dialog on top by their names.
func (s *screen) lists() map[string]answers.List {
	s.t.Helper()
	s.app.Turn()
	all := map[string]answers.List{}
	for _, list := range answers.Lists(s.window.Canvas()) {
		all[list.Name] = list
	}
	return all
}

func TestTheDialogsOfTheHouseInPictures(t *testing.T) {
	for _, look := range []string{"light", "dark"} {
		t.Run(look, func(t *testing.T) {
			s := open(t, look, demoFile(t))
			s.window.Resize(fyne.NewSize(1280, 800))
			library := s.inHouse()
			s.choose("Stock", "House stock…")
			s.scan("H101, H102, 2 x 20 m")
			require.NoError(t, s.desk.Do("Shorten", func(e *plan.Edit) error {
				settings := e.Now().Settings
				settings.Identity = "weekender"
				e.SetSettings(settings)
				for row := range e.Now().Reels.All() {
					if row.Tag == "H101" {
						row.Length, row.Condition = 83.5, plan.Suspect
						plan.Put(e, row)
					}
				}
				return nil
			}))
			_, err := library.Save(s.desk.Plan(), house.ShowOf(s.desk.Plan(), s.desk.Path(), "2027-06-01"))
			require.NoError(t, err)
			s.press(fyne.KeyF3)
			s.tap("Give all back…")
			s.picture("house-back-" + look)
			require.True(t, s.check("H101: 90 m → 83.50 m, condition good → suspect").Checked)
			s.escape()
			s.tap("Cases…")
			s.picture("house-cases-" + look)
			s.escape()
			s.escape()
			require.Zero(t, s.state().Overlays)
		})
	}
}

// A damaged file of own kinds is told of whether a plan is open or not: its kinds are missed in both.
func TestOwnKindsThatCannotBeReadAreToldOfWithAPlanToo(t *testing.T) {
	for name, paths := range map[string][]string{"no plan": nil, "a plan": {demoFile(t)}} {
		t.Run(name, func(t *testing.T) {
			s := &screen{t: t, app: looptest.NewApp(t), desk: desk.New(plan.NewIDSource(1, 2)), folder: t.TempDir()}
			require.NoError(t, os.WriteFile(filepath.Join(s.folder, "kinds.stageloom-kinds"), []byte("{ not a plan"), 0o600))
			s.window, s.questions = ui.Open(s.app, s.desk, house.Open(s.folder), paths...)
			t.Cleanup(func() { s.desk.Close() })
			require.Contains(t, s.state().Notice, "kinds.stageloom-kinds")
		})
	}
}
