package table_test

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/desk"
	"stageloom/model/plan"
	"stageloom/ui/table"
)

// rig is a sheet on the input list of a desk.
type rig struct {
	*table.Sheet
	t    *testing.T
	desk *desk.Desk
}

var errNumber = errors.New("it must be a whole number")

// inputsOf is the input list of a plan as a source: a number, the note as its name, since a note may be any text, and how
// long that is, which is reckoned.
func inputsOf(p *plan.Plan) table.Source {
	rows := slices.Collect(p.Inputs.All())
	slices.SortFunc(rows, func(a, b plan.Input) int { return cmp.Compare(a.Number, b.Number) })
	put := func(with func(*plan.Input, string) error) table.Setter {
		return func(e *plan.Edit, ref plan.Ref, typed string) (err error) {
			_ = plan.Update(e, ref.Key, func(r *plan.Input) { err = with(r, typed) })
			return err
		}
	}
	return &table.List[plan.Input]{
		ID: "inputs", One: "input", Many: "inputs", First: "Press Insert to begin.", Rows: rows,
		RefOf:  func(r plan.Input) plan.Ref { return plan.RefOf(r) },
		NameOf: func(r plan.Input) string { return r.Note },
		Add: func(e *plan.Edit, _ plan.Ref) (plan.Ref, error) {
			id := e.AddInput(plan.Input{Number: e.Now().Inputs.Len() + 1, Name: "input", Note: "new"})
			return plan.Ref{Table: "inputs", Key: plan.Key(id)}, nil
		},
		Remove: func(e *plan.Edit, refs []plan.Ref) error {
			for _, ref := range refs {
				e.RemoveInput(plan.InputID(ref.Key))
			}
			return nil
		},
		Fields: []table.ColumnOf[plan.Input]{
			{
				Column: table.Column{Name: "number", Title: "No.", Kind: table.Number, Width: 50},
				Text:   func(r plan.Input) string { return fmt.Sprint(r.Number) },
				Value:  func(r plan.Input) float64 { return float64(r.Number) },
				Set: put(func(r *plan.Input, typed string) error {
					number, err := strconv.Atoi(typed)
					if err != nil {
						return errNumber
					}
					r.Number = number
					return nil
				}),
			},
			{
				Column: table.Column{Name: "name", Title: "Input", Width: 120, Names: true, Help: "what it is called."},
				Text:   func(r plan.Input) string { return r.Note },
				Set:    put(func(r *plan.Input, typed string) error { r.Note = typed; return nil }),
			},
			{
				Column:  table.Column{Name: "use", Title: "Use", Kind: table.Choice, Width: 60},
				Text:    func(r plan.Input) string { return r.Use },
				Choices: func(plan.Input) []string { return []string{"", "mic", "DI", "line"} },
				Set:     put(func(r *plan.Input, typed string) error { r.Use = typed; return nil }),
			},
			{
				Column: table.Column{Name: "letters", Title: "Letters", Kind: table.Number, Width: 66},
				Text:   func(r plan.Input) string { return fmt.Sprint(len(r.Note)) },
				Value:  func(r plan.Input) float64 { return float64(len(r.Note)) },
			},
			{
				Column: table.Column{Name: "note", Title: "Note", Width: 90, Aside: true},
				Text:   func(r plan.Input) string { return r.Stand },
				Set:    put(func(r *plan.Input, typed string) error { r.Stand = typed; return nil }),
			},
		},
	}
}

// deskWith is a desk with inputs of these names, numbered from 1.
func deskWith(t testing.TB, names ...string) *desk.Desk {
	d := desk.New(plan.NewIDSource(1, 2))
	require.NoError(t, d.Do("Inputs", func(e *plan.Edit) error {
		for i, name := range names {
			e.AddInput(plan.Input{Number: i + 1, Name: "input", Note: name})
		}
		return nil
	}))
	return d
}

// newRig is a sheet whose source follows the desk.
func newRig(t *testing.T, names ...string) *rig {
	r := &rig{t: t, desk: deskWith(t, names...)}
	r.Sheet = table.NewSheet(inputsOf(r.desk.Plan()), r.desk.Do)
	r.desk.Listen(func(e desk.Event) { r.SetSource(inputsOf(e.New)) })
	return r
}

// column is the text of a column as it is shown.
func (r *rig) column(column int) (texts []string) {
	for row := range r.Len() {
		texts = append(texts, r.Cell(row, column).Text)
	}
	return texts
}

func (r *rig) names() string { return strings.Join(r.column(1), " ") }

// chosen names the selected rows.
func (r *rig) chosen() string {
	var names []string
	for row := range r.Len() {
		if r.Selected(row) {
			names = append(names, r.RowName(row))
		}
	}
	return strings.Join(names, " ")
}

// steps are the undo steps behind the first one.
func (r *rig) steps() []string {
	names, at := r.desk.History()
	return names[min(2, at+1) : at+1]
}
