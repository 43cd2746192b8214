package report_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/assess"
	"stageloom/model/demo"
	"stageloom/model/demo/demotest"
	"stageloom/model/geom"
	"stageloom/model/picture"
	"stageloom/model/plan"
	"stageloom/report"
)

// recorder is a picture's pen that keeps the boxes of what is written and of what carries writing.
type recorder struct {
	measure picture.Measure
	words   []written
	panels  []geom.Box
}

type written struct {
	text string
	box  geom.Box
}

func (r *recorder) Fade(bool)                         {}
func (r *recorder) Stroke([]geom.Point, picture.Role) {}
func (r *recorder) Fill([]geom.Point, picture.Role)   {}

func (r *recorder) Image([4]geom.Point, string, float64) {}

func (r *recorder) Panel(box geom.Box, _ float64, fill, _ picture.Role) {
	if fill == picture.RoleLabelFill || fill == picture.RoleDeviceFill {
		r.panels = append(r.panels, box)
	}
}

func (r *recorder) Words(at geom.Point, anchor picture.Anchor, text string, size float64, bold bool, _ picture.Role) {
	width := r.measure(text, size, bold)
	const capitals = 0.73 // of the size, as in the typeface of the book
	centre := at.Add(geom.Point{X: map[picture.Anchor]float64{picture.Left: width / 2, picture.Right: -width / 2}[anchor]})
	r.words = append(r.words, written{text, geom.BoxAround(centre, width, capitals*size)})
}

// overlaps reports whether two boxes share more than a hair.
func overlaps(a, b geom.Box) bool {
	common := a.Intersection(b)
	return common.Width() > 0.05 && common.Height() > 0.05
}

// isDot tells the mark of a device that has no box from a label.
func isDot(box geom.Box) bool { return box.Width() == box.Height() && box.Width() < 10 }

// requireApart wants no words on other words, no panel on another, and no words across the edge of a panel.
func requireApart(t *testing.T, page report.Page, r *recorder) {
	t.Helper()
	for i, one := range r.words {
		for _, other := range r.words[:i] {
			require.False(t, overlaps(one.box, other.box), "part %d: %q lies on %q", page.Part, one.text, other.text)
		}
		for _, panel := range r.panels {
			require.False(t, overlaps(one.box, panel) && !panel.Inset(-0.05).ContainsBox(one.box), "part %d: %q lies across a box", page.Part, one.text)
		}
		for _, tag := range page.Tags {
			if !slices.ContainsFunc(r.panels, func(panel geom.Box) bool { return overlaps(panel, tag) }) {
				require.False(t, overlaps(one.box, tag), "part %d: %q lies on the number of a part", page.Part, one.text)
			}
		}
	}
	for i, one := range r.panels {
		for _, other := range r.panels[:i] {
			if isDot(one) && isDot(other) {
				continue // dots stand where devices stand, however close
			}
			require.False(t, overlaps(one, other), "part %d: %v lies on %v", page.Part, one, other)
		}
	}
}

func TestNothingOnThePlanLiesOnAnotherAndNoLinkIsLost(t *testing.T) {
	for _, c := range []struct {
		sentence string
		plan     *plan.Plan
	}{
		{"a handful of links", field(t)},
		{"names that are hard to print", nastyField(t)},
		{"a festival", demo.Weekender()},
		{"25 stages, 750 links", demotest.Large(1)},
		{"no link and no device", plan.New("Empty")},
	} {
		for _, size := range []string{"A4", "A3", "Letter"} {
			t.Run(c.sentence+" on "+size, func(t *testing.T) {
				a := assess.Of(c.plan)
				choice := report.ChoiceOf(c.plan, day)
				choice.Paper = size
				pages, unnamed, measure, err := report.Pages(a, choice)
				require.NoError(t, err)
				named := map[plan.Key]bool{}
				for _, page := range pages {
					r := &recorder{measure: measure}
					picture.Draw(page.Picture.Marks, r)
					requireApart(t, page, r)
					for _, m := range page.Picture.Marks {
						if m.Role == picture.RoleLabelText {
							named[m.Ref.Key] = true
						}
					}
				}
				require.Equal(t, c.plan.Links.Len(), len(named)+len(unnamed), "a link is named on the plan or in the key list")
				t.Logf("%d pages, %d of %d links in the key list", len(pages), len(unnamed), c.plan.Links.Len())
			})
		}
	}
}

