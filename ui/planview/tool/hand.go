package tool

import (
	"fmt"

	"stageloom/model/budget"
	"stageloom/model/desk"
	"stageloom/model/geom"
	"stageloom/model/picture"
	"stageloom/model/plan"
)

// Button is a button of the pointer.
type Button uint8

// The buttons.
const (
	Primary Button = iota
	Middle
	Secondary
)

// Modifiers are the keys held with a press.
type Modifiers struct{ Shift, Control bool }

// Pointer is what the hand points with: a point of the view.
type Pointer struct {
	At        geom.Point
	Button    Button
	Modifiers Modifiers
}

// Board is the view the hand works on.
type Board interface {
	// Pick returns what lies under a point of the view.
	Pick(at geom.Point) (plan.Ref, bool)
	// PositionAt returns the position whose box of rows lies under a point of the view, with its outline on the ground.
	PositionAt(at geom.Point) (position plan.PositionID, outline geom.Box, found bool)
	// Within returns the devices and links that lie wholly inside a box of the view.
	Within(box geom.Box) []plan.Ref
	// DeviceAt returns the device under a point of the view, and its port where the point is on one; it is blank where
	// several devices have one box, which only counts them.
	DeviceAt(at geom.Point) (device plan.DeviceID, port string, found bool)
	// View is the view now.
	View() picture.View
	// SetView pans and zooms.
	SetView(picture.View)
}

// threshold is how far in points of the view a pointer travels before a press becomes a drag.
const threshold = 2.0

// gesture is one press until its release.
type gesture interface {
	// move follows the pointer.
	move(h *Hand, at geom.Point)
	// release ends the gesture and keeps its result.
	release(h *Hand, at geom.Point) error
	// cancel gives it up.
	cancel(h *Hand)
}

// Hand is the pointer on one plan.
type Hand struct {
	desk    *desk.Desk
	board   Board
	gesture gesture
	held    Button
	space   bool
	drag    *Drag
	band    geom.Box
	banding bool
	// way is the way point that keys work on.
	way plan.Ref
	// snap is the step in metres that places snap to, 0 for none.
	snap float64
	// measure makes the next press measure; measured is what was measured last.
	measure  bool
	measured *Measured
	// Length prints a length for the history; nil prints metres.
	Length func(metres float64) string
}

// length prints a length for the history.
func (h *Hand) length(metres float64) string {
	if h.Length == nil {
		return fmt.Sprintf("%.1f m", metres)
	}
	return h.Length(metres)
}

// NewHand returns a hand that works on a desk through a board.
func NewHand(d *desk.Desk, b Board) *Hand { return &Hand{desk: d, board: b, band: geom.EmptyBox()} }

// Drag is what moves under the pointer at this moment; the plan itself is as before. Budgets are those of the
// links that it touches, and hold until the next move.
type Drag struct {
	Moving  plan.Moving
	By      geom.Point
	Budgets []budget.Budget
}

// Dragging returns what moves now, or nil.
func (h *Hand) Dragging() *Drag { return h.drag }

// Ready returns what would move, or moves, with the press under way; it can be drawn apart from the rest before
// the first move.
func (h *Hand) Ready() (plan.Moving, bool) {
	g, ready := h.gesture.(*moving)
	if !ready {
		return plan.Moving{}, false
	}
	return g.moving, true
}

// Preview returns the budgets that a gesture would lead to, with what moves if anything does; nil for none.
func (h *Hand) Preview() *Drag {
	if way := h.Bending(); way != nil {
		return &Drag{Budgets: []budget.Budget{way.Budget}}
	}
	if loom := h.Looming(); loom != nil {
		return &Drag{Budgets: loom.Budgets}
	}
	return h.drag
}

// Band returns the selection band in points of the view while one is drawn.
func (h *Hand) Band() (geom.Box, bool) { return h.band, h.banding }

// Busy reports whether a gesture is under way.
func (h *Hand) Busy() bool { return h.gesture != nil }

// HoldSpace makes the primary button pan while the space bar is held.
func (h *Hand) HoldSpace(held bool) { h.space = held }

// Panning reports whether the pointer pans, or would with a press now.
func (h *Hand) Panning() bool {
	_, panning := h.gesture.(*panning)
	return panning || h.space
}

