package budget

import (
	"cmp"
	"math"
	"slices"

	"stageloom/model/plan"
)

// Change is a sort of change to a link.
type Change uint8

// The changes, in the order they are told.
const (
	Shorter     Change = iota // its longest cable is shorter
	FewerJoins                // one cable lies in the place of two, or of all
	BetterKind                // one cable, or what is missing, is of a kind that loses less
	BetterJoint               // one coupler is of better hardware
	Cooler                    // its cables are cooler
	Warmer                    // its cables are warmer
)

// WhatIf is one change to a link, and how it would stand then.
type WhatIf struct {
	Change Change
	// Order is the cable that is changed, the first of those that become one, or the one behind a coupler; 0 is the
	// missing metres.
	Order int
	// Last is the last of the cables that become one.
	Last int
	// Kind is the cable's after the change, Coupler the hardware before it.
	Kind    plan.CableKindID
	Coupler plan.HardwareID
	// Metres are those taken away, or the length of the one cable, or of the one of a better kind.
	Metres float64
	// TemperatureC is the cable temperature after the change.
	TemperatureC float64

	MarginDB, WantedDB float64
	Grade              Grade
}

// shorterBy is how many metres less are tried where nothing has to be cured.
const shorterBy = 10.0

// warmerBy is how many kelvins warmer and cooler are tried.
const warmerBy = 10.0

// Cable temperatures that a link may be given, in °C; loss over temperature is specified up to the higher one, TIA-568-C.2
// 6.4.7, published.
const coldestC, hottestC = -20.0, 60.0

// mostKinds is how many better kinds are told of each cable.
const mostKinds = 2

// WhatIfs reckons single changes to a link, in the order of the changes and then by margin: what cures it where it needs
// a cure, and what each would give where it does not. It looks at the kinds that the plan holds. A link without a margin
// has none.
func (r *Reckoner) WhatIfs(link plan.Link) []WhatIf {
	now := r.Of(link)
	if !now.HasMargin() {
		return nil
	}
	all := append(r.shorter(&now), r.fewerJoins(link, &now)...)
	t := r.trialOf(link)
	perCable := map[int]int{}
	kinds := t.cables(&now)
	slices.SortStableFunc(kinds, func(a, b Cure) int { return cmp.Compare(b.MarginDB, a.MarginDB) })
	for _, cure := range kinds {
		if perCable[cure.Order]++; perCable[cure.Order] <= mostKinds {
			all = append(all, WhatIf{Change: BetterKind, Order: cure.Order, Kind: cure.Kind, Metres: cure.Length, MarginDB: cure.MarginDB, WantedDB: now.WantedDB, Grade: cure.Grade})
		}
	}
	for _, cure := range t.couplers() {
		all = append(all, WhatIf{Change: BetterJoint, Order: cure.Order, Coupler: cure.Coupler, MarginDB: cure.MarginDB, WantedDB: now.WantedDB, Grade: cure.Grade})
	}
	return append(all, r.temperatures(link, &now)...)
}

// shorter takes metres off the longest cable: as many as the wanted margin needs, or some where it has that.
func (r *Reckoner) shorter(now *Budget) []WhatIf {
	var longest *Part
	for i := range now.Parts {
		part := &now.Parts[i]
		if part.What == Cable && !part.Unknown && part.LossDB > 0 && (longest == nil || part.Length > longest.Length) {
			longest = part
		}
	}
	if longest == nil {
		return nil
	}
	slope, metres := longest.LossDB/longest.Length, shorterBy
	if now.MarginDB < now.WantedDB {
		metres = math.Ceil((now.WantedDB-now.MarginDB)/slope*10-almost) / 10
	}
	if metres >= longest.Length {
		return nil
	}
	w := WhatIf{Change: Shorter, Order: longest.Order, Metres: metres, MarginDB: tidy(now.MarginDB + slope*metres), WantedDB: now.WantedDB}
	w.Grade = gradeOf(w)
	return []WhatIf{w}
}

func gradeOf(w WhatIf) Grade {
	b := Budget{Graded: true, MarginDB: w.MarginDB, WantedDB: w.WantedDB, Laid: 1}
	b.grade()
	return b.Grade
}

// fewerJoins lays one cable in the place of two neighbours, for the pair that gains most, and in the place of all.
func (r *Reckoner) fewerJoins(link plan.Link, now *Budget) (found []WhatIf) {
	var cables []Part
	for _, part := range now.Parts {
		if part.What == Cable && !part.Assumed {
			cables = append(cables, part)
		}
	}
	best := WhatIf{MarginDB: math.Inf(-1)}
	for i := 1; i < len(cables); i++ {
		if w := r.asOne(link, cables, i-1, i, now); w.MarginDB > best.MarginDB {
			best = w
		}
	}
	if len(cables) > 1 {
		found = append(found, best)
	}
	if len(cables) > 2 {
		found = append(found, r.asOne(link, cables, 0, len(cables)-1, now))
	}
	return found
}

// asOne lays one cable in the place of some, of the kind among theirs that loses least, as long as they are together.
func (r *Reckoner) asOne(link plan.Link, cables []Part, first, last int, now *Budget) WhatIf {
	one := plan.Segment{Link: link.ID, Order: first + 1, Kind: cables[first].Kind}
	for _, cable := range cables[first : last+1] {
		one.Length += cable.Length
		if r.kindOf(cable.Kind).db() < r.kindOf(one.Kind).db() {
			one.Kind = cable.Kind
		}
	}
	segments := slices.Clone(r.plan.SegmentsOf(link.ID))
	one.Coupler = segments[first].Coupler
	b := r.Cabled(link, slices.Replace(segments, first, last+1, one))
	return WhatIf{
		Change: FewerJoins, Order: first + 1, Last: last + 1, Kind: one.Kind, Metres: one.Length,
		MarginDB: b.MarginDB, WantedDB: now.WantedDB, Grade: b.Grade,
	}
}

// temperatures reckons the link cooler and warmer. The margin wanted may change with it: below the default of the place
// more is wanted.
func (r *Reckoner) temperatures(link plan.Link, now *Budget) (found []WhatIf) {
	for _, change := range []Change{Cooler, Warmer} {
		at := now.TemperatureC - warmerBy
		if change == Warmer {
			at = now.TemperatureC + warmerBy
		}
		if at < coldestC || at > hottestC {
			continue
		}
		link.Temperature = plan.Some(at)
		b := r.Of(link)
		found = append(found, WhatIf{Change: change, TemperatureC: at, MarginDB: b.MarginDB, WantedDB: b.WantedDB, Grade: b.Grade})
	}
	return found
}
