package strip

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"stageloom/model/raster"
)

// What the strip is to fyne, pinned.
var (
	_ desktop.Mouseable  = (*Strip)(nil)
	_ desktop.Cursorable = (*Strip)(nil)
	_ fyne.Draggable     = (*Strip)(nil)
	_ fyne.Focusable     = (*Strip)(nil)
)

func pointOf(at fyne.Position) raster.Point { return raster.Point{X: float64(at.X), Y: float64(at.Y)} }

// MouseDown takes hold of what lies under the pointer; the right button asks for the menu of a cable.
func (s *Strip) MouseDown(event *desktop.MouseEvent) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(s); c != nil {
		c.Focus(s)
	}
	chosen := s.hold.Order
	s.set(s.laidOut().Press(s.hold, pointOf(event.Position)))
	s.menuAt = event.AbsolutePosition
	s.second = 0
	if s.twice.Press(event.Position, s.Now()) && event.Button == desktop.MouseButtonPrimary && s.onCable() && s.hold.Order == chosen {
		s.second = chosen
	}
	if event.Button == desktop.MouseButtonSecondary {
		s.hold.Grip = NoGrip
		if s.hold.Order > 0 && s.Menu != nil {
			s.Menu(s.hold.Order, event.AbsolutePosition)
		}
	}
}

// onCable reports whether a cable is held, by its body or an end.
func (s *Strip) onCable() bool {
	return s.hold.Grip == Body || s.hold.Grip == NearEnd || s.hold.Grip == FarEnd
}

// MouseUp ends a press that was no drag: on the mark it cuts, on a coupler it asks which one, and the second one on a
// cable asks which is to take its place.
func (s *Strip) MouseUp(*desktop.MouseEvent) {
	second := s.second
	s.second = 0
	if s.hold.Dragging {
		return // its DragEnd comes
	}
	if second > 0 {
		s.hold.Grip = NoGrip
		if s.Open != nil {
			s.Open(Change{Doing: Replace, Order: second})
		}
		return
	}
	held := s.hold
	s.hold.Grip = NoGrip
	switch held.Grip {
	case Knife:
		s.do(s.laidOut().Release(held))
	case CouplerGrip:
		s.couplers(s.menuAt)
	}
}

// Dragged shows what a release would do.
func (s *Strip) Dragged(event *fyne.DragEvent) {
	s.set(s.laidOut().Drag(s.hold, pointOf(event.Position)))
}

// DragEnd does it.
func (s *Strip) DragEnd() {
	held := s.hold
	s.hold.Grip = NoGrip
	s.do(s.laidOut().Release(held))
}

// set shows a hold, and tells beforehand what its change would come to.
func (s *Strip) set(h Hold) {
	before := s.hold.Change
	s.hold = h
	if h.Change != before {
		s.try()
	}
	s.raster.Refresh()
}

// try asks what the change of this moment would come to.
func (s *Strip) try() {
	s.told = ""
	if s.Try != nil && s.hold.Grip != FromStock {
		s.told = s.Try(s.hold.Change)
	}
	if lengths := s.laidOut().Told(s.hold.Change); lengths != "" {
		s.told = joined(s.told, lengths)
	}
}

// do ends what is under way and makes a change.
func (s *Strip) do(c Change) {
	s.end()
	if c.Doing == Nothing || s.Do == nil {
		return
	}
	if c.Doing == Move {
		s.hold.Order = c.Place + 1 // the cable that was moved stays chosen
	}
	s.Do(c)
	s.raster.Refresh()
}

// end gives up what is under way.
func (s *Strip) end() {
	tried := s.hold.Change.Doing != Nothing
	s.hold = Hold{Order: s.hold.Order}
	s.told = ""
	if tried && s.Try != nil {
		s.Try(Change{})
	}
	s.raster.Refresh()
}

// Carry shows what a cable from a list would do here, at a place of the window; none is beside the strip.
func (s *Strip) Carry(at fyne.Position) Change {
	inside := at.Subtract(fyne.CurrentApp().Driver().AbsolutePositionForObject(s))
	s.set(s.laidOut().Drag(Hold{Order: 0, Grip: FromStock, Dragging: true}, pointOf(inside)))
	return s.hold.Change
}

// Tell shows what the cable that is carried would come to.
func (s *Strip) Tell(words string) {
	s.told = words
	s.raster.Refresh()
}

// Dropped ends the carrying.
func (s *Strip) Dropped() { s.end() }

// FocusGained draws the ring and chooses the first cable, so that keys have something to work on.
func (s *Strip) FocusGained() {
	s.focused = true
	if orders := s.laidOut().Orders(); s.hold.Order == 0 && len(orders) > 0 {
		s.hold.Order = orders[0]
	}
	s.raster.Refresh()
}

// FocusLost takes the ring away.
func (s *Strip) FocusLost() {
	s.focused = false
	s.raster.Refresh()
}

