package panel_test

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/panel"
	"stageloom/ui/text"
)

func TestTheStockListFollowsThePlanAndTheUnits(t *testing.T) {
	start(t)
	p := marked(t)
	s := panel.NewStockList(p, func() {})
	w := show(t, s, 220, 600)
	require.Subset(t, drawnOf(s), []string{"2/3", "1 suspect"}, "three good or suspect ones of 50 m, one of them in a link")
	require.Contains(t, drawnOf(s), "4/6")
	s.Focus(w.Canvas())
	require.True(t, s.Focused(w.Canvas()))
	_, found := s.Selected()
	require.False(t, found)
	test.Tap(rowsOf(s, "stockRow")["50 m"].(fyne.Tappable))
	row, found := s.Selected()
	require.True(t, found)
	require.InDelta(t, 50, row.Length, 0)
	next, err := plan.Do(p, plan.NewIDSource(3, 3), func(e *plan.Edit) error {
		for reel := range e.Now().Reels.All() {
			if reel.Tag == "6A02" {
				e.SetSegments(e.Now().Links.At(0).ID, []plan.Segment{{Reel: reel.ID}})
			}
		}
		e.AddReel(plan.Reel{Tag: "ت-١ 🎸", Kind: "cat6", Length: 300})
		return nil
	})
	require.NoError(t, err)
	s.Set(next, words.Units{})
	row, found = s.Selected()
	require.True(t, found, "the row under the hand stays there")
	require.InDelta(t, 50, row.Length, 0)
	require.Contains(t, drawnOf(s), "6/6")
	s.Set(next, imperial)
	require.NotContains(t, labelsOf(s), "50 m")
	require.Contains(t, labelsOf(s), "164 ft", "50 / 0.3048 = 164.04")
	test.Type(w.Canvas().Focused(), "ت-١")
	require.Equal(t, []string{"Cat 6", "ت-١ 🎸"}, []string{s.Rows()[0].Head, s.Rows()[1].Name})
}

func TestASearchListsEachReelThatHasTheWords(t *testing.T) {
	start(t)
	p := marked(t)
	s := panel.NewStockList(p, func() {})
	w := show(t, s, 220, 600)
	for _, query := range []string{"6a", "case 3", "hire", "h 112", "50 m", "suspect", "none such"} {
		s.Focus(w.Canvas())
		test.Type(w.Canvas().Focused(), query)
		want := 0
		for reel := range p.Reels.All() {
			kind, _ := p.CableKinds.Get(plan.Key(reel.Kind))
			box, _ := p.Cases.Get(plan.Key(reel.Case))
			all := strings.ToLower(strings.Join([]string{reel.Tag, kind.Name, box.Name, reel.Owner, reel.Hire, reel.Condition, words.Units{}.Metres(reel.Length)}, " "))
			found := true
			for _, word := range strings.Fields(query) {
				found = found && strings.Contains(all, word)
			}
			if found {
				want++
			}
		}
		got := 0
		for _, row := range s.Rows() {
			if row.Head == "" {
				got++
			}
		}
		require.Equal(t, want, got, query)
		require.Equal(t, want == 0, strings.Contains(strings.Join(labelsOf(s), "\n"), "No reel has these words."), query)
		_, selected := s.Selected()
		require.Equal(t, want > 0, selected, query)
	}
}

func TestWhatCannotBeLaidIsNotHeldOutAndHeadsDoNothing(t *testing.T) {
	start(t)
	s := panel.NewStockList(marked(t), func() {})
	var said []string
	s.Lay = func(text.CableOffer) { said = append(said, "laid") }
	s.Carry = func(text.CableOffer, fyne.Position) { said = append(said, "carried") }
	s.Drop = func(text.CableOffer, fyne.Position) { said = append(said, "dropped") }
	s.None = func(row text.StockRow) { said = append(said, "none left of "+row.Name) }
	s.Menu = func(row text.StockRow, at fyne.Position) { said = append(said, "menu of "+row.Name) }
	w := show(t, s, 220, 600)
	rows := rowsOf(s, "stockRow")
	use := func(name string) []string {
		said = nil
		row := rows[name]
		require.NotNil(t, row, name)
		row.(fyne.SecondaryTappable).TappedSecondary(&fyne.PointEvent{})
		row.(fyne.Draggable).Dragged(&fyne.DragEvent{})
		row.(fyne.Draggable).DragEnd()
		test.Tap(row.(fyne.Tappable))
		require.True(t, s.Focused(w.Canvas()), "what is typed next goes to the list")
		pressOn(w.Canvas(), fyne.KeyReturn)
		return said
	}
	require.Equal(t, []string{"menu of 25 m", "carried", "dropped", "laid"}, use("25 m"))
	require.Equal(t, []string{"menu of Cat 6A 50 m", "none left of Cat 6A 50 m", "none left of Cat 6A 50 m"}, use("Cat 6A 50 m"))
	require.Empty(t, use("Cat 6A"), "a head")
	require.Empty(t, use("Faulty, kept out"))
	for _, label := range allOf[*widget.Label](rows["Cat 6A 50 m"]) {
		require.Equal(t, widget.LowImportance, label.Importance, "what is out of the show is greyed")
	}
	for _, label := range allOf[*widget.Label](rows["25 m"]) {
		require.Equal(t, widget.MediumImportance, label.Importance)
	}
}

func TestArrowsOfTheStockGoFromRowToRow(t *testing.T) {
	start(t)
	s := panel.NewStockList(marked(t), func() {})
	w := show(t, s, 220, 160)
	s.Focus(w.Canvas())
	var went []string
	for range 5 {
		pressOn(w.Canvas(), fyne.KeyDown)
		row, found := s.Selected()
		require.True(t, found)
		went = append(went, row.Name)
		drawn := rowsOf(s, "stockRow")[row.Name]
		require.NotNil(t, drawn, "%s has come into view", row.Name)
	}
	require.Equal(t, []string{"25 m", "90 m", "50 m", "300 m", "Cat 6A 50 m"}, went)
	pressOn(w.Canvas(), fyne.KeyDown, fyne.KeyUp)
	row, _ := s.Selected()
	require.Equal(t, "300 m", row.Name)
	var keys []fyne.KeyName
	s.Key = func(key fyne.KeyName) { keys = append(keys, key) }
	pressOn(w.Canvas(), fyne.KeyEscape, fyne.KeyF7)
	require.Equal(t, []fyne.KeyName{fyne.KeyF7}, keys)
}
