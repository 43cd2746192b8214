package assess

import (
	"cmp"
	"slices"

	"stageloom/model/budget"
	"stageloom/model/checks"
	"stageloom/model/plan"
)

// GradeCount is how many links have a grade.
type GradeCount struct {
	Grade budget.Grade
	Links int
}

// KindTotal is what a plan uses of one cable kind: cables laid, and metres still missing that are reckoned as it.
type KindTotal struct {
	Kind    plan.CableKindID
	Cables  int
	Metres  float64
	Assumed float64
}

// CouplerTotal is how many couplers of one kind of hardware join the cables that are laid.
type CouplerTotal struct {
	Hardware plan.HardwareID
	Count    int
}

// Totals are the sums over all links.
type Totals struct {
	Links int
	// Grades counts the links by grade, best first; Ungraded those whose transport carries none.
	Grades   []GradeCount
	Ungraded int
	// TooShort counts links whose cables do not reach, Bare those without a cable; Missing is the metres lacking in both.
	TooShort, Bare int
	Missing        float64
	// Metres is all cable laid, by the whole cable; Joins the joints between cables.
	Metres float64
	Joins  int
	// Kinds and Couplers are sorted by slug.
	Kinds    []KindTotal
	Couplers []CouplerTotal
	// Stops, Warns and Notes count the findings.
	Stops, Warns, Notes int
}

// Count is how many links have this grade.
func (t Totals) Count(grade budget.Grade) int {
	for _, count := range t.Grades {
		if count.Grade == grade {
			return count.Links
		}
	}
	return t.Ungraded
}

func totalsOf(a *Assessment) Totals {
	t := Totals{Links: len(a.Budgets)}
	for _, grade := range budget.Grades() {
		t.Grades = append(t.Grades, GradeCount{Grade: grade})
	}
	kinds, couplers := map[plan.CableKindID]*KindTotal{}, map[plan.HardwareID]int{}
	for i := range a.Budgets {
		t.add(&a.Budgets[i])
		addParts(kinds, couplers, a.Budgets[i].Parts)
	}
	for _, kind := range kinds {
		t.Kinds = append(t.Kinds, *kind)
	}
	for hardware, count := range couplers {
		t.Couplers = append(t.Couplers, CouplerTotal{hardware, count})
	}
	slices.SortFunc(t.Kinds, func(x, y KindTotal) int { return cmp.Compare(x.Kind, y.Kind) })
	slices.SortFunc(t.Couplers, func(x, y CouplerTotal) int { return cmp.Compare(x.Hardware, y.Hardware) })
	for _, finding := range a.Findings {
		*map[checks.Severity]*int{checks.Stop: &t.Stops, checks.Warn: &t.Warns, checks.Note: &t.Notes}[finding.Severity]++
	}
	return t
}

func (t *Totals) add(b *budget.Budget) {
	if b.Grade == budget.Ungraded {
		t.Ungraded++
	}
	for i := range t.Grades {
		if t.Grades[i].Grade == b.Grade {
			t.Grades[i].Links++
		}
	}
	if b.TooShort() {
		t.TooShort++
	}
	if b.Bare() {
		t.Bare++
	}
	t.Missing += b.Missing
	t.Metres += b.Laid
	t.Joins += b.Joins
}

func addParts(kinds map[plan.CableKindID]*KindTotal, couplers map[plan.HardwareID]int, parts []budget.Part) {
	for i := range parts {
		part := &parts[i]
		switch {
		case part.What == budget.Coupler && !part.Assumed:
			couplers[part.Hardware]++
		case part.What == budget.Cable || part.What == budget.Lead && part.Kind != "":
			kind := kinds[part.Kind]
			if kind == nil {
				kind = &KindTotal{Kind: part.Kind}
				kinds[part.Kind] = kind
			}
			if part.Assumed {
				kind.Assumed += part.Length
			} else {
				kind.Cables++
				kind.Metres += part.Length
			}
		}
	}
}
