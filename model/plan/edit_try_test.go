package plan_test

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
)

func TestAChangeThatIsRefusedLeavesTheEditAsItWas(t *testing.T) {
	base, err := plan.Do(plan.New("Try"), nil, func(e *plan.Edit) error {
		plan.Put(e, plan.Act{ID: "n-22222", Name: "Brass", Order: 1})
		return nil
	})
	require.NoError(t, err)
	refused := errors.New("no")
	next, err := plan.Do(base, nil, func(e *plan.Edit) error {
		plan.Put(e, plan.Act{ID: "n-22223", Name: "Strings", Order: 2})
		require.ErrorIs(t, e.Try(func() error {
			plan.Put(e, plan.Act{ID: "n-22223", Name: "Choir", Order: 2})
			plan.Drop[plan.Act](e, "n-22222")
			plan.Put(e, plan.Output{ID: "o-22222", Number: 1, Name: "Left"})
			require.Equal(t, 1, e.Now().Acts.Len())
			return refused
		}), refused)
		require.Equal(t, 2, e.Now().Acts.Len())
		require.Zero(t, e.Now().Outputs.Len())
		return e.Try(func() error {
			plan.Put(e, plan.Output{ID: "o-22223", Number: 2, Name: "Right"})
			return nil
		})
	})
	require.NoError(t, err)
	strings, _ := next.Acts.Get("n-22223")
	require.Equal(t, "Strings", strings.Name)
	require.True(t, next.Outputs.Has("o-22223"), "what is not refused stands")
	require.Equal(t, 1, base.Acts.Len())
}
