package house_test

import (
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

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

func TestAShowTakesFromTheHouseAndGivesBackWhatItFoundOut(t *testing.T) {
	l, tagged, twelve := stocked(t, filepath.Join(t.TempDir(), "not", "there"))
	loan, err := l.Take([]house.Want{{tagged, 1}, {twelve, 5}}, "Meadow", today)
	require.NoError(t, err)
	p := show(t, plan.New("Meadow"), loan.Put)
	require.Equal(t, 2, p.Reels.Len())
	require.Equal(t, 1, p.Cases.Len())
	require.Equal(t, 1, p.CableKinds.Len())
	s := stockOf(t, l)
	require.Equal(t, 7, s.Left(row(t, s.Plan, twelve)))
	require.Zero(t, s.Left(row(t, s.Plan, tagged)))
	require.Len(t, s.With("Meadow"), 2)

	_, err = l.Take([]house.Want{{twelve, 1}, {tagged, 1}}, "Other", today)
	require.ErrorContains(t, err, "of A01 there are 0 left in the house, not 1")
	require.Equal(t, 7, stockOf(t, l).Left(row(t, s.Plan, twelve)), "all of them or none")

	var back []house.Return
	for reel := range p.Reels.All() {
		if reel.Tag == "" {
			reel.Condition, reel.Reason, reel.FoundAt = plan.Faulty, "plug crushed", "FOH"
			back = append(back, house.Return{Reel: reel, Quantity: 2})
		} else {
			back = append(back, house.Return{Reel: reel, Quantity: 1})
		}
	}
	strange, err := l.GiveBack(back)
	require.NoError(t, err)
	require.Zero(t, strange)
	p = show(t, p, func(e *plan.Edit) error { return house.TakeOut(e, back) })
	require.Equal(t, 1, p.Reels.Len())
	for reel := range p.Reels.All() {
		require.Equal(t, 3, reel.Quantity)
	}
	s = stockOf(t, l)
	require.Equal(t, 10, row(t, s.Plan, twelve).Quantity, "two faulty ones are a row of their own")
	require.Equal(t, 7, s.Left(row(t, s.Plan, twelve)))
	require.Equal(t, 1, s.Left(row(t, s.Plan, tagged)))
	faulty := 0
	for reel := range s.Plan.Reels.All() {
		if reel.Condition == plan.Faulty {
			faulty += reel.Count()
			require.Equal(t, "plug crushed", reel.Reason)
			_, err = l.Take([]house.Want{{reel.ID, 1}}, "Meadow", today)
			require.ErrorContains(t, err, "faulty")
		}
	}
	require.Equal(t, 2, faulty)
}

func TestWhatTheHouseDoesNotKnowIsToldAndChangesNothing(t *testing.T) {
	l, _, twelve := stocked(t, t.TempDir())
	loan, err := l.Take([]house.Want{{twelve, 3}}, "Meadow", today)
	require.NoError(t, err)
	require.NoError(t, loan.Undo(l))
	require.Empty(t, stockOf(t, l).Takings)
	p := show(t, plan.New("Meadow"), loan.Put)
	var back []house.Return
	for reel := range p.Reels.All() {
		back = append(back, house.Return{Reel: reel, Quantity: 3})
	}
	strange, err := l.GiveBack(back)
	require.NoError(t, err)
	require.Equal(t, 1, strange)
	loan, err = l.Take([]house.Want{{twelve, 3}}, "Lost plan", today)
	require.NoError(t, err)
	require.NoError(t, l.CallBack(loan.Takings[0].ID))
	require.Equal(t, 12, stockOf(t, l).Left(row(t, stockOf(t, l).Plan, twelve)))
}

func TestAPlansStockBecomesTheHouses(t *testing.T) {
	l := house.Open(t.TempDir())
	var ids []plan.ReelID
	p := show(t, plan.New("Meadow"), func(e *plan.Edit) error {
		plan.Put(e, cat6a)
		ids = append(ids, e.AddReel(plan.Reel{Kind: "cat6a", Length: 50, Quantity: 4}))
		return nil
	})
	taken, err := l.Adopt(p, ids, today)
	require.NoError(t, err)
	p = show(t, p, func(e *plan.Edit) error { return house.Bind(e, taken) })
	again, err := l.Adopt(p, ids, today)
	require.NoError(t, err)
	require.Empty(t, again, "the house has it already")
	s := stockOf(t, l)
	require.Equal(t, 1, s.Plan.Reels.Len())
	require.Equal(t, 4, s.Takings[0].Quantity)
	strange, err := l.GiveBack([]house.Return{{Reel: row(t, p, ids[0]), Quantity: 4}})
	require.NoError(t, err)
	require.Zero(t, strange)
	require.Empty(t, stockOf(t, l).Takings)
}

func TestAKindOfTheSameNameButOtherFiguresComesBesideIt(t *testing.T) {
	l, tagged, _ := stocked(t, t.TempDir())
	loan, err := l.Take([]house.Want{{tagged, 1}}, "Meadow", today)
	require.NoError(t, err)
	other := cat6a
	other.OwnFigure = plan.Some(19)
	p := show(t, plan.New("Meadow"), func(e *plan.Edit) error {
		plan.Put(e, other)
		return loan.Put(e)
	})
	require.Equal(t, 2, p.CableKinds.Len())
	for reel := range p.Reels.All() {
		require.Equal(t, plan.CableKindID("cat6a-2"), reel.Kind)
	}
}

func TestWhatIsOutCannotLeaveTheHousesList(t *testing.T) {
	l, tagged, twelve := stocked(t, t.TempDir())
	_, err := l.Take([]house.Want{{tagged, 1}, {twelve, 5}}, "Meadow", today)
	require.NoError(t, err)
	err = l.ChangeStock(func(e *plan.Edit) error { return e.RemoveReel(tagged) })
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
	_, _, twelve := stocked(t, folder)
	var all sync.WaitGroup
	errors := make([]error, 12)
	for i := range errors {
		all.Go(func() { _, errors[i] = house.Open(folder).Take([]house.Want{{twelve, 1}}, "Show", today) })
	}
	all.Wait()
	for _, err := range errors {
		require.NoError(t, err)
	}
	s := stockOf(t, house.Open(folder))
	require.Len(t, s.Takings, 12)
	require.Zero(t, s.Left(row(t, s.Plan, twelve)))
}

func TestADamagedStockIsNamedAndNotWrittenOver(t *testing.T) {
	folder := t.TempDir()
	l, _, twelve := stocked(t, folder)
	_, err := l.Take([]house.Want{{twelve, 5}}, "Meadow", today)
	require.NoError(t, err)
	path := filepath.Join(folder, "stock.stageloom-stock")
	good, err := os.ReadFile(path)
	require.NoError(t, err)
	for name, text := range map[string]string{
		"nothing":                     "",
		"another file":                "hello",
		"the head alone":              "stageloom stock 1\n",
		"cut off in the rows":         string(good[:60]),
		"cut off in a taking":         string(good[:len(good)-5]),
		"a reel that is not there":    strings.Replace(string(good), `"reel":"`+string(twelve), `"reel":"r-zzzzz`, 1),
		"more out than there are":     strings.Replace(string(good), `"quantity":5`, `"quantity":13`, 1),
		"a name twice in a taking":    strings.Replace(string(good), `"quantity":5`, `"quantity":5,"quantity":5`, 1),
		"an unknown name in a taking": strings.Replace(string(good), `"quantity":5`, `"quantity":5,"colour":1`, 1),
	} {
		t.Run(name, func(t *testing.T) {
			require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
			_, err := l.Stock()
			require.ErrorContains(t, err, "stock.stageloom-stock cannot be read")
			require.Error(t, l.ChangeStock(func(*plan.Edit) error { return nil }))
			held, err := os.ReadFile(path)
			require.NoError(t, err)
			require.Equal(t, text, string(held))
		})
	}
	require.Error(t, house.Library{}.ChangeStock(func(*plan.Edit) error { return nil }))
	s, err := house.Library{}.Stock()
	require.NoError(t, err)
	require.Zero(t, s.Plan.Reels.Len())
}

func TestWhatADamagedTakingQuotesIsClipped(t *testing.T) {
	folder := t.TempDir()
	l, _, twelve := stocked(t, folder)
	_, err := l.Take([]house.Want{{twelve, 5}}, "Meadow", today)
	require.NoError(t, err)
	path := filepath.Join(folder, "stock.stageloom-stock")
	good, err := os.ReadFile(path)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(path, []byte(strings.Replace(string(good), `"quantity":5`, `"quantity":`+strings.Repeat("9", 5000), 1)), 0o600))
	_, err = l.Stock()
	require.ErrorContains(t, err, "line 3 is no taking")
	require.ErrorContains(t, err, "put the file back from a copy")
	require.Less(t, len(err.Error()), 400+len(path))
}

