package picture_test

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/demo"
	"stageloom/model/demo/demotest"
	"stageloom/model/geom"
	"stageloom/model/picture"
	"stageloom/model/plan"
)

// gathered is a plan whose positions are boxes of rows while their devices would lie on each other.
func gathered(p *plan.Plan) *picture.Scene {
	a := assess.Of(p)
	s := picture.Compose(a.Plan, a.Budgets)
	s.Gathered = true
	return s
}

// eachView letters plans of three sizes at six zooms in windows of three sizes.
func eachView(t *testing.T, each func(t *testing.T, s *picture.Scene, p *picture.Picture)) {
	for name, of := range map[string]*plan.Plan{"the demo": demo.Weekender(), "a theatre": demotest.Theatre(), "a field of 500": demotest.Large(1)} {
		s := gathered(of)
		for _, size := range []geom.Point{{X: 700, Y: 450}, {X: 1040, Y: 680}, {X: 1900, Y: 1100}} {
			for _, zoom := range []float64{0.6, 1, 1.5, 2.5, 5, 12} {
				t.Run(fmt.Sprintf("%s in %.0f at %g", name, size.X, zoom), func(t *testing.T) {
					view := picture.Fit(s.Bounds, size.X, size.Y, 40).Zoomed(zoom, geom.Point{X: size.X / 2, Y: size.Y / 2})
					selected := map[plan.Ref]bool{}
					selected[plan.Ref{Table: plan.DevicesTable, Key: plan.Key(s.Devices[0].ID)}] = true
					each(t, s, picture.Letter(picture.Arrange(s, view.Scale, 1, wide), view, picture.Options{Selected: selected}))
				})
			}
		}
	}
}

// boxesOf are the boxes of the panels with one of these roles.
func boxesOf(p *picture.Picture, roles ...picture.Role) (boxes []geom.Box) {
	for _, m := range p.Marks {
		for _, role := range roles {
			if m.Shape == picture.Panel && m.Role == role {
				boxes = append(boxes, geom.BoxOf(m.Points...))
			}
		}
	}
	return boxes
}

func TestNothingLiesOnAnythingWhileTheViewGrows(t *testing.T) {
	eachView(t, func(t *testing.T, _ *picture.Scene, p *picture.Picture) {
		labels, ports := boxesOf(p, picture.RoleLabelFill), boxesOf(p, picture.RolePortFree, picture.RolePortUsed)
		for _, box := range boxesOf(p, picture.RoleDeviceFill, picture.RoleDeviceDot) {
			for _, port := range ports {
				require.False(t, covers(port, box), "a port on a neighbour")
			}
		}
		for i, label := range labels {
			for _, other := range labels[:i] {
				require.False(t, covers(label, other), "a label on a label")
			}
			for _, port := range ports {
				require.False(t, covers(label, port), "a label on a port")
			}
		}
		var rows []geom.Box // of different devices: a row that is selected is edged, and lies in its block
		for _, m := range p.Marks {
			if m.Shape == picture.Panel && m.Role == picture.RoleDeviceFill && m.Ref.Table == plan.DevicesTable {
				rows = append(rows, geom.BoxOf(m.Points...))
			}
		}
		for i := range rows {
			for _, other := range rows[:i] {
				require.False(t, covers(rows[i].Inset(0.5), other), "a box on a box")
			}
		}
		blocks := blocksOf(p)
		for i := range blocks {
			for _, other := range blocks[:i] {
				require.False(t, covers(blocks[i].Inset(0.5), other), "a block on a block")
			}
		}
	})
}

// blocksOf are the boxes of gathered positions.
func blocksOf(p *picture.Picture) (boxes []geom.Box) {
	for _, m := range p.Marks {
		if m.Shape == picture.Panel && m.Role == picture.RoleDeviceFill && m.Ref.Table == plan.PositionsTable {
			boxes = append(boxes, geom.BoxOf(m.Points...))
		}
	}
	return boxes
}

var counting = regexp.MustCompile(`^(?:and )?(\d+) (?:more|devices?)$`)

func TestEveryDeviceInViewIsNamedOrCounted(t *testing.T) {
	eachView(t, func(t *testing.T, s *picture.Scene, p *picture.Picture) {
		named := map[plan.Key]bool{}
		counted := 0
		for _, m := range p.Marks {
			if m.Shape != picture.Words {
				continue
			}
			if n := counting.FindStringSubmatch(m.Text); n != nil {
				count, _ := strconv.Atoi(n[1])
				counted += count
			} else if m.Ref.Table == plan.DevicesTable {
				named[m.Ref.Key] = true
				require.Greater(t, len(strings.TrimSuffix(m.Text, "…")), 2, "a name that is cut still tells something")
			}
		}
		seen := 0
		for _, device := range s.Devices {
			if p.View.Box().Contains(p.View.Point(device.At)) {
				seen++
			}
		}
		require.GreaterOrEqual(t, len(named)+counted, seen)
	})
}

