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
	last   house.Receipt
	// day goes on from 1 to 28; pieces is how many the house owns; sure counts saves without a refusal.
	day, pieces, sure int
	done              map[string]int
}

type worked struct {
	identity string
	plan     *plan.Plan
	file     *plan.Plan
	steps    []*plan.Plan
}

var june = func() (days [30]string) {
	for i := range days {
		days[i] = fmt.Sprintf("2031-06-%02d", i+1)
	}
	return days
}()

func (s *season) today() string { return june[s.day] }

func newSeason(t *testing.T, seed uint64, done map[string]int) *season {
	s := &season{t: t, random: rand.New(rand.NewPCG(seed, 2)), ids: plan.NewIDSource(seed, 3), done: done, pieces: 25}
	next, err := plan.Do(plan.New("House stock"), s.ids, func(e *plan.Edit) error {
		plan.Put(e, cat6a)
		for i := range 6 {
			e.AddReel(plan.Reel{Tag: fmt.Sprintf("R%02d", i), Kind: "cat6a", Length: 50})
		}
		e.AddReel(plan.Reel{Kind: "cat6a", Length: 30, Quantity: 12})
		e.AddReel(plan.Reel{Kind: "cat6a", Length: 10, Quantity: 5})
		e.AddReel(plan.Reel{Tag: "T1", Kind: "cat6a", Length: 40, TiedInto: "Trunk"})
		e.AddReel(plan.Reel{Tag: "T2", Kind: "cat6a", Length: 40, TiedInto: "Trunk"})
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
		settings.Identity, settings.Name = identity, identity
		e.SetSettings(settings)
		return nil
	})
	s.shows = append(s.shows, &worked{identity: identity, plan: p, file: p})
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
	switch s.random.IntN(12) {
	case 0, 1, 2:
		if row, found := pickOf(s.random, s.stock.Plan.Reels); found {
			change(func(e *plan.Edit) error {
				return s.stock.Take(e, house.Want{Reel: row.ID, Quantity: 1 + s.random.IntN(4)})
			})
		}
	case 3, 4:
		if row, found := pickOf(s.random, w.plan.Reels); found {
			change(func(e *plan.Edit) error { return s.giveBack(e, row) })
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
	case 10:
		change(func(e *plan.Edit) error { s.otherDays(e); return nil })
	case 11:
		s.inTheHouse()
	}
}

// giveBack gives some of a row back, perhaps changed.
func (s *season) giveBack(e *plan.Edit, row plan.Reel) error {
	switch {
	case row.TiedInto != "":
	case s.random.IntN(6) == 0:
		row.State = plan.Missing
		plan.Put(e, row)
	case s.random.IntN(2) == 0:
		row.Length, row.Note = float64(5+s.random.IntN(50)), "changed"
		plan.Put(e, row)
	}
	return house.GiveBack(e, s.today(), house.Return{Reel: row.ID, Quantity: 1 + s.random.IntN(row.Count())})
}

// otherDays gives a plan other days of its stock: one after the other, none, or the wrong way round.
func (s *season) otherDays(e *plan.Edit) {
	settings := e.Now().Settings
	first := s.random.IntN(28)
	settings.OutOn, settings.BackOn = june[first], june[min(29, first+s.random.IntN(6))]
	switch s.random.IntN(8) {
	case 0:
		settings.OutOn, settings.BackOn = "", ""
	case 1:
		settings.BackOn = ""
	case 2:
		settings.OutOn = ""
	case 3:
		settings.OutOn, settings.BackOn = settings.BackOn, settings.OutOn
	}
	e.SetSettings(settings)
}

// unusual is what happens seldom: a copied plan, what was refused taken again, more stock, the next day.
func (s *season) unusual(w *worked) {
	switch s.random.IntN(4) {
	case 0:
		if len(s.shows) < 5 {
			s.begin(fmt.Sprintf("copy-%d", s.random.IntN(1000)), w.file)
		}
	case 1:
		s.day = min(27, s.day+1)
	case 2:
		for _, told := range s.stock.Told(w.plan) {
			w.plan = s.do(w.plan, func(e *plan.Edit) error { return house.TakeAgain(e, told.Taking) })
		}
	case 3:
		s.stock.Plan = s.do(s.stock.Plan, func(e *plan.Edit) error { e.AddReel(plan.Reel{Kind: "cat6a", Length: 20}); return nil })
		s.pieces++
	}
}

// inTheHouse is what the house does by itself: it receives by tag or row, sets aside, counts as lost, takes a receipt back.
func (s *season) inTheHouse() {
	row, _ := pickOf(s.random, s.stock.Plan.Reels)
	some := 1 + s.random.IntN(row.Count())
	what, err := "", error(nil)
	switch s.random.IntN(5) {
	case 0, 1:
		as := &plan.GivenBack{Length: float64(5 + s.random.IntN(50)), Note: "received"}
		if row.TiedInto != "" || s.random.IntN(2) == 0 {
			as = nil
		}
		var receipt house.Receipt
		what = "received"
		receipt, err = s.stock.TryReceipt(func(h *house.Stock) error { return h.ReceiveRow(s.today(), row, some, as, s.ids) })
		if err == nil {
			s.last = receipt
		}
	case 2:
		what = "set aside"
		state := []string{"", plan.Missing, plan.InRepair, plan.WrittenOff}[s.random.IntN(4)]
		err = s.stock.Try(func(h *house.Stock) error {
			return h.SetState(s.today(), house.StateChange{Reel: row.ID, Quantity: some, State: state}, s.ids)
		})
	case 3:
		what = "lost"
		if len(s.stock.Takings) > 0 {
			taking := s.stock.Takings[s.random.IntN(len(s.stock.Takings))]
			err = s.stock.Try(func(h *house.Stock) error {
				return h.Lose(s.today(), house.Received{Taking: taking.ID, Plan: taking.Plan, Quantity: 1}, s.ids)
			})
		}
	case 4:
		what = "taken back"
		if s.last.Known() {
			err = s.stock.Try(func(h *house.Stock) error { return h.Restore(s.last) })
		}
	}
	if err != nil {
		if what != "taken back" { // over what was taken since, which the look at the whole finds
			require.ErrorIs(s.t, err, plan.ErrRefused, what)
		}
		what += ", refused"
	}
	s.done[what]++
}

// save settles a plan with the house as its file is written, and counts what it has by its own reading of both.
func (s *season) save(w *worked) {
	show := house.ShowOf(w.plan, "", s.today())
	var told []house.Refusal
	twice := s.random.IntN(4) == 0
	if twice {
		told = s.stock.Told(w.plan)
	}
	var done house.Settled
	settle := func(h *house.Stock) (err error) { done, err = h.Settle(w.plan, show, s.ids); return err }
	require.NoError(s.t, s.stock.Try(settle))
	w.file = w.plan
	if twice {
		require.Equal(s.t, told, done.Refused, "what is told is what is refused")
		takings, refused := s.stock.Takings, done.Refused
		require.NoError(s.t, s.stock.Try(settle))
		require.Equal(s.t, takings, s.stock.Takings, "settling twice changes nothing")
		require.Equal(s.t, refused, done.Refused)
	}
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
		switch {
		case t.Plan != w.identity:
		case t.From+t.Until == "":
			has[string(t.Reel)] += t.Quantity
		default: // on site yet, and refused for the new days
			require.LessOrEqual(s.t, t.Quantity, short[string(t.Reel)])
			s.done["kept on site"]++
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

// TestEachPieceIsInExactlyOnePlace works 100,000 random takings, returns, undos, saves, copies, crashes, changes of days, states,
// receipts and their undos.
func TestEachPieceIsInExactlyOnePlace(t *testing.T) {
	seasons, steps := 250, 400
	if testing.Short() {
		seasons = 10
	}
	agreed, done := 0, map[string]int{}
	for seed := range seasons {
		s := newSeason(t, uint64(seed), done)
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
	for _, what := range []string{"received", "set aside", "lost", "taken back", "taken back, refused", "kept on site", "conflict", "promised"} {
		require.GreaterOrEqual(t, done[what], seasons/10, what)
	}
}
