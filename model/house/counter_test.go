package house_test

import (
	"github.com/stretchr/testify/require"

	"stageloom/model/house"
	"stageloom/model/plan"
)

// inOnePlace counts each piece by the rows alone, without the house's own counting: on no day have shows more of a row than
// there are, none of what is set aside, the pieces are as many as the house owns, and a trunk is never torn.
func (s *season) inOnePlace() {
	out, trunk := s.counted()
	for identity, torn := range trunk {
		if torn == 0 {
			continue
		}
		require.Zero(s.t, torn, "a trunk is with %s in part", identity)
	}
	pieces := 0
	for row := range s.stock.Plan.Reels.All() {
		there := max(1, row.Quantity)
		pieces += there
		if row.State != "" {
			there = 0
		}
		if out[row.ID] == nil {
			continue
		}
		for d, count := range out[row.ID] {
			if count > there {
				require.LessOrEqual(s.t, count, there, "of %s on %s", row.ID, june[d])
			}
		}
	}
	if s.pieces == pieces {
		s.somewhere()
		return
	}
	require.Equal(s.t, s.pieces, pieces, "no piece is lost or made")
}

// counted counts what shows have of each row on each day of June, and what one cable of the trunk has more than the other.
func (s *season) counted() (out map[plan.ReelID]*[len(june)]int, trunk map[string]int) {
	out, trunk = map[plan.ReelID]*[len(june)]int{}, map[string]int{}
	for _, t := range s.stock.Takings {
		row, found := s.stock.Plan.Reels.Get(plan.Key(t.Reel))
		if t.Quantity < 0 || t.Quantity > 0 && !found {
			require.Fail(s.t, "what is out is no row, or less than none")
		}
		if out[t.Reel] == nil {
			out[t.Reel] = &[len(june)]int{}
		}
		first, last := s.daysOf(t)
		for d, day := range june {
			if day >= first && (last == "" || day <= last) {
				out[t.Reel][d] += t.Quantity
			}
		}
		switch row.Tag {
		case "T1":
			trunk[t.Plan] += t.Quantity
		case "T2":
			trunk[t.Plan] -= t.Quantity
		}
	}
	return out, trunk
}

// daysOf reads the days of a taking: its own, or its show's.
func (s *season) daysOf(t house.Taking) (first, last string) {
	if t.From+t.Until != "" {
		return t.From, t.Until
	}
	for _, show := range s.stock.Shows {
		if show.ID == t.Plan {
			return show.From, show.Until
		}
	}
	return "", ""
}

// somewhere holds what the house says of today against the rows: every piece stands in one place.
func (s *season) somewhere() {
	if s.random.IntN(10) > 0 {
		return
	}
	placed := map[plan.ReelID]int{}
	for _, w := range s.stock.Whereabouts(s.today()) {
		if w.Quantity < 1 {
			require.Fail(s.t, "nothing is somewhere")
		}
		if w.Place == house.Promised {
			s.done["promised"]++
			continue
		}
		placed[w.Reel.ID] += w.Quantity
	}
	for row := range s.stock.Plan.Reels.All() {
		if there := max(1, row.Quantity); there != placed[row.ID] {
			require.Equal(s.t, there, placed[row.ID])
		}
	}
	for _, c := range s.stock.Conflicts(s.today()) {
		require.Less(s.t, c.Has.Until, s.today())
		require.NotEqual(s.t, c.Has.ID, c.Wants.ID)
		require.LessOrEqual(s.t, c.Quantity, c.Reel.Count())
		s.done["conflict"]++
	}
}