// Press begins a gesture; a second button during one is ignored.
func (h *Hand) Press(p Pointer) {
	if h.gesture != nil {
		return
	}
	h.held, h.measured = p.Button, nil
	if p.Button == Middle || h.space {
		h.gesture = &panning{from: p.At, view: h.board.View()}
		return
	}
	if h.measure && p.Button == Primary {
		at := h.Snapped(h.board.View().Metres(p.At))
		h.measure, h.measured, h.gesture = false, &Measured{at, at}, &measuring{}
		return
	}
	ref, found := h.board.Pick(p.At)
	if p.Button == Secondary {
		if found && !h.desk.Selected(ref) {
			h.desk.Select(ref)
		}
		h.way = ref // a way point under the pointer is the one that the menu works on; any other row is none
		return
	}
	h.gesture = h.primary(p, ref, found)
}

// primary chooses the gesture of the primary button by what lies under it.
func (h *Hand) primary(p Pointer, ref plan.Ref, found bool) gesture {
	extend := p.Modifiers.Shift || p.Modifiers.Control
	if !found {
		return &banding{from: p.At, extend: extend, before: h.desk.Selection()}
	}
	if g := h.onPart(p.At, ref); g != nil {
		return g
	}
	fresh := false
	switch {
	case extend:
		h.desk.Toggle(ref)
	case !h.desk.Selected(ref):
		h.desk.Select(ref)
	default:
		fresh = true
	}
	if movable(ref) && h.desk.Selected(ref) {
		return &moving{from: p.At, ref: ref, narrow: fresh, moving: h.desk.Assessment().Reckoner().Touched(h.desk.SelectedMoving())}
	}
	return &still{}
}

// onPart chooses the gesture on a port, on a way point, on the line of a link or a loom that is selected, or on a
// selected position's edge.
func (h *Hand) onPart(at geom.Point, ref plan.Ref) gesture {
	if ref.Table == plan.DevicesTable && ref.Part != "" {
		device := plan.DeviceID(ref.Key)
		if link, held := h.linkAt(device, ref.Part); held {
			h.desk.Select(plan.Ref{Table: plan.LinksTable, Key: plan.Key(link)})
			return &still{}
		}
		return newLinking(h, at, device, ref.Part)
	}
	order := wayOrder(ref)
	if order == 0 && !(h.desk.Selected(ref) && len(h.desk.Selection()) == 1) {
		return nil
	}
	switch ref.Table {
	case plan.LinksTable:
		return newBending(h, at, plan.LinkID(ref.Key), order)
	case plan.LoomsTable:
		return newLooming(h, at, plan.LoomID(ref.Key), order)
	case plan.PositionsTable:
		return newStretching(h, at, plan.PositionID(ref.Key))
	}
	return nil
}

// linkAt returns the link that a port holds.
func (h *Hand) linkAt(device plan.DeviceID, port string) (plan.LinkID, bool) {
	for link := range h.desk.Plan().Links.All() {
		if link.IsSpare() {
			continue
		}
		if link.From == device && link.FromPort == port || link.To == device && link.ToPort == port {
			return link.ID, true
		}
	}
	return "", false
}

func movable(ref plan.Ref) bool {
	return ref.Part == "" && (ref.Table == plan.DevicesTable || ref.Table == plan.PositionsTable)
}

// Move follows the pointer.
func (h *Hand) Move(at geom.Point) {
	if h.gesture != nil {
		h.gesture.move(h, at)
	}
}

// Release ends the gesture of a button. It may be called twice; the second call does nothing.
func (h *Hand) Release(at geom.Point) error {
	if h.gesture == nil {
		return nil
	}
	ended := h.gesture
	h.gesture = nil
	return ended.release(h, at)
}

// Cancel gives the gesture up: nothing has happened. It reports whether there was one.
func (h *Hand) Cancel() bool {
	if h.gesture == nil {
		return false
	}
	h.gesture.cancel(h)
	h.gesture = nil
	return true
}

// still is a press on something that does not move.
type still struct{}

func (*still) move(*Hand, geom.Point)          {}
func (*still) release(*Hand, geom.Point) error { return nil }
func (*still) cancel(*Hand)                    {}
