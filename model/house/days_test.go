package house_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/house"
	"stageloom/model/plan"
)

// from is a show on some days.
func from(as house.Show, out, back string) house.Show {
	as.From, as.Until = out, back
	return as
}

// on is a plan with other days of its stock.
func on(t tester, p *plan.Plan, out, back string) *plan.Plan {
	t.Helper()
	return show(t, p, func(e *plan.Edit) error {
		settings := e.Now().Settings
		settings.OutOn, settings.BackOn = out, back
		e.SetSettings(settings)
		return nil
	})
}

func one(reel plan.ReelID) house.Want { return house.Want{Reel: reel, Quantity: 1} }

func TestTwoShowsHaveOnePieceOneAfterTheOther(t *testing.T) {
	l, tagged, twelve := stocked(t, t.TempDir())
	took(t, l, plan.New(""), from(meadow, "2031-06-10", "2031-06-15"), one(tagged), house.Want{Reel: twelve, Quantity: 8})
	took(t, l, plan.New(""), from(harbour, "2031-06-16", "2031-06-20"), one(tagged), house.Want{Reel: twelve, Quantity: 12})
	s := stockOf(t, l)
	require.Zero(t, s.Left(row(t, s.Plan, tagged)))
	require.Equal(t, 4, s.LeftOn(row(t, s.Plan, twelve), "2031-06-11", "2031-06-15"))
	require.Zero(t, s.LeftOn(row(t, s.Plan, twelve), "2031-06-11", "2031-06-16"))
	require.Equal(t, 12, s.LeftOn(row(t, s.Plan, twelve), "2031-06-21", ""))
	for _, c := range []struct {
		sentence, out, back string
		free                int
	}{
		{"between them nothing is free on a day that one has it", "2031-06-15", "2031-06-15", 0},
		{"before both it is free", "2031-06-01", "2031-06-09", 1},
		{"after both it is free", "2031-06-21", "", 1},
		{"without days it has to be free always", "", "", 0},
		{"days the wrong way round count as none", "2031-06-30", "2031-06-22", 0},
		{"days written short are the same days", "2031-6-1", "2031-6-9", 1},
		{"a day in words is none", "2031-06-21", "the Monday after", 1},
	} {
		p := on(t, plan.New("Third"), c.out, c.back)
		require.Equal(t, c.free, s.Free(p, row(t, s.Plan, tagged)), c.sentence)
		_, err := plan.Do(p, plan.NewIDSource(1, 1), func(e *plan.Edit) error { return s.Take(e, one(tagged)) })
		require.Equal(t, c.free == 1, err == nil, c.sentence)
	}
}

func TestDaysThatDoNotFitAreRefusedToWhoChangesThem(t *testing.T) {
	l, tagged, twelve := stocked(t, t.TempDir())
	june := from(meadow, "2031-06-20", "2031-06-22") // not begun when it is saved
	p := took(t, l, plan.New(""), june, one(tagged), house.Want{Reel: twelve, Quantity: 8})
	other := took(t, l, plan.New(""), from(harbour, "2031-06-25", "2031-06-28"), one(tagged), house.Want{Reel: twelve, Quantity: 6})
	longer := on(t, p, "2031-06-20", "2031-06-25")
	told := stockOf(t, l).Told(longer)
	require.Len(t, told, 2)
	done := saved(t, l, longer, house.ShowOf(longer, "", today))
	require.Equal(t, told, done.Refused)
	for _, refused := range done.Refused {
		require.Contains(t, refused.Why, "promised to Harbour from 2031-06-25 to 2031-06-28")
		if refused.Reel == twelve {
			require.Equal(t, []int{8, 6}, []int{refused.Wanted, refused.Had})
		} else {
			require.Equal(t, []int{1, 0}, []int{refused.Wanted, refused.Had})
			require.Equal(t, "is promised to Harbour from 2031-06-25 to 2031-06-28", refused.Why)
		}
	}
	before := stockOf(t, l)
	require.Equal(t, done.Refused, saved(t, l, longer, house.ShowOf(longer, "", today)).Refused)
	require.Equal(t, before.Takings, stockOf(t, l).Takings, "settling twice changes nothing")
	require.Empty(t, saved(t, l, other, from(harbour, "2031-06-25", "2031-06-28")).Refused, "the other keeps its own")
	require.Empty(t, saved(t, l, p, june).Refused, "on its former days it has all again")
}