func TestCablesAreNeitherMadeNorLostByLending(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		folder, err := os.MkdirTemp(t.TempDir(), "")
		require.NoError(rt, err)
		l, tagged, twelve := stocked(t, folder)
		p := plan.New("Show")
		total := func(p *plan.Plan) (cables int) {
			for reel := range p.Reels.All() {
				cables += reel.Count()
			}
			return cables
		}
		for range rapid.IntRange(1, 8).Draw(rt, "steps") {
			if rapid.Bool().Draw(rt, "take") {
				want := house.Want{Reel: rapid.SampledFrom([]plan.ReelID{tagged, twelve}).Draw(rt, "reel"), Quantity: rapid.IntRange(1, 6).Draw(rt, "quantity")}
				if loan, err := l.Take([]house.Want{want}, "Show", today); err == nil {
					p = show(rt, p, loan.Put)
				}
				continue
			}
			var back []house.Return
			for reel := range p.Reels.All() {
				if rapid.Bool().Draw(rt, "faulty") {
					reel.Condition = plan.Faulty
				}
				back = append(back, house.Return{Reel: reel, Quantity: rapid.IntRange(1, reel.Count()).Draw(rt, "back")})
				break
			}
			strange, err := l.GiveBack(back)
			require.NoError(rt, err)
			require.Zero(rt, strange)
			p = show(rt, p, func(e *plan.Edit) error { return house.TakeOut(e, back) })
		}
		s := stockOf(rt, l)
		require.Equal(rt, 13, total(s.Plan))
		out := 0
		for _, taking := range s.Takings {
			out += taking.Quantity
		}
		require.Equal(rt, total(p), out)
	})
}
