package picture_test

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/geom"
	"stageloom/model/picture"
	"stageloom/model/plan"
)

func TestAFittedViewShowsTheWholeBoxInsideItsBorder(t *testing.T) {
	for _, c := range []struct {
		name          string
		box           geom.Box
		width, height float64
	}{
		{"a festival", geom.BoxOf(geom.Pt(-66, -98), geom.Pt(224, 90)), 1200, 800},
		{"one device", geom.BoxOf(geom.Pt(5, 5)), 1200, 800},
		{"a line", geom.BoxOf(geom.Pt(0, 7), geom.Pt(1000, 7)), 1200, 800},
		{"1 km apart", geom.BoxOf(geom.Pt(0, 0), geom.Pt(700, 714)), 300, 900},
		{"far from the origin", geom.BoxAround(geom.Pt(-19990, 19990), 8, 3), 640, 480},
		{"all of a large site", geom.BoxAround(geom.Point{}, 20000, 20000), 1200, 800},
	} {
		t.Run(c.name, func(t *testing.T) {
			v := picture.Fit(c.box, c.width, c.height, 40)
			room := v.Box().Inset(40 - 1e-6)
			for _, corner := range c.box.Corners() {
				require.True(t, room.Contains(v.Point(corner)), "%v is at %v", corner, v.Point(corner))
			}
			middle := v.Metres(geom.Pt(c.width/2, c.height/2))
			require.InDelta(t, 0, middle.Distance(c.box.Centre()), 1e-6)
			larger := v.Zoomed(1.01, geom.Pt(c.width/2, c.height/2))
			if v.Scale < 60 { // a device alone doesn't fill the window
				outside := 0
				for _, corner := range c.box.Corners() {
					if !room.Contains(larger.Point(corner)) {
						outside++
					}
				}
				require.Positive(t, outside, "it is as large as it can be")
			}
		})
	}
	tiny := picture.Fit(geom.BoxAround(geom.Point{}, 40, 30), 10, 10, 40)
	require.Positive(t, tiny.Scale, "a window smaller than its border still has a scale")
}

func TestZoomKeepsWhatLiesUnderThePointerEvenAtItsEnds(t *testing.T) {
	v := picture.View{Scale: 4, Origin: geom.Pt(-30, 60), Width: 900, Height: 600}
	at := geom.Pt(333, 77)
	for _, factor := range []float64{1e-9, 0.5, 1, 1.25, 3, 1e9} {
		zoomed := v.Zoomed(factor, at)
		require.InDelta(t, 0, v.Metres(at).Distance(zoomed.Metres(at)), 1e-6, "by %v", factor)
		require.InDelta(t, min(1000, max(0.02, 4*factor)), zoomed.Scale, 1e-9, "20 km on a screen, or a metre")
		require.Equal(t, v.Width, zoomed.Width)
	}
	back := v.Zoomed(1.25, at).Zoomed(1/1.25, at)
	require.InDelta(t, 0, back.Origin.Distance(v.Origin), 1e-9)
}

func TestPanningMovesEveryPointByAsMuch(t *testing.T) {
	v := picture.View{Scale: 2.5, Origin: geom.Pt(3, 4), Width: 100, Height: 80}
	by := geom.Pt(-17, 23)
	for _, metres := range []geom.Point{{}, {X: 100, Y: -40}, {X: -7, Y: 900}} {
		require.InDelta(t, 0, v.Panned(by).Point(metres).Distance(v.Point(metres).Add(by)), 1e-9)
	}
	up := v.Point(geom.Pt(0, 1)).Y - v.Point(geom.Pt(0, 0)).Y
	require.InDelta(t, -2.5, up, 1e-12, "north is up, and the view counts down")
}

func TestARoundStepIsTheNextOfOneTwoFive(t *testing.T) {
	var steps []float64
	for _, power := range []float64{1e-3, 1e-2, 1e-1, 1, 10, 100, 1000, 1e4} {
		steps = append(steps, power, 2*power, 5*power)
	}
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(0.001, 5000).Draw(t, "x")
		for _, step := range steps {
			if step >= x {
				require.InEpsilon(t, step, picture.RoundStep(x), 1e-9, "%v", x)
				return
			}
		}
	})
	for _, x := range []float64{0, -3, math.Inf(1), math.NaN()} {
		require.Equal(t, 1.0, picture.RoundStep(x))
	}
}

