package checks_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/checks"
	"stageloom/model/patch"
	"stageloom/model/plan"
)

func TestAChangeoverThatComesAgainIsOneFinding(t *testing.T) {
	s := newShow(t)
	third, fourth := plan.ActID("n-44444"), plan.ActID("n-55555")
	s.do(t, func(e *plan.Edit) {
		plan.Put(e, plan.Act{ID: third, Name: "Folk", Order: 3, Stage: "Main"})
		plan.Put(e, plan.Act{ID: fourth, Name: "Choir", Order: 4, Stage: "Main"})
		must(patch.Swap(e, second, s.inputs["Hat"], s.inputs["Bass"], true))
		must(patch.Swap(e, fourth, s.inputs["Hat"], s.inputs["Bass"], true))
	})
	var left []checks.Finding
	for _, finding := range s.found() {
		if finding.Rule == "phantom-left" {
			left = append(left, finding)
		}
	}
	require.Len(t, left, 2)
	require.Equal(t, "SL in 2 had 48 V for Hat in Brass and Folk, and Bass (DI) comes on it in Strings and Choir", left[0].What)
	require.Equal(t, []plan.ActID{second, fourth}, left[0].Acts)
	require.Equal(t, "SL in 3 had 48 V for Hat in Strings, and Bass (DI) comes on it in Folk", left[1].What)
}
