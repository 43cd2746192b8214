package picture_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/geom"
	"stageloom/model/picture"
	"stageloom/model/plan"
)

// under are the rows of a table with a solid mark at a point: labels of links, or boxes of devices.
func under(p *picture.Picture, at geom.Point, table string, roles ...picture.Role) map[plan.Key]bool {
	found := map[plan.Key]bool{}
	for _, m := range p.Marks {
		for _, role := range roles {
			if m.Shape == picture.Panel && m.Role == role && m.Ref.Table == table && geom.BoxOf(m.Points...).Contains(at) {
				found[m.Ref.Key] = true
			}
		}
	}
	return found
}

func TestAPointerTakesWhatIsDrawnNearest(t *testing.T) {
	took := map[string]int{}
	rapid.Check(t, func(t *rapid.T) {
		s := randomScene(t)
		s.Areas = nil
		p := draw(s, rapid.SampledFrom([]float64{2, 5}).Draw(t, "scale"), picture.Options{})
		lines := linesOf(p)
		for range 100 {
			at := geom.Pt(rapid.Float64Range(0, 1200).Draw(t, "at x"), rapid.Float64Range(0, 800).Draw(t, "at y"))
			ref, found := p.Pick(at)
			nearest := math.Inf(1)
			for _, line := range lines {
				nearest = min(nearest, line.Distance(at))
			}
			labels := under(p, at, "links", picture.RoleLabelFill)
			devices := under(p, at, "devices", picture.RoleDeviceFill, picture.RoleDeviceDot)
			switch {
			case len(labels) > 0:
				require.True(t, labels[ref.Key], "a label lies over everything")
				took["labels"]++
			case ref.Table == "devices" && len(devices) == 0:
				require.Contains(t, texts(p, ref), s.Devices[number(ref.Key)].Name, "the name of a dot")
			case len(devices) > 0:
				require.Equal(t, "devices", ref.Table, "a device before its links")
				require.True(t, devices[ref.Key])
				took["devices"]++
			case nearest < 7-1e-6:
				require.True(t, found)
				require.Equal(t, "links", ref.Table)
				require.InDelta(t, nearest, lines[ref.Key].Distance(at), 1e-6, "the nearest of the lines")
				took["links"]++
			case nearest > 7+1e-6:
				require.False(t, found, "%v is on nothing", ref)
				took["nothing"]++
			}
		}
	})
	if testing.Short() {
		return // few scenes are drawn, which need not show one of each
	}
	for _, what := range []string{"labels", "devices", "links", "nothing"} {
		require.Positive(t, took[what], what)
	}
}

// number is that of a row whose key counts, as in d-00012.
func number(key plan.Key) (n int) {
	_, _ = fmt.Sscanf(string(key[2:]), "%d", &n)
	return n
}

func texts(p *picture.Picture, ref plan.Ref) (all []string) {
	for _, m := range p.Marks {
		if m.Ref == ref && m.Shape == picture.Words {
			all = append(all, m.Text)
		}
	}
	return all
}

func TestABandTakesEveryRowThatItHoldsWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := draw(randomScene(t), 4, picture.Options{})
		band := geom.BoxOf(
			geom.Pt(rapid.Float64Range(-50, 1250).Draw(t, "x1"), rapid.Float64Range(-50, 850).Draw(t, "y1")),
			geom.Pt(rapid.Float64Range(-50, 1250).Draw(t, "x2"), rapid.Float64Range(-50, 850).Draw(t, "y2")),
		)
		if line, drawn := linesOf(p)["k-00000"]; drawn && rapid.Bool().Draw(t, "tight") {
			band = geom.BoxOf(line...) // it holds the line by a hair
		}
		want := map[plan.Key]bool{}
		for key, line := range linesOf(p) {
			if band.ContainsBox(geom.BoxOf(line...)) {
				want[key] = true
			}
		}
		for _, m := range p.Marks {
			if m.Shape == picture.Panel && m.Ref.Table == "devices" && band.ContainsBox(geom.BoxOf(m.Points...)) {
				want[m.Ref.Key] = true
			}
		}
		got := map[plan.Key]bool{}
		for _, ref := range p.Within(band) {
			require.False(t, got[ref.Key], "%s twice", ref.Key)
			got[ref.Key] = true
		}
		require.Equal(t, want, got)
	})
}

