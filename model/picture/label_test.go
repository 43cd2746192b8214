package picture_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/geom"
	"stageloom/model/picture"
	"stageloom/model/plan"
)

func TestASelectedLinkIsNamedWhereThereIsNoRoom(t *testing.T) {
	s := &picture.Scene{Bounds: geom.BoxOf(geom.Point{}, geom.Point{X: 200, Y: 120})}
	for i := range 2 {
		s.Devices = append(s.Devices, picture.DeviceFigure{ID: plan.DeviceID(fmt.Sprintf("d-%05d", i)), Name: "box", At: geom.Point{X: 80 + 40*float64(i), Y: 60}})
	}
	for i := range 90 {
		s.Links = append(s.Links, picture.LinkFigure{
			ID: plan.LinkID(fmt.Sprintf("k-%05d", i)), Label: fmt.Sprintf("L%02d +3", i), Grade: "ample", Standing: "ample", From: s.Devices[0].ID, To: s.Devices[1].ID, Reached: 1,
		})
	}
	named := func(p *picture.Picture, label string) bool {
		for _, m := range p.Marks {
			if m.Shape == picture.Words && m.Text == label {
				return true
			}
		}
		return false
	}
	plain := draw(s, 5, picture.Options{})
	require.NotEmpty(t, plain.Unplaced)
	lost := plain.Unplaced[len(plain.Unplaced)-1]
	label := ""
	selected := map[plan.Ref]bool{{Table: "links", Key: plan.Key(lost)}: true}
	for _, link := range s.Links {
		if link.ID == lost {
			label = link.Label
		}
	}
	require.False(t, named(plain, label))
	p := draw(s, 5, picture.Options{Selected: selected})
	require.True(t, named(p, label))
	require.Len(t, p.Unplaced, len(plain.Unplaced)-1)
	t.Run("of many, the others stay without", func(t *testing.T) {
		for _, id := range plain.Unplaced {
			selected[plan.Ref{Table: "links", Key: plan.Key(id)}] = true
		}
		p := draw(s, 5, picture.Options{Selected: selected})
		require.Len(t, p.Unplaced, max(0, len(plain.Unplaced)-3))
	})
}
