package exchange

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"stageloom/model/fields"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// Update is what a list that was read makes of a stock: rows that it has as they are, rows that change field by field, and rows
// that are new. A blank cell of the list says nothing, so that what was found out since stays.
type Update struct {
	// Same counts the cables that the stock has as the list has them, Alike those of them without a tag.
	Same, Alike int
	Changed     []ReelChange
	New         Stock
}

// ReelChange is a reel of the stock that the list has otherwise.
type ReelChange struct {
	Row    int
	ID     plan.ReelID
	Name   string
	Fields []FieldChange

	reel plan.Reel
	row  StockRow
}

// Untagged reports whether the change is of cables without a tag.
func (c ReelChange) Untagged() bool { return c.reel.Tag == "" }

// FieldChange is a field as it was and as the list has it.
type FieldChange struct{ Name, Was, Is string }

// Against compares a list with a stock. Rows with tags are matched by them; rows without are the same where kind, length, case
// and owner are, unless more says that they are more of them.
func (s Stock) Against(p *plan.Plan, units words.Units, more bool) Update {
	m := matcher{
		list: s, state: fields.State{Plan: p, Units: units}, more: more, tags: map[string]plan.Reel{}, alike: map[string][]plan.Reel{},
		listed: map[string]int{}, stocked: map[string]int{}, services: map[[3]string]bool{}, last: lastServices(p),
	}
	for line := range p.Services.All() {
		m.services[[3]string{string(line.Reel), line.Day, line.Work}] = true
	}
	for reel := range p.Reels.All() {
		if reel.Tag != "" {
			m.tags[strings.ToLower(reel.Tag)] = reel
			continue
		}
		box, _ := p.Cases.Get(plan.Key(reel.Case))
		key := alikeKey(reel, box.Name)
		m.alike[key] = append(m.alike[key], reel)
		m.stocked[key] += reel.Count()
	}
	for _, row := range s.Rows {
		for _, reel := range row.Reels {
			if reel.Tag == "" {
				m.listed[alikeKey(reel, row.Case)] += reel.Count()
			}
		}
	}
	u := Update{New: s}
	u.New.Rows = nil
	for _, row := range s.Rows {
		m.match(&u, row)
	}
	return u
}

type matcher struct {
	list  Stock
	state fields.State
	more  bool
	tags  map[string]plan.Reel
	// alike are the reels without tags by what they are, listed and stocked how many of them the list and the stock have.
	alike           map[string][]plan.Reel
	listed, stocked map[string]int
	// services are the lines of the histories by reel, day and work, last the last of each.
	services map[[3]string]bool
	last     map[plan.ReelID]plan.Service
}

// alikeKey is what makes reels without tags alike, their length in millimetres.
func alikeKey(reel plan.Reel, box string) string {
	return fmt.Sprintf("%s|%.0f|%s|%s|%s", reel.Kind, reel.Length*1000, plan.Folded(box), plan.Folded(reel.Owner), plan.Folded(reel.TiedInto))
}

// match puts each reel of a row where it belongs.
func (m *matcher) match(u *Update, row StockRow) {
	fresh := row
	fresh.Reels = nil
	for _, reel := range row.Reels {
		old, found := m.tags[strings.ToLower(reel.Tag)]
		key := ""
		if reel.Tag == "" {
			key = alikeKey(reel, row.Case)
			old, found = m.untagged(reel, key)
		}
		if !found {
			fresh.Reels = append(fresh.Reels, reel)
			continue
		}
		changes := m.changes(old, reel, row)
		if reel.Tag == "" && m.listed[key] == m.stocked[key] {
			changes = slices.DeleteFunc(changes, func(c FieldChange) bool { return c.Name == Quantity || c.Name == Condition })
		}
		if len(changes) == 0 {
			u.Same += reel.Count()
			if reel.Tag == "" {
				u.Alike += reel.Count()
			}
			continue
		}
		name := words.Row(m.state.Plan, plan.RefOf(old), m.state.Units)
		u.Changed = append(u.Changed, ReelChange{Row: row.Row, ID: old.ID, Name: name, Fields: changes, reel: reel, row: row})
	}
	if len(fresh.Reels) > 0 {
		u.New.Rows = append(u.New.Rows, fresh)
	}
}

// untagged finds a row of the stock that a row without a tag is, the likeliest first, and takes it out of those that others
// can be.
func (m *matcher) untagged(reel plan.Reel, key string) (plan.Reel, bool) {
	if m.more || len(m.alike[key]) == 0 {
		return plan.Reel{}, false
	}
	fit := func(r plan.Reel) (points int) {
		if r.Count() == reel.Count() {
			points++
		}
		if cmp.Or(r.Condition, plan.Good) == cmp.Or(reel.Condition, plan.Good) && r.State == reel.State {
			points += 2
		}
		return points
	}
	best := 0
	for i, candidate := range m.alike[key] {
		if fit(candidate) > fit(m.alike[key][best]) {
			best = i
		}
	}
	found := m.alike[key][best]
	m.alike[key] = slices.Delete(m.alike[key], best, best+1)
	return found, true
}

// A listedField is a field of a reel that a list can change.
type listedField struct {
	name string
	same func(a, b plan.Reel) bool
	take func(to *plan.Reel, from plan.Reel)
}

func listed[V comparable](name string, at func(*plan.Reel) *V) listedField {
	return listedField{
		name, func(a, b plan.Reel) bool { return *at(&a) == *at(&b) },
		func(to *plan.Reel, from plan.Reel) { *at(to) = *at(&from) },
	}
}

