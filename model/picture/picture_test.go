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

// wide measures text as a face of even width does.
func wide(text string, size float64, bold bool) float64 {
	return float64(len([]rune(text))) * size * 0.6
}

var grades = []string{"ample", "enough", "tight", "over", "uncabled", ""}

// randomScene strews devices over 200 × 120 m and joins them at random.
func randomScene(t *rapid.T) *picture.Scene {
	s := &picture.Scene{}
	devices := rapid.IntRange(0, 30).Draw(t, "devices")
	for i := range devices {
		s.Devices = append(s.Devices, picture.DeviceFigure{
			ID: plan.DeviceID(fmt.Sprintf("d-%05d", i)), Name: rapid.StringN(0, 30, 60).Draw(t, "name"), Kind: "kind",
			At: geom.Point{X: rapid.Float64Range(0, 200).Draw(t, "x"), Y: rapid.Float64Range(0, 120).Draw(t, "y")},
		})
	}
	for i := range rapid.IntRange(0, 60).Draw(t, "links") {
		if devices < 2 {
			break
		}
		from := rapid.IntRange(0, devices-1).Draw(t, "from")
		to := (from + rapid.IntRange(1, devices-1).Draw(t, "to")) % devices
		link := picture.LinkFigure{
			ID: plan.LinkID(fmt.Sprintf("k-%05d", i)), Label: fmt.Sprintf("L%02d +%d", i, i%20),
			Grade: grades[rapid.IntRange(0, 5).Draw(t, "grade")], From: s.Devices[from].ID, To: s.Devices[to].ID,
			Reached: 1, Joins: []float64{0.5},
		}
		link.Standing = link.Grade
		if rapid.Bool().Draw(t, "drawn") {
			link.Way = []geom.Point{{X: rapid.Float64Range(0, 200).Draw(t, "wx"), Y: rapid.Float64Range(0, 120).Draw(t, "wy")}}
		}
		s.Links = append(s.Links, link)
	}
	s.Areas = []picture.AreaFigure{{ID: "a-22222", Name: "Stage", Use: "stage", Corners: []geom.Point{{}, {X: 30}, {X: 30, Y: 20}, {Y: 20}}}}
	s.Bounds = geom.BoxOf(geom.Point{}, geom.Point{X: 200, Y: 120})
	return s
}

func draw(s *picture.Scene, scale float64, o picture.Options) *picture.Picture {
	a := picture.Arrange(s, scale, 1, wide)
	view := picture.Fit(s.Bounds, 1200, 800, 40)
	view.Scale = scale
	return picture.Letter(a, view, o)
}

// solid returns the boxes of labels and devices: nothing of this may lie on anything else of it.
func solid(p *picture.Picture) []geom.Box {
	var boxes []geom.Box
	for _, m := range p.Marks {
		if m.Shape == picture.Panel && (m.Role == picture.RoleLabelFill || m.Role == picture.RoleDeviceFill) {
			boxes = append(boxes, geom.BoxOf(m.Points...).Inset(0.01))
		}
		if m.Shape == picture.Words && (m.Role == picture.RolePositionText || m.Role == picture.RoleAreaText) {
			boxes = append(boxes, geom.BoxAround(m.Points[0], wide(m.Text, m.Size, false), m.Size))
		}
	}
	return boxes
}

func TestLabelsAndDevicesNeverLieOnEachOther(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := randomScene(t)
		p := draw(s, rapid.SampledFrom([]float64{1.5, 4, 12, 40}).Draw(t, "scale"), picture.Options{})
		boxes := solid(p)
		for i := range boxes {
			for j := range i {
				if overlap := boxes[i].Intersection(boxes[j]); overlap.Width() > 0 && overlap.Height() > 0 {
					t.Fatalf("boxes %v and %v overlap", boxes[i], boxes[j])
				}
			}
		}
	})
}

func TestTheSameSceneGivesTheSameMarks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := randomScene(t)
		require.Equal(t, draw(s, 4, picture.Options{}).Marks, draw(s, 4, picture.Options{}).Marks)
	})
}

func twoBoxes() *picture.Scene {
	return &picture.Scene{
		Devices: []picture.DeviceFigure{
			{ID: "d-22222", Name: "SL box", Kind: "32 in", Ports: []picture.PortFigure{{Name: "A", Link: "k-22222"}, {Name: "B"}}},
			{ID: "d-33333", Name: "FOH", Kind: "console", At: geom.Point{X: 100}},
		},
		Links: []picture.LinkFigure{
			{ID: "k-22222", Label: "L01 +2", Grade: "tight", Standing: "tight", From: "d-22222", To: "d-33333", Joins: []float64{0.5}, Reached: 1},
			{ID: "k-33333", Label: "L02 +9", Grade: "ample", Standing: "ample", From: "d-33333", To: "d-22222", Reached: 1},
		},
		Bounds: geom.BoxOf(geom.Point{}, geom.Point{X: 100}),
	}
}

