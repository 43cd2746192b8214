package house

import (
	"maps"
	"slices"

	"stageloom/model/plan"
)

// GiveBackAs gives rows back as [GiveBack] does and lets the caller say of each how it comes back, where that is another than
// the plan says. Of equal ones those go first that no link lays; of the rest links keep kind and length.
func GiveBackAs(e *plan.Edit, day string, as func(back *plan.GivenBack), returns ...Return) error {
	before := map[plan.GivenBackID]bool{}
	for back := range e.Now().GivenBack.All() {
		before[back.ID] = true
	}
	for _, back := range returns {
		letGo(e, back)
	}
	if err := GiveBack(e, day, returns...); err != nil {
		return err
	}
	for back := range e.Now().GivenBack.All() {
		if !before[back.ID] {
			as(&back)
			plan.Put(e, back)
		}
	}
	return nil
}

// letGo takes as many of a row off its links as are to go back beside those that lie free.
func letGo(e *plan.Edit, back Return) {
	row, found := e.Now().Reels.Get(plan.Key(back.Reel))
	if !found || row.Taking == "" || back.Quantity >= row.Count() {
		return
	}
	off := back.Quantity - (row.Count() - e.Now().UsedReels()[row.ID])
	for _, segment := range slices.Collect(e.Now().Segments.All()) {
		if off > 0 && segment.Reel == row.ID {
			segment.Reel, segment.Kind, segment.Length = "", row.Kind, row.Length
			plan.Put(e, segment)
			off--
		}
	}
}

// AsTheHouseKnows makes what comes back as it is in the house's stock: what the show found out is not learned.
func (s *Stock) AsTheHouseKnows(back *plan.GivenBack) {
	row, found := s.Plan.Reels.Get(plan.Key(back.HouseReel))
	if !found {
		return
	}
	as := backOf(s.Plan, row)
	as.ID, as.Taking, as.HouseReel, as.Quantity, as.Day = back.ID, back.Taking, back.HouseReel, back.Quantity, back.Day
	*back = as
}

// FoundOut lists in what a row of a plan is another than the house knows it to be, of what its show found out by itself.
func (s *Stock) FoundOut(p *plan.Plan, row plan.Reel) []Difference {
	was, found := s.Plan.Reels.Get(plan.Key(row.HouseReel))
	if !found || row.Taking == "" || row.Lacking >= row.Count() { // of what it does not have it finds nothing out
		return nil
	}
	var lent Known
	for _, at := range s.entries(row.Taking, p.Settings.Identity) {
		lent = s.Takings[at].Lent
	}
	return Differences(s.Plan, was, lent.foundOut(backOf(p, row), backOf(s.Plan, was)))
}

// TakeOver makes rows of a plan what the house says of them: length, case, condition and what else a show finds out.
func (s *Stock) TakeOver(e *plan.Edit, reels ...plan.ReelID) error {
	for _, id := range reels {
		row, found := e.Now().Reels.Get(plan.Key(id))
		was, known := s.Plan.Reels.Get(plan.Key(row.HouseReel))
		if !found || !known || row.Taking == "" {
			continue
		}
		box, _ := s.Plan.Cases.Get(plan.Key(was.Case))
		in := caseNamed(e, box.Name)
		if err := plan.Update(e, plan.Key(id), func(r *plan.Reel) {
			r.Length, r.Nominal, r.Case, r.Note = was.Length, was.Nominal, in, was.Note
			r.Condition, r.Reason, r.FoundAt, r.FoundOn, r.Measured = was.Condition, was.Reason, was.FoundAt, was.FoundOn, was.Measured
			r.State, r.StateOn, r.TiedInto, r.Weight = was.State, was.StateOn, was.TiedInto, was.Weight
			if was.Count() == 1 {
				r.Tag = was.Tag
			}
		}); err != nil {
			return err
		}
	}
	return nil
}

// AskAgain lets a plan ask anew for what the house received or refused of some of its rows.
func AskAgain(e *plan.Edit, reels ...plan.ReelID) error {
	takings := map[string]bool{}
	for _, id := range reels {
		if row, found := e.Now().Reels.Get(plan.Key(id)); found && row.Taking != "" {
			takings[row.Taking] = true
		}
	}
	return TakeAgain(e, slices.Sorted(maps.Keys(takings))...)
}
