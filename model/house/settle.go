package house

import (
	"cmp"
	"fmt"
	"maps"
	"slices"

	"stageloom/model/plan"
	"stageloom/model/words"
)

// Show is a plan that has something of the house's stock, as it stood when it was last saved.
type Show struct {
	// ID is the plan's identity.
	ID string `json:"id"`
	// Name is what it is called.
	Name string `json:"name"`
	// File is where it lay.
	File string `json:"file"`
	// Saved is the day, as 2027-06-22.
	Saved string `json:"saved"`
	// From and Until are the days on which it has what it takes; blank where they are open.
	From  string `json:"from,omitempty"`
	Until string `json:"until,omitempty"`
}

// ShowOf is the show that a plan is, as it lies in a file and is saved on a day, as 2027-06-22. Days that the calendar does not
// have, or that are the wrong way round, count as blank.
func ShowOf(p *plan.Plan, file, day string) Show {
	s := p.Settings
	return Show{ID: s.Identity, Name: s.Name, File: file, Saved: day, From: s.OutOn, Until: s.BackOn}.sound()
}

// sound is the show with days that can be compared.
func (s Show) sound() Show {
	days := s.span()
	s.From, s.Until = days.from, days.until
	return s
}

// Refusal is why a plan does not have what its rows say that it has of the house's stock.
type Refusal struct {
	// Taking is what the plan's rows name.
	Taking string
	// Reel is the row of the house's stock; blank where it is there no more.
	Reel plan.ReelID
	// Wanted is how many the plan says that it has, Had how many of them it has.
	Wanted, Had int
	// Why says where the others are, as the end of a sentence.
	Why string
}

// Settled is what came of settling a plan with the house.
type Settled struct {
	Refused []Refusal
	// Warned is what the show is promised and may not be there on its day, since it is overdue elsewhere.
	Warned []Conflict
	// Taken and Returned count cables that went to the plan and came back from it.
	Taken, Returned int
	// Trouble is why the house could not be settled; the plan is saved all the same.
	Trouble error
}

// wish is what the rows of a plan say of one taking.
type wish struct {
	reel     plan.ReelID
	quantity int
}

// wishes reads what a plan says that it has of the house's stock. A row of before takings named their reel is of the reel
// that the house's own taking names.
func (s *Stock) wishes(p *plan.Plan) map[string]wish {
	wishes := map[string]wish{}
	for row := range p.Reels.All() {
		if row.Taking == "" {
			continue
		}
		has := wishes[row.Taking]
		has.quantity += row.Count()
		has.reel = cmp.Or(has.reel, plan.ReelID(row.HouseReel))
		if has.reel == "" {
			has.reel = s.before(row.Taking, p.Settings.Name)
		}
		wishes[row.Taking] = has
	}
	return wishes
}

// before is the row of a taking of before plans had identities.
func (s *Stock) before(id, show string) plan.ReelID {
	for _, t := range s.Takings {
		if t.ID == id && (t.Plan == "" && t.Show == show || t.Plan != "") {
			return t.Reel
		}
	}
	return ""
}

// Settle makes what the house says of a show equal to what its plan says, as far as the house has it: what the plan no longer
// has is back, with what the show found out of it, and what it has anew is out with it on the show's days. What another show has
// on one of these days, what the house received and what is faulty, missing, in repair or written off is refused and told. Of
// what the show had and does not fit its new days, it keeps until it is given back what it has on site, on the former days; the
// rest is no longer its own. Settling twice changes nothing.
func (s *Stock) Settle(p *plan.Plan, show Show, ids *plan.IDSource) (Settled, error) {
	show = show.sound()
	done := settling{Stock: s, show: show, back: map[string]returned{}}
	wishes := s.wishes(p)
	s.bind(wishes, show)
	for _, id := range done.takings() {
		done.lessen(id, wishes[id].quantity)
	}
	s.sweep()
	if err := done.learn(p, ids); err != nil {
		return done.Settled, err
	}
	was, known := s.show(show.ID)
	s.know(show)
	for _, id := range done.takings() {
		done.refit(id, was, known)
	}
	for _, id := range slices.Sorted(maps.Keys(wishes)) {
		done.raise(id, wishes[id])
	}
	s.sweep()
	s.know(show)
	s.knowLent(p, show.ID)
	done.Settled.Warned = s.warned(show)
	return done.Settled, nil
}

// settling is one plan that is settled with the house.
type settling struct {
	*Stock
	Settled
	show Show
	// back is what came back of each taking now.
	back map[string]returned
}

type returned struct {
	reel     plan.ReelID
	quantity int
	lent     Known
}

