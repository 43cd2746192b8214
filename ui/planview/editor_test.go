package planview_test

import (
	"fmt"
	"image"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"stageloom/model/demo"
	"stageloom/model/desk"
	"stageloom/model/geom"
	"stageloom/model/plan"
	"stageloom/ui/look"
	"stageloom/ui/planview"
	"stageloom/ui/planview/tool"
)

// stand is the editor with a plan in a window of the test driver.
type stand struct {
	*planview.Editor
	desk   *desk.Desk
	window fyne.Window
}

func newStand(t testing.TB, p *plan.Plan, width, height float32) *stand {
	t.Helper()
	test.NewTempApp(t)
	d := desk.New(plan.NewIDSource(1, 2))
	d.NewPlan(p)
	s := &stand{planview.NewEditor(d, look.NewInks(look.PaletteNamed("light"))), d, nil}
	s.window = test.NewTempWindow(t, s.Editor)
	s.window.SetPadded(false)
	s.window.Resize(fyne.NewSize(width, height))
	return s
}

// hand makes events in the driver's order: MouseDown, Dragged …, MouseUp before DragEnd. A release over something
// else brings no MouseUp.
type hand struct {
	s         *stand
	button    desktop.MouseButton
	elsewhere bool
}

func (p *hand) event(at geom.Point) fyne.PointEvent {
	return fyne.PointEvent{Position: fyne.NewPos(float32(at.X), float32(at.Y)), AbsolutePosition: fyne.NewPos(float32(at.X), float32(at.Y))}
}

func (p *hand) drag(from geom.Point, way ...geom.Point) {
	if p.button == 0 {
		p.button = desktop.MouseButtonPrimary
	}
	p.s.MouseDown(&desktop.MouseEvent{PointEvent: p.event(from), Button: p.button})
	last := from
	for _, at := range way {
		p.s.Dragged(&fyne.DragEvent{PointEvent: p.event(at)})
		p.s.window.Canvas().Capture()
		last = at
	}
	if !p.elsewhere {
		p.s.MouseUp(&desktop.MouseEvent{PointEvent: p.event(last), Button: p.button})
	}
	if len(way) > 0 {
		p.s.DragEnd()
	}
}

func (s *stand) middle(t testing.TB, name string) geom.Point {
	t.Helper()
	for device := range s.desk.Plan().Devices.All() {
		if device.Name == name {
			box, found := s.Where(plan.RefOf(device))
			require.True(t, found)
			return box.Centre()
		}
	}
	require.Fail(t, "no device "+name)
	return geom.Point{}
}

func (s *stand) device(name string) (found plan.Device) {
	for device := range s.desk.Plan().Devices.All() {
		if device.Name == name {
			found = device
		}
	}
	return found
}

func TestADragInTheWindowMovesWhatLiesUnderThePointer(t *testing.T) {
	for name, elsewhere := range map[string]bool{"released over the plan": false, "released over something else": true} {
		t.Run(name, func(t *testing.T) {
			s := newStand(t, demo.Weekender(), 1000, 700)
			var previews int
			s.Previewed = func(drag *tool.Drag) {
				if drag != nil {
					previews++
				}
			}
			from, before := s.middle(t, "FOH console"), s.device("FOH console").At()
			p := &hand{s: s, elsewhere: elsewhere}
			p.drag(from, from.Add(geom.Point{X: 20}), from.Add(geom.Point{X: -150, Y: 190}))
			moved := s.device("FOH console").At().Sub(before)
			require.InDelta(t, -150/s.View().Scale, moved.X, 0.001)
			require.InDelta(t, -190/s.View().Scale, moved.Y, 0.001)
			require.Equal(t, 2, previews)
			require.Equal(t, fmt.Sprintf("Move FOH console by %.1f m", moved.Length()), s.desk.NextUndo())
			require.Equal(t, s.Editor, s.window.Canvas().Focused(), "a press takes the focus")
		})
	}
}

func TestEscapeDuringADragLeavesThePlanAlone(t *testing.T) {
	s := newStand(t, demo.Weekender(), 1000, 700)
	from, before := s.middle(t, "Riser box"), s.desk.Plan()
	s.MouseDown(&desktop.MouseEvent{PointEvent: (&hand{}).event(from), Button: desktop.MouseButtonPrimary})
	s.Dragged(&fyne.DragEvent{PointEvent: (&hand{}).event(from.Add(geom.Point{X: 50}))})
	require.NotNil(t, s.Dragging())
	s.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	require.Nil(t, s.Dragging())
	s.DragEnd()
	require.Same(t, before, s.desk.Plan())
}

