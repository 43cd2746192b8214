package planview

import (
	"maps"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"stageloom/model/geom"
	"stageloom/model/plan"
	"stageloom/ui/planview/tool"
)

// What the editor is to fyne, pinned.
var (
	_ desktop.Mouseable  = (*Editor)(nil)
	_ desktop.Hoverable  = (*Editor)(nil)
	_ desktop.Cursorable = (*Editor)(nil)
	_ desktop.Keyable    = (*Editor)(nil)
	_ fyne.Draggable     = (*Editor)(nil)
	_ fyne.Scrollable    = (*Editor)(nil)
)

func pointOf(at fyne.Position) geom.Point { return geom.Point{X: float64(at.X), Y: float64(at.Y)} }

// MouseDown begins a gesture and takes the focus, which a click alone never gives.
func (e *Editor) MouseDown(event *desktop.MouseEvent) {
	e.Tips.Dismiss()
	if c := fyne.CurrentApp().Driver().CanvasForObject(e); c != nil {
		e.pressing = true
		c.Focus(e)
		e.pressing = false
	}
	button := tool.Primary
	switch event.Button {
	case desktop.MouseButtonTertiary:
		button = tool.Middle
	case desktop.MouseButtonSecondary:
		button = tool.Secondary
	}
	e.at, e.keyed = pointOf(event.Position), false
	e.notePress(event)
	e.hand.Press(tool.Pointer{At: e.at, Button: button, Modifiers: tool.Modifiers{
		Shift:   event.Modifier&fyne.KeyModifierShift != 0,
		Control: event.Modifier&(fyne.KeyModifierControl|fyne.KeyModifierSuper) != 0,
	}})
	if moving, ready := e.hand.Ready(); ready && !sameMoving(moving, e.layer.hidden) {
		e.layer.picture = nil // what may move leaves the base before it does
	}
	e.follow()
	if button == tool.Secondary && e.Menu != nil {
		e.Menu(event.AbsolutePosition)
	}
}

// MouseUp ends the gesture. A release elsewhere comes as DragEnd only.
func (e *Editor) MouseUp(event *desktop.MouseEvent) {
	e.release(pointOf(event.Position))
	if ref, twice := e.twice.taken(); twice && e.Open != nil {
		e.Open(ref)
	}
}

// Dragged follows the pointer; positions are taken as they are, never summed up.
func (e *Editor) Dragged(event *fyne.DragEvent) {
	e.twice = twice{}
	e.moveTo(pointOf(event.Position))
}

// DragEnd ends the gesture when the release came over something else.
func (e *Editor) DragEnd() { e.release(e.at) }

func (e *Editor) moveTo(at geom.Point) {
	e.at = at
	if !e.hand.Busy() {
		return
	}
	e.hand.Move(at)
	e.follow()
}

func (e *Editor) release(at geom.Point) {
	if !e.hand.Busy() {
		return
	}
	err := e.hand.Release(at)
	e.follow()
	e.refuse(err)
}

// follow paints the gesture as it stands and tells who shows figures of it.
func (e *Editor) follow() {
	if e.hand.Busy() && !e.hand.Panning() {
		e.cause = Drag
	}
	if e.Previewed != nil {
		e.Previewed(e.hand.Preview())
	}
	e.raster.Refresh()
}

// MouseIn implements desktop.Hoverable.
func (e *Editor) MouseIn(event *desktop.MouseEvent) { e.MouseMoved(event) }

// MouseMoved implements desktop.Hoverable; it does not come during a drag.
func (e *Editor) MouseMoved(event *desktop.MouseEvent) {
	e.at = pointOf(event.Position)
	ref, found := e.Pick(e.at)
	e.hover(ref)
	if !found || e.Tell == nil {
		e.Tips.Out()
		return
	}
	e.Tips.Over(ref, event.AbsolutePosition, func() string { return e.Tell(ref) })
}

// MouseOut implements desktop.Hoverable.
func (e *Editor) MouseOut() {
	e.Tips.Out()
	e.hover(plan.Ref{})
}

// hover shows the ports of the device that the pointer rests on, and as long as it is on its way to them.
func (e *Editor) hover(ref plan.Ref) {
	hovered := plan.DeviceID("")
	switch {
	case ref.Table == plan.DevicesTable:
		hovered = plan.DeviceID(ref.Key)
	case e.hovered != "" && ref.Table == "" && e.layer.picture != nil && e.layer.picture.Rests(e.hovered, e.at.Add(e.layer.at(e.view))):
		hovered = e.hovered
	}
	if hovered != e.hovered {
		e.hovered = hovered
		e.raster.Refresh()
	}
}

// Cursor shows what a press would do.
func (e *Editor) Cursor() desktop.Cursor {
	if e.hand.Panning() || e.hand.MeasureNext() {
		return desktop.CrosshairCursor
	}
	if edges := e.hand.EdgesAt(e.at); edges.Any() {
		if ref, found := e.Pick(e.at); found && ref.Table == plan.PositionsTable {
			return edgeCursor(edges)
		}
	}
	if _, found := e.Pick(e.at); found {
		return desktop.PointerCursor
	}
	return desktop.DefaultCursor
}

func edgeCursor(edges tool.Edges) desktop.Cursor {
	if edges.Across() {
		return desktop.HResizeCursor
	}
	return desktop.VResizeCursor
}

// Scrolled zooms about the pointer.
func (e *Editor) Scrolled(event *fyne.ScrollEvent) {
	e.Tips.Out()
	amount := event.Scrolled.DY
	if amount == 0 {
		amount = event.Scrolled.DX // shift swaps the axes
	}
	e.hand.Scroll(float64(amount), pointOf(event.Position))
}

