package house

import (
	"cmp"
	"fmt"
	"strings"

	"stageloom/model/plan"
)

// Return is a row of a plan that goes back to the house, or some of it.
type Return struct {
	Reel     plan.ReelID
	Quantity int
}

// GiveBack takes rows out of a plan and notes what of them goes back to the house and in which state, which the house learns
// when the plan is saved. Links made of them keep kind and length. Rows that the house did not lend are refused; of what is tied
// into one piece all goes back that is the house's.
func GiveBack(e *plan.Edit, day string, returns ...Return) error {
	for _, back := range wholeReturns(e.Now(), returns) {
		row, found := e.Now().Reels.Get(plan.Key(back.Reel))
		switch {
		case !found:
			return fmt.Errorf("%w: a reel that is to go back is not in this plan any more", plan.ErrRefused)
		case row.Taking == "":
			return fmt.Errorf("%w: %s is not the house's", plan.ErrRefused, named(e.Now(), row))
		case back.Quantity < 1 || back.Quantity > row.Count():
			return fmt.Errorf("%w: of %s there are %d here, not %d", plan.ErrRefused, named(e.Now(), row), row.Count(), back.Quantity)
		}
		given := backOf(e.Now(), row)
		given.Quantity, given.Day, given.History = back.Quantity, day, historyWords(e.Now(), row.ID)
		if err := takeOut(e, row, back.Quantity); err != nil {
			return err
		}
		e.AddGivenBack(given)
	}
	return nil
}

// wholeReturns are returns with all that they are tied to, as far as it is the house's.
func wholeReturns(p *plan.Plan, returns []Return) (all []Return) {
	var wants []Want
	said := map[plan.ReelID]bool{}
	for _, back := range returns {
		wants = append(wants, Want(back))
		said[back.Reel] = true
	}
	for _, want := range wholePieces(p, wants) {
		if row, _ := p.Reels.Get(plan.Key(want.Reel)); row.Taking != "" || said[want.Reel] {
			all = append(all, Return(want))
		}
	}
	return all
}

// backOf is a row of a plan as what goes back of it says it.
func backOf(p *plan.Plan, row plan.Reel) plan.GivenBack {
	box, _ := p.Cases.Get(plan.Key(row.Case))
	return plan.GivenBack{
		Taking: row.Taking, HouseReel: row.HouseReel, Quantity: row.Count(), Tag: row.Tag, Length: row.Length, Nominal: row.Nominal, Case: box.Name,
		Condition: row.Condition, Reason: row.Reason, FoundAt: row.FoundAt, FoundOn: row.FoundOn, Measured: row.Measured,
		State: row.State, StateOn: row.StateOn, Note: row.Note,
	}
}

// takeOut takes some of a row out of the plan.
func takeOut(e *plan.Edit, row plan.Reel, quantity int) error {
	if quantity >= row.Count() {
		return e.RemoveReel(row.ID)
	}
	part, err := e.SplitReel(row.ID, quantity)
	if err != nil {
		return err
	}
	return e.RemoveReel(part)
}

// foundBy is what comes back as its show found it, with the rest as the house knows it. What was bad and comes back good has no
// fault any more.
func (s *Stock) foundBy(came returned, back plan.GivenBack) plan.GivenBack {
	now, found := s.Plan.Reels.Get(plan.Key(came.reel))
	if found {
		back = came.lent.foundOut(back, backOf(s.Plan, now))
	}
	if !good(back.Condition) {
		return back
	}
	back.FoundAt, back.FoundOn = "", ""
	if found && good(now.Condition) {
		back.FoundAt, back.FoundOn = now.FoundAt, now.FoundOn
	} else {
		back.Reason = ""
	}
	return back
}

func good(condition string) bool { return condition == "" || condition == plan.Good }

// learn writes into the house's row, and into its history, what a show found out of what came back; of several equal ones those
// that came back so become a row of their own.
func (s *Stock) learn(back plan.GivenBack, came returned, quantity int, from string, ids *plan.IDSource) error {
	row := came.reel
	back = s.foundBy(came, back)
	next, err := plan.Do(s.Plan, ids, func(e *plan.Edit) error {
		was, found := e.Now().Reels.Get(plan.Key(row))
		found = found && was.State == "" // what is set aside meanwhile is as the house says
		if !found || len(Differences(s.Plan, was, back)) == 0 {
			readHistory(e, row, back.History)
			return nil
		}
		id, err := e.SplitReel(row, min(quantity, was.Count()))
		if err != nil {
			return err
		}
		readHistory(e, id, back.History)
		note(e, id, back.Day, differenceWords(Differences(s.Plan, was, back))+", from "+from, "")
		box := caseNamed(e, back.Case)
		tag := back.Tag
		if _, used := tagged(e.Now(), tag); used {
			tag = ""
		}
		return plan.Update(e, plan.Key(id), func(r *plan.Reel) {
			r.Length, r.Nominal, r.Case, r.Note, r.State, r.StateOn = back.Length, back.Nominal, box, back.Note, back.State, ""
			if back.State != "" {
				r.StateOn = cmp.Or(back.StateOn, back.Day)
			}
			r.Condition, r.Reason, r.FoundAt, r.FoundOn, r.Measured = back.Condition, back.Reason, back.FoundAt, back.FoundOn, back.Measured
			if r.Tag == "" && r.Count() == 1 {
				r.Tag = tag
			}
		})
	})
	if err == nil {
		s.Plan = next
		s.shed(row)
	}
	return err
}

// Difference is a field in which what comes back is another than what the house knows.
type Difference struct {
	// Field is what it is called.
	Field string
	// Was and Is are its words in the house and as it comes back.
	Was, Is string
}

// Differences compares what comes back with the house's row: length and nominal length, case, condition with its reason,
// measured loss, state and note.
func Differences(p *plan.Plan, was plan.Reel, back plan.GivenBack) (all []Difference) {
	box, _ := p.Cases.Get(plan.Key(was.Case))
	add := func(field, before, after string) {
		if before != after {
			all = append(all, Difference{field, before, after})
		}
	}
	metres := func(m float64) string { return strings.TrimSuffix(fmt.Sprintf("%.2f", m), ".00") + " m" }
	add("Length", metres(was.Length), metres(back.Length))
	add("Nominal length", metres(cmp.Or(was.Nominal, was.Length)), metres(cmp.Or(back.Nominal, back.Length)))
	if !strings.EqualFold(box.Name, back.Case) {
		add("Case", box.Name, back.Case)
	}
	add("Condition", cmp.Or(was.Condition, plan.Good), cmp.Or(back.Condition, plan.Good))
	add("Reason", was.Reason, back.Reason)
	add("State", stateWords(was.State), stateWords(back.State))
	add("Found at", was.FoundAt, back.FoundAt)
	add("Found on", was.FoundOn, back.FoundOn)
	add("Measured loss", decibels(was.Measured), decibels(back.Measured))
	add("Note", was.Note, back.Note)
	return all
}

func decibels(loss plan.Optional) string {
	if !loss.Set {
		return ""
	}
	return fmt.Sprintf("%g dB", loss.Value)
}

// caseNamed finds the case of a name, or makes it; a blank name is none.
func caseNamed(e *plan.Edit, name string) plan.CaseID {
	if name == "" {
		return ""
	}
	for there := range e.Now().Cases.All() {
		if strings.EqualFold(there.Name, name) {
			return there.ID
		}
	}
	return e.AddCase(plan.Case{Name: name})
}
