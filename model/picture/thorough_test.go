package picture_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/geom"
	"stageloom/model/picture"
	"stageloom/model/plan"
)

func TestThoroughLabelsKeepOffEachOtherAndOffWhatIsKeptClear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := randomScene(t)
		clear := geom.BoxAround(geom.Point{X: rapid.Float64Range(0, 1200).Draw(t, "x"), Y: rapid.Float64Range(0, 800).Draw(t, "y")}, 90, 20)
		p := draw(s, rapid.SampledFrom([]float64{1.5, 4, 12}).Draw(t, "scale"), picture.Options{Thorough: true, Clear: []geom.Box{clear}})
		boxes := solid(p)
		for i := range boxes {
			for j := range i {
				if overlap := boxes[i].Intersection(boxes[j]); overlap.Width() > 0 && overlap.Height() > 0 {
					t.Fatalf("boxes %v and %v overlap", boxes[i], boxes[j])
				}
			}
		}
		for _, m := range p.Marks {
			if m.Role != picture.RoleLabelFill {
				continue
			}
			if overlap := geom.BoxOf(m.Points...).Intersection(clear); overlap.Width() > 0 && overlap.Height() > 0 {
				t.Fatalf("label %v lies on %v, which is kept clear", m.Points, clear)
			}
		}
	})
}

func TestAThoroughPictureLeavesFewerLabelsOut(t *testing.T) {
	fewer := 0
	rapid.Check(t, func(t *rapid.T) {
		s := randomScene(t)
		usual := draw(s, 1.5, picture.Options{})
		thorough := draw(s, 1.5, picture.Options{Thorough: true})
		fewer += len(usual.Unplaced) - len(thorough.Unplaced)
	})
	require.Positive(t, fewer)
}

// bundle is many links between two devices close to each other: no room for labels on the links.
func bundle(n int) *picture.Scene {
	s := &picture.Scene{
		Devices: []picture.DeviceFigure{
			{ID: "d-22222", Name: "Stage left", Kind: "stage box"},
			{ID: "d-33333", Name: "Stage right", Kind: "stage box", At: geom.Point{X: 30}},
		},
		Bounds: geom.BoxOf(geom.Point{}, geom.Point{X: 30}),
	}
	for i := range n {
		s.Links = append(s.Links, picture.LinkFigure{
			ID: plan.LinkID(fmt.Sprintf("k-%05d", i)), Label: fmt.Sprintf("L%02d +3", i), Grade: "enough", Standing: "enough",
			From: "d-22222", To: "d-33333", Reached: 1,
		})
	}
	return s
}

func TestALabelWithoutRoomOnItsLineHangsOnALeader(t *testing.T) {
	s := bundle(5)
	require.NotEmpty(t, draw(s, 9, picture.Options{}).Unplaced)
	p := draw(s, 9, picture.Options{Thorough: true})
	require.Empty(t, p.Unplaced)
	leaders := 0
	for i, m := range p.Marks {
		if m.Role != picture.RoleLeader || m.Shape != picture.Stroke {
			continue
		}
		leaders++
		own := false
		for _, line := range strokes(p, picture.RoleLinkEnough) {
			own = own || geom.Polyline(line).Distance(m.Points[0]) < 1e-6
		}
		require.True(t, own, "leader %d stands on a link", i)
	}
	require.Positive(t, leaders)
}

func TestAPlanFillsNoMoreThanItsBounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := randomScene(t)
		a := picture.Arrange(s, 4, 1, wide)
		bounds := a.Bounds()
		view := a.Sheet(bounds.Centre(), bounds.Width()+2, bounds.Height()+2)
		require.InDelta(t, 4, view.Scale, 1e-12)
		for _, m := range picture.Letter(a, view, picture.Options{Bare: true}).Marks {
			switch m.Role {
			case picture.RoleDeviceFill, picture.RoleDeviceDot, picture.RoleLinkCasing, picture.RoleAreaStage:
				require.True(t, view.Box().Inset(-1e-6).ContainsBox(geom.BoxOf(m.Points...)), "%s %v in %v", m.Role, m.Points, view.Box())
			}
		}
	})
}

func TestANarrowStripHasItsNameBesideIt(t *testing.T) {
	s := twoBoxes()
	s.Areas = []picture.AreaFigure{{
		ID: "a-22222", Name: "Path to the second stage", Use: "walkway",
		Corners: []geom.Point{{X: 40, Y: -30}, {X: 42, Y: -30}, {X: 42, Y: 30}, {X: 40, Y: 30}},
	}}
	named := func(o picture.Options) int {
		n := 0
		for _, m := range draw(s, 8, o).Marks {
			if m.Role == picture.RoleAreaText {
				n++
			}
		}
		return n
	}
	require.Zero(t, named(picture.Options{}))
	require.Equal(t, 1, named(picture.Options{Thorough: true}))
}
