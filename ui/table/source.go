package table

import (
	"errors"
	"math"
	"slices"
	"strings"

	"stageloom/model/plan"
)

// Kind says how the cells of a column are read, set and sorted.
type Kind uint8

// The kinds of columns. Text is sorted in natural order, Number by its value and set to the right; Choice is text out of a
// few words that the editor offers; Ranked is text that is sorted by its value.
const (
	Text Kind = iota
	Number
	Choice
	Ranked
)

// Tone is how a cell is coloured: one of those here or the name of a grade. The words say the same without colour.
type Tone string

// The tones beside the grades.
const (
	Usual Tone = ""
	Muted Tone = "muted"
	Stop  Tone = "stop"
	Warn  Tone = "warn"
)

// Column is one column of a table.
type Column struct {
	// Name stays the same in preferences and tests; Title is what the user reads.
	Name, Title string
	// Help says in a sentence what the column holds and what can be typed.
	Help string
	Kind Kind
	// Width is the usual width in the toolkit's units.
	Width float32
	// Aside columns are shown only when they are chosen.
	Aside bool
	// Draggable cells are dragged to another row by the pointer, which in other columns selects rows.
	Draggable bool
	// InOrder columns take what is typed into several rows in order from the first on.
	InOrder bool
	// Names marks the column by whose words a person tells rows apart; pasted rows with headings are found by it.
	Names bool
	// Also are other headings by which a pasted list knows the column.
	Also []string
}

// headed reports whether a heading of a pasted list means the column.
func (c Column) headed(text string) bool {
	text = strings.TrimSpace(text)
	return strings.EqualFold(c.Title, text) || slices.ContainsFunc(c.Also, func(other string) bool { return strings.EqualFold(other, text) })
}

// Cell is what stands in one cell. Value is what a Number or Ranked column sorts by: NaN stands last.
type Cell struct {
	Text  string
	Value float64
	Tone  Tone
}

// Setter changes one cell of the plan to what was typed, which may be blank. Its error says in words what is wrong with it.
type Setter func(e *plan.Edit, ref plan.Ref, typed string) error

// Typed is what was typed or pasted into a cell of a row.
type Typed struct {
	Ref  plan.Ref
	Text string
}

// SetAll changes several cells of a column at once, so that they may take each other's places. With inOrder one text was
// typed into all of them: the first gets it, the others follow in order. It returns an error for each cell that is wrong, or
// nil where all are good.
type SetAll func(e *plan.Edit, cells []Typed, inOrder bool) []error

// Joiner is a Source with columns whose cells are changed together; AllSetter is nil for the others.
type Joiner interface {
	AllSetter(column int) SetAll
}

// Source is what a table shows of one state of the plan. It never changes: the next state has another Source.
type Source interface {
	// Name stays the same in preferences: "links". Words are one row and several in words: "link", "links".
	Name() string
	Words() (one, many string)
	// Columns are the same for all sources of one name.
	Columns() []Column
	// Len is how many rows there are, in the order of reading.
	Len() int
	// Ref names a row; it stays the same as long as the row exists.
	Ref(row int) plan.Ref
	// RowName is what a person calls the row.
	RowName(row int) string
	// Shows are the rows that the plan selects when this one is selected.
	Shows(row int) []plan.Ref
	Cell(row, column int) Cell
	// Choices are the words that a cell may take; none where it is free.
	Choices(row, column int) []string
	// Setter is nil where the cells of a column are reckoned and cannot be typed.
	Setter(column int) Setter
	// Empty says what to do first where there are no rows.
	Empty() string
}

// Sifter is a Source that leaves rows out by a setting, and says which; blank where it leaves none out.
type Sifter interface {
	// LeftOut says what is left out and why.
	LeftOut() string
}

// Reader is a Source of long texts: what a row says in all of its columns; blank where its cells say it.
type Reader interface {
	// Whole is what a row says, in sentences.
	Whole(row int) string
}

// Grower is a Source that takes new rows and lets rows go. Each function is nil where it can't.
type Grower interface {
	// Adder adds a row behind the one named, which may be none, and returns its reference.
	Adder() func(e *plan.Edit, after plan.Ref) (plan.Ref, error)
	// Remover removes rows.
	Remover() func(e *plan.Edit, refs []plan.Ref) error
}