func TestKeysNudgeZoomAndFit(t *testing.T) {
	s := newStand(t, demo.Weekender(), 1000, 700)
	device := s.device("Riser box")
	s.desk.Select(plan.RefOf(device))
	s.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	s.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	require.Equal(t, device.At().Add(geom.Point{X: 1, Y: 1}), s.device("Riser box").At())
	fitted := s.View()
	s.TypedRune('+')
	require.Greater(t, s.View().Scale, fitted.Scale)
	s.TypedRune('0')
	require.InDelta(t, fitted.Scale, s.View().Scale, 0.2)
	s.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	require.Empty(t, s.desk.Selection())
	before := s.View()
	s.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	require.Greater(t, s.View().Origin.X, before.Origin.X, "with nothing selected arrows shift the view")
}

func TestTheMiddleButtonShiftsThePictureByWholePixels(t *testing.T) {
	s := newStand(t, demo.Weekender(), 600, 400)
	before := s.window.Canvas().Capture()
	p := &hand{s: s, button: desktop.MouseButtonTertiary}
	p.drag(geom.Point{X: 300, Y: 200}, geom.Point{X: 330, Y: 180})
	after := s.window.Canvas().Capture()
	// The scale bar and the focus ring stand still; the middle shows the same ground, moved.
	for _, at := range []image.Point{{X: 200, Y: 150}, {X: 300, Y: 210}, {X: 411, Y: 267}} {
		require.Equal(t, before.At(at.X, at.Y), after.At(at.X+30, at.Y-20), "at %v", at)
	}
}

func TestTheWheelHoldsTheGroundUnderThePointer(t *testing.T) {
	s := newStand(t, demo.Weekender(), 1000, 700)
	at := geom.Point{X: 700, Y: 300}
	ground := s.View().Metres(at)
	for range 5 {
		s.Scrolled(&fyne.ScrollEvent{PointEvent: (&hand{}).event(at), Scrolled: fyne.NewDelta(0, 25)})
		s.window.Canvas().Capture()
	}
	require.InDelta(t, ground.X, s.View().Metres(at).X, 1e-6)
	require.InDelta(t, ground.Y, s.View().Metres(at).Y, 1e-6)
}

func TestARefusedMoveSaysWhy(t *testing.T) {
	s := newStand(t, demo.Weekender(), 1000, 700)
	var reason error
	s.Refused = func(err error) { reason = err }
	s.desk.Select(plan.RefOf(s.device("Riser box")))
	before := s.desk.Plan()
	from := s.middle(t, "Riser box")
	(&hand{s: s}).drag(from, from.Add(geom.Point{X: 1e7}))
	require.ErrorContains(t, reason, "must lie between")
	require.Same(t, before, s.desk.Plan())
}

func TestAnEmptyPlanAndAPlanOfOneDeviceAreShown(t *testing.T) {
	s := newStand(t, plan.New("Empty"), 800, 600)
	require.NotNil(t, s.window.Canvas().Capture())
	require.NoError(t, s.desk.Do("Add", func(e *plan.Edit) error {
		plan.Put(e, plan.Kind{ID: "box", Name: "Box", Group: "Stage"})
		e.AddDevice(plan.Device{Kind: "box", Name: "🎸 日本 abc"})
		return nil
	}))
	s.Fit()
	require.NotNil(t, s.window.Canvas().Capture())
}

func TestRevealBringsARowIntoView(t *testing.T) {
	s := newStand(t, demo.Weekender(), 1000, 700)
	s.SetView(s.View().Zoomed(6, geom.Point{}))
	ref := plan.RefOf(s.device("Second console"))
	s.Reveal(ref)
	require.True(t, s.desk.Selected(ref))
	box, found := s.Where(ref)
	require.True(t, found)
	require.True(t, s.View().Box().ContainsBox(box))
}

func TestTheBaseIsPaintedWideWhenAZoomHasComeToRest(t *testing.T) {
	s := newStand(t, demo.Weekender(), 800, 600)
	var waiting []func()
	s.Later = func(do func()) { waiting = append(waiting, do) }
	zoom := func() {
		s.SetView(s.View().Zoomed(1.1, geom.Point{X: 400, Y: 300}))
		s.window.Canvas().Capture()
	}
	zoom()
	zoom()
	require.False(t, s.Wide(), "each step of a zoom paints no more than is seen")
	require.Len(t, waiting, 2)
	waiting[0]()
	require.False(t, s.Wide(), "another zoom followed")
	waiting[1]()
	s.window.Canvas().Capture()
	require.True(t, s.Wide(), "so that the first pan only copies")
	s.SetView(s.View().Panned(geom.Point{X: 30}))
	require.True(t, s.Wide())
}