func strokes(p *picture.Picture, role picture.Role) [][]geom.Point {
	var lines [][]geom.Point
	for _, m := range p.Marks {
		if m.Shape == picture.Stroke && m.Role == role {
			lines = append(lines, m.Points)
		}
	}
	return lines
}

func TestLinksThatGoTheSameWayLieSideBySide(t *testing.T) {
	p := draw(twoBoxes(), 8, picture.Options{})
	tight, ample := strokes(p, picture.RoleLinkTight), strokes(p, picture.RoleLinkAmple)
	require.Len(t, tight, 1)
	require.Len(t, ample, 1)
	require.InDelta(t, 6, abs(tight[0][0].Y-ample[0][0].Y), 1e-9)
	require.Len(t, strokes(p, picture.RoleJoinTight), 1, "one tick where two cables join")
}

func abs(x float64) float64 { return max(x, -x) }

func TestAPointerHitsTheSmallerThingFirst(t *testing.T) {
	device := plan.Ref{Table: "devices", Key: "d-22222"}
	p := draw(twoBoxes(), 8, picture.Options{Selected: map[plan.Ref]bool{device: true}})
	box, found := p.Where(device)
	require.True(t, found)
	got, _ := p.Pick(box.Centre())
	require.Equal(t, device, got)
	port := device
	port.Part = "B"
	portBox, found := p.Where(port)
	require.True(t, found, "a selected device shows its ports")
	got, _ = p.Pick(portBox.Centre())
	require.Equal(t, port, got)
	line := strokes(p, picture.RoleLinkTight)[0]
	got, found = p.Pick(line[0].Between(line[1], 0.25).Add(geom.Point{Y: abs(line[0].Y-line[1].Y) + 1}))
	require.True(t, found)
	require.Equal(t, plan.Key("k-22222"), got.Key)
	_, found = p.Pick(geom.Point{X: 5, Y: 5})
	require.False(t, found, "empty ground is nothing")
}

func TestABandTakesWhatLiesWhollyInside(t *testing.T) {
	p := draw(twoBoxes(), 8, picture.Options{})
	all := p.Within(geom.BoxOf(geom.Point{X: -1e4, Y: -1e4}, geom.Point{X: 1e4, Y: 1e4}))
	require.Len(t, all, 4)
	device, _ := p.Where(plan.Ref{Table: "devices", Key: "d-22222"})
	require.Equal(t, []plan.Ref{{Table: "devices", Key: "d-22222"}}, p.Within(device.Inset(-1)))
}

func TestWhatMovesIsDrawnOnTopOfAPictureThatHidesIt(t *testing.T) {
	s := twoBoxes()
	moving := plan.Moving{Devices: map[plan.DeviceID]bool{"d-33333": true}, Stretched: map[plan.LinkID]bool{"k-22222": true, "k-33333": true}}
	a := picture.Arrange(s, 8, 1, wide)
	view := picture.Fit(s.Bounds, 1200, 800, 40)
	view.Scale = 8
	base := picture.Letter(a, view, picture.Options{Hidden: &moving})
	for _, m := range base.Marks {
		require.NotEqual(t, plan.Key("d-33333"), m.Ref.Key)
		require.NotEqual(t, "links", m.Ref.Table)
	}
	marks := base.Overlay(moving, geom.Point{X: 10}, s.Links)
	labels, devices := 0, 0
	for _, m := range marks {
		if m.Role == picture.RoleLabelText {
			labels++
		}
		if m.Role == picture.RoleDeviceFill && m.Ref.Key == "d-33333" {
			devices++
			require.InDelta(t, view.Point(geom.Point{X: 110}).X, geom.BoxOf(m.Points...).Centre().X, 1e-9)
		}
	}
	require.Equal(t, 2, labels)
	require.Equal(t, 1, devices)
}

func TestAViewGoesToMetresAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := picture.View{Scale: rapid.Float64Range(0.1, 100).Draw(t, "scale"), Origin: geom.Point{X: 3, Y: 4}, Width: 100, Height: 80}
		at := geom.Point{X: rapid.Float64Range(-500, 500).Draw(t, "x"), Y: rapid.Float64Range(-500, 500).Draw(t, "y")}
		back := v.Point(v.Metres(at))
		require.InDelta(t, at.X, back.X, 1e-6)
		zoomed := v.Zoomed(rapid.Float64Range(0.5, 2).Draw(t, "factor"), at)
		require.InDelta(t, v.Metres(at).Y, zoomed.Metres(at).Y, 1e-6, "the ground under the pointer stays")
	})
}

