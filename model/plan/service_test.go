package plan_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
)

func TestALineOfAHistoryReadsBack(t *testing.T) {
	for _, s := range []plan.Service{
		{Day: "2031-05-02", Work: "near plug replaced", By: "workshop"},
		{Day: "2031-5-2", Work: "near plug replaced"},
		{Day: "2031-05-02", Work: "plug (far)"},
		{Day: "2031-05-02", Work: "plug (far)", By: "workshop (night)"},
		{Day: "2031-05-02", Work: "f(x)", By: "a"},
	} {
		read, err := plan.ReadService(s.Line())
		require.NoError(t, err)
		require.Equal(t, s, read)
	}
	for line, why := range map[string]string{
		"near plug replaced": "does not begin with a day", "2031-05-02": "does not say what was done",
		"2031-02-30 plug": "names a day that is not: 2031-02-30", "2031-05-02 (workshop)": "does not say what was done", "2031-05-021 plug": "does not begin",
	} {
		_, err := plan.ReadService(line)
		require.ErrorContains(t, err, why, line)
	}
}

func TestAHistoryIsSetInItsOrder(t *testing.T) {
	p, reel, _ := stocked(t)
	set := func(lines ...plan.Service) (said []string) {
		next, err := plan.Do(p, plan.NewIDSource(4, 4), func(e *plan.Edit) error { e.SetHistory(reel, lines); return nil })
		require.NoError(t, err)
		p = next
		for _, line := range p.History(reel) {
			said = append(said, line.Line())
		}
		return said
	}
	second, first, same := plan.Service{Day: "2031-05-02", Work: "b"}, plan.Service{Day: "2031-05-01", Work: "a"}, plan.Service{Day: "2031-05-02", Work: "a", By: "c"}
	require.Equal(t, []string{"2031-05-01 a", "2031-05-02 b", "2031-05-02 a (c)"}, set(second, first, same))
	require.Equal(t, []string{"2031-05-02 a (c)", "2031-05-02 b"}, set(same, second))
	require.Empty(t, set())
	require.Zero(t, p.Services.Len())
}
