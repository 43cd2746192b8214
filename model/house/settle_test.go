package house_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/house"
	"stageloom/model/plan"
)

// season is a house and some plans that take of it, worked at random: what each plan says, what its file holds, and what it
// was before each step, for undo.
type season struct {
	t      *testing.T
	random *rand.Rand
	ids    *plan.IDSource
	stock  house.Stock
	shows  []*worked
	sure   int
}

type worked struct {
	show  house.Show
	plan  *plan.Plan
	file  *plan.Plan
	steps []*plan.Plan
}

func newSeason(t *testing.T, seed uint64) *season {
	s := &season{t: t, random: rand.New(rand.NewPCG(seed, 2)), ids: plan.NewIDSource(seed, 3)}
	next, err := plan.Do(plan.New("House stock"), s.ids, func(e *plan.Edit) error {
		plan.Put(e, cat6a)
		for i := range 6 {
			e.AddReel(plan.Reel{Tag: fmt.Sprintf("R%02d", i), Kind: "cat6a", Length: 50})
		}
		e.AddReel(plan.Reel{Kind: "cat6a", Length: 30, Quantity: 12})
		e.AddReel(plan.Reel{Kind: "cat6a", Length: 10, Quantity: 5})
		return nil
	})
	require.NoError(t, err)
	s.stock.Plan = next
	for i := range 3 {
		s.begin(fmt.Sprintf("show-%d", i), plan.New("Show"))
	}
	return s
}

// begin is a plan of an identity of its own, as another or none.
func (s *season) begin(identity string, like *plan.Plan) {
	p := s.do(like, func(e *plan.Edit) error {
		settings := e.Now().Settings
		settings.Identity = identity
		e.SetSettings(settings)
		return nil
	})
	s.shows = append(s.shows, &worked{show: house.Show{ID: identity, Name: identity, Saved: today}, plan: p, file: p})
}

// do edits a plan; what is refused leaves it.
func (s *season) do(p *plan.Plan, edit func(*plan.Edit) error) *plan.Plan {
	next, err := plan.Do(p, s.ids, edit)
	if err != nil {
		require.ErrorIs(s.t, err, plan.ErrRefused)
		return p
	}
	return next
}

func pickOf[R plan.Row](random *rand.Rand, table *plan.Table[R]) (row R, found bool) {
	at := random.IntN(max(1, table.Len()))
	for r := range table.All() {
		if at == 0 {
			return r, true
		}
		at--
	}
	return row, false
}

// step does something at random.
func (s *season) step() {
	w := s.shows[s.random.IntN(len(s.shows))]
	change := func(edit func(*plan.Edit) error) {
		w.steps = append(w.steps, w.plan)
		w.plan = s.do(w.plan, edit)
	}
	switch s.random.IntN(10) {
	case 0, 1, 2:
		if row, found := pickOf(s.random, s.stock.Plan.Reels); found {
			change(func(e *plan.Edit) error {
				return s.stock.Take(e, house.Want{Reel: row.ID, Quantity: 1 + s.random.IntN(4)})
			})
		}
	case 3, 4:
		if row, found := pickOf(s.random, w.plan.Reels); found {
			change(func(e *plan.Edit) error {
				if s.random.IntN(2) == 0 {
					row.Length, row.Note = float64(5+s.random.IntN(50)), "changed"
					plan.Put(e, row)
				}
				return house.GiveBack(e, today, house.Return{Reel: row.ID, Quantity: 1 + s.random.IntN(row.Count())})
			})
		}
	case 5:
		if n := len(w.steps); n > 0 { // undo
			w.plan, w.steps = w.steps[n-1], w.steps[:n-1]
		}
	case 6, 7:
		s.save(w)
	case 8:
		s.unusual(w)
	case 9: // a crash: what was not saved is gone
		w.plan, w.steps = w.file, nil
	}
}

// unusual is what happens seldom: a copied plan, a show that is deleted, cables that turn up in the house.
func (s *season) unusual(w *worked) {
	switch s.random.IntN(4) {
	case 0:
		if len(s.shows) < 5 {
			s.begin(fmt.Sprintf("copy-%d", s.random.IntN(1000)), w.file)
		}
	case 1:
		if at := s.random.IntN(max(1, len(s.stock.Takings))); len(s.stock.Takings) > 0 && s.stock.Takings[at].Quantity > 0 {
			t := &s.stock.Takings[at]
			came := 1 + s.random.IntN(t.Quantity)
			t.Quantity, t.Came, t.Received = t.Quantity-came, t.Came+came, today
		}
	case 2:
		for _, told := range s.stock.Told(w.plan) {
			w.plan = s.do(w.plan, func(e *plan.Edit) error { return house.TakeAgain(e, told.Taking) })
		}
	case 3:
		s.stock.Plan = s.do(s.stock.Plan, func(e *plan.Edit) error { e.AddReel(plan.Reel{Kind: "cat6a", Length: 20}); return nil })
	}
}

// save settles a plan with the house as its file is written, and counts what it has by its own reading of both.
func (s *season) save(w *worked) {
	done, err := s.stock.Settle(w.plan, w.show, s.ids)
	require.NoError(s.t, err)
	w.file = w.plan
	says, short := map[string]int{}, map[string]int{}
	for row := range w.plan.Reels.All() {
		says[row.HouseReel] += row.Count()
	}
	for _, refused := range done.Refused {
		require.Less(s.t, refused.Had, refused.Wanted)
		require.NotEmpty(s.t, refused.Why)
		short[string(refused.Reel)] += refused.Wanted - refused.Had
	}
	has := map[string]int{}
	for _, t := range s.stock.Takings {
		if t.Plan == w.show.ID {
			has[string(t.Reel)] += t.Quantity
		}
	}
	for reel, count := range says {
		require.Equal(s.t, count, has[reel]+short[reel], "what the house says and what is refused is what the plan says")
		delete(has, reel)
	}
	for reel, count := range has {
		require.Zero(s.t, count, "the house says that the show has %s, the plan does not", reel)
	}
	if len(done.Refused) == 0 {
		s.sure++
	}
}

// inOnePlace counts each piece: no more are out than there are.
func (s *season) inOnePlace() {
	out := map[plan.ReelID]int{}
	for _, t := range s.stock.Takings {
		require.GreaterOrEqual(s.t, t.Quantity, 0)
		out[t.Reel] += t.Quantity
	}
	for id, count := range out {
		row, found := s.stock.Plan.Reels.Get(plan.Key(id))
		if count > 0 {
			require.True(s.t, found)
			require.LessOrEqual(s.t, count, row.Count())
		}
	}
}

// TestEachPieceIsInExactlyOnePlace works 100,000 random takings, returns, undos, saves, copies, crashes and receipts.
func TestEachPieceIsInExactlyOnePlace(t *testing.T) {
	seasons, steps := 250, 400
	if testing.Short() {
		seasons = 10
	}
	agreed := 0
	for seed := range seasons {
		s := newSeason(t, uint64(seed))
		for range steps {
			s.step()
			s.inOnePlace()
		}
		for _, w := range s.shows {
			s.save(w)
		}
		agreed += s.sure
	}
	require.Greater(t, agreed, seasons, "saves without a refusal")
}
