package house

import (
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"

	"stageloom/model/atomicfile"
	"stageloom/model/plan"
	"stageloom/model/planfile"
)

// Copied is the error of saving a plan whose identity another file has too: nobody has said yet which of them the cables are
// out with.
type Copied struct {
	// Show is what the house knows by the identity; its file is the other one.
	Show Show
}

// Error says where the other one lies.
func (c *Copied) Error() string {
	return fmt.Sprintf("this plan lies in %s too, and the house's stock knows it there: say first whether this one is a plan of its own",
		plan.Clipped(c.Show.File))
}

// SaveWith lets write put a plan into its file, marked with what the house does not let its show have, and then settles the
// house with it; no other program changes the house meanwhile. Where write fails nothing is changed. Where the house cannot be
// read or written the plan is put all the same and the trouble told; so it is after a crash between the two: saving again
// settles. A plan that has nothing of the house and had nothing is put as it is, without a lock; so is one that another house
// than this lends its cables. The error is that of write, or *Copied.
func (l Library) SaveWith(p *plan.Plan, show Show, write func(marked *plan.Plan) error) (Settled, error) {
	s, err := l.Stock()
	switch {
	case err != nil && Lent(p):
		return Settled{Trouble: err}, write(p)
	case err != nil || !s.concerns(p, show):
		return Settled{}, write(s.marked(p, nil))
	case show.ID == "": // the desk gives every plan one; whatever else saves is told
		return Settled{Trouble: fmt.Errorf("%w: the plan has no identity yet, by which the house knows what it has", plan.ErrRefused)}, write(p)
	}
	lock, err := l.lock(l.stockFile())
	if err != nil {
		return Settled{Trouble: fmt.Errorf("the house's stock was not changed: %w", err)}, write(p)
	}
	defer func() { _ = lock.Release() }() // the file stands; a lock left behind frees itself with the program
	if s, err = l.Stock(); err != nil {
		return Settled{Trouble: err}, write(p)
	}
	if other := s.likeOf(show); other != nil {
		return Settled{}, other
	}
	return l.settle(s, p, show, write)
}

// settle is SaveWith under the lock.
func (l Library) settle(s Stock, p *plan.Plan, show Show, write func(*plan.Plan) error) (Settled, error) {
	before := s.Plan
	s = s.copied()
	done, err := s.Settle(p, show, newIDs())
	if err == nil {
		err = s.changedSince(before)
	}
	text := ""
	if err == nil {
		text, err = encodeStock(s)
	}
	if err != nil {
		return Settled{Trouble: fmt.Errorf("the house's stock was not changed: %w", err)}, write(p)
	}
	if err := write(s.marked(p, done.Refused)); err != nil {
		return Settled{}, err
	}
	if err := l.write(text); err != nil {
		done.Trouble = fmt.Errorf("the house's stock was not changed: %w", err)
	}
	return done, nil
}

func newIDs() *plan.IDSource { return plan.NewIDSource(rand.Uint64(), rand.Uint64()) }

// write puts the text of the stock in the place of the one that is there.
func (l Library) write(text string) error {
	return atomicfile.Write(l.stockFile(), func(w io.Writer) error {
		_, err := io.WriteString(w, text)
		return err
	}, nil)
}

// Lent reports whether a plan says that it has or had something of a house's stock.
func Lent(p *plan.Plan) bool {
	for row := range p.Reels.All() {
		if row.Taking != "" {
			return true
		}
	}
	return p.GivenBack.Len() > 0
}

// concerns reports whether the house has anything to do with a plan.
func (s *Stock) concerns(p *plan.Plan, show Show) bool {
	wishes := s.wishes(p)
	known := slices.ContainsFunc(s.Takings, func(t Taking) bool { return t.Plan == show.ID })
	return known || len(wishes) > 0 && !s.foreign(wishes)
}

// foreign reports whether wishes are of another house's reels altogether.
func (s *Stock) foreign(wishes map[string]wish) bool {
	for _, want := range wishes {
		if s.Plan.Reels.Has(plan.Key(want.reel)) {
			return false
		}
	}
	return true
}

// likeOf is what keeps a show from being settled: its plan lies in another file too.
func (s *Stock) likeOf(show Show) *Copied {
	for _, known := range s.Shows {
		if known.ID == show.ID && known.File != "" && show.File != "" && !sameFile(known.File, show.File) && lies(known) {
			return &Copied{known}
		}
	}
	return nil
}

func sameFile(a, b string) bool {
	if filepath.Clean(a) == filepath.Clean(b) {
		return true
	}
	one, errOne := os.Stat(a)
	other, errOther := os.Stat(b)
	return errOne == nil && errOther == nil && os.SameFile(one, other)
}