func TestTheGridStandsAtRoundLengthsOfItsUnit(t *testing.T) {
	for _, unit := range []float64{1, 0.3048} {
		for _, scale := range []float64{0.05, 0.7, 3, 11, 240} {
			p := picture.Letter(picture.Arrange(&picture.Scene{}, scale, 1, wide), picture.View{Scale: scale, Origin: geom.Pt(-13, 9), Width: 700, Height: 500}, picture.Options{Unit: unit})
			fine, coarse := map[int]bool{}, map[int]bool{}
			var upright []float64
			for _, m := range p.Marks {
				if m.Points[0].X == m.Points[1].X {
					upright = append(upright, m.Points[0].X)
				}
			}
			require.Greater(t, len(upright), 3)
			step := picture.RoundStep(38 / scale / unit)
			for _, m := range p.Marks {
				require.Contains(t, []picture.Role{picture.RoleGridFine, picture.RoleGridCoarse}, m.Role)
				at := p.View.Metres(m.Points[0])
				across := at.X
				if m.Points[0].X != m.Points[1].X {
					across = at.Y
				}
				n := across / unit / step
				require.InDelta(t, math.Round(n), n, 1e-6, "a line stands at %v", across)
				if m.Role == picture.RoleGridCoarse {
					coarse[int(math.Round(n))] = true
				} else {
					fine[int(math.Round(n))] = true
				}
			}
			for n := range coarse {
				require.Zero(t, n%5)
				require.False(t, fine[n])
			}
			for _, x := range upright {
				for _, other := range upright {
					require.True(t, x == other || abs(x-other) > 37.9, "lines at %v and %v", x, other)
				}
			}
		}
	}
}

func TestTheScaleBarIsAsLongAsItSays(t *testing.T) {
	for unitName, unit := range map[string]float64{"m": 1, "ft": 0.3048} {
		for _, scale := range []float64{0.02, 0.3, 4, 77, 1000} {
			v := picture.View{Scale: scale, Width: 1000, Height: 700}
			marks := picture.ScaleBar(v, unit, unitName)
			require.Len(t, marks, 2)
			figure, name, _ := strings.Cut(marks[1].Text, " ")
			said, err := strconv.ParseFloat(figure, 64)
			require.NoError(t, err)
			require.Equal(t, unitName, name)
			bar := geom.BoxOf(marks[0].Points...)
			require.InEpsilon(t, said*unit, bar.Width()/scale, 1e-9)
			require.GreaterOrEqual(t, bar.Width(), 80-1e-6)
			require.LessOrEqual(t, bar.Width(), 200+1e-6)
			require.True(t, v.Box().ContainsBox(bar))
		}
	}
	require.Empty(t, picture.ScaleBar(picture.View{Scale: 4, Width: 1000, Height: 50}, 1, "m"), "no room")
	require.Empty(t, picture.ScaleBar(picture.View{Scale: 4, Width: 100, Height: 700}, 1, "m"))
	require.Equal(t, picture.NotToScale, picture.ScaleNote(picture.View{Height: 200})[0].Text)
	require.Empty(t, picture.ScaleNote(picture.View{Height: 50}))
}

func TestAShortenedTextIsTheLongestThatFits(t *testing.T) {
	for _, name := range []string{"", "FOH", "Stage left, second rack of the monitor desk", "مكبرات الصوت اليسرى عند المنصة", "🎸🎺🥁🎤🎹🎷🎻🪗 rack", strings.Repeat("ß", 900)} {
		for _, room := range []float64{0, 5, 40, 90, 140} {
			got := picture.Shortened(name, room, 10, false, wide)
			require.True(t, utf8.ValidString(got))
			if wide(name, 10, false) <= room {
				require.Equal(t, name, got)
				continue
			}
			stem, cut := strings.CutSuffix(got, "…")
			require.True(t, cut, got)
			require.True(t, strings.HasPrefix(name, stem))
			letters := len([]rune(stem)) // 6 points each, and as much for the dots
			require.Equal(t, max(0, int(room/6)-1), letters, "%q in %v", name, room)
		}
	}
}