func TestWhatIsOnSiteStaysThereWhateverDaysAPlanAsksFor(t *testing.T) {
	l, tagged, _ := stocked(t, t.TempDir())
	p := took(t, l, plan.New(""), from(meadow, "2031-06-17", "2031-06-22"), one(tagged))
	took(t, l, plan.New(""), from(harbour, "2031-06-25", "2031-06-28"), one(tagged))
	longer := on(t, p, "2031-06-17", "2031-06-26")
	done := saved(t, l, longer, house.ShowOf(longer, "", today))
	require.Len(t, done.Refused, 1)
	require.Zero(t, done.Refused[0].Had)
	s := stockOf(t, l)
	require.Equal(t, "Meadow", s.OutOn("2031-06-23", tagged)[0].Show.Name, "it is with the show yet")
	require.Equal(t, house.Overdue, s.OutOn("2031-06-23", tagged)[0].Place)
	require.Equal(t, "2031-06-22", s.OutOn("2031-06-23", tagged)[0].Due)
	require.Equal(t, done.Refused, saved(t, l, longer, house.ShowOf(longer, "", today)).Refused)
	require.Equal(t, s.Takings, stockOf(t, l).Takings)
	back := show(t, longer, func(e *plan.Edit) error {
		cut := ofHouse(e.Now(), tagged)[0]
		cut.Length = 43
		plan.Put(e, cut)
		return house.GiveBack(e, today, house.Return{Reel: cut.ID, Quantity: 1})
	})
	require.Equal(t, 1, saved(t, l, back, house.ShowOf(back, "", today)).Returned)
	require.Equal(t, 43.0, row(t, stockOf(t, l).Plan, tagged).Length, "what comes of it is learned")
	require.Len(t, stockOf(t, l).Takings, 1)
}

func TestWhatIsOverdueAndPromisedIsToldToBoth(t *testing.T) {
	l, tagged, twelve := stocked(t, t.TempDir())
	took(t, l, plan.New(""), from(meadow, "2031-06-10", "2031-06-15"), one(tagged), house.Want{Reel: twelve, Quantity: 8})
	p := took(t, l, plan.New(""), from(harbour, "2031-06-18", "2031-06-20"), one(tagged), house.Want{Reel: twelve, Quantity: 6})
	s := stockOf(t, l)
	require.Empty(t, s.Conflicts("2031-06-15"), "it is due yet")
	require.Empty(t, s.Warned(p, "2031-06-15"))
	for _, day := range []string{"2031-06-16", "2031-06-19"} {
		conflicts := s.Conflicts(day)
		require.Len(t, conflicts, 2)
		require.Equal(t, conflicts, s.Warned(p, day))
		for _, c := range conflicts {
			require.Equal(t, []string{"Harbour", "2031-06-18", "Meadow", "2031-06-15"}, []string{c.Wants.Name, c.Wants.From, c.Has.Name, c.Has.Until})
			if c.Reel.ID == twelve {
				require.Equal(t, 2, c.Quantity, "four are in the house")
			}
		}
	}
	warned := saved(t, l, p, from(house.Show{ID: "harbour", Name: "Harbour", Saved: "2031-06-17"}, "2031-06-18", "2031-06-20")).Warned
	require.Len(t, warned, 2)
	require.Equal(t, []string{"3 cables that this show is promised are with Meadow, overdue since 15 June."}, house.LateWords(warned, "2031-06-17"))
	require.Empty(t, house.LateWords(nil, "2031-06-17"))
	places := map[house.Place]int{}
	for _, w := range s.Whereabouts("2031-06-19") {
		if w.Reel.ID == twelve {
			places[w.Place] += w.Quantity
		}
	}
	require.Equal(t, map[house.Place]int{house.Overdue: 8, house.WithShow: 4, house.Promised: 2}, places)
	for _, out := range s.OutOn("2031-06-16", tagged) {
		require.NoError(t, l.Receive("2031-06-16", house.Received{Taking: out.Taking.ID, Plan: "meadow", Quantity: 1}))
	}
	require.Len(t, stockOf(t, l).Conflicts("2031-06-16"), 1, "the tagged one is back")
}

func TestDaysThatBecomeKnownLaterKeepWhatTheShowHas(t *testing.T) {
	l, tagged, _ := stocked(t, t.TempDir())
	p := took(t, l, plan.New(""), meadow, one(tagged))
	dated := on(t, p, "2031-07-01", "2031-07-05")
	require.Empty(t, saved(t, l, dated, house.ShowOf(dated, "", today)).Refused)
	took(t, l, plan.New(""), from(harbour, "2031-06-18", "2031-06-20"), one(tagged))
	done := saved(t, l, p, meadow)
	require.Len(t, done.Refused, 1, "without days it would have it always")
	require.Contains(t, done.Refused[0].Why, "promised to Harbour")
}
