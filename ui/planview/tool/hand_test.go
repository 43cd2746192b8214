package tool_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/desk"
	"stageloom/model/geom"
	"stageloom/model/picture"
	"stageloom/model/plan"
	"stageloom/ui/planview/tool"
)

// board is a view of 1000 by 700 points, 10 points a metre, without a window.
type board struct {
	desk *desk.Desk
	view picture.View
}

func measure(text string, size float64, _ bool) float64 { return float64(len(text)) * size * 0.55 }

func (b *board) picture() *picture.Picture {
	scene := picture.Compose(b.desk.Plan(), b.desk.Assessment().Budgets)
	o := picture.Options{Selected: map[plan.Ref]bool{}}
	for _, ref := range b.desk.Selection() {
		o.Selected[ref] = true
	}
	return picture.Letter(picture.Arrange(scene, b.view.Scale, 1, measure), b.view, o)
}

func (b *board) Pick(at geom.Point) (plan.Ref, bool) { return b.picture().Pick(at) }
func (b *board) Within(box geom.Box) []plan.Ref      { return b.picture().Within(box) }

func (b *board) PositionAt(at geom.Point) (plan.PositionID, geom.Box, bool) {
	return b.picture().PositionAt(at)
}

func (b *board) DeviceAt(at geom.Point) (plan.DeviceID, string, bool) {
	return b.picture().DeviceAt(at)
}
func (b *board) View() picture.View     { return b.view }
func (b *board) SetView(v picture.View) { b.view = v }
func (b *board) middle(ref plan.Ref) (at geom.Point) {
	box, _ := b.picture().Where(ref)
	return box.Centre()
}
func (b *board) device(name string) (found plan.Device) { return deviceNamed(b.desk.Plan(), name) }

func deviceNamed(p *plan.Plan, name string) (found plan.Device) {
	for device := range p.Devices.All() {
		if device.Name == name {
			found = device
		}
	}
	return found
}

// set puts up a stage box and a console 60 m apart, joined by a link with 80 m of cable; the console stands on a
// position with a processor.
func set(t require.TestingT) (*tool.Hand, *board) {
	d := desk.New(plan.NewIDSource(1, 2))
	require.NoError(t, d.Do("Set up", func(e *plan.Edit) error {
		plan.Put(e, plan.Kind{ID: "box", Name: "Box", Group: "Stage"})
		for _, port := range []string{"A", "B"} {
			plan.Put(e, plan.KindPort{Kind: "box", Name: port, Transport: "aes50"})
		}
		plan.Put(e, plan.CableKind{ID: "cat6a", Name: "Cat 6A", Media: "balanced-pair", Category: "cat6a", Gauge: 24, Screened: true, MetalShell: true, Pairs: 4})
		spot := e.AddPosition(plan.Position{Name: "FOH tower", X: 60, Width: 12, Depth: 12})
		box := e.AddDevice(plan.Device{Name: "SL box", Kind: "box"})
		console := e.AddDevice(plan.Device{Name: "FOH", Kind: "box", X: 60, Y: 3, Position: spot})
		e.AddDevice(plan.Device{Name: "System", Kind: "box", X: 60, Y: -3, Position: spot})
		link := e.AddLink(plan.Link{Transport: "aes50", From: box, FromPort: "A", To: console, ToPort: "A", FillKind: "cat6a"})
		e.SetSegments(link, []plan.Segment{{Kind: "cat6a", Length: 90}})
		return nil
	}))
	b := &board{desk: d, view: picture.View{Scale: 10, Origin: geom.Point{X: -20, Y: 35}, Width: 1000, Height: 700}}
	return tool.NewHand(d, b), b
}

func ref(d plan.Device) plan.Ref { return plan.RefOf(d) }

func press(h *tool.Hand, at geom.Point) { h.Press(tool.Pointer{At: at}) }

func TestADragMovesByExactlyThePointersWay(t *testing.T) {
	h, b := set(t)
	at := b.middle(ref(b.device("SL box")))
	press(h, at)
	h.Move(at.Add(geom.Point{X: 1}))
	require.Nil(t, h.Dragging(), "two points are still a click")
	for i := range 8 {
		h.Move(at.Add(geom.Point{X: float64(i) * 11, Y: 64}))
	}
	require.Equal(t, 0.0, b.device("SL box").X, "the plan is not touched before the release")
	require.NoError(t, h.Release(at.Add(geom.Point{X: 80, Y: 64})))
	require.Equal(t, geom.Point{X: 8, Y: -6.4}, b.device("SL box").At())
	require.NoError(t, h.Release(at), "a second end of the gesture does nothing")
	require.Equal(t, "Move SL box by 10.2 m", b.desk.NextUndo())
	require.True(t, b.desk.Undo())
	require.Equal(t, geom.Point{}, b.device("SL box").At())
}

