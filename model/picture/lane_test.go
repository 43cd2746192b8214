package picture_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/geom"
	"stageloom/model/picture"
	"stageloom/model/plan"
)

func TestLanesOfParallelLinksDoNotCross(t *testing.T) {
	for _, turned := range []bool{false, true} {
		for _, way := range [][]geom.Point{nil, {{X: 50, Y: 30}}, {{X: 40}, {X: 40, Y: 40}, {X: 80, Y: 40}}} {
			for _, n := range []int{1, 2, 7} {
				t.Run(fmt.Sprintf("%d links over %d points, turned %v", n, len(way), turned), func(t *testing.T) { lanesOf(t, n, way, turned) })
			}
		}
	}
}

// lanesOf draws links that go one way, every other the other way round where they are turned.
func lanesOf(t *testing.T, n int, way []geom.Point, turned bool) {
	s := twoBoxes()
	s.Links = nil
	for i := range n {
		link := picture.LinkFigure{ID: plan.LinkID(fmt.Sprintf("k-%05d", i)), Grade: "ample", Standing: "ample", From: "d-22222", To: "d-33333", Reached: 1, Way: way}
		if turned && i%2 == 1 {
			link.From, link.To, link.Way = link.To, link.From, geom.Polyline(way).Reversed()
		}
		s.Links = append(s.Links, link)
	}
	lines := linesOf(draw(s, 8, picture.Options{}))
	require.Len(t, lines, n)
	for a, one := range lines {
		for b, other := range lines {
			if a >= b {
				continue
			}
			for _, p := range one.Lines() {
				for _, q := range other.Lines() {
					_, crosses := p.Crossing(q)
					require.False(t, crosses, "%s crosses %s", a, b)
				}
			}
			nearest := math.Inf(1)
			for away := 0.0; away < one.Length(); away += 2 {
				at, _ := one.At(away)
				nearest = min(nearest, other.Distance(at))
			}
			require.InDelta(t, 6*abs(float64(number(a)-number(b))), nearest, 0.05, "%s and %s lie side by side, 6 points for each lane", a, b)
		}
	}
}