// TypedRune has a letter for each thing that can be done to the cable that is chosen: S cuts it, J joins it with the
// next, C names the coupler before it, R puts another in its place, B and A lay one before and after it.
func (s *Strip) TypedRune(sign rune) {
	orders := s.laidOut().Orders()
	at := slices.Index(orders, s.hold.Order)
	switch sign {
	case 's', 'S':
		s.beginCut()
	case 'j', 'J':
		if at >= 0 {
			s.do(Change{Doing: Join, Order: s.hold.Order})
		}
	case 'c', 'C':
		s.couplers(s.above())
	case 'r', 'R':
		if at >= 0 {
			s.choose(Change{Doing: Replace, Order: s.hold.Order})
		}
	case 'b', 'B':
		s.choose(Change{Doing: Insert, Place: max(at, 0)})
	case 'a', 'A':
		s.choose(Change{Doing: Insert, Place: at + 1})
	}
}

// beginCut lets keys move the mark where the chosen cable is cut.
func (s *Strip) beginCut() {
	h := s.laidOut().Shifted(s.hold, 0)
	if h.Change.Doing == Cut {
		h.Cutting = true
		s.set(h)
		return
	}
	if s.hold.Order > 0 { // a reel: the plan says why it is not cut
		s.do(Change{Doing: Cut, Order: s.hold.Order})
	}
}

// BeginCut is S on the keyboard for a cable.
func (s *Strip) BeginCut(order int) {
	s.hold = Hold{Order: order}
	s.beginCut()
}

// couplers asks for the coupler before the chosen cable.
func (s *Strip) couplers(at fyne.Position) {
	if s.hold.Order > 1 && s.Couplers != nil {
		s.Couplers(s.hold.Order, at)
	}
}

// choose asks which cable a change lays.
func (s *Strip) choose(c Change) {
	if s.Choose != nil {
		s.Choose(c)
	}
}

// TypedKey goes along the cables with left and right, moves the chosen one nearer with up and further with down, takes
// it off with Delete, asks for its menu with Return, and gives up with Escape. While a cable is being cut, left and
// right move the mark and Return cuts.
func (s *Strip) TypedKey(event *fyne.KeyEvent) {
	if s.hold.Cutting {
		s.cutKey(event.Name)
		return
	}
	orders := s.laidOut().Orders()
	at := slices.Index(orders, s.hold.Order)
	switch event.Name {
	case fyne.KeyEscape:
		s.giveUp()
	case fyne.KeyLeft:
		s.goTo(orders, at-1)
	case fyne.KeyRight:
		s.goTo(orders, at+1)
	case fyne.KeyUp:
		s.moveTo(orders, at, at-1)
	case fyne.KeyDown:
		s.moveTo(orders, at, at+1)
	case fyne.KeyDelete, fyne.KeyBackspace:
		if at >= 0 {
			s.do(Change{Doing: Remove, Order: s.hold.Order})
		}
	case fyne.KeyReturn, fyne.KeyEnter:
		if at >= 0 && s.Menu != nil {
			s.Menu(s.hold.Order, s.above())
		}
	default:
		if s.Key != nil {
			s.Key(event.Name)
		}
	}
}

// moveTo moves the chosen cable to another place among the orders, where there is one.
func (s *Strip) moveTo(orders []int, at, place int) {
	if at >= 0 && place >= 0 && place < len(orders) {
		s.do(Change{Doing: Move, Order: s.hold.Order, Place: place})
	}
}

func (s *Strip) cutKey(name fyne.KeyName) {
	switch name {
	case fyne.KeyLeft:
		s.set(s.laidOut().Shifted(s.hold, -1))
	case fyne.KeyRight:
		s.set(s.laidOut().Shifted(s.hold, 1))
	case fyne.KeyReturn, fyne.KeyEnter:
		s.do(s.hold.Change)
	case fyne.KeyEscape:
		s.end()
	}
}

func (s *Strip) goTo(orders []int, at int) {
	if at >= 0 && at < len(orders) {
		s.set(Hold{Order: orders[at]})
	}
}

// giveUp ends a drag as if nothing had happened, or else gives the focus back.
func (s *Strip) giveUp() {
	if s.hold.Dragging {
		s.end()
		return
	}
	if s.Leave != nil {
		s.Leave()
	}
}

// above is the place of the window where a menu of the chosen cable opens.
func (s *Strip) above() fyne.Position {
	_, cell, _ := s.laidOut().part(s.hold.Order)
	corner := fyne.CurrentApp().Driver().AbsolutePositionForObject(s)
	return corner.Add(fyne.NewPos(float32(cell.Centre().X), float32(cell.Top)))
}

// Cursor tells the ends of cables, which are dragged onto each other, from their bodies.
func (s *Strip) Cursor() desktop.Cursor {
	switch s.laidOut().Press(s.hold, pointOf(s.at)).Grip {
	case NearEnd, FarEnd, Knife:
		return desktop.HResizeCursor
	case Body, CouplerGrip:
		return desktop.PointerCursor
	}
	return desktop.DefaultCursor
}