// lies reports whether the plan of a show lies in the file that the house knows.
func lies(show Show) bool {
	there, _, err := planfile.Open(show.File)
	return err == nil && there.Settings.Identity == show.ID
}

// Copied tells of a plan that is opened where its like lies that has the house's cables: nil where there is none, and where the
// plan was moved or its like is gone.
func (l Library) Copied(show Show) (*Copied, error) {
	s, err := l.Stock()
	if err != nil {
		return nil, err
	}
	return s.likeOf(show), nil
}

// Follow notes that a show's plan lies in another file now.
func (l Library) Follow(show Show) error {
	return l.changeStock(func(s *Stock, _ *plan.IDSource) error {
		for i := range s.Shows {
			if s.Shows[i].ID == show.ID {
				s.Shows[i].File = show.File
			}
		}
		return nil
	})
}

// Marked is a plan whose rows say what the house does not let its show have: first of those that lie in no link, then of the
// others. Marks of before that hold no more are gone.
func Marked(p *plan.Plan, refusals []Refusal) *plan.Plan {
	lacks, why := map[string]int{}, map[string]string{}
	for _, refused := range refusals {
		lacks[refused.Taking], why[refused.Taking] = refused.Wanted-refused.Had, refused.Why
	}
	rows := map[plan.ReelID]int{}
	if len(lacks) > 0 {
		used := p.UsedReels()
		for row := range p.Reels.All() {
			spread(lacks, rows, row, row.Count()-used[row.ID])
		}
		for row := range p.Reels.All() {
			spread(lacks, rows, row, row.Count()-rows[row.ID])
		}
	}
	return p.WithLacking(func(row plan.Reel) (int, string) {
		if rows[row.ID] == 0 {
			return 0, ""
		}
		return rows[row.ID], why[row.Taking]
	})
}

// spread lets so many of a row be of those that its taking lacks.
func spread(lacks map[string]int, rows map[plan.ReelID]int, row plan.Reel, most int) {
	count := min(lacks[row.Taking], max(0, most))
	if row.Taking == "" || count == 0 {
		return
	}
	rows[row.ID] += count
	lacks[row.Taking] -= count
}

// marked is a plan with marks as this house says them; what another house lends is left as it is.
func (s *Stock) marked(p *plan.Plan, refusals []Refusal) *plan.Plan {
	if wishes := s.wishes(p); len(wishes) > 0 && s.foreign(wishes) {
		return p
	}
	return Marked(p, refusals)
}

// Marks returns what marks plans with what the house would refuse of them now.
func (l Library) Marks() (func(*plan.Plan) *plan.Plan, error) {
	s, err := l.Stock()
	if err != nil {
		return nil, err
	}
	type question struct {
		settings plan.Settings
		reels    *plan.Table[plan.Reel]
		back     *plan.Table[plan.GivenBack]
	}
	plain := map[*plan.Table[plan.Reel]]bool{} // tables of reels without anything of a house, and without marks
	answers := map[question][]Refusal{}        // most steps of a history ask the same
	return func(p *plan.Plan) *plan.Plan {
		if plain[p.Reels] {
			return p
		}
		if !Lent(p) {
			unmarked := Marked(p, nil)
			plain[p.Reels] = unmarked == p
			return unmarked
		}
		asked := question{p.Settings, p.Reels, p.GivenBack}
		refused, known := answers[asked]
		if !known {
			refused = s.Told(p)
			answers[asked] = refused
		}
		return s.marked(p, refused)
	}, nil
}

// Keeper settles the plans of one desk with a house, on the day that Today says, as 2027-06-22.
type Keeper struct {
	Library func() Library
	Today   func() string
}

// Save is [Library.SaveWith] of a plan at a path. It tells what the house refuses, and why it could not be asked, and warns of
// what is overdue elsewhere.
func (k Keeper) Save(p *plan.Plan, path string, write func(marked *plan.Plan) error) (told, warned []string, err error) {
	today := k.Today()
	done, err := k.Library().SaveWith(p, ShowOf(p, path, today), write)
	if err != nil {
		return nil, nil, err
	}
	if done.Trouble != nil {
		told = append(told, "what it has of the house's stock is not noted there: "+done.Trouble.Error())
	}
	if n := len(done.Refused); n > 0 {
		told = append(told, fmt.Sprintf("the house does not let the show have all of it (%s): the findings say what and why", refusedWords(n)))
	}
	return told, LateWords(done.Warned, today), nil
}

func refusedWords(n int) string {
	if n == 1 {
		return "one taking"
	}
	return fmt.Sprintf("%d takings", n)
}

// Marks is [Library.Marks] of the house.
func (k Keeper) Marks() (func(*plan.Plan) *plan.Plan, error) { return k.Library().Marks() }
