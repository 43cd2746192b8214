package house

import (
	"errors"
	"fmt"
	"path/filepath"
	"slices"

	"stageloom/model/plan"
)

// Taking is what a show has taken of one row of the house's stock and not given back.
type Taking struct {
	// ID is what the plan's rows name; other plans may have a taking of the same.
	ID string `json:"id"`
	// Plan is the plan's identity; blank in what was taken before plans had one, of which the show's name is known alone.
	Plan     string      `json:"plan,omitempty"`
	Reel     plan.ReelID `json:"reel"`
	Quantity int         `json:"quantity"`
	Show     string      `json:"show,omitempty"`
	// Day is when it was taken, as 2027-06-22.
	Day string `json:"day"`
	// Came is how many the house received although the plan says yet that its show has them, Received the day of the last.
	Came     int    `json:"came_back,omitempty"`
	Received string `json:"received,omitempty"`
	// CameAs is the state in which the house counts what came, such as missing; blank where it is there.
	CameAs string `json:"came_as,omitempty"`
	// From and Until are days that the taking keeps, since it is with the show and the show's new days did not fit.
	From  string `json:"from,omitempty"`
	Until string `json:"until,omitempty"`
	// Edited says that the house changed the row since the show took it; see [Stock.Changed].
	Edited bool `json:"edited,omitempty"`
	// Lent is what the house knew of the row when it was taken.
	Lent Known `json:"lent,omitzero"`
}

// takingKey tells takings apart.
type takingKey struct{ id, plan, from, until string }

func (t Taking) key() takingKey { return takingKey{t.ID, t.Plan, t.From, t.Until} }

// Stock is the house's stock: its kinds, cases and reels as a plan of nothing else, what is out with shows, the shows, and
// what they gave back that the house has learned.
type Stock struct {
	Plan    *plan.Plan
	Takings []Taking
	Shows   []Show
	Learned []Learned
}

// Learned names what a plan gave back whose state the house knows.
type Learned struct {
	Plan string           `json:"plan"`
	Back plan.GivenBackID `json:"back"`
}

// Out counts the most of a row that shows have, or are to have, on one day.
func (s Stock) Out(id plan.ReelID) int {
	out, _ := s.most(id, span{}, nil)
	return out
}

// Left counts how many of a row no show has or is to have on any day.
func (s Stock) Left(reel plan.Reel) int { return s.LeftOn(reel, "", "") }

// LeftOn counts how many of a row no show has or is to have on the days from one to another, as 2027-06-22, both among them; a
// blank one is open. What is missing, in repair or written off is not left.
func (s Stock) LeftOn(reel plan.Reel, from, until string) int {
	if reel.State != "" {
		return 0
	}
	out, _ := s.most(reel.ID, spanOf(from, until), nil)
	return max(0, reel.Count()-out)
}

// With lists what is out with the plan of an identity.
func (s Stock) With(identity string) (takings []Taking) {
	for _, taking := range s.Takings {
		if taking.Plan == identity && taking.Quantity > 0 {
			takings = append(takings, taking)
		}
	}
	return takings
}

// ShowName is the name of the show that has taken something.
func (s Stock) ShowName(taking Taking) string {
	for _, show := range s.Shows {
		if show.ID == taking.Plan {
			return show.Name
		}
	}
	return taking.Show
}

// taking finds what a plan has by its own days.
func (s Stock) taking(id, identity string) int {
	return slices.IndexFunc(s.Takings, func(t Taking) bool { return t.ID == id && t.Plan == identity && !t.kept() })
}

// entries finds all of a taking, what keeps its days first.
func (s Stock) entries(id, identity string) (all []int) {
	own := s.taking(id, identity)
	for at, t := range s.Takings {
		if t.ID == id && t.Plan == identity && at != own {
			all = append(all, at)
		}
	}
	if own >= 0 {
		all = append(all, own)
	}
	return all
}

// check says why the stock cannot stand: on some day more is out than is there, or a taking or a show is not as it is written.
func (s Stock) check() error {
	shows := map[string]bool{}
	for _, show := range s.Shows {
		if show.ID == "" || shows[show.ID] || (span{show.From, show.Until}) != show.span() {
			return fmt.Errorf("the show %s is not written as it should be", plan.Clipped(show.Name))
		}
		shows[show.ID] = true
	}
	seen := map[takingKey]bool{}
	rows := map[plan.ReelID]bool{}
	for _, t := range s.Takings {
		if !t.sound() || seen[t.key()] {
			return fmt.Errorf("what %s has taken is not written as it should be", plan.Clipped(s.ShowName(t)))
		}
		seen[t.key()] = true
		if t.Quantity == 0 || rows[t.Reel] {
			continue
		}
		rows[t.Reel] = true
		if err := s.checkRow(t); err != nil {
			return err
		}
	}
	return nil
}