// FocusGained draws the focus ring, but not for a press nor in a new window: who works with the pointer sees where that is.
func (e *Editor) FocusGained() {
	e.keyed = e.entered && !e.pressing
	e.focused, e.entered = true, true
	e.raster.Refresh()
}

// FocusLost takes the ring away; a space bar let go elsewhere is not held any more.
func (e *Editor) FocusLost() {
	e.focused = false
	e.hand.HoldSpace(false)
	e.raster.Refresh()
}

// noteKey draws the focus ring from the first key on, until the pointer presses.
func (e *Editor) noteKey() {
	e.Tips.Dismiss()
	if !e.keyed {
		e.keyed = true
		e.raster.Refresh()
	}
}

// TypedRune implements fyne.Focusable.
func (e *Editor) TypedRune(sign rune) {
	e.noteKey()
	switch sign {
	case '+', '=':
		e.hand.Zoom(1.25)
	case '-':
		e.hand.Zoom(0.8)
	case '0', 'f', 'F':
		e.Fit()
	case 'w', 'W':
		e.AddWayPoint()
	case 'n', 'N':
		e.hand.NextWayPoint(1)
		e.raster.Refresh()
	case 'p', 'P':
		e.hand.NextWayPoint(-1)
		e.raster.Refresh()
	case 'l', 'L':
		e.hand.SelectLoom()
	case 'm', 'M':
		e.Measure()
	}
}

// KeyDown implements desktop.Keyable: the space bar pans while it is held.
func (e *Editor) KeyDown(event *fyne.KeyEvent) {
	if event.Name == fyne.KeySpace {
		e.hand.HoldSpace(true)
	}
}

// KeyUp implements desktop.Keyable.
func (e *Editor) KeyUp(event *fyne.KeyEvent) {
	if event.Name == fyne.KeySpace {
		e.hand.HoldSpace(false)
	}
}

// nudges are metres in the direction of the arrows; held shift makes them a tenth.
var arrows = map[fyne.KeyName]geom.Point{
	fyne.KeyLeft: {X: -1}, fyne.KeyRight: {X: 1}, fyne.KeyUp: {Y: 1}, fyne.KeyDown: {Y: -1},
}

// panStep is how far in points an arrow pans when nothing is selected.
const panStep = 60.0

// TypedKey implements fyne.Focusable.
func (e *Editor) TypedKey(event *fyne.KeyEvent) {
	e.noteKey()
	if arrow, found := arrows[event.Name]; found {
		e.arrow(arrow)
		return
	}
	switch event.Name {
	case fyne.KeyEscape:
		e.giveUp()
	case fyne.KeyF1, fyne.KeyF2, fyne.KeyF3, fyne.KeyF4, fyne.KeyF5, fyne.KeyF6, fyne.KeyF7, fyne.KeyF8, fyne.KeyF9, fyne.KeyF10:
		if e.Key != nil {
			e.Key(event.Name)
		}
	case fyne.KeyDelete, fyne.KeyBackspace:
		e.remove()
	case fyne.KeyHome:
		e.Fit()
	case fyne.KeyPageUp:
		e.hand.Zoom(1.25)
	case fyne.KeyPageDown:
		e.hand.Zoom(0.8)
	}
}

func (e *Editor) arrow(direction geom.Point) {
	_, onWay := e.hand.WayPoint()
	if e.desk.SelectedMoving().Empty() && !onWay {
		e.SetView(e.view.Panned(geom.Point{X: -direction.X * panStep, Y: direction.Y * panStep}))
		return
	}
	step := e.unit
	if driver, ok := fyne.CurrentApp().Driver().(desktop.Driver); ok && driver.CurrentKeyModifiers()&fyne.KeyModifierShift != 0 {
		step /= 10
	}
	e.refuse(e.hand.Nudge(direction.Scale(step)))
}

// giveUp ends a gesture as if nothing had happened, or else clears the selection.
func (e *Editor) giveUp() {
	if !e.hand.Cancel() {
		e.desk.Select()
		return
	}
	e.follow()
}

// sameMoving reports whether the same devices and positions move.
func sameMoving(a, b plan.Moving) bool {
	return maps.Equal(a.Devices, b.Devices) && maps.Equal(a.Positions, b.Positions)
}

// SelectLoom selects the loom of the selected link, or the links of the selected loom, and reports whether there are any.
func (e *Editor) SelectLoom() bool { return e.hand.SelectLoom() }

// AddLink adds a link as one step and selects it.
func (e *Editor) AddLink(link plan.Link) error { return e.hand.AddLink(link) }

// Measure makes the next press measure between two points of the site.
func (e *Editor) Measure() {
	e.hand.Measure()
	e.raster.Refresh()
}

// SetSnap sets the step in metres that places snap to; 0 is none.
func (e *Editor) SetSnap(step float64) { e.hand.SetSnap(step) }

// AddWayPoint puts a way point into the selected link or loom.
func (e *Editor) AddWayPoint() { e.refuse(e.hand.AddWayPoint()) }

// OnWayPoint reports whether a way point was touched last, so that RemoveWayPoint has something to do.
func (e *Editor) OnWayPoint() bool {
	_, found := e.hand.WayPoint()
	return found
}

// RemoveWayPoint takes away the way point that was touched last.
func (e *Editor) RemoveWayPoint() {
	_, err := e.hand.RemoveWayPoint()
	e.refuse(err)
}

// remove takes the way point away that keys work on, or else asks for what is selected to go.
func (e *Editor) remove() {
	if removed, err := e.hand.RemoveWayPoint(); removed {
		e.refuse(err)
		return
	}
	if e.Remove != nil {
		e.Remove()
	}
}

// refuse tells why an edit was refused, if it was.
func (e *Editor) refuse(err error) {
	if err != nil && e.Refused != nil {
		e.Refused(err)
	}
}
