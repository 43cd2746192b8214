package house

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"path/filepath"
	"slices"
	"strings"

	"stageloom/model/atomicfile"
	"stageloom/model/plan"
	"stageloom/model/planfile"
)

// stockHead begins the file of the house's stock.
const stockHead = "stageloom stock 1\n"

// Taking is what a show has taken of one row of the house's stock and not given back.
type Taking struct {
	ID       string      `json:"id"`
	Reel     plan.ReelID `json:"reel"`
	Quantity int         `json:"quantity"`
	Show     string      `json:"show"`
	// Day is when it was taken, as 2027-06-22.
	Day string `json:"day"`
}

// Stock is the house's stock: its kinds, cases and reels as a plan of nothing else, and what is out with shows.
type Stock struct {
	Plan    *plan.Plan
	Takings []Taking
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

// With lists what is out with a show.
func (s Stock) With(show string) (takings []Taking) {
	for _, taking := range s.Takings {
		if taking.Show == show {
			takings = append(takings, taking)
		}
	}
	return takings
}

func (s Stock) taking(id string) int {
	return slices.IndexFunc(s.Takings, func(t Taking) bool { return t.ID == id })
}

// check says why the stock cannot stand: something is out that is not there.
func (s Stock) check() error {
	seen := map[string]bool{}
	for _, taking := range s.Takings {
		reel, found := s.Plan.Reels.Get(plan.Key(taking.Reel))
		switch {
		case taking.Quantity < 1 || taking.ID == "" || seen[taking.ID]:
			return fmt.Errorf("what %s has taken is not written as it should be", plan.Clipped(taking.Show))
		case !found:
			return fmt.Errorf("a reel that %s has taken would be gone: let it give the reel back first", plan.Clipped(taking.Show))
		case s.Left(reel) < 0:
			return fmt.Errorf("of %s there would be %d, but %d are out with shows", named(s.Plan, reel), reel.Count(), s.Out(reel.ID))
		}
		seen[taking.ID] = true
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

// mostReason is how many signs of another program's reason are told: the reader of JSON quotes figures of any length.
const mostReason = 120

// decodeStock reads the head, a line with the rows, and a line for each taking.
func decodeStock(text []byte) (Stock, error) {
	s := Stock{Plan: plan.New("House stock")}
	body, found := bytes.CutPrefix(text, []byte(stockHead))
	if !found {
		return s, errors.New("it does not hold the stock of a house; move it away")
	}
	lines := bytes.Split(bytes.TrimSuffix(body, []byte("\n")), []byte("\n"))
	delta, err := planfile.DecodeDelta(lines[0], planfile.Version)
	if err != nil {
		return s, err
	}
	if s.Plan, err = plan.Apply(s.Plan, delta); err != nil {
		return s, err
	}
	for i, line := range lines[1:] {
		var taking Taking
		if err := json.Unmarshal(line, &taking); err != nil {
			return s, fmt.Errorf("line %d is no taking (%s): put the file back from a copy", i+3, plan.ClippedTo(err.Error(), mostReason))
		}
		if again, err := json.Marshal(taking); err != nil || !bytes.Equal(again, line) {
			return s, fmt.Errorf("line %d is not as it was written: put the file back from a copy", i+3)
		}
		s.Takings = append(s.Takings, taking)
	}
	return s, s.check()
}

func encodeStock(s Stock) (string, error) {
	rows, err := planfile.EncodeDelta(plan.Between(plan.New("House stock"), s.Plan))
	if err != nil {
		return "", err
	}
	var b strings.Builder
	b.WriteString(stockHead)
	b.Write(rows)
	b.WriteString("\n")
	for _, taking := range s.Takings {
		line, err := json.Marshal(taking)
		if err != nil {
			return "", err
		}
		b.Write(line)
		b.WriteString("\n")
	}
	return b.String(), nil
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
	s.Takings = slices.Clone(s.Takings)
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
	return atomicfile.Write(l.stockFile(), func(w io.Writer) error {
		_, err := io.WriteString(w, text)
		return err
	}, nil)
}
