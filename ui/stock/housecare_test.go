package stock_test

import (
	"slices"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
	"stageloom/ui/dialogs"
	"stageloom/ui/text"
)

func (s *lent) field(label, words string) {
	s.t.Helper()
	s.Item(label).(*dialogs.Entry).SetText(words)
}

func TestStatesAreSaidWithTheirDayAndWords(t *testing.T) {
	s := openHouse(t)
	s.selected("house", "R1")
	s.Tap("State…  F9")
	s.field("Since", "yesterday")
	s.Tap("Keep")
	require.True(t, s.Reads("Since: write year-month-day"))
	s.field("Since", "2027-06-19")
	s.Item("It is").(*dialogs.Chooser).SetSelected("in repair")
	s.field("What happened", "plug crushed")
	s.field("Said by", "bench")
	s.press(fyne.KeyReturn)
	require.Equal(t, 1, s.Open())
	require.Equal(t, plan.InRepair, s.row("R1").State)
	require.Equal(t, "2027-06-19", s.row("R1").StateOn)
	lines := s.stock().Plan.History(s.row("R1").ID)
	require.Len(t, lines, 1)
	require.Contains(t, lines[0].Work, "plug crushed")

	s.selected("house", "R9")
	s.Tap("State…  F9")
	s.Item("It is").(*dialogs.Chooser).SetSelected("written off")
	s.Tap("Keep")
	require.True(t, s.Reads("with Other show"), "what is with a show is not written off")
	s.Item("It is").(*dialogs.Chooser).SetSelected("missing")
	s.Tap("Keep")
	require.Equal(t, plan.Missing, s.row("R9").State)
	require.Empty(t, s.stock().With("other"))

	s.selected("house", "R5")
	s.Tap("State…  F9")
	s.Tap("Keep")
	require.Empty(t, s.row("R5").State, "there again is proposed for what is missing")
	s.selected("house", "6 × 10 m")
	s.Tap("State…  F9")
	s.Tap("Keep")
	s.says("1 × 10 m Cat 6A: missing.")
	require.True(t, slices.ContainsFunc(text.HouseLines(s.stock(), s.Desk().Plan(), text.HouseQuery{Place: "missing"}), func(line text.HouseLine) bool {
		return line.Reel.Tag == "" && line.Quantity == 1
	}), "one of several")
	s.press(fyne.KeyF8)
	s.press(fyne.KeyF8)
	require.Equal(t, plan.Missing, s.row("R5").State)

	s.selected("house", "R1")
	s.Tap("Edit…  F10")
	s.field("Work done today", "new plug")
	s.Tap("Keep")
	require.Len(t, s.stock().Plan.History(s.row("R1").ID), 2, "the line that was there is kept")
	s.press(fyne.KeyEscape)
	require.Zero(t, s.Open(), "Escape closes the dialog below one that was kept")
}

func TestPiecesAreTiedAndTakenApart(t *testing.T) {
	s := openHouse(t)
	s.selected("house", "R9")
	s.Tap("Tie…")
	s.says("with Other show")
	s.selected("house", "R1")
	s.Tap("Tie…")
	s.says("Select in the list of the house several")
	s.selected("house", "R1", "R2")
	s.Tap("Tie…")
	s.field("One piece named", "Trunk A")
	s.Tap("Keep")
	require.Equal(t, "Trunk A", s.row("R2").TiedInto)
	s.scan("R1")
	require.ElementsMatch(t, []string{"R1", "R2"}, s.mine(), "the piece is taken whole")
	s.press(fyne.KeyF8)
	s.scan("trunk a")
	require.Len(t, s.mine(), 2)
	s.press(fyne.KeyF8)
	s.selected("house", "R2")
	s.Tap("Tie…")
	s.field("One piece named", "")
	s.Tap("Keep")
	require.Empty(t, s.row("R1").TiedInto)
	s.press(fyne.KeyF8)
	require.Equal(t, "Trunk A", s.row("R1").TiedInto)
	s.selected("house", "6 × 10 m")
	s.Tap("State…  F9")
	s.press(fyne.KeyEscape)
	require.Equal(t, 1, s.Open())
}

func TestCasesAreNamedAndSayWhatTheyTake(t *testing.T) {
	s := openHouse(t)
	s.Tap("Cases…")
	require.True(t, s.Reads("The house has no cases yet."))
	s.Tap("Keep")
	require.True(t, s.Reads("Write what is written on the case."))
	s.field("Case", "Case 4")
	s.field("Takes, pieces", "many")
	s.Tap("Keep")
	require.True(t, s.Reads("akes, pieces"), "it says which field cannot be read")
	require.Zero(t, s.stock().Plan.Cases.Len())
	s.field("Takes, pieces", "2")
	s.field("Takes, kg", "25")
	s.Tap("Keep")
	require.Equal(t, 1, s.stock().Plan.Cases.Len())
	s.Tap("New case")
	s.field("Case", "case 4")
	s.Tap("Keep")
	require.True(t, s.Reads("nother case is called Case 4"))
	s.Tap("Close")
	s.house(func(e *plan.Edit) error {
		for box := range e.Now().Cases.All() {
			for row := range e.Now().Reels.All() {
				if row.Tag != "" {
					row.Case = box.ID
					plan.Put(e, row)
				}
			}
		}
		return nil
	})
	s.tickOnce()
	s.says("The house's stock was changed elsewhere")
	s.Tap("Cases…")
	require.Contains(t, s.list("cases").Lines()[0].Note, "6 of 2 pieces")
	require.Contains(t, s.list("cases").Lines()[0].Note, "over-full")
	s.list("cases").SelectLine(0)
	require.Equal(t, "2", s.Item("Takes, pieces").(*dialogs.Entry).Text)
	s.field("Case", "Case 40")
	s.Tap("Keep")
	for box := range s.stock().Plan.Cases.All() {
		require.Equal(t, "Case 40", box.Name)
		require.InDelta(t, 25, box.Most.Value, 0)
	}
	s.press(fyne.KeyEscape)
	require.Equal(t, 1, s.Open())
}

