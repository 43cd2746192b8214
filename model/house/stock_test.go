package house_test

import (
	"path/filepath"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/house"
	"stageloom/model/plan"
)

const today = "2031-06-18"

var cat6a = plan.CableKind{ID: "cat6a", Name: "Cat 6A", Media: "balanced-pair", Category: "cat6a"}

// tester is a test or a property test.
type tester interface {
	require.TestingT
	Helper()
}

// stocked is a library with a tagged reel and a quantity of twelve in one case.
func stocked(t tester, folder string) (l house.Library, tagged, twelve plan.ReelID) {
	t.Helper()
	l = house.Open(folder)
	require.NoError(t, l.ChangeStock(func(e *plan.Edit) error {
		plan.Put(e, cat6a)
		box := e.AddCase(plan.Case{Name: "Case 1"})
		tagged = e.AddReel(plan.Reel{Tag: "A01", Kind: "cat6a", Length: 100, Case: box})
		twelve = e.AddReel(plan.Reel{Kind: "cat6a", Length: 50, Quantity: 12, Case: box})
		return nil
	}))
	return l, tagged, twelve
}

func stockOf(t tester, l house.Library) house.Stock {
	t.Helper()
	s, err := l.Stock()
	require.NoError(t, err)
	return s
}

func row(t tester, p *plan.Plan, id plan.ReelID) plan.Reel {
	t.Helper()
	reel, found := p.Reels.Get(plan.Key(id))
	require.True(t, found)
	return reel
}

func show(t tester, p *plan.Plan, edit func(*plan.Edit) error) *plan.Plan {
	t.Helper()
	next, err := plan.Do(p, plan.NewIDSource(7, 8), edit)
	require.NoError(t, err)
	return next
}

// meadow and harbour are two shows.
var (
	meadow  = house.Show{ID: "meadow", Name: "Meadow", File: "/shows/meadow.stageloom", Saved: today}
	harbour = house.Show{ID: "harbour", Name: "Harbour", File: "/shows/harbour.stageloom", Saved: today}
)

// took is a plan that took rows of the house's stock and was saved.
func took(t tester, l house.Library, p *plan.Plan, as house.Show, wants ...house.Want) *plan.Plan {
	t.Helper()
	s := stockOf(t, l)
	p = show(t, p, func(e *plan.Edit) error {
		settings := e.Now().Settings
		settings.Identity, settings.Name, settings.OutOn, settings.BackOn = as.ID, as.Name, as.From, as.Until
		e.SetSettings(settings)
		return s.Take(e, wants...)
	})
	done := saved(t, l, p, as)
	require.Empty(t, done.Refused)
	return p
}

func saved(t tester, l house.Library, p *plan.Plan, as house.Show) house.Settled {
	t.Helper()
	done, err := l.Save(p, as)
	require.NoError(t, err)
	return done
}

// ofHouse are the rows of a plan by the row of the house's stock that they are of.
func ofHouse(p *plan.Plan, id plan.ReelID) (rows []plan.Reel) {
	for reel := range p.Reels.All() {
		if reel.HouseReel == string(id) {
			rows = append(rows, reel)
		}
	}
	return rows
}

func TestATakingBecomesTrueWithTheSaveAndIsUndoneWithIt(t *testing.T) {
	l, tagged, twelve := stocked(t, filepath.Join(t.TempDir(), "not", "there"))
	s := stockOf(t, l)
	before := plan.New("Meadow")
	p := show(t, before, func(e *plan.Edit) error {
		return s.Take(e, house.Want{Reel: tagged, Quantity: 1}, house.Want{Reel: twelve, Quantity: 5})
	})
	require.Empty(t, stockOf(t, l).Takings, "not saved yet")
	require.Equal(t, 2, p.Reels.Len())
	require.Equal(t, 1, p.Cases.Len())
	require.Equal(t, 1, p.CableKinds.Len())
	require.Equal(t, 7, s.Free(p, row(t, s.Plan, twelve)), "what the plan says already is not offered again")
	done := saved(t, l, p, meadow)
	require.Equal(t, 6, done.Taken)
	s = stockOf(t, l)
	require.Equal(t, 7, s.Left(row(t, s.Plan, twelve)))
	require.Zero(t, s.Left(row(t, s.Plan, tagged)))
	require.Len(t, s.With("meadow"), 2)
	require.Equal(t, house.Settled{}, saved(t, l, p, meadow), "settling twice changes nothing")
	require.Equal(t, 6, saved(t, l, before, meadow).Returned, "undone, and saved")
	require.Empty(t, stockOf(t, l).Takings)
	require.Empty(t, stockOf(t, l).Shows)
}