func TestWhileDraggingTheBudgetsAreThoseOfTheDrop(t *testing.T) {
	h, b := set(t)
	at := b.middle(ref(b.device("SL box")))
	press(h, at)
	h.Move(at.Add(geom.Point{X: -200, Y: 30}))
	require.Len(t, h.Dragging().Budgets, 1)
	shown := h.Dragging().Budgets[0]
	require.Positive(t, shown.Missing, "80 m to go and slack: the cable no longer reaches")
	require.NoError(t, h.Release(at.Add(geom.Point{X: -200, Y: 30})))
	got, _ := b.desk.Assessment().Budget(shown.Link)
	require.Equal(t, got.MarginDB, shown.MarginDB)
	require.Equal(t, got.Run, shown.Run)
	require.Equal(t, got.Grade, shown.Grade)
}

func TestEscapeGivesADragUp(t *testing.T) {
	h, b := set(t)
	at := b.middle(ref(b.device("FOH")))
	press(h, at)
	h.Move(at.Add(geom.Point{X: 50}))
	require.NotNil(t, h.Dragging())
	require.True(t, h.Cancel())
	require.Nil(t, h.Dragging())
	require.NoError(t, h.Release(at.Add(geom.Point{X: 50})))
	require.Equal(t, 60.0, b.device("FOH").X)
	require.Equal(t, "Set up", b.desk.NextUndo())
	require.False(t, h.Cancel(), "there is nothing more to give up")
}

func TestAPositionTakesItsDevicesAlong(t *testing.T) {
	h, b := set(t)
	var spot plan.Position
	for p := range b.desk.Plan().Positions.All() {
		spot = p
	}
	box, found := b.picture().Where(plan.RefOf(spot))
	require.True(t, found)
	edge := geom.Point{X: box.Min.X + 2, Y: box.Centre().Y}
	press(h, edge)
	h.Move(edge.Add(geom.Point{X: 100}))
	require.NoError(t, h.Release(edge.Add(geom.Point{X: 100})))
	require.Equal(t, "Move FOH tower by 10.0 m", b.desk.NextUndo())
	require.Equal(t, 70.0, b.device("FOH").X)
	require.Equal(t, 70.0, b.device("System").X)
	require.Equal(t, 0.0, b.device("SL box").X)
}

func TestClicksSelect(t *testing.T) {
	h, b := set(t)
	foh, box := ref(b.device("FOH")), ref(b.device("SL box"))
	click := func(at geom.Point, m tool.Modifiers) {
		h.Press(tool.Pointer{At: at, Modifiers: m})
		require.NoError(t, h.Release(at))
	}
	click(b.middle(foh), tool.Modifiers{})
	require.Equal(t, []plan.Ref{foh}, b.desk.Selection())
	click(b.middle(box), tool.Modifiers{Shift: true})
	require.Equal(t, []plan.Ref{foh, box}, b.desk.Selection())
	click(b.middle(foh), tool.Modifiers{Shift: true})
	require.Equal(t, []plan.Ref{box}, b.desk.Selection())
	click(b.middle(foh), tool.Modifiers{Shift: true})
	click(b.middle(foh), tool.Modifiers{})
	require.Equal(t, []plan.Ref{foh}, b.desk.Selection(), "a click on one of several narrows to it")
	click(geom.Point{X: 500, Y: 650}, tool.Modifiers{})
	require.Empty(t, b.desk.Selection(), "empty ground clears it")
}

func TestABandSelectsWhatLiesWhollyInside(t *testing.T) {
	h, b := set(t)
	box, _ := b.picture().Where(ref(b.device("FOH")))
	from := geom.Point{X: box.Min.X - 60, Y: box.Min.Y - 50}
	press(h, from)
	h.Move(box.Max.Add(geom.Point{X: 5, Y: 5}))
	band, drawn := h.Band()
	require.True(t, drawn)
	require.True(t, band.ContainsBox(box))
	require.NoError(t, h.Release(box.Max.Add(geom.Point{X: 5, Y: 5})))
	require.Equal(t, []plan.Ref{ref(b.device("FOH"))}, b.desk.Selection())
}

func TestMiddleButtonAndSpacePan(t *testing.T) {
	h, b := set(t)
	before := b.view
	h.Press(tool.Pointer{At: geom.Point{X: 100, Y: 100}, Button: tool.Middle})
	h.Move(geom.Point{X: 130, Y: 90})
	require.NoError(t, h.Release(geom.Point{X: 130, Y: 90}))
	require.Equal(t, before.Origin.X-3, b.view.Origin.X)
	require.Equal(t, before.Origin.Y-1, b.view.Origin.Y)
	h.HoldSpace(true)
	press(h, b.middle(ref(b.device("FOH"))))
	h.Move(geom.Point{})
	require.True(t, h.Cancel())
	h.HoldSpace(false)
	require.Empty(t, b.desk.Selection(), "a press that pans selects nothing")
}

