package house_test

import (
	"github.com/stretchr/testify/require"

	"stageloom/model/house"
	"stageloom/model/plan"
)

// inOnePlace counts each piece by the rows alone, without the house's own counting: on no day have shows more of a row than
// there are, none of what is set aside, the pieces are as many as the house owns, and a trunk is never torn.
func (s *season) inOnePlace() {
	var days [len(june)]map[plan.ReelID]int
	for d := range days {
		days[d] = map[plan.ReelID]int{}
	}
	trunk := map[string]int{}
	for _, t := range s.stock.Takings {
		require.GreaterOrEqual(s.t, t.Quantity, 0)
		first, last := t.From, t.Until
		for _, show := range s.stock.Shows {
			if show.ID == t.Plan && first+last == "" {
				first, last = show.From, show.Until
			}
		}
		for d, day := range june {
			if day >= first && (last == "" || day <= last) {
				days[d][t.Reel] += t.Quantity
			}
		}
		row, found := s.stock.Plan.Reels.Get(plan.Key(t.Reel))
		if t.Quantity > 0 {
			require.True(s.t, found)
		}
		switch row.Tag {
		case "T1":
			trunk[t.Plan] += t.Quantity
		case "T2":
			trunk[t.Plan] -= t.Quantity
		}
	}
	for identity, torn := range trunk {
		require.Zero(s.t, torn, "a trunk is with %s in part", identity)
	}
	pieces := 0
	for row := range s.stock.Plan.Reels.All() {
		there := max(1, row.Quantity)
		pieces += there
		if row.State != "" {
			there = 0
		}
		for d := range days {
			if days[d][row.ID] > there {
				require.LessOrEqual(s.t, days[d][row.ID], there, "of %s on %s", row.ID, june[d])
			}
		}
	}
	require.Equal(s.t, s.pieces, pieces, "no piece is lost or made")
	if s.random.IntN(4) == 0 {
		s.somewhere()
	}
}

// somewhere holds what the house says of today against the rows: every piece stands in one place.
func (s *season) somewhere() {
	placed := map[plan.ReelID]int{}
	for _, w := range s.stock.Whereabouts(s.today()) {
		require.Positive(s.t, w.Quantity)
		if w.Place == house.Promised {
			s.done["promised"]++
			continue
		}
		placed[w.Reel.ID] += w.Quantity
	}
	for row := range s.stock.Plan.Reels.All() {
		require.Equal(s.t, max(1, row.Quantity), placed[row.ID])
	}
	for _, c := range s.stock.Conflicts(s.today()) {
		require.Less(s.t, c.Has.Until, s.today())
		require.NotEqual(s.t, c.Has.ID, c.Wants.ID)
		require.LessOrEqual(s.t, c.Quantity, c.Reel.Count())
		s.done["conflict"]++
	}
}