// takings are the names of what the show has, in order.
func (d *settling) takings() (all []string) {
	for _, t := range d.Takings {
		if t.Plan == d.show.ID && d.show.ID != "" { // blank are those of before plans had identities
			all = append(all, t.ID)
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// bind gives takings of before plans had identities to the plan whose rows name them.
func (s *Stock) bind(wishes map[string]wish, show Show) {
	for i, t := range s.Takings {
		if _, named := wishes[t.ID]; t.Plan == "" && named && t.Show == show.Name && s.taking(t.ID, show.ID) < 0 {
			s.Takings[i].Plan, s.Takings[i].Show = show.ID, ""
		}
	}
}

// lessen brings back what the plan has no more. That is first what the house received already.
func (d *settling) lessen(id string, wanted int) {
	entries, less := d.entries(id, d.show.ID), -wanted
	for _, at := range entries {
		less += d.Takings[at].Quantity + d.Takings[at].Came
	}
	less = max(0, less)
	for _, at := range entries {
		t := &d.Takings[at]
		known := min(t.Came, less)
		t.Came -= known
		less -= known
		if t.Came == 0 {
			t.Received, t.CameAs = "", ""
		}
	}
	for _, at := range entries {
		t := &d.Takings[at]
		came := min(t.Quantity, less)
		t.Quantity -= came
		less -= came
		d.back[id] = returned{t.Reel, d.back[id].quantity + came, t.Lent}
		d.Returned += came
	}
}

// raise lets the plan have more, as far as the house has it on the show's days.
func (d *settling) raise(id string, want wish) {
	at := d.taking(id, d.show.ID)
	if at < 0 {
		for _, held := range d.entries(id, d.show.ID) {
			want.reel = d.Takings[held].Reel
		}
		d.Takings = append(d.Takings, Taking{ID: id, Plan: d.show.ID, Reel: want.reel, Day: d.show.Saved})
		at = len(d.Takings) - 1
	}
	came, received, as := 0, "", ""
	for _, each := range d.entries(id, d.show.ID) {
		t := d.Takings[each]
		came, received, as = came+t.Came, max(received, t.Received), cmp.Or(as, t.CameAs)
	}
	t := &d.Takings[at]
	why := ""
	if wanted := want.quantity - came; wanted > t.Quantity {
		can, reason := d.free(t.Reel, wanted, d.ofTaking(id))
		d.Taken += max(0, can-t.Quantity)
		t.Quantity, why = max(can, t.Quantity), reason
	}
	switch {
	case came > 0 && as != "":
		why = "is " + stateWords(as) + " since " + received
	case came > 0:
		why = "came back to the house on " + received
	}
	if t.Quantity < want.quantity {
		d.Refused = append(d.Refused, Refusal{id, t.Reel, want.quantity, t.Quantity, why})
	}
}

// learn lets the house know the state of what came back now; what came back before is known.
func (d *settling) learn(p *plan.Plan, ids *plan.IDSource) error {
	for back := range p.GivenBack.All() {
		known := Learned{d.show.ID, back.ID}
		if slices.Contains(d.Learned, known) {
			continue
		}
		came := d.back[back.Taking]
		quantity := min(back.Quantity, came.quantity)
		if quantity == 0 {
			continue
		}
		came.quantity -= quantity
		d.back[back.Taking] = came
		d.Learned = append(d.Learned, known)
		if err := d.Stock.learn(back, came, quantity, d.show.Name, ids); err != nil {
			return err
		}
	}
	return nil
}

// free counts how many of a row, of those wanted, can go to the show on its days beside what others have, and says why not all.
func (d *settling) free(id plan.ReelID, wanted int, skip func(Taking) bool) (count int, why string) {
	row, found := d.Plan.Reels.Get(plan.Key(id))
	switch {
	case !found:
		return 0, "is in the house's stock no more"
	case row.State != "":
		return 0, "is " + stateSince(row)
	case row.Condition == plan.Faulty:
		return 0, "is faulty"
	}
	count = min(wanted, max(0, d.room(id, d.show.span(), skip)))
	if count < wanted {
		why = d.elsewhere(row, d.show, skip)
	}
	return count, why
}

// elsewhere says which shows have cables of a row on a show's days, as the end of a sentence.
func (s *Stock) elsewhere(row plan.Reel, show Show, skip func(Taking) bool) string {
	var with []string
	verb := "is out: "
	for _, t := range s.Takings {
		days := s.spanOf(t)
		if t.Reel != row.ID || t.Quantity == 0 || !days.overlaps(show.span()) || skip(t) {
			continue
		}
		said := fmt.Sprintf("with %s since %s", plan.Clipped(s.ShowName(t)), t.Day)
		switch {
		case t.Plan == show.ID && show.ID != "":
			said = "with this show already"
		case days != (span{}):
			said = fmt.Sprintf("promised to %s%s", plan.Clipped(s.ShowName(t)), days.words())
		}
		if row.Count() == 1 {
			verb = "is "
		} else {
			said = fmt.Sprintf("%d %s", t.Quantity, said)
		}
		with = append(with, said)
	}
	if len(with) == 0 {
		return "is not there that often"
	}
	return verb + words.Listed(with)
}

// know notes a show that has something, and forgets one that has nothing.
func (s *Stock) know(show Show) {
	if show.ID == "" {
		return
	}
	has := slices.ContainsFunc(s.Takings, func(t Taking) bool { return t.Plan == show.ID })
	at := slices.IndexFunc(s.Shows, func(known Show) bool { return known.ID == show.ID })
	switch {
	case has && at >= 0:
		s.Shows[at] = show
	case has:
		s.Shows = append(s.Shows, show)
	case at >= 0:
		s.Shows = slices.Delete(s.Shows, at, at+1)
	}
}
