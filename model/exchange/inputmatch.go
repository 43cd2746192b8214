package exchange

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

// match says which input of a plan each row of a list is, and which inputs no row is.
type match struct {
	in   Inputs
	act  plan.ActID
	plan *plan.Plan
	view *patch.View
	rows []matched
	// house are the inputs of the house by number, and by name, for an act; gone those of the list's own that no row names.
	house  map[int]plan.Input
	named  map[string][]plan.Input
	gone   []plan.Input
	struck []plan.Input
	// doubtful are those of the list's own that a row with faults names: they stay as they are.
	doubtful []plan.Input
	// stage is where the plan has inputs before anything is put in, since a plan in the making changes with each row.
	stage map[plan.Key]plan.StagePatch
	// multis are the multicores by row of the sheet.
	multis []string
	// told is what of sub-snakes the plan cannot hold.
	told []Fault
}

// matched is a row of a list as an input of the plan.
type matched struct {
	InputRow
	// base is the input of the plan that the row is about, own whether it is the list's own; without a base it is new.
	base plan.Input
	own  bool
	// same tells that an input of the house stays the house's in the act.
	same bool
	// byMulti tells that the sub-snake was found by what the list says of a multicore.
	byMulti bool
	// right is the row of its right side, -1 where no row is; rightID is the input that is it where no row is.
	right   int
	rightID plan.InputID
	// want is the input as the list has it.
	want plan.Input
}

func (m *matched) isNew() bool { return m.base.ID == "" }

// match finds for each row the input that it is: first by number and name, then by its name where that is one input's and
// one row's alone, so that who gets another number keeps the patch, then by number.
func (in Inputs) match(p *plan.Plan, act plan.ActID) *match {
	m := &match{in: in, act: act, plan: p, view: patch.Of(p), house: map[int]plan.Input{}, stage: map[plan.Key]plan.StagePatch{}}
	for row := range p.StagePatches.All() {
		if row.Act == act || row.Act == "" {
			m.stage[row.Key()] = row
		}
	}
	var own []plan.Input
	for input := range p.Inputs.All() {
		if input.Act == act {
			own = append(own, input)
		} else if input.Act == "" {
			m.house[input.Number] = input
		}
	}
	for _, row := range in.Rows {
		m.rows = append(m.rows, matched{InputRow: row, right: -1})
	}
	m.readSnakes()
	if m.has(Multi) {
		m.multis = in.sheet.downward(Multi, Line)
		m.readMultis()
	}
	left := m.byNumberAndName(own)
	left = m.byName(left)
	m.gone = m.byNumber(left)
	m.gone, m.doubtful = m.lacking(m.gone)
	m.byHouse()
	m.count()
	m.readRights()
	for i := range m.rows {
		row := &m.rows[i]
		row.want = m.merged(row)
		row.same = act != "" && !row.own && !row.isNew() && len(m.differences(row, false)) == 0
	}
	m.sidesTogether()
	m.strike()
	return m
}

func sameName(a, b plan.Input) bool { return plan.Folded(a.Name) == plan.Folded(b.Name) }

// byNumberAndName and byNumber ask the numbers of a list that has some, or is all that an act has.
func (m *match) byNumberAndName(own []plan.Input) []plan.Input {
	if !m.numbers() {
		return own
	}
	byNumber := m.rowsByNumber()
	return m.taken(own, func(input plan.Input) int {
		if at, found := byNumber[input.Number]; found && sameName(m.rows[at].Input, input) {
			return at
		}
		return -1
	})
}

func (m *match) byNumber(own []plan.Input) []plan.Input {
	if !m.numbers() {
		return own
	}
	byNumber := m.rowsByNumber()
	return m.taken(own, func(input plan.Input) int {
		if at, found := byNumber[input.Number]; found {
			return at
		}
		return -1
	})
}

// numbers reports whether the numbers of the rows say which inputs they are.
func (m *match) numbers() bool { return m.in.Numbered || m.in.after == 0 }

func (m *match) rowsByNumber() map[int]int {
	rows := make(map[int]int, len(m.rows))
	for i, row := range m.rows {
		rows[row.Input.Number] = i
	}
	return rows
}

// taken gives inputs to the rows that of finds for them, unless a row has its input; what is left over is returned.
func (m *match) taken(from []plan.Input, of func(plan.Input) int) (left []plan.Input) {
	for _, input := range from {
		at := of(input)
		if at < 0 || !m.rows[at].isNew() {
			left = append(left, input)
			continue
		}
		m.rows[at].base, m.rows[at].own = input, true
	}
	return left
}

// byName finds inputs that got another number. One whose new number stays with an input that the list does not name is left
// to its number: no two inputs of a list have one number.
func (m *match) byName(own []plan.Input) []plan.Input {
	rows, inputs := map[string][]int{}, map[string][]plan.Input{}
	for i, row := range m.rows {
		if row.isNew() {
			name := plan.Folded(row.Input.Name)
			rows[name] = append(rows[name], i)
		}
	}
	for _, input := range own {
		inputs[plan.Folded(input.Name)] = append(inputs[plan.Folded(input.Name)], input)
	}
	moved := map[plan.InputID]int{}
	for name, at := range rows {
		if len(at) == 1 && len(inputs[name]) == 1 {
			moved[inputs[name][0].ID] = at[0]
		}
	}
	if !m.in.Drop && m.numbers() {
		m.yield(own, moved)
	}
	return m.taken(own, func(input plan.Input) int {
		if at, moves := moved[input.ID]; moves {
			return at
		}
		return -1
	})
}