func (t Taking) sound() bool {
	counts := t.Quantity >= 0 && t.Came >= 0 && t.Quantity+t.Came >= 1
	return counts && t.ID != "" && span{t.From, t.Until} == spanOf(t.From, t.Until) && (t.CameAs == "" || placeOf(t.CameAs) != InHouse)
}

// checkRow looks at the row of a taking.
func (s *Stock) checkRow(t Taking) error {
	reel, found := s.Plan.Reels.Get(plan.Key(t.Reel))
	if !found {
		return fmt.Errorf("a reel that %s has taken would be gone: let it give the reel back first", plan.Clipped(s.ShowName(t)))
	}
	if reel.State != "" {
		return fmt.Errorf("%s would be %s, but %s has it: say so of what is in the house, or that the show lost it", named(s.Plan, reel), stateWords(reel.State), plan.Clipped(s.ShowName(t)))
	}
	out, day := s.most(t.Reel, span{}, nil)
	if out <= reel.Count() {
		return nil
	}
	when := ""
	if day != "" {
		when = " on " + day
	}
	return fmt.Errorf("of %s there would be %d, but %d are out with shows%s", named(s.Plan, reel), reel.Count(), out, when)
}

// named is a reel in words: its tag, or its length and kind.
func named(p *plan.Plan, reel plan.Reel) string {
	if reel.Tag != "" {
		return plan.Clipped(reel.Tag)
	}
	kind, _ := p.CableKinds.Get(plan.Key(reel.Kind))
	return fmt.Sprintf("%g m %s", reel.Length, plan.Clipped(kind.Name))
}

// copied is a stock that changes without the other.
func (s Stock) copied() Stock {
	s.Takings, s.Shows, s.Learned = slices.Clone(s.Takings), slices.Clone(s.Shows), slices.Clone(s.Learned)
	return s
}

// changedSince looks at what a change made of the stock, and notes of which rows shows are to be told.
func (s *Stock) changedSince(before *plan.Plan) error {
	if err := tagTwice(before, s.Plan); err != nil {
		return err
	}
	for at, t := range s.Takings {
		was, known := before.Reels.Get(plan.Key(t.Reel))
		is, found := s.Plan.Reels.Get(plan.Key(t.Reel))
		if known && found && t.Quantity > 0 && len(changes(before, was, s.Plan, is)) > 0 {
			s.Takings[at].Edited = true
		}
	}
	return s.check()
}

func (l Library) stockFile() string { return filepath.Join(l.folder, "stock.stageloom-stock") }

// theStock is what messages call what lies in that file.
const theStock = "the house's stock"

// Stock reads the house's stock; where there is no file yet it is empty. A file that cannot be read is an error that names
// it; it is never written over unread.
func (l Library) Stock() (Stock, error) {
	empty := Stock{Plan: plan.New("House stock")}
	text, there, err := l.read(l.stockFile(), theStock)
	if !there {
		return empty, err
	}
	s, err := decodeStock(text)
	if err != nil {
		return empty, fmt.Errorf("%s cannot be read: %w", l.stockFile(), err)
	}
	return s, nil
}

// ChangeStock edits the rows of the house's stock. It reads the file anew, so that nothing another window did is lost.
func (l Library) ChangeStock(edit func(*plan.Edit) error) error {
	return l.changeStock(func(s *Stock, ids *plan.IDSource) error {
		next, err := plan.Do(s.Plan, ids, edit)
		if err == nil {
			s.Plan = next
		}
		return err
	})
}

// changeStock reads, changes and writes the stock while no other program does.
func (l Library) changeStock(change func(*Stock, *plan.IDSource) error) error {
	if l.folder == "" {
		return errors.New("there is no folder to keep the house's stock in")
	}
	lock, err := l.lock(l.stockFile())
	if err != nil {
		return fmt.Errorf("the house's stock was not changed: %w", err)
	}
	defer func() { _ = lock.Release() }() // the file stands; a lock left behind frees itself with the program
	s, err := l.Stock()
	if err != nil {
		return err
	}
	before := s.Plan
	s = s.copied()
	if err := change(&s, newIDs()); err != nil {
		return err
	}
	if err := s.changedSince(before); err != nil {
		return fmt.Errorf("%w: %w", plan.ErrRefused, err)
	}
	text, err := encodeStock(s)
	if err != nil {
		return fmt.Errorf("the house's stock was not changed: %w", err)
	}
	if err := l.noteStep([]byte(text)); err != nil {
		return err
	}
	return l.write(text)
}
