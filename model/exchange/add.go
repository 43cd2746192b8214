package exchange

import (
	"fmt"
	"strings"

	"stageloom/model/plan"
)

// Count is how many rows are good and how many cables they stand for.
func (s Stock) Count() (rows, cables int) {
	for _, row := range s.Rows {
		for _, reel := range row.Reels {
			cables += reel.Count()
		}
	}
	return len(s.Rows), cables
}

// BadRows counts the rows that have a fault.
func BadRows(faults []Fault) int {
	rows := map[int]bool{}
	for _, fault := range faults {
		rows[fault.Row] = true
	}
	return len(rows)
}

// GoodOnly is the list without its faulty rows, as the user chose.
func (s Stock) GoodOnly() Stock {
	s.Faults = nil
	return s
}

// refused says why a list cannot be taken.
func (s Stock) refused() error {
	if len(s.Faults) == 0 {
		return nil
	}
	return fmt.Errorf("%w: %d rows have faults, of which the first is %v", plan.ErrRefused, BadRows(s.Faults), s.Faults[0])
}

// Add puts the reels into a plan under new ids, with their cases, which are made where none bears the name, and with the last line
// of their history. use brings a kind of cable into the plan. A list with faults is refused as a whole.
func (s Stock) Add(e *plan.Edit, use func(*plan.Edit, plan.CableKindID) error) error {
	if err := s.refused(); err != nil {
		return err
	}
	cases := casesByName(e.Now())
	for _, row := range s.Rows {
		box := caseNamed(e, cases, row.Case)
		for _, reel := range row.Reels {
			if err := use(e, reel.Kind); err != nil {
				return err
			}
			reel.Case = box
			id := e.AddReel(reel)
			if line := row.Service; line.Day != "" {
				line.Reel = id
				e.AddService(line)
			}
		}
	}
	return nil
}

// caseNamed is the case of a name, which is made where none bears it; blank is none.
func caseNamed(e *plan.Edit, cases map[string]plan.CaseID, name string) plan.CaseID {
	if name == "" {
		return ""
	}
	box, found := cases[strings.ToLower(name)]
	if !found {
		box = e.AddCase(plan.Case{Name: name})
		cases[strings.ToLower(name)] = box
	}
	return box
}

// Add puts the cases into a plan. A list with faults is refused as a whole.
func (c Cases) Add(e *plan.Edit) error {
	if len(c.Faults) > 0 {
		return fmt.Errorf("%w: %d rows have faults, of which the first is %v", plan.ErrRefused, BadRows(c.Faults), c.Faults[0])
	}
	for _, row := range c.Rows {
		e.AddCase(row.Case)
	}
	return nil
}

// GoodOnly is the list without its faulty rows, as the user chose.
func (c Cases) GoodOnly() Cases {
	c.Faults = nil
	return c
}

// GoodOnly is the list without its faulty rows, as the user chose.
func (in Inputs) GoodOnly() Inputs {
	in.Faults = nil
	return in
}

func casesByName(p *plan.Plan) map[string]plan.CaseID {
	cases := map[string]plan.CaseID{}
	for box := range p.Cases.All() {
		cases[strings.ToLower(box.Name)] = box.ID
	}
	return cases
}

// TagTaken reports whether a reel of the plan bears a tag, whatever its capitals.
func TagTaken(p *plan.Plan) func(tag string) bool {
	tags := map[string]bool{}
	for reel := range p.Reels.All() {
		if reel.Tag != "" {
			tags[strings.ToLower(reel.Tag)] = true
		}
	}
	return func(tag string) bool { return tags[strings.ToLower(tag)] }
}