func TestDevicesTooManyForBoxesBecomeDots(t *testing.T) {
	s := &picture.Scene{}
	for i := range 400 {
		s.Devices = append(s.Devices, picture.DeviceFigure{
			ID: plan.DeviceID(fmt.Sprint(i)), Name: "Stage box", At: geom.Point{X: float64(i % 20), Y: float64(i / 20)},
		})
	}
	require.True(t, picture.Arrange(s, 10, 1, wide).Dots)
	require.False(t, picture.Arrange(s, 400, 1, wide).Dots)
}

func TestDotsAreNamedWhereThereIsRoomAndThoseSelectedFirst(t *testing.T) {
	s := &picture.Scene{}
	for i := range 30 {
		s.Devices = append(s.Devices, picture.DeviceFigure{
			ID: plan.DeviceID(fmt.Sprint(i)), Name: fmt.Sprintf("Box %d", i), At: geom.Point{X: float64(i % 6), Y: float64(i / 6)},
		})
	}
	a := picture.Arrange(s, 10, 1, wide)
	require.True(t, a.Dots)
	names := func(o picture.Options) map[string]bool {
		found := map[string]bool{}
		for _, m := range picture.Letter(a, a.Sheet(a.Bounds().Centre(), 400, 300), o).Marks {
			if m.Role == picture.RoleDeviceText {
				found[m.Text] = true
			}
		}
		return found
	}
	free := names(picture.Options{})
	require.NotEmpty(t, free)
	require.Less(t, len(free), 30, "not all have room")
	for i := range s.Devices {
		name, chosen := s.Devices[i].Name, picture.Ref{Table: "devices", Key: plan.Key(s.Devices[i].ID)}
		if !free[name] && i/6 == 4 { // nothing stands below the last row
			require.True(t, names(picture.Options{Selected: map[picture.Ref]bool{chosen: true}})[name], name)
		}
	}
	s.Nameless = true
	a = picture.Arrange(s, 10, 1, wide)
	require.Empty(t, names(picture.Options{}), "who hides the names sees none")
}

func TestEveryRoleOfAMarkIsListed(t *testing.T) {
	listed := map[picture.Role]bool{"": true}
	for _, role := range picture.Roles() {
		require.False(t, listed[role], "%s stands twice", role)
		listed[role] = true
	}
	rapid.Check(t, func(t *rapid.T) {
		s := randomScene(t)
		selected := map[plan.Ref]bool{}
		for _, d := range s.Devices {
			selected[plan.Ref{Table: "devices", Key: plan.Key(d.ID)}] = true
		}
		for _, m := range draw(s, 4, picture.Options{Selected: selected}).Marks {
			if !listed[m.Role] || !listed[m.Edge] {
				t.Fatalf("role %q or edge %q is not listed", m.Role, m.Edge)
			}
		}
	})
}

func TestABadgeIsToldByItsShape(t *testing.T) {
	corners := map[int]string{}
	for _, grade := range grades[:5] {
		outline := picture.Badge(grade, geom.Point{}, 10)
		key := len(outline)*1000 + int(geom.BoxOf(outline...).Height())
		require.Empty(t, corners[key], "%s looks like %s", grade, corners[key])
		corners[key] = grade
	}
}

func TestWhatLiesOnAnotherLevelIsFaded(t *testing.T) {
	s := twoBoxes()
	s.Devices[1].Level = "v-22222"
	p := draw(s, 8, picture.Options{Level: "v-22222"})
	faded := map[plan.Key]bool{}
	for _, m := range p.Marks {
		if m.Role == picture.RoleDeviceFill {
			faded[m.Ref.Key] = m.Faded
		}
	}
	require.Equal(t, map[plan.Key]bool{"d-22222": true, "d-33333": false}, faded)
	for _, m := range draw(s, 8, picture.Options{}).Marks {
		require.False(t, m.Faded, "all levels are shown alike")
	}
}

// recorder is a pen that writes down when marks are faint.
type recorder struct {
	faint  []bool
	images [][4]geom.Point
}

func (r *recorder) Fade(faint bool)                                     { r.faint = append(r.faint, faint) }
func (r *recorder) Stroke([]geom.Point, picture.Role)                   {}
func (r *recorder) Fill([]geom.Point, picture.Role)                     {}
func (r *recorder) Panel(geom.Box, float64, picture.Role, picture.Role) {}
func (r *recorder) Words(geom.Point, picture.Anchor, string, float64, bool, picture.Role) {
}

func (r *recorder) Image(corners [4]geom.Point, _ string, _ float64) {
	r.images = append(r.images, corners)
}

func TestAPenIsToldWhenMarksTurnFaintAndBack(t *testing.T) {
	r := &recorder{}
	picture.Draw([]picture.Mark{{}, {Faded: true}, {Faded: true}, {}, {Faded: true}}, r)
	require.Equal(t, []bool{true, false, true, false}, r.faint)
}
