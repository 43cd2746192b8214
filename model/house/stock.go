package house

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"path/filepath"
	"slices"

	"stageloom/model/atomicfile"
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
}

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

// Out counts how many of a row are with shows.
func (s Stock) Out(id plan.ReelID) int {
	out := 0
	for _, taking := range s.Takings {
		if taking.Reel == id {
			out += taking.Quantity
		}
	}
	return out
}

// Left counts how many of a row are in the house.
func (s Stock) Left(reel plan.Reel) int { return reel.Count() - s.Out(reel.ID) }

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

func (s Stock) taking(id, identity string) int {
	return slices.IndexFunc(s.Takings, func(t Taking) bool { return t.ID == id && t.Plan == identity })
}

// check says why the stock cannot stand: something is out that is not there.
func (s Stock) check() error {
	seen := map[[2]string]bool{}
	for _, taking := range s.Takings {
		reel, found := s.Plan.Reels.Get(plan.Key(taking.Reel))
		key := [2]string{taking.ID, taking.Plan}
		switch {
		case taking.Quantity < 0 || taking.Came < 0 || taking.Quantity+taking.Came < 1 || taking.ID == "" || seen[key]:
			return fmt.Errorf("what %s has taken is not written as it should be", plan.Clipped(s.ShowName(taking)))
		case taking.Quantity == 0:
		case !found:
			return fmt.Errorf("a reel that %s has taken would be gone: let it give the reel back first", plan.Clipped(s.ShowName(taking)))
		case s.Left(reel) < 0:
			return fmt.Errorf("of %s there would be %d, but %d are out with shows", named(s.Plan, reel), reel.Count(), s.Out(reel.ID))
		}
		seen[key] = true
	}
	return nil
}

// named is a reel in words: its tag, or its length and kind.
func named(p *plan.Plan, reel plan.Reel) string {
	if reel.Tag != "" {
		return plan.Clipped(reel.Tag)
	}
	kind, _ := p.CableKinds.Get(plan.Key(reel.Kind))
	return fmt.Sprintf("%g m %s", reel.Length, plan.Clipped(kind.Name))
}

func (l Library) stockFile() string { return filepath.Join(l.folder, "stock.stageloom-stock") }

// Stock reads the house's stock; where there is no file yet it is empty. A file that cannot be read is an error that names
// it; it is never written over unread.
func (l Library) Stock() (Stock, error) {
	empty := Stock{Plan: plan.New("House stock")}
	if l.folder == "" {
		return empty, nil
	}
	text, err := atomicfile.ReadRegular(l.stockFile())
	if errors.Is(err, fs.ErrNotExist) {
		return empty, nil
	}
	if err != nil {
		return empty, fmt.Errorf("the house's stock cannot be read: %w", err)
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
	s.Takings, s.Shows, s.Learned = slices.Clone(s.Takings), slices.Clone(s.Shows), slices.Clone(s.Learned)
	if err := change(&s, plan.NewIDSource(rand.Uint64(), rand.Uint64())); err != nil {
		return err
	}
	if err := s.check(); err != nil {
		return fmt.Errorf("%w: %w", plan.ErrRefused, err)
	}
	text, err := encodeStock(s)
	if err != nil {
		return fmt.Errorf("the house's stock was not changed: %w", err)
	}
	if err := l.noteStep([]byte(text)); err != nil {
		return err
	}
	return atomicfile.Write(l.stockFile(), func(w io.Writer) error {
		_, err := io.WriteString(w, text)
		return err
	}, nil)
}
