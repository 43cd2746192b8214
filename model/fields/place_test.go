package fields_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/demo"
	"stageloom/model/fields"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// What is in the list only stands where the picture found room for it: a coordinate that is typed counts from the plan's zero.
func TestACoordinatePlacesWhatIsInTheList(t *testing.T) {
	for _, table := range []string{"devices", "positions"} {
		t.Run(table, func(t *testing.T) {
			p := demo.Weekender()
			keys, _ := rowsOf(p, table)
			x, y := fields.Of(table, "x"), fields.Of(table, "y")
			typed := func(p *plan.Plan, f *fields.Field, text string) *plan.Plan {
				next, err := plan.Do(p, nil, func(e *plan.Edit) error { return f.Type(e, words.Units{}, keys[0], text) })
				require.NoError(t, err)
				return next
			}
			said := func(p *plan.Plan, f *fields.Field) string {
				row, _ := f.Row(p, keys[0])
				return f.Text(fields.On(p, nil, words.Units{}), row)
			}
			listed := typed(p, y, "")
			require.Empty(t, said(listed, x), "taken off the plan by a blank")
			placed := typed(listed, x, "12.5 m")
			require.Equal(t, []string{"12.5 m", "0 m"}, []string{said(placed, x), said(placed, y)})
		})
	}
}
