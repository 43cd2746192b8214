package stocklist

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"stageloom/model/plan"
	"stageloom/model/words"
)

// Mass is what things weigh in kilograms as far as that is known.
type Mass struct {
	// KG is what is known.
	KG float64
	// Unknown counts cables that neither say their weight nor have a kind that does.
	Unknown int
}

// Figure is the mass in tenths of a kilogram, alone: "41.5"; a dash where no weight is known.
func (m Mass) Figure() string {
	if m.KG == 0 && m.Unknown > 0 {
		return "–"
	}
	return strconv.FormatFloat(m.Tenths(), 'f', 1, 64)
}

// Tenths is the mass rounded as it is printed, so that sums are those of printed figures.
func (m Mass) Tenths() float64 { return math.Round(m.KG*10) / 10 }

// String says the mass, and where some of it is not known: "at least 41.5 kg; 3 without a weight", "weight not known".
func (m Mass) String() string {
	switch {
	case m.Unknown == 0:
		return m.Figure() + "\u00a0kg"
	case m.KG == 0:
		return "weight not known"
	}
	return fmt.Sprintf("at least %s\u00a0kg; %d without a weight", m.Figure(), m.Unknown)
}

func (m *Mass) add(other Mass) { m.KG, m.Unknown = m.KG+other.KG, m.Unknown+other.Unknown }

// Weigh is the mass of cables: what each says itself, else what its kind and its length come to.
func Weigh(p *plan.Plan, pieces []Pieces) (sum Mass) {
	for _, one := range pieces {
		each, known := one.Reel.Weight.Value, one.Reel.Weight.Set
		if kind, found := p.CableKinds.Get(plan.Key(one.Reel.Kind)); !known && found {
			each, known = kind.Weight.Value*one.Reel.Length/100, kind.Weight.Set
		}
		switch {
		case one.Count < 1:
		case known:
			sum.KG += each * float64(one.Count)
		default:
			sum.Unknown += one.Count
		}
	}
	return sum
}

// Load is a case with what is in it. The Load without a case, whose Case is the zero one, is what lives in none.
type Load struct {
	Case   plan.Case
	Pieces []Pieces
	// Cables counts what is in it; Mass is what they weigh with the case itself, rounded as printed.
	Cables int
	Mass   Mass
}

// NoCase heads what lives in no case.
const NoCase = "No case"

// Name is what the case is called.
func (l Load) Name() string {
	if l.Case.ID == "" {
		return NoCase
	}
	return l.Case.Name
}

// Over says in words what is too much for the case, blank where it takes all.
func (l Load) Over() string {
	var over []string
	if takes := l.Case.Pieces; takes > 0 && l.Cables > takes {
		over = append(over, words.Counted(l.Cables-takes, "piece", "pieces")+" too many")
	}
	if takes := l.Case.Most; takes.Set && l.Mass.Tenths() > takes.Value {
		over = append(over, Mass{KG: l.Mass.Tenths() - takes.Value}.Figure()+"\u00a0kg too heavy")
	}
	return words.Listed(over)
}

// Takes says in words what the case takes, blank where nobody said.
func (l Load) Takes() string {
	var takes []string
	if l.Case.Pieces > 0 {
		takes = append(takes, words.Counted(l.Case.Pieces, "piece", "pieces"))
	}
	if most := l.Case.Most; most.Set {
		takes = append(takes, strconv.FormatFloat(most.Value, 'f', -1, 64)+"\u00a0kg")
	}
	return words.Listed(takes)
}

// Loads shares cables out to their cases, by name; what lives in none comes last. With empty ones, cases without a cable are
// told too.
func Loads(p *plan.Plan, pieces []Pieces, empty bool) (loads []Load) {
	in := map[plan.CaseID][]Pieces{}
	for _, one := range pieces {
		id := one.Reel.Case
		if !p.Cases.Has(plan.Key(id)) {
			id = ""
		}
		if one.Count > 0 {
			in[id] = append(in[id], one)
		}
	}
	boxes := slices.Collect(p.Cases.All())
	slices.SortStableFunc(boxes, func(a, b plan.Case) int { return words.Natural(a.Name, b.Name) })
	for _, box := range append(boxes, plan.Case{}) {
		if load := (Load{Case: box, Pieces: in[box.ID]}); len(load.Pieces) > 0 || empty && box.ID != "" {
			loads = append(loads, load.weighed(p))
		}
	}
	return loads
}

func (l Load) weighed(p *plan.Plan) Load {
	l.Cables, l.Mass = Count(l.Pieces), Weigh(p, l.Pieces)
	l.Mass.KG += l.Case.Weight.Value
	l.Mass.KG = l.Mass.Tenths()
	return l
}

// Total is what loads come to together.
func Total(loads []Load) (cables int, mass Mass) {
	for _, load := range loads {
		cables += load.Cables
		mass.add(load.Mass)
	}
	return cables, mass
}

// Held are the cables that a plan's show has: all of its rows, without what the house does not let it have.
func Held(p *plan.Plan) (pieces []Pieces) {
	for reel := range p.Reels.All() {
		if n := reel.There(); n > 0 {
			pieces = append(pieces, Pieces{reel, n})
		}
	}
	return pieces
}
