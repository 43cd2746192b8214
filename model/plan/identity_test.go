package plan_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
)

func TestIdentitiesAreLongAndDrawnApartFromIDs(t *testing.T) {
	ids, again, without := plan.NewIDSource(1, 2), plan.NewIDSource(1, 2), plan.NewIDSource(1, 2)
	seen := map[string]bool{}
	for range 1000 {
		identity := ids.Identity()
		require.Len(t, identity, 20)
		require.Empty(t, strings.Trim(identity, plan.Signs))
		require.False(t, seen[identity])
		seen[identity] = true
		require.Equal(t, identity, again.Identity(), "the same seed gives the same")
	}
	none := func(string) bool { return false }
	require.Equal(t, without.Next("d", none), ids.Next("d", none), "rows have the ids that they would have without")
	require.NotEqual(t, plan.NewIDSource(2, 1).Identity(), plan.NewIDSource(1, 2).Identity())

	p := plan.New("Show").WithIdentity("one")
	require.Same(t, p, p.WithIdentity("one"))
	require.Equal(t, "two", p.WithIdentity("two").Settings.Identity)
	require.Equal(t, "one", p.Settings.Identity)
}

func TestWhatIsLackingIsNoEditAndSplitsWithItsRow(t *testing.T) {
	var heap plan.ReelID
	p, err := plan.Do(plan.New("Show"), plan.NewIDSource(1, 2), func(e *plan.Edit) error {
		plan.Put(e, plan.CableKind{ID: "cat6a", Name: "Cat 6A", Media: "balanced-pair", Category: "cat6a"})
		heap = e.AddReel(plan.Reel{Kind: "cat6a", Length: 50, Quantity: 6, Taking: "t-22222"})
		return nil
	})
	require.NoError(t, err)
	require.Same(t, p, p.WithoutLacking())
	marked := p.WithLacking(func(plan.Reel) (int, string) { return 4, "is out: " + strings.Repeat("x", 5000) })
	row := marked.Reels.At(0)
	require.Equal(t, 2, row.There())
	require.Less(t, len(row.LackingWhy), 500, "the house says it in full")
	require.True(t, plan.Equal(p, marked.WithoutLacking()))

	for quantity, lacks := range map[int]int{1: 0, 2: 0, 3: 1, 5: 3} {
		split, err := plan.Do(marked, plan.NewIDSource(3, 4), func(e *plan.Edit) error {
			part, err := e.SplitReel(heap, quantity)
			if err != nil {
				return err
			}
			own, _ := e.Now().Reels.Get(plan.Key(part))
			require.Equal(t, lacks, own.Lacking)
			require.Equal(t, lacks == 0, own.LackingWhy == "")
			return nil
		})
		require.NoError(t, err)
		lacking, there := 0, 0
		for row := range split.Reels.All() {
			lacking += row.Lacking
			there += row.There()
		}
		require.Equal(t, 4, lacking)
		require.Equal(t, 2, there)
	}
}