func TestWhatComesBackIsWhatIs(t *testing.T) {
	l, tagged, twelve := stocked(t, t.TempDir())
	p := took(t, l, plan.New(""), meadow, house.Want{Reel: tagged, Quantity: 1}, house.Want{Reel: twelve, Quantity: 5})
	p = show(t, p, func(e *plan.Edit) error {
		long, many := ofHouse(e.Now(), tagged)[0], ofHouse(e.Now(), twelve)[0]
		long.Length, long.Condition, long.Reason, long.FoundAt, long.Measured, long.Note = 43, plan.Suspect, "new plug", "FOH", plan.Some(9.5), "shortened"
		many.Condition, many.Reason = plan.Faulty, "plug crushed"
		plan.Put(e, long)
		plan.Put(e, many)
		return house.GiveBack(e, today, house.Return{Reel: long.ID, Quantity: 1}, house.Return{Reel: many.ID, Quantity: 2})
	})
	done := saved(t, l, p, meadow)
	require.Equal(t, 3, done.Returned)
	s := stockOf(t, l)
	is := row(t, s.Plan, tagged)
	require.Equal(t, []any{43.0, plan.Suspect, "new plug", "FOH", plan.Some(9.5), "shortened"},
		[]any{is.Length, is.Condition, is.Reason, is.FoundAt, is.Measured, is.Note})
	require.Equal(t, 10, row(t, s.Plan, twelve).Quantity, "two faulty ones are a row of their own")
	require.Equal(t, 7, s.Left(row(t, s.Plan, twelve)))
	faulty := 0
	for reel := range s.Plan.Reels.All() {
		if reel.Condition == plan.Faulty {
			faulty += reel.Count()
			_, err := plan.Do(plan.New("Other"), plan.NewIDSource(1, 1), func(e *plan.Edit) error { return s.Take(e, house.Want{Reel: reel.ID, Quantity: 1}) })
			require.ErrorContains(t, err, "faulty")
		}
	}
	require.Equal(t, 2, faulty)
	require.NoError(t, l.ChangeStock(func(e *plan.Edit) error {
		return plan.Update(e, plan.Key(tagged), func(r *plan.Reel) { r.Length = 42 })
	}))
	saved(t, l, p, meadow)
	require.Equal(t, 42.0, row(t, stockOf(t, l).Plan, tagged).Length, "what came back is learned once")
}

func TestDifferencesAreNamedFieldByField(t *testing.T) {
	l, tagged, _ := stocked(t, t.TempDir())
	s := stockOf(t, l)
	was := row(t, s.Plan, tagged)
	back := plan.GivenBack{Length: 100, Case: "case 1"}
	require.Empty(t, house.Differences(s.Plan, was, back))
	back = plan.GivenBack{Length: 43, Nominal: 50, Condition: plan.Faulty, Reason: "bent pin", Measured: plan.Some(9.5), Note: "new"}
	var said []string
	for _, d := range house.Differences(s.Plan, was, back) {
		said = append(said, d.Field+": "+d.Was+" > "+d.Is)
	}
	require.Equal(t, []string{
		"Length: 100 m > 43 m", "Nominal length: 100 m > 50 m", "Case: Case 1 > ", "Condition: good > faulty", "Reason:  > bent pin",
		"Measured loss:  > 9.5 dB", "Note:  > new",
	}, said)
}

func TestACopyHasNothingThatTheOtherPlanHas(t *testing.T) {
	l, tagged, twelve := stocked(t, t.TempDir())
	p := took(t, l, plan.New(""), meadow, house.Want{Reel: tagged, Quantity: 1}, house.Want{Reel: twelve, Quantity: 8})
	copied := show(t, p, func(e *plan.Edit) error {
		settings := e.Now().Settings
		settings.Identity, settings.Name = harbour.ID, harbour.Name
		e.SetSettings(settings)
		return nil
	})
	told := stockOf(t, l).Told(copied)
	require.Len(t, told, 2)
	done := saved(t, l, copied, harbour)
	require.Equal(t, told, done.Refused)
	for _, refused := range done.Refused {
		require.Contains(t, refused.Why, "with Meadow since "+today)
		if refused.Reel == twelve {
			require.Equal(t, []int{8, 4}, []int{refused.Wanted, refused.Had}, "the four that are left")
		}
	}
	require.Len(t, stockOf(t, l).With("harbour"), 1)
	require.Equal(t, house.Settled{}, saved(t, l, p, meadow), "the first keeps what it has")
	saved(t, l, plan.New("Meadow"), meadow)
	require.Empty(t, saved(t, l, copied, harbour).Refused, "and now it is free")
}