// nearly makes lengths the same that differ by less than a millimetre.
func nearly(f listedField, at func(*plan.Reel) *float64) listedField {
	f.same = func(a, b plan.Reel) bool { return math.Abs(*at(&a)-*at(&b)) < 0.001 }
	return f
}

var listedFields = []listedField{
	listed(Kind, func(r *plan.Reel) *plan.CableKindID { return &r.Kind }),
	nearly(listed(Length, lengthOf), lengthOf),
	nearly(listed(Nominal, nominalOf), nominalOf),
	{Quantity, func(a, b plan.Reel) bool { return a.Count() == b.Count() }, func(to *plan.Reel, from plan.Reel) { to.Quantity = from.Quantity }},
	{Condition, func(a, b plan.Reel) bool {
		return cmp.Or(a.Condition, plan.Good) == cmp.Or(b.Condition, plan.Good)
	}, takeCondition},
	listed(Reason, func(r *plan.Reel) *string { return &r.Reason }),
	listed(FoundAt, func(r *plan.Reel) *string { return &r.FoundAt }),
	listed(FoundOn, func(r *plan.Reel) *string { return &r.FoundOn }),
	listed(Measured, func(r *plan.Reel) *plan.Optional { return &r.Measured }),
	listed(State, func(r *plan.Reel) *string { return &r.State }),
	listed(StateOn, func(r *plan.Reel) *string { return &r.StateOn }),
	listed(Weight, func(r *plan.Reel) *plan.Optional { return &r.Weight }),
	listed(TiedInto, func(r *plan.Reel) *string { return &r.TiedInto }),
	listed(Owner, func(r *plan.Reel) *string { return &r.Owner }),
	listed(Hire, func(r *plan.Reel) *string { return &r.Hire }),
	listed(Bought, func(r *plan.Reel) *string { return &r.Bought }),
	listed(Return, func(r *plan.Reel) *string { return &r.Return }),
	listed(Note, func(r *plan.Reel) *string { return &r.Note }),
}

func lengthOf(r *plan.Reel) *float64  { return &r.Length }
func nominalOf(r *plan.Reel) *float64 { return &r.Nominal }

// takeCondition takes a condition over; of a good one nothing that was found stays.
func takeCondition(to *plan.Reel, from plan.Reel) {
	to.Condition = from.Condition
	if cmp.Or(to.Condition, plan.Good) == plan.Good {
		to.Reason, to.FoundAt, to.FoundOn = "", "", ""
	}
}

// changes are the fields of which a row says something else than the stock.
func (m *matcher) changes(old, now plan.Reel, row StockRow) (changes []FieldChange) {
	for _, f := range listedFields {
		if !row.says[f.name] && f.name != Quantity || f.same(old, now) {
			continue
		}
		change := FieldChange{Name: f.name}
		if f.name == Kind {
			change.Was, change.Is = m.kindName(old.Kind), m.kindName(now.Kind)
		} else {
			of, _ := fields.Called(plan.ReelsTable, f.name)
			change.Was, change.Is = of.Text(m.state, old), of.Text(m.state, now)
		}
		changes = append(changes, change)
	}
	box, _ := m.state.Plan.Cases.Get(plan.Key(old.Case))
	if row.Case != "" && !strings.EqualFold(row.Case, box.Name) {
		changes = append(changes, FieldChange{CaseName, box.Name, row.Case})
	}
	if line := row.Service; line.Day != "" && !m.services[[3]string{string(old.ID), line.Day, line.Work}] {
		changes = append(changes, FieldChange{LastService, m.last[old.ID].Day, line.Day})
	}
	return changes
}

func (m *matcher) kindName(id plan.CableKindID) string {
	if kind, found := m.state.Plan.CableKinds.Get(plan.Key(id)); found {
		return kind.Name
	}
	for _, kind := range m.list.kinds {
		if kind.ID == id {
			return kind.Name
		}
	}
	return ""
}

// Add brings the stock up to date as one step: changed rows are changed, new ones added. A list with faults is refused as a whole.
func (u Update) Add(e *plan.Edit, use func(*plan.Edit, plan.CableKindID) error) error {
	if err := u.New.refused(); err != nil {
		return err
	}
	cases := casesByName(e.Now())
	for _, change := range u.Changed {
		if err := change.put(e, cases, use); err != nil {
			return err
		}
	}
	return u.New.Add(e, use)
}

// put changes a reel as the list has it.
func (c ReelChange) put(e *plan.Edit, cases map[string]plan.CaseID, use func(*plan.Edit, plan.CableKindID) error) error {
	changed := func(name string) bool {
		return slices.ContainsFunc(c.Fields, func(f FieldChange) bool { return f.Name == name })
	}
	if used := e.Now().UsedReels()[c.ID]; changed(Quantity) && c.reel.Count() < used {
		return fmt.Errorf("%w: row %d has %d of %s, but %d of them lie in links", plan.ErrRefused, c.Row, c.reel.Count(), c.Name, used)
	}
	if changed(Kind) {
		if err := use(e, c.reel.Kind); err != nil {
			return err
		}
	}
	if changed(LastService) {
		line := c.row.Service
		line.Reel = c.ID
		e.AddService(line)
	}
	box := caseNamed(e, cases, c.row.Case)
	return plan.Update(e, plan.Key(c.ID), func(reel *plan.Reel) {
		for _, f := range listedFields {
			if changed(f.name) {
				f.take(reel, c.reel)
			}
		}
		if changed(CaseName) {
			reel.Case = box
		}
	})
}