func TestOutlinesAreTrueOnTheGround(t *testing.T) {
	eachView(t, func(t *testing.T, s *picture.Scene, p *picture.Picture) {
		outlines := map[plan.Key]geom.Box{}
		for _, m := range p.Marks {
			if m.Shape == picture.Panel && m.Role == "" && m.Edge == picture.RolePositionEdge {
				outlines[m.Ref.Key] = geom.BoxOf(m.Points...)
			}
		}
		for _, position := range s.Positions {
			drawn, found := outlines[plan.Key(position.ID)]
			if !found {
				continue
			}
			for _, off := range []float64{
				p.View.Metres(drawn.Min).X - position.Outline.Min.X, p.View.Metres(drawn.Max).X - position.Outline.Max.X,
				p.View.Metres(drawn.Min).Y - position.Outline.Max.Y, p.View.Metres(drawn.Max).Y - position.Outline.Min.Y,
			} {
				require.LessOrEqual(t, math.Abs(off), 0.1, position.Name)
			}
		}
		require.NotEmpty(t, outlines)
	})
}

// Zooming step by step, no box leaps: between two views that hardly differ each moves a little, but where the whole form changes.
func TestZoomingDoesNotLeap(t *testing.T) {
	s := gathered(demo.Weekender())
	leaps := 0
	last := picture.Arrange(s, 2, 1, wide)
	for scale := 2.0; scale < 40; scale *= 1.02 {
		a := picture.Arrange(s, scale, 1, wide)
		for i, box := range a.Boxes() {
			was := last.Boxes()[i]
			away := box.Centre().Distance(was.Centre().Scale(1.02))
			if away > 24 {
				leaps++
			}
		}
		last = a
	}
	require.LessOrEqual(t, leaps, 26, "each device may leap once at most, when its position opens")
}

func TestWhatIsGatheredIsPointedOutAndNeverTakenForAnother(t *testing.T) {
	counted, folded := 0, 0
	eachView(t, func(t *testing.T, s *picture.Scene, p *picture.Picture) {
		for _, device := range s.Devices {
			box, found := p.Where(plan.Ref{Table: plan.DevicesTable, Key: plan.Key(device.ID)})
			if !found {
				continue // out of view
			}
			switch at, port, hit := p.DeviceAt(box.Centre()); {
			case hit && at == "":
				counted++ // with others, and nobody could say which is meant
			case hit && port == "":
				require.Equal(t, device.ID, at, "%s is hit where it is pointed out", device.Name)
			}
		}
		boxes := blocksOf(p)
		for _, link := range s.Links {
			box, found := p.Where(plan.Ref{Table: plan.LinksTable, Key: plan.Key(link.ID)})
			if found && slices.Contains(boxes, box) {
				folded++
			}
		}
	})
	require.Positive(t, counted)
	require.Positive(t, folded)
}

func TestWhatStopsTheShowHasItsLabelAtFit(t *testing.T) {
	s := gathered(demo.Weekender())
	for _, size := range []geom.Point{{X: 560, Y: 320}, {X: 700, Y: 450}, {X: 1040, Y: 680}, {X: 1900, Y: 1100}} {
		view := picture.Fit(s.Bounds, size.X, size.Y, 40)
		p := picture.Letter(picture.Arrange(s, view.Scale, 1, wide), view, picture.Options{})
		for _, link := range s.Links {
			if link.Standing == "over" || link.Standing == "tight" {
				require.NotContains(t, p.Unplaced, link.ID, "%s, %s in %v", link.Name, link.Standing, size)
			}
		}
	}
}

// A line that goes straight from one box of rows to another is not led back under one of them.
func TestLinesBetweenBoxesDoNotRunUnderThem(t *testing.T) {
	s := gathered(demo.Weekender())
	for i := range s.Links {
		s.Links[i].Way = nil
	}
	checked := 0
	for _, scale := range []float64{2.5, 3, 3.5, 4.5} {
		a := picture.Arrange(s, scale, 1, wide)
		p := picture.Letter(a, a.Sheet(a.Bounds().Centre(), 3000, 2000), picture.Options{Plain: true})
		blockOf := map[plan.DeviceID]geom.Box{}
		for _, device := range s.Devices {
			row, _ := p.Where(plan.Ref{Table: plan.DevicesTable, Key: plan.Key(device.ID)})
			for _, block := range blocksOf(p) {
				if block.Inset(-1).ContainsBox(row) {
					blockOf[device.ID] = block
				}
			}
		}
		lines := linesOf(p)
		for _, link := range s.Links {
			line, drawn := lines[plan.Key(link.ID)]
			from, to := blockOf[link.From], blockOf[link.To]
			if !drawn || from.Width() == 0 || to.Width() == 0 || from == to {
				continue
			}
			checked++
			checked++
			require.False(t, line.Meets(from.Inset(2)) || line.Meets(to.Inset(2)), "%s at %g", link.Name, scale)
		}
	}
	require.Greater(t, checked, 20)
}
