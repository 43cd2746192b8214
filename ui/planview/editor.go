package planview

import (
	"fmt"
	"image"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/desk"
	"stageloom/model/geom"
	"stageloom/model/picture"
	"stageloom/model/plan"
	"stageloom/ui/look"
	"stageloom/ui/planview/tool"
	"stageloom/ui/pointer"
)

// Editor is the plan on screen.
type Editor struct {
	widget.BaseWidget

	// Refused is told the reason when an edit made here is refused.
	Refused func(error)
	// Previewed is told while something moves under the pointer, and with nil when that ends.
	Previewed func(*tool.Drag)
	// Menu is asked for the context menu at a place of the window; it may be nil.
	Menu func(at fyne.Position)
	// Key is told of function keys, which no menu gets.
	Key func(fyne.KeyName)
	// Tips tells what the pointer rests on, in the words of Tell; both may be nil.
	Tips *pointer.Tips
	Tell func(plan.Ref) string
	// Open is told of what was pressed twice; it may be nil.
	Open func(plan.Ref)
	// Now is the clock that tells two presses from a double click.
	Now func() time.Time
	// Remove is asked to remove what is selected; it may be nil.
	Remove func()
	// Later runs a function on the goroutine of the user interface when nothing has happened for a moment; nil never
	// does. It paints what the first pan after a zoom needs.
	Later func(func())
	// Work is how long frames took; FirstFrame is when the first one was painted.
	Work       Work
	FirstFrame time.Time

	desk *desk.Desk
	hand *tool.Hand
	inks look.Inks
	view picture.View
	// fitted tells that the view shows the whole plan since the user has not chosen another.
	fitted  bool
	layer   layer
	frame   *image.RGBA
	raster  *canvas.Raster
	level   plan.LevelID
	leftOut picture.LeftOut
	content picture.Content
	note    string
	unit    float64
	unitIn  string
	undone  string
	focused bool
	// keyed tells that keys work here rather than the pointer, entered that the focus was here before, and pressing that it
	// comes with a press.
	keyed, entered, pressing bool
	at                       geom.Point // of the pointer
	twice                    twice
	cause                    Cause
	zooms                    int
	hovered                  plan.DeviceID
}

// NewEditor returns the plan of a desk on screen, drawn with inks.
func NewEditor(d *desk.Desk, inks look.Inks) *Editor {
	e := &Editor{desk: d, inks: inks, unit: 1, unitIn: "m", view: picture.View{Scale: 8, Width: 1, Height: 1}, cause: Other, fitted: true, Now: time.Now}
	e.hand = tool.NewHand(d, e)
	e.hand.Length = func(metres float64) string { return fmt.Sprintf("%.1f %s", metres/e.unit, e.unitIn) }
	e.raster = canvas.NewRaster(e.generate)
	e.ExtendBaseWidget(e)
	d.Listen(e.heard)
	return e
}

func (e *Editor) heard(event desk.Event) {
	e.Tips.Dismiss()
	if event.Opened {
		e.hand.Cancel()
	}
	if event.PlanChanged() || event.Opened {
		e.layer.scene = nil
	}
	if event.Opened {
		e.Fit()
	}
	if event.PlanChanged() || event.Opened || event.Selection {
		e.repaint()
	}
}

// repaint letters and paints the base anew at the next frame.
func (e *Editor) repaint() {
	e.layer.picture = nil
	e.raster.Refresh()
}

// SetInks changes colours and lines, with the theme.
func (e *Editor) SetInks(inks look.Inks) {
	e.inks = inks
	e.repaint()
}

// SetUnit sets the unit of grid and scale bar: 1 and "m", or 0.3048 and "ft".
func (e *Editor) SetUnit(length float64, name string) {
	e.unit, e.unitIn = length, name
	e.repaint()
}

// SetLevel shows one level and fades the others; blank shows all alike.
func (e *Editor) SetLevel(level plan.LevelID) {
	e.level = level
	e.repaint()
}

// SetContent sets what the labels of links say.
func (e *Editor) SetContent(content picture.Content) {
	if content != e.content {
		e.content = content
		e.repaint()
	}
}

// SetLeftOut leaves things out of the picture; the note says in the corner of the plan which.
func (e *Editor) SetLeftOut(leftOut picture.LeftOut, note string) {
	if leftOut.Names != e.leftOut.Names {
		e.layer.scene = nil
	}
	e.leftOut, e.note = leftOut, note
	e.repaint()
}

// SetUndone makes links faint that are done up to this step on site; blank makes none.
func (e *Editor) SetUndone(step string) {
	e.undone = step
	e.repaint()
}

// View implements tool.Board.
func (e *Editor) View() picture.View { return e.view }

// SetView implements tool.Board.
func (e *Editor) SetView(v picture.View) {
	e.cause, e.fitted = Pan, false
	if v.Scale != e.view.Scale {
		e.layer.arrangement = nil
		e.cause = Zoom
		e.widenLater()
	}
	e.view = v
	if e.layer.arrangement == nil || !e.layer.covers(v) {
		e.layer.picture = nil
	}
	e.raster.Refresh()
}

// Pick implements tool.Board.
func (e *Editor) Pick(at geom.Point) (plan.Ref, bool) {
	e.prepare()
	return e.layer.picture.PickOver(e.hovered, at.Add(e.layer.at(e.view)))
}

