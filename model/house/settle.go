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

// ShowOf is the show that a plan is, as it lies in a file and is saved on a day, as 2027-06-22.
func ShowOf(p *plan.Plan, file, day string) Show {
	s := p.Settings
	return Show{ID: s.Identity, Name: s.Name, File: file, Saved: day, From: s.OutOn, Until: s.BackOn}
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
// has is back, with what the show found out of it, and what it has anew is out with it. What another show has, what the house
// received and what is faulty is refused and told. Settling twice changes nothing.
func (s *Stock) Settle(p *plan.Plan, show Show, ids *plan.IDSource) (Settled, error) {
	done := settling{Stock: s, show: show, back: map[string]int{}}
	wishes := s.wishes(p)
	s.bind(wishes, show)
	for at, t := range s.Takings {
		if t.Plan == show.ID {
			done.lessen(&s.Takings[at], wishes[t.ID].quantity)
		}
	}
	if err := done.learn(p, ids); err != nil {
		return done.Settled, err
	}
	for _, id := range slices.Sorted(maps.Keys(wishes)) {
		done.raise(id, wishes[id])
	}
	s.Takings = slices.DeleteFunc(s.Takings, func(t Taking) bool { return t.Quantity+t.Came == 0 })
	s.know(show)
	return done.Settled, nil
}

// settling is one plan that is settled with the house.
type settling struct {
	*Stock
	Settled
	show Show
	// back counts what came back of each taking now.
	back map[string]int
}

// bind gives takings of before plans had identities to the plan whose rows name them.
func (s *Stock) bind(wishes map[string]wish, show Show) {
	for i, t := range s.Takings {
		if _, named := wishes[t.ID]; t.Plan == "" && named && t.Show == show.Name {
			s.Takings[i].Plan, s.Takings[i].Show = show.ID, ""
		}
	}
}

// lessen brings back what the plan has no more. That is first what the house received already.
func (d *settling) lessen(t *Taking, wanted int) {
	less := max(0, t.Quantity+t.Came-wanted)
	known := min(t.Came, less)
	t.Came -= known
	t.Quantity -= less - known
	d.back[t.ID] = less - known
	d.Returned += less - known
	if t.Came == 0 {
		t.Received = ""
	}
}

// raise lets the plan have more, as far as the house has it.
func (d *settling) raise(id string, want wish) {
	at := d.taking(id, d.show.ID)
	if at < 0 {
		d.Takings = append(d.Takings, Taking{ID: id, Plan: d.show.ID, Reel: want.reel, Day: d.show.Saved})
		at = len(d.Takings) - 1
	}
	t := &d.Takings[at]
	why := ""
	if more := want.quantity - t.Quantity - t.Came; more > 0 {
		more, why = d.free(t.Reel, more)
		t.Quantity += more
		d.Taken += more
	}
	if t.Came > 0 {
		why = "came back to the house on " + t.Received
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
		quantity := min(back.Quantity, d.back[back.Taking])
		if quantity == 0 {
			continue
		}
		d.back[back.Taking] -= quantity
		d.Learned = append(d.Learned, known)
		if err := d.Stock.learn(back, plan.ReelID(back.HouseReel), quantity, ids); err != nil {
			return err
		}
	}
	return nil
}

// free counts how many of a row, of those wanted, can go to a show now, and says why not all.
func (s *Stock) free(id plan.ReelID, wanted int) (count int, why string) {
	row, found := s.Plan.Reels.Get(plan.Key(id))
	switch {
	case !found:
		return 0, "is in the house's stock no more"
	case row.Condition == plan.Faulty:
		return 0, "is faulty"
	}
	count = min(wanted, max(0, s.Left(row)))
	if count < wanted {
		why = s.elsewhere(id)
	}
	return count, why
}

// elsewhere says with which shows cables of a row are, as the end of a sentence.
func (s *Stock) elsewhere(id plan.ReelID) string {
	var with []string
	for _, t := range s.Takings {
		if t.Reel == id && t.Quantity > 0 {
			with = append(with, fmt.Sprintf("%d with %s since %s", t.Quantity, s.ShowName(t), t.Day))
		}
	}
	if len(with) == 0 {
		return "is not there that often"
	}
	return "is out: " + words.Listed(with)
}

// know notes a show that has something, and forgets one that has nothing.
func (s *Stock) know(show Show) {
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