func TestPicturesOfDegeneratePlansAreWhole(t *testing.T) {
	at := func(points ...geom.Point) *picture.Scene {
		s := &picture.Scene{Bounds: geom.BoxOf(points...)}
		for i, p := range points {
			s.Devices = append(s.Devices, picture.DeviceFigure{ID: plan.DeviceID(fmt.Sprintf("d-%05d", i)), Name: fmt.Sprintf("صندوق %d 🎤", i), Kind: "box", At: p})
			if i > 0 {
				s.Links = append(s.Links, picture.LinkFigure{
					ID: plan.LinkID(fmt.Sprintf("k-%05d", i)), Label: "L", Grade: "ample", Standing: "ample", From: s.Devices[i-1].ID, To: s.Devices[i].ID, Reached: 1,
				})
			}
		}
		return s
	}
	heap := make([]geom.Point, 12)
	for name, s := range map[string]*picture.Scene{
		"nothing": {Bounds: geom.BoxAround(geom.Point{}, 40, 30)}, "one": at(geom.Pt(3, 4)), "two in one point": at(geom.Pt(1, 1), geom.Pt(1, 1)),
		"twelve in one point": at(heap...), "1 km apart": at(geom.Pt(0, 0), geom.Pt(1000, 0)), "at the ends of the world": at(geom.Pt(-20000, -20000), geom.Pt(20000, 20000)),
	} {
		for _, scale := range []float64{0.02, 1, 60, 1000} {
			t.Run(fmt.Sprintf("%s at %v", name, scale), func(t *testing.T) {
				a := picture.Arrange(s, scale, 1, wide)
				bounds := a.Bounds()
				require.True(t, bounds.Min.Finite() && bounds.Max.Finite())
				boxes := a.Boxes()
				require.Len(t, boxes, len(s.Devices))
				require.Len(t, a.Ways(), len(s.Links))
				for i, box := range boxes {
					require.True(t, bounds.ContainsBox(box), "device %d", i)
				}
				p := picture.Letter(a, a.Sheet(bounds.Centre(), bounds.Width()+20, bounds.Height()+20), picture.Options{Bare: true})
				drawn := 0
				for _, m := range p.Marks {
					for _, point := range m.Points {
						require.True(t, point.Finite(), "%s", m.Role)
					}
					if m.Shape == picture.Panel && (m.Role == picture.RoleDeviceFill || m.Role == picture.RoleDeviceDot) {
						drawn++
					}
				}
				require.Equal(t, len(s.Devices), drawn, "each device is drawn, whatever lies on it")
			})
		}
	}
}

func TestABoxThatWasPushedIsTiedToItsPlace(t *testing.T) {
	s := &picture.Scene{}
	for i, at := range []geom.Point{{}, {X: 0.5, Y: 0.2}, {X: 40}, {X: 20}, {X: 20, Y: 0.1}} {
		s.Devices = append(s.Devices, picture.DeviceFigure{ID: plan.DeviceID(fmt.Sprintf("d-%05d", i)), Name: "Stage box", Kind: "box", At: at})
	}
	a := picture.Arrange(s, 12, 1, wide)
	require.False(t, a.Dots)
	p := picture.Letter(a, a.Sheet(a.Bounds().Centre(), 900, 600), picture.Options{})
	tied, pushed := map[plan.Key]bool{}, 0
	for _, m := range p.Marks {
		if m.Role == picture.RoleLeader && m.Shape == picture.Stroke {
			tied[m.Ref.Key] = true
			box, _ := p.Where(m.Ref)
			device := s.Devices[int(m.Ref.Key[6]-'0')]
			require.InDelta(t, 0, m.Points[0].Distance(p.View.Point(device.At)), 1e-9, "it begins where the device stands")
			require.True(t, box.Inset(-1e-6).Contains(m.Points[1]) && !box.Inset(1e-6).Contains(m.Points[1]), "and ends at its box")
		}
	}
	for _, device := range s.Devices {
		box, found := p.Where(plan.Ref{Table: "devices", Key: plan.Key(device.ID)})
		require.True(t, found)
		away := !box.Contains(p.View.Point(device.At))
		require.Equal(t, away, a.Pushed(device.ID))
		require.Equal(t, away, tied[plan.Key(device.ID)])
		if away {
			pushed++
		}
	}
	require.Positive(t, pushed)
	require.False(t, a.Pushed("d-nobody"))
}