// tickOnce lets the dialog look once whether the house changed.
func (s *lent) tickOnce() {
	s.tick <- time.Time{}
	s.tick <- time.Time{} // the first has been handed over when the second is taken
	s.app.Turn()
}

func TestTheDaysOfAShowAreKeptAndConflictsCounted(t *testing.T) {
	s := openHouse(t)
	days := func() (fields []*dialogs.Entry) {
		for _, object := range s.Parts() {
			if field, is := object.(*dialogs.Entry); is && (field.PlaceHolder == "now" || field.PlaceHolder == "when given back") {
				fields = append(fields, field)
			}
		}
		return fields
	}
	require.Len(t, days(), 2)
	enter := func(at int, day string) {
		days()[at].SetText(day)
		days()[at].TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	}
	enter(0, "soon")
	s.says("soon is no day")
	enter(0, "2027-6-3")
	require.Equal(t, "2027-06-03", s.Desk().Plan().Settings.OutOn)
	enter(1, "2027-06-01")
	s.says("The stock would be back on 2027-06-01, before it leaves")
	enter(1, "2027-06-09")
	require.Equal(t, "2027-06-09", s.Desk().Plan().Settings.BackOn)
	s.Tap("No conflicts")
	s.says("The house has all that this show takes")
	require.NoError(t, s.Desk().Do("Another's", func(e *plan.Edit) error {
		plan.Put(e, plan.CableKind{ID: "cat6a", Name: "Cat 6A", Media: "balanced-pair", Category: "cat6a"})
		e.AddReel(plan.Reel{Tag: "R9", Kind: "cat6a", Length: 50, Taking: e.NewTaking(), HouseReel: string(s.row("R9").ID)})
		return nil
	}))
	s.scan("R1")
	s.Tap("1 conflict…")
	require.Contains(t, s.list("conflicts").Lines()[0].Words, "R9 is still with Other show")
	s.press(fyne.KeyEscape)
	require.Equal(t, 1, s.Open())
}

func TestARowOfThePlanAsksTheHouseAgainAndTakesOverWhatItSays(t *testing.T) {
	s := openHouse(t)
	s.scan("R1, R2")
	s.save()
	s.house(func(e *plan.Edit) error {
		return plan.Update(e, plan.Key(s.row("R1").ID), func(r *plan.Reel) { r.Length = 47 })
	})
	s.selected("show", "R1")
	s.Tap("As the house says")
	s.tickOnce()
	s.selected("show", "R1")
	s.Tap("As the house says")
	before := map[string]plan.Reel{}
	for row := range s.Desk().Plan().Reels.All() {
		before[row.Tag] = row
	}
	require.InDelta(t, 47, before["R1"].Length, 0)
	s.selected("show", "R2")
	s.Tap("Ask the house again")
	for row := range s.Desk().Plan().Reels.All() {
		if row.Tag == "R2" {
			require.NotEqual(t, before["R2"].Taking, row.Taking)
		}
	}
	s.press(fyne.KeyEscape)
	items := s.dialogs.ReelItems(text.StockRow{Reels: []plan.ReelID{before["R1"].ID}})
	var labels []string
	for _, item := range items {
		labels = append(labels, item.Label)
	}
	require.Contains(t, labels, "Ask the house again")
	items[slices.Index(labels, "As the house says")].Action()
	require.Equal(t, "It is as the house says now.", s.Said)
	items[slices.Index(labels, "Ask the house again")].Action()
	require.Contains(t, s.Said, "asked again")
}

func TestOwnReelsBecomeTheHouses(t *testing.T) {
	s := openHouse(t)
	s.Tap("Make own reels the house's")
	s.says("the house's already")
	require.NoError(t, s.Desk().Do("Own", func(e *plan.Edit) error {
		plan.Put(e, plan.CableKind{ID: "cat6a", Name: "Cat 6A", Media: "balanced-pair", Category: "cat6a"})
		e.AddReel(plan.Reel{Tag: "OWN", Kind: "cat6a", Length: 25})
		return nil
	}))
	s.Tap("Make own reels the house's")
	s.says("1 row of this plan are part of the house's stock now")
	require.Equal(t, "OWN", s.row("OWN").Tag)
	require.Len(t, s.stock().With("this"), 1)
	s.press(fyne.KeyF8)
	require.Empty(t, s.row("OWN").Tag)
	require.Empty(t, s.mine())
}

func TestWhatIsTypedIsWhatAKeyIsFor(t *testing.T) {
	s := openHouse(t)
	s.selected("house", "R5")
	s.scanner().SetText("R9")
	s.press(fyne.KeyF9)
	s.Item("It is").(*dialogs.Chooser).SetSelected("missing")
	s.Tap("Keep")
	require.Equal(t, plan.Missing, s.row("R9").State, "what is typed, not what is selected")

	s.scanner().SetText("R777")
	s.press(fyne.KeyF10)
	require.Equal(t, 1, s.Open(), "there is no such tag")
	s.scan("R1")
	s.scanner().SetText("R1")
	s.press(fyne.KeyF11)
	require.Equal(t, 2, s.Open())
	s.Item("Condition").(*dialogs.Chooser).SetSelected(plan.Suspect)
	s.Tap("Give back")
	for back := range s.Desk().Plan().GivenBack.All() {
		require.Equal(t, plan.Suspect, back.Condition)
	}
	require.Equal(t, 1, s.Desk().Plan().GivenBack.Len())
}
