package patch_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

// points are the sockets that an input lies on, each with the ways of the multicores up to there: "Split in 3 by M01 3".
func (r *rig) points(input string) (all []string) {
	said := r.line("", input)
	for _, point := range said.view.Points(said.view.House(), said.Line) {
		words := said.view.SocketWords(point.Socket)
		for i, way := range point.Ways {
			link, _ := r.plan.Link(way.Link)
			words += fmt.Sprintf("%s %s %d", []string{" by", ","}[min(i, 1)], link.Name, way.Number)
		}
		all = append(all, words)
	}
	return all
}

// split is a splitter before two boxes with a console each, fed by a sub-snake on its first sixteen ways and by a rack of
// receivers on its next.
func split(t *testing.T) *rig {
	r := newRig(t)
	r.device("Snake", "sub-snake-12-4")
	r.device("RF rack", "rf-rack-16")
	r.device("Split", "splitter-48")
	r.device("SL", "stage-rack-48-20")
	r.device("FOH", "console-72")
	r.link("M01", "Snake", "M", "Split", "IN1")
	r.link("M02", "RF rack", "M", "Split", "IN2")
	r.link("M03", "Split", "A1", "SL", "M1")
	r.link("M04", "Split", "A2", "SL", "M2")
	r.link("L01", "SL", "AES50 1", "FOH", "AES50 1")
	r.slot("L01", patch.Forward, 3, "SL", 3)
	r.slot("L01", patch.Forward, 20, "SL", 20)
	r.channel("", "FOH", 1, "SL", 3)
	r.channel("", "FOH", 2, "SL", 20)
	return r
}

func TestPointsOfASubSnake(t *testing.T) {
	r := split(t)
	r.input(1, "Kick", func(i *plan.Input) { i.Snake, i.SnakeWay = r.devices["Snake"], 3 })
	require.Equal(t, []string{"Snake in 3", "Split in 3 by M01 3", "SL in 3 by M01 3, M03 3"}, r.points("Kick"))
	r.says(t, "", "Kick", "Kick → Snake in 3 → SL in 3 → FOH 1")
	r.stage("", "Kick", "Split", 3)
	require.Equal(t, []string{"Snake in 3", "Split in 3 by M01 3", "SL in 3 by M01 3, M03 3"}, r.points("Kick"))
	r.says(t, "", "Kick", "Kick → Snake in 3 → Split in 3 → SL in 3 → FOH 1")
}

func TestPointsBesideASubSnakeAndAReceiver(t *testing.T) {
	r := split(t)
	r.input(1, "Kick")
	r.input(2, "Vocal")
	r.stage("", "Kick", "Split", 3)
	r.stage("", "Vocal", "Split", 20)
	require.ElementsMatch(t, []string{"Split in 3", "Snake in 3 by M01 3", "SL in 3 by M03 3"}, r.points("Kick"))
	require.Equal(t, "Split in 3", r.points("Kick")[0], "where it is plugged in")
	require.ElementsMatch(t, []string{"Split in 20", "RF rack out 4 by M02 4", "SL in 20 by M04 4"}, r.points("Vocal"))
	t.Run("what lies beside is no place that the signal comes to", func(t *testing.T) {
		r.says(t, "", "Kick", "Kick → Split in 3 → SL in 3 → FOH 1")
		r.says(t, "", "Vocal", "Vocal → Split in 20 → SL in 20 → FOH 2")
	})
	t.Run("nor where nothing else is behind the splitter", func(t *testing.T) {
		r.do(func(e *plan.Edit) error { e.RemoveLinks(r.links["M03"], r.links["M04"]); return nil })
		r.says(t, "", "Kick", "Kick → Split in 3")
		r.says(t, "", "Vocal", "Vocal → Split in 20")
	})
	t.Run("but for a channel that listens there", func(t *testing.T) {
		r.channel("", "FOH", 7, "Snake", 3)
		r.says(t, "", "Kick", "Kick → Split in 3 → Snake in 3 → FOH 7 not reached")
	})
}

func TestPointsOfADirectBox(t *testing.T) {
	r := festival(t)
	require.Equal(t, []string{"SL in 3"}, r.points("Kick in"))
	r.says(t, "", "Kick in", "Kick in → SL in 3 → FOH 1, Mon 1")
	r.input(2, "Spare")
	require.Empty(t, r.points("Spare"))
}