func TestTheWheelZoomsAboutThePointer(t *testing.T) {
	h, b := set(t)
	at := geom.Point{X: 300, Y: 200}
	fixed := b.view.Metres(at)
	h.Scroll(25, at)
	require.Greater(t, b.view.Scale, 10.0)
	require.InDelta(t, fixed.X, b.view.Metres(at).X, 1e-9)
	h.Scroll(1e9, at)
	require.Less(t, b.view.Scale, 30.0, "a wheel gone wild is held")
}

func TestArrowsNudgeAndAReadOnlyPlanSaysWhy(t *testing.T) {
	h, b := set(t)
	require.NoError(t, h.Nudge(geom.Point{X: 1}), "nothing selected, nothing moves")
	b.desk.Select(ref(b.device("SL box")))
	for range 3 {
		require.NoError(t, h.Nudge(geom.Point{X: 1}))
	}
	require.Equal(t, 3.0, b.device("SL box").X)
	require.Equal(t, "Nudge SL box", b.desk.NextUndo())
	require.True(t, b.desk.Undo())
	require.Equal(t, 0.0, b.device("SL box").X)
}

// TestRandomGesturesKeepThePlanValid makes 10,000 gestures on the headless desk: after each the plan is valid, and
// undone wholly it is what it was.
func TestRandomGesturesKeepThePlanValid(t *testing.T) {
	gestures := 0
	rapid.Check(t, func(t *rapid.T) {
		h, b := set(t)
		start := b.desk.Plan()
		for range 100 {
			gestures++
			randomGesture(t, h, b)
			require.Empty(t, plan.Check(b.desk.Plan()))
			require.False(t, h.Busy())
		}
		for b.desk.NextUndo() != "Set up" {
			require.True(t, b.desk.Undo())
		}
		require.True(t, plan.Equal(start, b.desk.Plan()))
	})
	if !testing.Short() { // a short run makes a fifth of them
		require.GreaterOrEqual(t, gestures, 10_000)
	}
}

// somewhere is a point of the view, often on something.
func somewhere(t *rapid.T, b *board) geom.Point {
	names := []string{"SL box", "FOH", "System"}
	name := names[rapid.IntRange(0, 2).Draw(t, "which")]
	switch rapid.IntRange(0, 5).Draw(t, "on") {
	case 0, 1:
		return b.middle(ref(b.device(name)))
	case 2:
		return b.port(name, rapid.SampledFrom([]string{"A", "B"}).Draw(t, "port"))
	case 3: // on the line between two devices, where there may be a link or a way point
		from, to := b.view.Point(b.device("SL box").At()), b.view.Point(b.device("FOH").At())
		return from.Between(to, rapid.Float64Range(0, 1).Draw(t, "share"))
	}
	return geom.Point{X: rapid.Float64Range(-50, 1050).Draw(t, "x"), Y: rapid.Float64Range(-50, 750).Draw(t, "y")}
}

func randomGesture(t *rapid.T, h *tool.Hand, b *board) {
	switch rapid.IntRange(0, 12).Draw(t, "gesture") {
	case 10:
		_ = h.AddWayPoint()
	case 11:
		_, _ = h.RemoveWayPoint()
	case 12:
		h.Measure()
		h.SetSnap(rapid.SampledFrom([]float64{0, 0.5}).Draw(t, "snap"))
	case 0:
		h.Scroll(rapid.Float64Range(-100, 100).Draw(t, "scroll"), somewhere(t, b))
	case 1:
		_ = h.Nudge(geom.Point{X: rapid.Float64Range(-5, 5).Draw(t, "nudge")}) // refused at the edge of the world
	case 2:
		b.desk.Undo()
		if b.desk.NextUndo() == "" {
			b.desk.Redo()
		}
	case 3:
		b.desk.Redo()
	default:
		dragged(t, h, b)
	}
}

func dragged(t *rapid.T, h *tool.Hand, b *board) {
	h.HoldSpace(rapid.IntRange(0, 9).Draw(t, "space") == 0)
	h.Press(tool.Pointer{
		At: somewhere(t, b), Button: tool.Button(rapid.IntRange(0, 2).Draw(t, "button")),
		Modifiers: tool.Modifiers{Shift: rapid.Bool().Draw(t, "shift")},
	})
	for range rapid.IntRange(0, 3).Draw(t, "moves") {
		h.Move(somewhere(t, b))
	}
	if rapid.IntRange(0, 4).Draw(t, "escape") == 0 {
		h.Cancel()
	}
	_ = h.Release(somewhere(t, b)) // refused when dropped outside the bounds of a site
	h.HoldSpace(false)
}