// yield takes moves back to numbers that stay with inputs which no move and no row takes along.
func (m *match) yield(own []plan.Input, moved map[plan.InputID]int) {
	byNumber := map[int]plan.InputID{}
	for id, at := range moved {
		byNumber[m.rows[at].Input.Number] = id
	}
	for before := -1; before != len(moved); {
		before = len(moved)
		for _, input := range own {
			if _, moves := moved[input.ID]; !moves {
				delete(moved, byNumber[input.Number])
			}
		}
	}
}

// byHouse gives rows of an act without an input of its own that of the house with their number and name, or in a list
// without numbers with their name alone.
func (m *match) byHouse() {
	if m.act == "" {
		return
	}
	m.named = map[string][]plan.Input{}
	for _, input := range m.house {
		m.named[plan.Folded(input.Name)] = append(m.named[plan.Folded(input.Name)], input)
	}
	taken := map[plan.InputID]bool{}
	for i := range m.rows {
		row := &m.rows[i]
		house, found := m.house[row.Input.Number]
		if !m.numbers() {
			same := m.named[plan.Folded(row.Input.Name)]
			if found = len(same) == 1; found {
				house = same[0]
			}
		}
		if row.isNew() && found && sameName(house, row.Input) && !taken[house.ID] {
			row.base, taken[house.ID] = house, true
		}
	}
}

// lacking parts inputs into those that the list lacks and those that a row with faults names by number or name.
func (m *match) lacking(inputs []plan.Input) (lacks, doubtful []plan.Input) {
	numbers, names := map[int]bool{0: false}, map[string]bool{}
	for _, row := range m.in.doubtful {
		numbers[row.Number] = row.Number > 0
		names[plan.Folded(row.Name)] = row.Name != ""
	}
	for _, input := range inputs {
		if numbers[input.Number] || names[plan.Folded(input.Name)] {
			doubtful = append(doubtful, input)
		} else {
			lacks = append(lacks, input)
		}
	}
	return lacks, doubtful
}

// count gives the rows of a list without numbers theirs: what is in the plan keeps its own, what is new counts on.
func (m *match) count() {
	if m.numbers() {
		return
	}
	next := m.in.after
	for i := range m.rows {
		if row := &m.rows[i]; row.isNew() {
			next++
			row.Input.Number = next
		} else {
			row.Input.Number = row.base.Number
		}
	}
}

// strike finds the inputs of the house that an act with this list does without: those whose number the list has otherwise,
// and if it is all that the act has, those that it lacks.
func (m *match) strike() {
	if m.act == "" {
		return
	}
	kept, said := map[plan.InputID]bool{}, map[int]bool{}
	for _, row := range m.rows {
		said[row.Input.Number] = true
		if row.same {
			kept[row.base.ID] = true
		}
	}
	var others []plan.Input
	for number, house := range m.house {
		switch {
		case kept[house.ID]:
		case said[number]:
			m.struck = append(m.struck, house)
		case m.in.Strike:
			others = append(others, house)
		}
	}
	others, _ = m.lacking(others)
	m.struck = append(m.struck, others...)
	byNumber(m.struck)
}

func byNumber(inputs []plan.Input) {
	slices.SortFunc(inputs, func(a, b plan.Input) int {
		if a.Number != b.Number {
			return a.Number - b.Number
		}
		return strings.Compare(string(a.ID), string(b.ID))
	})
}

// readSnakes finds the sub-snakes that the list names. What the plan has no device for goes into the note.
func (m *match) readSnakes() {
	sheet := m.in.sheet
	if sheet.layout.column(Snake) < 0 {
		return
	}
	snakes := sheet.downward(Snake, SnakeWay)
	for i := range m.rows {
		row := &m.rows[i]
		sheet.at = row.Row - 1
		name, _ := halfOf(snakes[sheet.at], row.Half)
		way, alone := halfOf(sheet.text(SnakeWay), row.Half)
		if sheet.layout.column(SnakeWay) >= 0 && saysNone(way) && saysNone(sheet.text(Snake)) || saysNone(name) {
			continue
		}
		text := strings.TrimSpace(name + " " + way)
		socket, err := m.snake(text)
		if alone || err != nil {
			if err == nil {
				err = errors.New("it names one socket for two inputs")
			}
			row.Input.Note = noted(row.Input.Note, Snake+" ", Snake+" "+text)
			fault := sheetRows{grid: sheet.grid, layout: sheet.layout, at: sheet.at}
			fault.fail(Snake, fmt.Errorf("%w; %q stands in the note", err, plan.Clipped(text)))
			m.told = append(m.told, fault.faults...)
			continue
		}
		row.Input.Snake, row.Input.SnakeWay = socket.Device, socket.Number
	}
}

// snake reads a way of a sub-snake: an inlet of a passive one, an outlet of a rack.
func (m *match) snake(text string) (patch.Socket, error) {
	socket, err := m.view.ReadSocket(text, "", false)
	if err == nil && !m.view.Supplies(socket.Device) {
		return socket, nil
	}
	if rack, wrong := m.view.ReadSocket(text, "", true); wrong == nil && m.view.Supplies(rack.Device) {
		return rack, nil
	}
	if err == nil {
		err = fmt.Errorf("%s is no sub-snake", m.view.Name(socket.Device))
	}
	return patch.Socket{}, err
}