func TestThePlanIsToScale(t *testing.T) {
	p := demo.Weekender()
	pages, _, _, err := report.Pages(assess.Of(p), report.ChoiceOf(p, day))
	require.NoError(t, err)
	for _, page := range pages {
		a, b := page.Picture.View.Point(geom.Pt(0, 0)), page.Picture.View.Point(geom.Pt(0, 100))
		require.InDelta(t, 100_000.0/float64(page.Denominator), a.Distance(b)*report.PointMM, 1e-9, "100 m at 1 : %d", page.Denominator)
		require.Less(t, b.Y, a.Y, "up is up")
	}
}

func TestAScaleBarFitsItsPlace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		room := rapid.Float64Range(0.01, 10_000).Draw(t, "metres")
		step := report.RoundWithin(room)
		require.LessOrEqual(t, step, room*(1+1e-9))
		require.GreaterOrEqual(t, step, room/2.5*(1-1e-9))
	})
}

func TestEveryRoleHasALookOnPaper(t *testing.T) {
	for _, role := range picture.Roles() {
		for _, grey := range []bool{false, true} {
			line, known := report.Line(role, grey)
			require.True(t, known, role)
			if grey {
				require.True(t, line.Colour.R == line.Colour.G && line.Colour.G == line.Colour.B, "%s is not grey", role)
			}
		}
	}
}

// Widths in millimetres: judgement, tried on paper at arm's length.
func TestGradesAreToldByTheirLinesAlone(t *testing.T) {
	widths := map[string]float64{"ample": 0.35, "enough": 0.45, "tight": 0.6, "over": 0.9}
	seen := map[string]string{}
	for grade, width := range widths {
		line, _ := report.Line(picture.LinkRole(grade), true)
		require.InDelta(t, width, line.Width, 1e-9, grade)
		require.Zero(t, line.Colour.R, "%s is black in grey", grade)
		require.Equal(t, grade == "ample", len(line.Dash) == 0, grade)
		key := fmt.Sprint(line.Dash)
		require.Empty(t, seen[key], "%s is dashed like %s", grade, seen[key])
		seen[key] = grade
	}
}

func TestWindowsCoverEveryBoxWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		random := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 1))
		boxes := make([]geom.Box, rapid.IntRange(1, 60).Draw(t, "boxes"))
		for i := range boxes {
			boxes[i] = geom.BoxAround(geom.Pt(random.Float64()*2000, random.Float64()*900), 20+random.Float64()*80, 30)
		}
		windows := report.Cover(boxes, 400, 250, len(boxes))
		for _, box := range boxes {
			whole := slices.ContainsFunc(windows, func(w geom.Box) bool { return w.Inset(-1e-6).ContainsBox(box) })
			if !whole {
				t.Fatalf("%v lies whole in none of %v", box, windows)
			}
		}
		require.LessOrEqual(t, len(windows), len(boxes))
		for _, w := range windows {
			require.InDelta(t, 400, w.Width(), 1e-6)
			require.InDelta(t, 250, w.Height(), 1e-6)
		}
	})
}

func TestAWindowHoldsAsManyBoxesAsOneCan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		random := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 2))
		boxes := make([]geom.Box, rapid.IntRange(1, 40).Draw(t, "boxes"))
		for i := range boxes { // in whole points, so that edges coincide
			boxes[i] = geom.BoxAround(geom.Pt(float64(random.IntN(120)), float64(random.IntN(80))), float64(4+random.IntN(12)), 6)
		}
		held := func(w geom.Box) (n int) {
			for _, box := range boxes {
				if w.ContainsBox(box) {
					n++
				}
			}
			return n
		}
		most := 0
		for _, a := range boxes {
			for _, b := range boxes {
				most = max(most, held(geom.Box{Min: geom.Pt(a.Min.X, b.Min.Y), Max: geom.Pt(a.Min.X+30, b.Min.Y+20)}))
			}
		}
		require.Equal(t, most, held(report.Fullest(boxes, 30, 20)))
	})
}

func TestCoveringGivesUpWhereTooManyWindowsAreNeeded(t *testing.T) {
	var boxes []geom.Box
	for i := range 50 { // far from each other: one window each
		boxes = append(boxes, geom.BoxAround(geom.Pt(1000*float64(i), 1000*float64(i*i%7)), 40, 30))
	}
	require.Len(t, report.Cover(boxes, 400, 250, 50), 50)
	require.Len(t, report.Cover(boxes, 400, 250, 9), 10)
}