func TestAnAreaIsHitInsideItsCornersAlone(t *testing.T) {
	s := &picture.Scene{Areas: []picture.AreaFigure{{ // an L: its box holds more ground than it
		ID: "a-22222", Name: "Yard", Use: "road", Corners: []geom.Point{{}, {X: 60}, {X: 60, Y: 20}, {X: 20, Y: 20}, {X: 20, Y: 60}, {Y: 60}},
	}}}
	p := picture.Letter(picture.Arrange(s, 8, 1, wide), picture.View{Scale: 8, Origin: geom.Pt(-5, 65), Width: 600, Height: 600}, picture.Options{})
	for x := -4.0; x < 66; x += 3.1 {
		for y := -4.0; y < 64; y += 3.1 {
			within := x > 0 && y > 0 && x < 60 && y < 60 && (x < 20 || y < 20)
			_, found := p.Pick(p.View.Point(geom.Pt(x, y)))
			if name := p.View.Point(geom.Pt(x, y)); !found || within || !onName(p, name) {
				require.Equal(t, within, found, "at %v, %v", x, y)
			}
		}
	}
}

func onName(p *picture.Picture, at geom.Point) bool {
	for _, m := range p.Marks {
		if m.Shape == picture.Words && geom.BoxAround(m.Points[0], wide(m.Text, m.Size, m.Bold)+8, m.Size+6).Contains(at) {
			return true
		}
	}
	return false
}

func TestAPortTakesTheLinkThatIsDroppedOnIt(t *testing.T) {
	p := draw(twoBoxes(), 8, picture.Options{})
	places := p.PortPlaces("d-22222")
	require.Len(t, places, 2)
	require.Equal(t, []plan.LinkID{"k-22222", ""}, []plan.LinkID{places[0].Link, places[1].Link})
	box, _ := p.Where(plan.Ref{Table: "devices", Key: "d-22222"})
	for _, place := range places {
		require.Greater(t, place.At.Y, box.Max.Y, "ports hang under the box")
		id, port, found := p.DeviceAt(place.At)
		require.True(t, found)
		require.Equal(t, plan.DeviceID("d-22222"), id)
		require.Equal(t, place.Name, port)
	}
	id, port, found := p.DeviceAt(box.Centre())
	require.True(t, found)
	require.Equal(t, [2]string{"d-22222", ""}, [2]string{string(id), port})
	_, _, found = p.DeviceAt(geom.Pt(3, 3))
	require.False(t, found)
	require.Empty(t, p.PortPlaces("d-nobody"))
}

func TestManyPortsLieInRowsAndOnNoneOfEachOther(t *testing.T) {
	s := twoBoxes()
	for i := range 61 {
		s.Devices[0].Ports = append(s.Devices[0].Ports, picture.PortFigure{Name: fmt.Sprintf("P%d", i)})
	}
	p := draw(s, 8, picture.Options{Selected: map[plan.Ref]bool{{Table: "devices", Key: "d-22222"}: true}})
	box, _ := p.Where(plan.Ref{Table: "devices", Key: "d-22222"})
	var dots []geom.Box
	used := 0
	for _, m := range p.Marks {
		if m.Role == picture.RolePortFree || m.Role == picture.RolePortUsed {
			dots = append(dots, geom.BoxOf(m.Points...))
			require.False(t, covers(dots[len(dots)-1], box), "a port covers its device")
			ref, _ := p.Pick(dots[len(dots)-1].Centre())
			require.Equal(t, m.Ref, ref)
		}
		if m.Role == picture.RolePortUsed {
			used++
		}
	}
	require.Len(t, dots, 63)
	require.Equal(t, 1, used)
	for i := range dots {
		for j := range i {
			require.False(t, covers(dots[i], dots[j]), "ports %d and %d", i, j)
		}
	}
}
