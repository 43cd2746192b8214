package planfile

import (
	"cmp"
	"fmt"
	"io"
	"reflect"
	"slices"
	"strings"

	"stageloom/model/plan"
)

// Mend is one thing that Repair did.
type Mend struct {
	Fault
	// Done says what was done about it.
	Done string
}

// String says the fault and what was done.
func (m Mend) String() string { return m.Fault.String() + ": " + m.Done }

const (
	leftOut    = "the row is left out"
	takenOut   = "the sign is taken out"
	leftBlank  = "the field is left blank"
	renumbered = "the rows are numbered anew"
	usualValue = "the usual value stands in its place"
)

// Repair reads a file whose rows are sound in themselves but cannot stand together (Unreadable.Repairable), and
// makes a plan of what can: a field that may be blank is blanked, else the row is left out. The mends say what
// was lost, in the order it was done. Save the plan as a copy; the file itself is not touched.
func Repair(r io.Reader) (*plan.Plan, []Mend, error) {
	data, err := readAll(r)
	if err != nil {
		return nil, nil, err
	}
	file, reader, refusal := parse(data, current)
	if refusal != nil {
		return nil, nil, refusal
	}
	m := &mender{contents: file, data: data, mends: reader.turned}
	m.dropRepeated()
	for range mostRounds {
		p, problems := file.plan()
		if len(problems) == 0 {
			return p, m.mends, nil
		}
		m.round(problems)
	}
	_, problems := file.plan()
	return nil, nil, &Unreadable{Faults: file.faults(reader, problems), Remedy: remedyEdit}
}

// mostRounds bounds the mending: what hangs on what hangs on a lost row goes in as many rounds.
const mostRounds = 50

// mender mends the rows of a file in rounds: what one mend leaves behind is mended in the next.
type mender struct {
	*contents
	data  []byte
	mends []Mend
}

func (m *mender) note(row placed, table, field, reason, done string) {
	fault := Fault{lineOf(m.data, row.fieldAt(field)), row.place("/"+table, field), reason}
	m.mends = append(m.mends, Mend{fault, done})
}

// dropRepeated keeps the first of rows with one key.
func (m *mender) dropRepeated() {
	for _, table := range plan.Tables() {
		rows := m.tables[table.Name]
		slices.SortStableFunc(rows, byKey)
		m.tables[table.Name] = slices.CompactFunc(rows, func(second, first placed) bool {
			if second.key != first.key {
				return false
			}
			m.note(second, table.Name, "", sayRepeated(m.data, second, first), leftOut)
			return true
		})
	}
}

func sayRepeated(data []byte, second, first placed) string {
	return fmt.Sprintf("is %s again, which line %d holds already", plan.Clipped(string(second.key)), lineOf(data, first.at))
}

func byKey(a, b placed) int { return cmp.Compare(a.key, b.key) }

// round mends every problem once; gaps in orders only when nothing else is left, since closing them changes keys.
func (m *mender) round(problems []plan.Problem) {
	gaps, others := []plan.Problem{}, []plan.Problem{}
	for _, problem := range problems {
		if problem.Field == "order" && strings.Contains(string(problem.Key), "/") {
			gaps = append(gaps, problem)
		} else {
			others = append(others, problem)
		}
	}
	gone := rowSet{}
	for _, problem := range others {
		m.mend(problem, gone)
	}
	closed := map[string]bool{}
	for _, problem := range gaps {
		parent := problem.Table + "/" + parentOf(problem.Key)
		if len(others) == 0 && !closed[parent] {
			closed[parent] = m.closeGaps(problem, gone)
		}
	}
	m.remove(gone)
}

// rowSet holds the keys of rows by table.
type rowSet map[string]map[plan.Key]bool

func (s rowSet) add(table string, key plan.Key) {
	if s[table] == nil {
		s[table] = map[plan.Key]bool{}
	}
	s[table][key] = true
}

func (m *mender) mend(problem plan.Problem, gone rowSet) {
	if problem.Table == settingsName {
		m.usual(problem)
		return
	}
	row := m.find(problem)
	if row.row == nil || gone[problem.Table][problem.Key] || m.blank(problem, row) {
		return
	}
	m.leaveOut(problem, row, gone)
}

func (m *mender) leaveOut(problem plan.Problem, row placed, gone rowSet) {
	m.note(row, problem.Table, problem.Field, problem.Reason, leftOut)
	gone.add(problem.Table, problem.Key)
}

func (m *mender) remove(gone rowSet) {
	for table, keys := range gone {
		m.tables[table] = slices.DeleteFunc(m.tables[table], func(row placed) bool { return keys[row.key] })
	}
}

func parentOf(key plan.Key) string { return string(key[:strings.LastIndexByte(string(key), '/')+1]) }

// usual puts a new plan's value into a field of the settings.
func (m *mender) usual(problem plan.Problem) {
	settings := m.settings.row.(plan.Settings)
	i, found := settingsShape.byName[problem.Field]
	if !found {
		return
	}
	at := settingsShape.columns[i].index
	reflect.ValueOf(&settings).Elem().Field(at).Set(reflect.ValueOf(plan.DefaultSettings()).Field(at))
	row := m.settings
	row.index = -1
	m.note(row, settingsName, problem.Field, problem.Reason, usualValue)
	m.settings.row = settings
}

// blank blanks a field that may be blank and is no part of the row's key.
func (m *mender) blank(problem plan.Problem, row placed) bool {
	s := shapes[problem.Table]
	i, found := s.byName[problem.Field]
	if !found || !s.columns[i].optional {
		return false
	}
	changed, key := withField(s, row.row, i, reflect.Zero(s.row.Field(s.columns[i].index).Type))
	if changed == row.row || key != row.key {
		return false
	}
	m.note(row, problem.Table, problem.Field, problem.Reason, leftBlank)
	m.change(problem.Table, row, changed, key)
	return true
}

// closeGaps numbers the parts of one parent 1, 2, 3, …; a part whose order is wrong for another reason goes.
// It reports whether the numbers changed.
func (m *mender) closeGaps(problem plan.Problem, gone rowSet) bool {
	s, parent := shapes[problem.Table], parentOf(problem.Key)
	row := m.find(problem)
	next, moved := 1, false
	rows := m.tables[problem.Table]
	for i := range rows {
		if parentOf(rows[i].key) != parent {
			continue
		}
		changed, key := withField(s, rows[i].row, s.byName["order"], reflect.ValueOf(next))
		moved = moved || key != rows[i].key
		rows[i].row, rows[i].key = changed, key
		next++
	}
	if moved {
		m.note(row, problem.Table, problem.Field, problem.Reason, renumbered)
	} else {
		m.leaveOut(problem, row, gone)
	}
	return moved
}

func (m *mender) change(table string, row placed, changed any, key plan.Key) {
	rows := m.tables[table]
	i, _ := slices.BinarySearchFunc(rows, row.key, func(other placed, key plan.Key) int { return cmp.Compare(other.key, key) })
	rows[i].row, rows[i].key = changed, key
}

// withField returns a copy of the row with one field changed, and the copy's key.
func withField(s *shape, row any, column int, value reflect.Value) (any, plan.Key) {
	v := reflect.New(s.row).Elem()
	v.Set(reflect.ValueOf(row))
	v.Field(s.columns[column].index).Set(value)
	table, _ := plan.TableNamed(s.table)
	return v.Interface(), table.KeyOf(v.Interface())
}
