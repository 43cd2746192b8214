package strip

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"stageloom/ui/raster"
)

// What the strip is to fyne, pinned.
var (
	_ desktop.Mouseable = (*Strip)(nil)
	_ fyne.Draggable    = (*Strip)(nil)
	_ fyne.Focusable    = (*Strip)(nil)
)

// dragFrom is how far in points a pointer travels before a press becomes a drag.
const dragFrom = 3

func pointOf(at fyne.Position) raster.Point { return raster.Point{X: float64(at.X), Y: float64(at.Y)} }

// MouseDown takes hold of the cable under the pointer; the right button asks for its menu.
func (s *Strip) MouseDown(event *desktop.MouseEvent) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(s); c != nil {
		c.Focus(s)
	}
	s.at = event.Position
	order, _ := s.laidOut().CableAt(pointOf(event.Position))
	s.hold = hold{order: order}
	s.raster.Refresh()
	if event.Button == desktop.MouseButtonSecondary && order > 0 && s.Menu != nil {
		s.Menu(order, event.AbsolutePosition)
	}
}

// MouseUp implements desktop.Mouseable; a drag ends with DragEnd.
func (s *Strip) MouseUp(*desktop.MouseEvent) {}

// Dragged shows where the cable that is held would go.
func (s *Strip) Dragged(event *fyne.DragEvent) {
	away := event.Position.X - s.at.X
	if s.hold.order == 0 || !s.hold.dragging && max(away, -away) < dragFrom {
		return
	}
	s.hold.dragging = true
	s.hold.place, s.hold.mark = s.laidOut().PlaceAt(s.hold.order, float64(event.Position.X))
	s.raster.Refresh()
}

// DragEnd puts the cable where the mark is.
func (s *Strip) DragEnd() {
	held := s.hold
	s.hold.dragging = false
	if held.dragging {
		s.reorder(held.order, held.place)
	}
	s.raster.Refresh()
}

// reorder tells of a new place, if it is another one.
func (s *Strip) reorder(order, place int) {
	if s.Reorder != nil && slices.Index(s.laidOut().Orders(), order) != place {
		s.hold.order = place + 1
		s.Reorder(order, place)
	}
}

// FocusGained draws the ring and holds the first cable, so that keys have something to work on.
func (s *Strip) FocusGained() {
	s.focused = true
	if orders := s.laidOut().Orders(); s.hold.order == 0 && len(orders) > 0 {
		s.hold.order = orders[0]
	}
	s.raster.Refresh()
}

// FocusLost takes the ring away.
func (s *Strip) FocusLost() {
	s.focused = false
	s.raster.Refresh()
}

// TypedRune implements fyne.Focusable.
func (s *Strip) TypedRune(rune) {}

// TypedKey goes along the cables with left and right, moves the one that is held nearer with up and further with
// down, takes it off with Delete, asks for its menu with Return, and gives a drag or the focus up with Escape.
func (s *Strip) TypedKey(event *fyne.KeyEvent) {
	orders := s.laidOut().Orders()
	at := slices.Index(orders, s.hold.order)
	switch event.Name {
	case fyne.KeyEscape:
		s.giveUp()
	case fyne.KeyLeft:
		s.choose(orders, at-1)
	case fyne.KeyRight:
		s.choose(orders, at+1)
	}
	if at < 0 {
		return
	}
	switch event.Name {
	case fyne.KeyUp:
		s.reorder(s.hold.order, max(0, at-1))
	case fyne.KeyDown:
		s.reorder(s.hold.order, min(len(orders)-1, at+1))
	case fyne.KeyDelete, fyne.KeyBackspace:
		if s.Remove != nil {
			s.Remove(s.hold.order)
		}
	case fyne.KeyReturn, fyne.KeyEnter:
		s.menuBelow()
	}
}

func (s *Strip) choose(orders []int, at int) {
	if at >= 0 && at < len(orders) {
		s.hold = hold{order: orders[at]}
		s.raster.Refresh()
	}
}

func (s *Strip) giveUp() {
	if s.hold.dragging {
		s.hold.dragging = false
		s.raster.Refresh()
		return
	}
	if s.Leave != nil {
		s.Leave()
	}
}

// menuBelow asks for the menu at the cable that is held.
func (s *Strip) menuBelow() {
	cell, found := s.laidOut().cell(s.hold.order)
	if !found || s.Menu == nil {
		return
	}
	corner := fyne.CurrentApp().Driver().AbsolutePositionForObject(s)
	s.Menu(s.hold.order, corner.Add(fyne.NewPos(float32(cell.Centre().X), float32(cell.Top))))
}