func TestWhatTheHouseReceivesIsNotTakenAgainUnasked(t *testing.T) {
	l, _, twelve := stocked(t, t.TempDir())
	p := took(t, l, plan.New(""), meadow, house.Want{Reel: twelve, Quantity: 5})
	taking := stockOf(t, l).Takings[0]
	require.NoError(t, l.Receive("2031-06-20", house.Received{Taking: taking.ID, Plan: "meadow", Quantity: 2}))
	require.ErrorIs(t, l.Receive("2031-06-20", house.Received{Taking: taking.ID, Plan: "meadow", Quantity: 4}), plan.ErrRefused)
	require.Equal(t, 9, stockOf(t, l).Left(row(t, stockOf(t, l).Plan, twelve)))
	done := saved(t, l, p, meadow)
	require.Equal(t, []house.Refusal{{Taking: taking.ID, Reel: twelve, Wanted: 5, Had: 3, Why: "came back to the house on 2031-06-20"}}, done.Refused)
	less := show(t, p, func(e *plan.Edit) error {
		return house.GiveBack(e, today, house.Return{Reel: ofHouse(e.Now(), twelve)[0].ID, Quantity: 2})
	})
	require.Equal(t, house.Settled{}, saved(t, l, less, meadow), "the two were back already")
	again := show(t, p, func(e *plan.Edit) error { return house.TakeAgain(e, taking.ID) })
	require.Empty(t, saved(t, l, again, meadow).Refused)
	require.Equal(t, 7, stockOf(t, l).Left(row(t, stockOf(t, l).Plan, twelve)))
}

func TestAPlansStockBecomesTheHouses(t *testing.T) {
	l := house.Open(t.TempDir())
	var ids []plan.ReelID
	p := show(t, plan.New("Meadow"), func(e *plan.Edit) error {
		plan.Put(e, cat6a)
		ids = append(ids, e.AddReel(plan.Reel{Kind: "cat6a", Length: 50, Quantity: 4}))
		return nil
	})
	taken, err := l.Adopt(p, meadow, ids...)
	require.NoError(t, err)
	p = show(t, p, func(e *plan.Edit) error { return house.Bind(e, taken) })
	again, err := l.Adopt(p, meadow, ids...)
	require.NoError(t, err)
	require.Empty(t, again, "the house has it already")
	s := stockOf(t, l)
	require.Equal(t, 1, s.Plan.Reels.Len())
	require.Equal(t, 4, s.Takings[0].Quantity)
	require.Equal(t, house.Settled{}, saved(t, l, p, meadow))
	p = show(t, p, func(e *plan.Edit) error { return house.GiveBack(e, today, house.Return{Reel: ids[0], Quantity: 4}) })
	require.Equal(t, 4, saved(t, l, p, meadow).Returned)
	require.Empty(t, stockOf(t, l).Takings)
}

func TestAKindOfTheSameNameButOtherFiguresComesBesideIt(t *testing.T) {
	l, tagged, _ := stocked(t, t.TempDir())
	s := stockOf(t, l)
	other := cat6a
	other.OwnFigure = plan.Some(19)
	p := show(t, plan.New("Meadow"), func(e *plan.Edit) error {
		plan.Put(e, other)
		return s.Take(e, house.Want{Reel: tagged, Quantity: 1})
	})
	require.Equal(t, 2, p.CableKinds.Len())
	for reel := range p.Reels.All() {
		require.Equal(t, plan.CableKindID("cat6a-2"), reel.Kind)
	}
}

func TestWhatIsOutCannotLeaveTheHousesList(t *testing.T) {
	l, tagged, twelve := stocked(t, t.TempDir())
	took(t, l, plan.New(""), meadow, house.Want{Reel: tagged, Quantity: 1}, house.Want{Reel: twelve, Quantity: 5})
	err := l.ChangeStock(func(e *plan.Edit) error { return e.RemoveReel(tagged) })
	require.ErrorContains(t, err, "Meadow has taken would be gone")
	err = l.ChangeStock(func(e *plan.Edit) error {
		return plan.Update(e, plan.Key(twelve), func(r *plan.Reel) { r.Quantity = 4 })
	})
	require.ErrorIs(t, err, plan.ErrRefused)
	require.ErrorContains(t, err, "there would be 4, but 5 are out")
	require.NoError(t, l.ChangeStock(func(e *plan.Edit) error {
		return plan.Update(e, plan.Key(twelve), func(r *plan.Reel) { r.Quantity = 5 })
	}))
}

func TestTwoProgramsChangeTheStockOneAfterTheOther(t *testing.T) {
	folder := t.TempDir()
	l, _, twelve := stocked(t, folder)
	s := stockOf(t, l)
	var all sync.WaitGroup
	errors := make([]error, 12)
	for i := range errors {
		name := string(rune('a' + i))
		p := show(t, plan.New(name), func(e *plan.Edit) error { return s.Take(e, house.Want{Reel: twelve, Quantity: 1}) })
		all.Go(func() {
			_, errors[i] = house.Open(folder).Save(p, house.Show{ID: name, Name: name, Saved: today})
		})
	}
	all.Wait()
	for _, err := range errors {
		require.NoError(t, err)
	}
	s = stockOf(t, house.Open(folder))
	require.Len(t, s.Takings, 12)
	require.Len(t, s.Shows, 12)
	require.Zero(t, s.Left(row(t, s.Plan, twelve)))
}
