package assess

import (
	"cmp"
	"slices"

	"stageloom/model/budget"
	"stageloom/model/checks"
	"stageloom/model/geom"
	"stageloom/model/plan"
)

// GradeCount is how many links stand in a way.
type GradeCount struct {
	Grade budget.Grade
	Links int
}

// KindTotal is what a plan uses of one cable kind: cables laid, and metres still missing that are reckoned as it. Inner leads
// of panels, which nobody lays, are counted apart.
type KindTotal struct {
	Kind    plan.CableKindID
	Lead    bool
	Cables  int
	Metres  float64
	Assumed float64
}

// CouplerTotal is how many couplers of one sort join the cables that are laid: for which connector, and of which
// hardware, which is blank where the transport has no budget.
type CouplerTotal struct {
	Connector string
	Hardware  plan.HardwareID
	Count     int
}

// Totals are the sums over all links.
type Totals struct {
	Links int
	// Grades counts the links by how they stand as they lie, best first; Ungraded those whose transport carries no grade.
	Grades   []GradeCount
	Ungraded int
	// Spares counts laid spares, which carry nothing and are counted by no grade.
	Spares int
	// TooShort counts links whose cables do not reach, Bare those without a cable; Missing is the metres lacking in both.
	TooShort, Bare int
	Missing        float64
	// Metres is all cable laid, by the whole cable; Joins the joints between cables.
	Metres float64
	Joins  int
	// Kinds are sorted by slug, leads behind cables, Couplers by connector and hardware.
	Kinds    []KindTotal
	Couplers []CouplerTotal
	// Stops, Warns and Notes count the findings.
	Stops, Warns, Notes int
}

// Count is how many links stand so.
func (t Totals) Count(grade budget.Grade) int {
	for _, count := range t.Grades {
		if count.Grade == grade {
			return count.Links
		}
	}
	return t.Ungraded
}

// SumOf sums up these links of a plan, in the lengths in which pages print them: a total is the sum of the rows above it.
// Findings are not counted.
func SumOf(p *plan.Plan, budgets []budget.Budget) Totals {
	t := Totals{Links: len(budgets)}
	for _, grade := range budget.Standings() {
		t.Grades = append(t.Grades, GradeCount{Grade: grade})
	}
	sums := sums{p, map[sort]*KindTotal{}, map[CouplerTotal]int{}}
	for i := range budgets {
		shown := budgets[i].Printed(1)
		if spare(p, i, shown.Link) {
			t.Spares++
		} else {
			t.grade(&shown)
		}
		t.add(&shown)
		sums.add(shown.Parts)
	}
	t.Metres, t.Missing = geom.RoundMM(t.Metres), geom.RoundMM(t.Missing)
	t.Kinds, t.Couplers = sums.kinds(), sums.couplers()
	return t
}

// SumIn is what is laid and what is missing in all, in metres, as the sums of what links print in a unit that is so many metres
// long, 1 or a foot.
func (a *Assessment) SumIn(unit float64) (laid, missing float64) {
	if unit == 1 {
		return a.Totals.Metres, a.Totals.Missing
	}
	for i := range a.Budgets {
		shown := a.Budgets[i].Printed(unit)
		laid += shown.Laid / unit
		if !shown.Measured.Wanting() {
			missing += shown.Missing / unit
		}
	}
	return geom.RoundMM(laid) * unit, geom.RoundMM(missing) * unit
}

// spare reports whether a link is a laid spare; in the budgets of a whole plan it stands at the same place as in its table.
func spare(p *plan.Plan, i int, id plan.LinkID) bool {
	if i < p.Links.Len() {
		if link := p.Links.At(i); link.ID == id {
			return link.IsSpare()
		}
	}
	link, _ := p.Link(id)
	return link.IsSpare()
}

func totalsOf(a *Assessment) Totals {
	t := SumOf(a.Plan, a.Budgets)
	for _, finding := range a.Findings {
		*map[checks.Severity]*int{checks.Stop: &t.Stops, checks.Warn: &t.Warns, checks.Note: &t.Notes}[finding.Severity]++
	}
	return t
}

// grade counts a link that carries something by its grade.
func (t *Totals) grade(b *budget.Budget) {
	if b.Grade == budget.Ungraded {
		t.Ungraded++
	}
	standing := b.Standing()
	for i := range t.Grades {
		if t.Grades[i].Grade == standing {
			t.Grades[i].Links++
		}
	}
}

func (t *Totals) add(b *budget.Budget) {
	if b.TooShort() {
		t.TooShort++
	}
	if b.Bare() {
		t.Bare++
	}
	if !b.Measured.Wanting() {
		t.Missing += b.Missing
	}
	t.Metres += b.Laid
	t.Joins += b.Joins
}

// sort is one sort of cable: its kind, as a cable or as an inner lead.
type sort struct {
	kind plan.CableKindID
	lead bool
}

// sums gathers cables and couplers over all links.
type sums struct {
	plan   *plan.Plan
	cables map[sort]*KindTotal
	joints map[CouplerTotal]int
}

func (s sums) add(parts []budget.Part) {
	connector := ""
	for i := range parts {
		part := &parts[i]
		switch {
		case part.What == budget.Coupler && !part.Assumed:
			s.joints[CouplerTotal{Connector: connector, Hardware: part.Hardware}]++
		case part.What == budget.Cable || part.What == budget.Lead && part.Kind != "":
			kind, _ := s.plan.CableKinds.Get(plan.Key(part.Kind))
			connector = kind.Connector
			s.addCable(part)
		}
	}
}

func (s sums) addCable(part *budget.Part) {
	of := sort{part.Kind, part.What == budget.Lead}
	kind := s.cables[of]
	if kind == nil {
		kind = &KindTotal{Kind: of.kind, Lead: of.lead}
		s.cables[of] = kind
	}
	if part.Assumed {
		kind.Assumed += part.Length
		return
	}
	kind.Cables++
	kind.Metres += part.Length
}

func (s sums) kinds() (all []KindTotal) {
	for _, kind := range s.cables {
		kind.Metres, kind.Assumed = geom.RoundMM(kind.Metres), geom.RoundMM(kind.Assumed)
		all = append(all, *kind)
	}
	slices.SortFunc(all, func(x, y KindTotal) int {
		if x.Kind == y.Kind && x.Lead {
			return 1
		}
		return cmp.Or(cmp.Compare(x.Kind, y.Kind), -1)
	})
	return all
}

func (s sums) couplers() (all []CouplerTotal) {
	for coupler, count := range s.joints {
		coupler.Count = count
		all = append(all, coupler)
	}
	slices.SortFunc(all, func(x, y CouplerTotal) int {
		return cmp.Or(cmp.Compare(x.Connector, y.Connector), cmp.Compare(x.Hardware, y.Hardware))
	})
	return all
}
