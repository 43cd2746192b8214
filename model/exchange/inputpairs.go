package exchange

import (
	"fmt"

	"stageloom/model/plan"
)

// readRights finds the right side of each left one: the other half of a row that names a pair, what the column of right sides
// says, or what the plan says of it.
func (m *match) readRights() {
	byBase := make(map[plan.InputID]int, len(m.rows))
	for i := range m.rows {
		if !m.rows[i].isNew() {
			byBase[m.rows[i].base.ID] = i
		}
	}
	for i := range m.rows {
		row := &m.rows[i]
		switch {
		case row.Half == left:
			if i+1 < len(m.rows) && m.rows[i+1].Row == row.Row {
				row.right = i + 1
			}
		case row.Half == right:
		case m.has(RightSide):
			m.readRight(i)
		case row.base.Right != "":
			if at, found := byBase[row.base.Right]; found {
				row.right = at
			} else {
				row.rightID = row.base.Right
			}
		}
	}
}

// readRight finds what the column of right sides names: a row of the list by its number or name, else an input that the list
// leaves alone. What is neither is told.
func (m *match) readRight(at int) {
	sheet := m.in.sheet
	sheet.at = m.rows[at].Row - 1
	text := sheet.text(RightSide)
	if saysNone(text) {
		return
	}
	names := func(input plan.Input) bool {
		number := fmt.Sprint(input.Number)
		return figuresOf(text) == number || plan.Folded(text) == plan.Folded(input.Name) || plan.Folded(text) == plan.Folded(number+" "+input.Name)
	}
	for i := range m.rows {
		if i != at && names(m.rows[i].Input) {
			m.rows[at].right = i
			return
		}
	}
	for input := range m.plan.Inputs.All() {
		if input.Act == m.act && input.ID != m.rows[at].base.ID && names(input) {
			m.rows[at].rightID = input.ID
			return
		}
	}
	fault := sheetRows{grid: sheet.grid, layout: sheet.layout, at: sheet.at}
	fault.fail(RightSide, fmt.Errorf("%q is the number or name of no other input of the list: it stands alone", plan.Clipped(text)))
	m.told = append(m.told, fault.faults...)
}

// rightWords are the right sides that a row has and had, alike where both are one input.
func (m *match) rightWords(row *matched) (is, was string) {
	had, found := m.plan.Inputs.Get(plan.Key(row.base.Right))
	if found {
		was = had.Name
	}
	switch {
	case row.right >= 0:
		if now := &m.rows[row.right]; !found || now.base.ID != had.ID {
			return now.Input.Name, was
		}
		return was, was
	case row.rightID != "":
		now, _ := m.plan.Inputs.Get(plan.Key(row.rightID))
		return now.Name, was
	}
	return "", was
}

// sidesTogether makes both sides of a pair the act's own where one of them is: a pair is of one list.
func (m *match) sidesTogether() {
	for i := range m.rows {
		if row := &m.rows[i]; row.right >= 0 {
			other := &m.rows[row.right]
			both := row.same && other.same
			row.same, other.same = both, both
		}
	}
}

// pair names the right sides, once every row has its input. One that would be of another list than its left is none.
func (m *match) pair(e *plan.Edit, ids []plan.InputID) {
	for i := range m.rows {
		row := &m.rows[i]
		if row.same {
			continue
		}
		to := row.rightID
		if row.right >= 0 {
			to = ids[row.right]
		}
		if other, found := e.Now().Inputs.Get(plan.Key(to)); !found || other.Act != m.act {
			to = ""
		}
		if input, _ := e.Now().Inputs.Get(plan.Key(ids[i])); input.Right != to {
			input.Right = to
			plan.Put(e, input)
		}
	}
}