// ColumnOf is a column of typed rows and what its cells hold. Text is needed, the others are optional: without Value a number
// sorts last, without Set the column is read only.
type ColumnOf[R any] struct {
	Column
	Text    func(R) string
	Value   func(R) float64
	Tone    func(R) Tone
	Choices func(R) []string
	Set     Setter
	// SetAll stands in the place of Set where cells depend on each other.
	SetAll SetAll
}

// List is a Source of typed rows.
type List[R any] struct {
	// ID is the source's Name, One and Many its words, First what to do first where there are no rows.
	ID, One, Many, First string
	// Without says which rows a setting leaves out.
	Without string
	// WholeOf is what a row says in all of its columns; nil where its cells are short.
	WholeOf func(R) string
	Rows    []R
	RefOf   func(R) plan.Ref
	NameOf  func(R) string
	// ShowsOf is RefOf alone where it is nil.
	ShowsOf func(R) []plan.Ref
	Fields  []ColumnOf[R]
	Add     func(e *plan.Edit, after plan.Ref) (plan.Ref, error)
	Remove  func(e *plan.Edit, refs []plan.Ref) error
}

var (
	_ Source = (*List[int])(nil)
	_ Grower = (*List[int])(nil)
	_ Joiner = (*List[int])(nil)
	_ Sifter = (*List[int])(nil)
	_ Reader = (*List[int])(nil)
)

// Name implements Source.
func (l *List[R]) Name() string { return l.ID }

// Words implements Source.
func (l *List[R]) Words() (one, many string) { return l.One, l.Many }

// LeftOut implements Sifter.
func (l *List[R]) LeftOut() string { return l.Without }

// Whole implements Reader.
func (l *List[R]) Whole(row int) string {
	if l.WholeOf == nil {
		return ""
	}
	return l.WholeOf(l.Rows[row])
}

// Columns implements Source.
func (l *List[R]) Columns() []Column {
	columns := make([]Column, len(l.Fields))
	for i := range l.Fields {
		columns[i] = l.Fields[i].Column
	}
	return columns
}

// Len implements Source.
func (l *List[R]) Len() int { return len(l.Rows) }

// Ref implements Source.
func (l *List[R]) Ref(row int) plan.Ref { return l.RefOf(l.Rows[row]) }

// RowName implements Source.
func (l *List[R]) RowName(row int) string { return l.NameOf(l.Rows[row]) }

// Shows implements Source.
func (l *List[R]) Shows(row int) []plan.Ref {
	if l.ShowsOf == nil {
		return []plan.Ref{l.Ref(row)}
	}
	return l.ShowsOf(l.Rows[row])
}

// Cell implements Source.
func (l *List[R]) Cell(row, column int) Cell {
	field, r := &l.Fields[column], l.Rows[row]
	cell := Cell{Text: field.Text(r), Value: math.NaN()}
	if field.Value != nil {
		cell.Value = field.Value(r)
	}
	if field.Tone != nil {
		cell.Tone = field.Tone(r)
	}
	return cell
}

// Choices implements Source.
func (l *List[R]) Choices(row, column int) []string {
	if l.Fields[column].Choices == nil {
		return nil
	}
	return l.Fields[column].Choices(l.Rows[row])
}

// Setter implements Source.
func (l *List[R]) Setter(column int) Setter {
	field := &l.Fields[column]
	if field.Set != nil || field.SetAll == nil {
		return field.Set
	}
	return func(e *plan.Edit, ref plan.Ref, typed string) error {
		return errors.Join(field.SetAll(e, []Typed{{ref, typed}}, false)...)
	}
}

// AllSetter implements Joiner.
func (l *List[R]) AllSetter(column int) SetAll { return l.Fields[column].SetAll }

// Empty implements Source.
func (l *List[R]) Empty() string { return l.First }

// Adder implements Grower.
func (l *List[R]) Adder() func(e *plan.Edit, after plan.Ref) (plan.Ref, error) { return l.Add }

// Remover implements Grower.
func (l *List[R]) Remover() func(e *plan.Edit, refs []plan.Ref) error { return l.Remove }
