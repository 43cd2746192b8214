package house

import (
	"fmt"
	"math/rand/v2"
	"strings"

	"stageloom/model/plan"
)

// tried settles a plan with a copy of the stock, which it returns.
func (s Stock) tried(p *plan.Plan, day string) (Stock, Settled) {
	s = s.copied()
	known, _ := s.show(p.Settings.Identity)
	done, _ := s.Settle(p, ShowOf(p, known.File, day), plan.NewIDSource(rand.Uint64(), rand.Uint64())) // what is learned is thrown away
	return s, done
}

// Told says what the house would refuse of a plan if it were saved now, without changing anything. What else its user should
// know of is in [Stock.Warned] and [Stock.Changed].
func (s Stock) Told(p *plan.Plan) []Refusal {
	_, done := s.tried(p, "")
	return done.Refused
}

// Warned says on a day, as 2027-06-22, what of the house the plan is promised and may not be there when it is wanted, since it
// is overdue elsewhere; it changes nothing.
func (s Stock) Warned(p *plan.Plan, day string) []Conflict {
	known, found := s.show(p.Settings.Identity)
	if !found && len(s.wishes(p)) == 0 {
		return nil
	}
	after, _ := s.tried(p, known.Saved)
	return after.warned(ShowOf(p, "", day))
}

// warned are the conflicts of a show on the day that it is saved.
func (s Stock) warned(show Show) (all []Conflict) {
	for _, conflict := range s.Conflicts(show.Saved) {
		if conflict.Wants.ID == show.ID {
			all = append(all, conflict)
		}
	}
	return all
}

// Change is what the house says otherwise of a row of a plan since its show took it.
type Change struct {
	// Reel is the plan's row, House the house's.
	Reel, House plan.ReelID
	// Differences has what the plan says as Was and what the house says as Is.
	Differences []Difference
}

// Changed lists what the house edited of what a plan has of it and the plan does not say. What the show found out by itself is
// not among it: the house learns that when it comes back.
func (s Stock) Changed(p *plan.Plan) (all []Change) {
	for row := range p.Reels.All() {
		house, found := s.edited(p, row)
		if !found {
			continue
		}
		if differences := changes(p, row, s.Plan, house); len(differences) > 0 {
			all = append(all, Change{row.ID, house.ID, differences})
		}
	}
	return all
}

// edited is the house's row of a plan's row, where the house edited it.
func (s *Stock) edited(p *plan.Plan, row plan.Reel) (house plan.Reel, found bool) {
	if row.Taking == "" {
		return house, false
	}
	for _, at := range s.entries(row.Taking, p.Settings.Identity) {
		if s.Takings[at].Edited {
			return s.Plan.Reels.Get(plan.Key(s.Takings[at].Reel))
		}
	}
	return house, false
}

// Refresh takes over into rows of a plan what the house says of them; see [Stock.Changed].
func (s Stock) Refresh(e *plan.Edit, rows ...plan.ReelID) error {
	for _, id := range rows {
		row, _ := e.Now().Reels.Get(plan.Key(id))
		house, found := s.edited(e.Now(), row)
		if !found {
			return fmt.Errorf("%w: the house has changed nothing of that reel", plan.ErrRefused)
		}
		kind, box := copyKind(e, s.Plan, house.Kind), copyCase(e, s.Plan, house.Case)
		err := plan.Update(e, plan.Key(id), func(r *plan.Reel) {
			r.Kind, r.Case, r.Length, r.Nominal, r.Tag, r.Note = kind, box, house.Length, house.Nominal, house.Tag, house.Note
			r.Condition, r.Reason, r.FoundAt, r.FoundOn, r.Measured = house.Condition, house.Reason, house.FoundAt, house.FoundOn, house.Measured
		})
		if err != nil {
			return err
		}
	}
	return nil
}

// changes compares two rows of plans of their own field by field.
func changes(from *plan.Plan, was plan.Reel, to *plan.Plan, is plan.Reel) []Difference {
	back := backOf(to, is)
	was.State, back.State = "", ""
	all := Differences(from, was, back)
	if was.Tag != is.Tag {
		all = append(all, Difference{"Tag", was.Tag, is.Tag})
	}
	before, _ := from.CableKinds.Get(plan.Key(was.Kind))
	after, _ := to.CableKinds.Get(plan.Key(is.Kind))
	if before.Name != after.Name {
		all = append(all, Difference{"Kind", before.Name, after.Name})
	}
	return all
}

// tagged finds the row of a tag, capitals or not.
func tagged(p *plan.Plan, tag string) (row plan.Reel, found bool) {
	tag = strings.TrimSpace(tag)
	if tag == "" {
		return row, false
	}
	for row := range p.Reels.All() {
		if strings.EqualFold(strings.TrimSpace(row.Tag), tag) {
			return row, true
		}
	}
	return row, false
}

// tagTwice says which tag a change gave to a row although another has it. What was so before is left: nobody could mend the one
// without the other.
func tagTwice(before, after *plan.Plan) error {
	first := map[string]plan.Reel{}
	for row := range after.Reels.All() {
		tag := strings.ToLower(strings.TrimSpace(row.Tag))
		if tag == "" {
			continue
		}
		other, twice := first[tag]
		if !twice {
			first[tag] = row
			continue
		}
		if sameTag(before, row) && sameTag(before, other) {
			continue
		}
		if !sameTag(before, other) {
			row, other = other, row
		}
		kind, _ := after.CableKinds.Get(plan.Key(other.Kind))
		box, _ := after.Cases.Get(plan.Key(other.Case))
		where := ""
		if box.Name != "" {
			where = " in " + plan.Clipped(box.Name)
		}
		return fmt.Errorf("the tag %s is on another reel already: %g m of %s%s", plan.Clipped(row.Tag), other.Length, plan.Clipped(kind.Name), where)
	}
	return nil
}

// sameTag reports whether a row had its tag before.
func sameTag(before *plan.Plan, row plan.Reel) bool {
	was, known := before.Reels.Get(row.Key())
	return known && strings.EqualFold(strings.TrimSpace(was.Tag), strings.TrimSpace(row.Tag))
}
