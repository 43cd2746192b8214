package text_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/demo"
	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/text"
)

// lending is a house in all states, with what a show and another have of it.
func lending(t *testing.T) (house.Stock, *plan.Plan) {
	t.Helper()
	var s house.Stock
	ids := plan.NewIDSource(1, 2)
	var many, h1, h3, h4 plan.ReelID
	stock, err := plan.Do(plan.New("House stock"), ids, func(e *plan.Edit) error {
		plan.Put(e, plan.CableKind{ID: "cat6a", Name: "Cat 6A", Media: "balanced-pair", Category: "cat6a", Weight: plan.Some(6)})
		full := e.AddCase(plan.Case{Name: "Case 9", Pieces: 10, Most: plan.Some(60)})
		e.AddCase(plan.Case{Name: "Case 10", Pieces: 10})
		many = e.AddReel(plan.Reel{Kind: "cat6a", Length: 50, Quantity: 12, Case: full})
		h1 = e.AddReel(plan.Reel{Kind: "cat6a", Length: 90, Tag: "H01", Weight: plan.Some(7)})
		e.AddReel(plan.Reel{Kind: "cat6a", Length: 90, Tag: "H02", Condition: plan.Faulty, Reason: "bent pin"})
		h3 = e.AddReel(plan.Reel{Kind: "cat6a", Length: 20, Tag: "H03"})
		h4 = e.AddReel(plan.Reel{Kind: "cat6a", Length: 20, Tag: "H04", TiedInto: "Trunk A"})
		e.AddReel(plan.Reel{Kind: "cat6a", Length: 20, Tag: "H05", State: plan.Missing, StateOn: "2031-06-02"})
		e.AddReel(plan.Reel{Kind: "cat6a", Length: 20, Tag: "H06", State: plan.InRepair})
		e.AddReel(plan.Reel{Kind: "cat6a", Length: 20, Tag: "H07", State: plan.WrittenOff, StateOn: "2030-12-24"})
		return nil
	})
	require.NoError(t, err)
	s.Plan = stock
	has := func(identity, name, until string, wants ...house.Want) *plan.Plan {
		p, err := plan.Do(plan.New(name), ids, func(e *plan.Edit) error {
			settings := e.Now().Settings
			settings.Identity, settings.BackOn = identity, until
			e.SetSettings(settings)
			return s.Take(e, wants...)
		})
		require.NoError(t, err)
		_, err = s.Settle(p, house.ShowOf(p, "", "2031-06-01"), ids)
		require.NoError(t, err)
		return p
	}
	has("two", "Other show", "2031-06-08", house.Want{Reel: many, Quantity: 2}, house.Want{Reel: h4, Quantity: 1})
	has("late", "Late show", "2031-06-03", house.Want{Reel: h3, Quantity: 1})
	return s, has("one", "Show", "", house.Want{Reel: many, Quantity: 4}, house.Want{Reel: h1, Quantity: 1})
}

func found(t *testing.T, s *house.Stock, p *plan.Plan) *plan.Plan {
	t.Helper()
	next, err := plan.Do(p, plan.NewIDSource(3, 4), func(e *plan.Edit) error {
		for row := range e.Now().Reels.All() {
			if row.Tag == "H01" {
				row.Length, row.Condition, row.Lacking, row.LackingWhy = 83.5, plan.Suspect, 1, "is out: 1 with Other show since 2031-06-01"
				plan.Put(e, row)
			}
		}
		for row := range s.Plan.Reels.All() {
			if row.Count() > 1 {
				return s.Take(e, house.Want{Reel: row.ID, Quantity: 1})
			}
		}
		return nil
	})
	require.NoError(t, err)
	return next
}

func TestTheHouseSaysWhereItsCablesAre(t *testing.T) {
	s, p := lending(t)
	p = found(t, &s, p)
	query := func(words, place string) text.HouseQuery {
		return text.HouseQuery{Words: words, Place: place, Day: "2031-06-05"}
	}
	var b strings.Builder
	fmt.Fprintln(&b, "The house")
	for _, line := range text.HouseLines(&s, p, query("", "")) {
		fmt.Fprintf(&b, "  %-44s %2d  %s\n", line.Words, line.Left, line.Note)
	}
	fmt.Fprintln(&b, "With Show")
	for _, line := range text.ShowLines(p, &s, query("", "")) {
		fmt.Fprintf(&b, "  %-44s %2d  %s\n", line.Words, line.Count, line.Note)
	}
	fmt.Fprintln(&b, "With Show, whose plan has none of it any more")
	empty := plan.New("Show")
	empty.Settings.Identity = "one"
	for _, line := range text.ShowLines(empty, &s, query("", "")) {
		fmt.Fprintf(&b, "  %-44s %2d  %s\n", line.Words, line.Count, line.Note)
	}
	fmt.Fprintln(&b, "Cases")
	for _, line := range text.CaseLines(s.Plan) {
		fmt.Fprintf(&b, "  %-44s %v  %s\n", line.Words, line.Over, line.Note)
	}
	golden(t, "house", b.String())

	for place, count := range map[string]int{
		"": 10, text.Everywhere: 10, "in the house": 2, "promised": 0, "with shows": 5, "overdue": 1, "missing": 1, "in repair": 1, "written off": 1,
	} {
		require.Len(t, text.HouseLines(&s, p, query("", place)), count, place)
	}
	require.Contains(t, text.HousePlaces(), "overdue")
	require.Len(t, text.HouseLines(&s, p, query("H0", "")), 7)
	require.Len(t, text.HouseLines(&s, p, query("other show", "")), 2, "a show is looked for by its name")
	require.Len(t, text.HouseLines(&s, p, query("2 x 50 m", "in the house")), 1)
	require.Len(t, text.ShowLines(p, &s, query("H01", "")), 1)
	require.Empty(t, text.OwnReels(p), "what the house lent is its own already")
	require.NotEmpty(t, text.OwnReels(demo.Weekender()))
}

func TestWhatAShowCannotHaveIsSaid(t *testing.T) {
	s, p := lending(t)
	require.Empty(t, text.HouseConflicts(&s, p, "2031-06-05", words.Units{}))
	p, err := plan.Do(p, plan.NewIDSource(9, 9), func(e *plan.Edit) error {
		for row := range s.Plan.Reels.All() {
			if row.Tag == "H03" || row.Tag == "H02" || row.Count() > 1 {
				row.HouseReel, row.Taking = string(row.ID), e.NewTaking()
				row.ID, row.Case = "", ""
				e.AddReel(row)
			}
		}
		return nil
	})
	require.NoError(t, err)
	said := text.HouseConflicts(&s, p, "2031-06-05", words.Units{})
	require.ElementsMatch(t, []string{
		"H03 is still with Late show, overdue since 3 June.",
		"H02 is faulty.",
		"Of 50 m Cat 6A this show has 6 of 12: 2 with Other show since 1 June, due 8 June.",
	}, said)
}
