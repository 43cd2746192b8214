package plan_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
)

func column(t *testing.T, table, name string) plan.Column {
	t.Helper()
	info, found := plan.TableNamed(table)
	require.True(t, found)
	c, found := info.Column(name)
	require.True(t, found, name)
	return c
}

func TestAColumnSaysWhatItsTagsSay(t *testing.T) {
	rise := column(t, "links", "rise_from_m")
	low, high, bounded := rise.Bounds()
	require.Equal(t, []any{0.0, 500.0, true}, []any{low, high, bounded})
	require.True(t, rise.MayBeBlank())
	require.Equal(t, "is 501, but must lie between 0 and 500", rise.Check(501.0))
	require.Empty(t, rise.Check(500.0))
	require.Equal(t, "cable_kinds", column(t, "reels", "kind").Refers())
	require.Equal(t, []string{"good", "suspect", "faulty"}, column(t, "reels", "condition").OneOf())
	require.True(t, column(t, "reels", "note").Long())
	require.Greater(t, column(t, "reels", "note").LongestText(), column(t, "reels", "tag").LongestText())
	_, found := plan.SettingsColumn("north_degrees")
	require.True(t, found)
}

// Every column of every table is read and written back by its name.
func TestAColumnGivesBackWhatWasPutIn(t *testing.T) {
	reel := plan.Reel{ID: "r-22222", Tag: "A1", Kind: "cat6a", Length: 45, Quantity: 1, Measured: plan.Some(12)}
	for _, change := range []struct {
		name  string
		value any
		want  plan.Reel
	}{
		{"tag", "B2", plan.Reel{ID: "r-22222", Tag: "B2", Kind: "cat6a", Length: 45, Quantity: 1, Measured: plan.Some(12)}},
		{"kind", "cat7", plan.Reel{ID: "r-22222", Tag: "A1", Kind: "cat7", Length: 45, Quantity: 1, Measured: plan.Some(12)}},
		{"length_m", 70.0, plan.Reel{ID: "r-22222", Tag: "A1", Kind: "cat6a", Length: 70, Quantity: 1, Measured: plan.Some(12)}},
		{"quantity", 3, plan.Reel{ID: "r-22222", Tag: "A1", Kind: "cat6a", Length: 45, Quantity: 3, Measured: plan.Some(12)}},
		{"measured_loss_dB", plan.Optional{}, plan.Reel{ID: "r-22222", Tag: "A1", Kind: "cat6a", Length: 45, Quantity: 1}},
	} {
		c := column(t, "reels", change.name)
		got := c.With(reel, change.value)
		require.Equal(t, change.want, got)
		require.Equal(t, change.value, c.Of(got))
	}
	for _, table := range plan.Tables() {
		for _, c := range table.Columns() {
			require.NotEmpty(t, c.Name(), table.Name)
		}
	}
}