// PositionAt implements tool.Board.
func (e *Editor) PositionAt(at geom.Point) (plan.PositionID, geom.Box, bool) {
	e.prepare()
	return e.layer.picture.PositionAt(at.Add(e.layer.at(e.view)))
}

// Within implements tool.Board.
func (e *Editor) Within(box geom.Box) []plan.Ref {
	e.prepare()
	return e.layer.picture.Within(box.Shift(e.layer.at(e.view)))
}

// DeviceAt implements tool.Board.
func (e *Editor) DeviceAt(at geom.Point) (plan.DeviceID, string, bool) {
	e.prepare()
	return e.layer.picture.DeviceAt(at.Add(e.layer.at(e.view)))
}

// Where returns the box that a row takes in the widget.
func (e *Editor) Where(ref plan.Ref) (geom.Box, bool) {
	e.prepare()
	box, found := e.layer.picture.Where(ref)
	return box.Shift(e.layer.at(e.view).Scale(-1)), found
}

// Unplaced returns the links whose labels found no place.
func (e *Editor) Unplaced() []plan.LinkID {
	e.prepare()
	return e.layer.picture.Unplaced
}

// fitBorder is the border in points round a plan shown whole.
const fitBorder = 40.0

// fitSteps bounds the search for a scale at which all boxes are in view.
const fitSteps = 5

// Fit shows the whole plan. Device boxes keep their size at any scale, so the scale is found in a few steps.
func (e *Editor) Fit() {
	e.prepareScene()
	e.layer.form, e.layer.arrangement = picture.Form{}, nil
	size := e.Size()
	width, height := float64(size.Width), float64(size.Height)
	view := picture.Fit(e.layer.scene.Bounds, width, height, fitBorder)
	for range fitSteps {
		a := picture.Arrange(e.layer.scene, view.Scale, 1, e.inks.Measure)
		bounds := a.Bounds()
		view = a.Sheet(bounds.Centre(), width, height)
		grow := min((width-2*fitBorder)/bounds.Width(), (height-2*fitBorder)/bounds.Height())
		if grow >= 1 {
			break
		}
		view.Scale = max(picture.MinScale, view.Scale*max(grow, 0.8))
	}
	e.SetView(view)
	e.fitted = true
}

// MetresAt returns the ground under a place of the window, and whether the plan is there at all. What is seen inside a position's
// box of rows is within that position's outline.
func (e *Editor) MetresAt(at fyne.Position) (geom.Point, bool) {
	inside := at.Subtract(fyne.CurrentApp().Driver().AbsolutePositionForObject(e))
	size := e.Size()
	over := inside.X >= 0 && inside.Y >= 0 && inside.X <= size.Width && inside.Y <= size.Height
	metres := e.view.Metres(pointOf(inside))
	if _, outline, found := e.PositionAt(pointOf(inside)); over && found {
		metres = picture.Within(metres, outline)
	}
	return metres, over
}

// RowAt returns what lies under a place of the window, if the plan is there and something is.
func (e *Editor) RowAt(at fyne.Position) (plan.Ref, bool) {
	if _, over := e.MetresAt(at); !over {
		return plan.Ref{}, false
	}
	return e.Pick(pointOf(at.Subtract(fyne.CurrentApp().Driver().AbsolutePositionForObject(e))))
}

// PlaceOf returns where a point of the ground lies in the window.
func (e *Editor) PlaceOf(metres geom.Point) fyne.Position {
	at := e.view.Point(metres)
	return fyne.CurrentApp().Driver().AbsolutePositionForObject(e).Add(fyne.NewPos(float32(at.X), float32(at.Y)))
}

// Middle is the ground in the middle of the view.
func (e *Editor) Middle() geom.Point {
	return e.view.Metres(geom.Point{X: e.view.Width / 2, Y: e.view.Height / 2})
}

// Snapped is the nearest place that places snap to.
func (e *Editor) Snapped(at geom.Point) geom.Point { return e.hand.Snapped(at) }

// Zoom scales the view about its middle.
func (e *Editor) Zoom(factor float64) { e.hand.Zoom(factor) }

// Dragging returns what moves under the pointer now, or nil.
func (e *Editor) Dragging() *tool.Drag { return e.hand.Dragging() }

// Reveal brings a row into view, keeping the zoom, and selects it.
func (e *Editor) Reveal(ref plan.Ref) {
	e.desk.Select(ref)
	box, found := e.Where(ref)
	if !found {
		e.Fit()
		return
	}
	// A long link is seen well enough when part of it is; all else wants to be seen whole.
	frame := e.view.Box().Inset(20)
	if !frame.ContainsBox(box) && (ref.Table != plan.LinksTable || !frame.Overlaps(box)) {
		middle := geom.Point{X: e.view.Width / 2, Y: e.view.Height / 2}
		e.SetView(e.view.Panned(middle.Sub(box.Centre())))
	}
}

// Resize implements fyne.Widget: the ground in the middle stays, and a fitted plan stays fitted at first.
func (e *Editor) Resize(size fyne.Size) {
	e.BaseWidget.Resize(size)
	width, height := float64(size.Width), float64(size.Height)
	if width == e.view.Width && height == e.view.Height {
		return
	}
	e.view.Width, e.view.Height = width, height
	e.layer.picture = nil
	if e.fitted {
		e.Fit()
	}
}

// MinSize is small: the plan takes the room that is left.
func (e *Editor) MinSize() fyne.Size { return fyne.NewSize(200, 150) }

// CreateRenderer implements fyne.Widget.
func (e *Editor) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(e.raster) }
