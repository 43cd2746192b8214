package strip

import (
	"math"
	"slices"

	"stageloom/model/budget"
	"stageloom/model/raster"
)

// Grip is what of a run a press took hold of.
type Grip uint8

// The grips: nothing, a cable, its near or its far end, the mark where it would be cut, the coupler before it, or a
// cable that comes from a list.
const (
	NoGrip Grip = iota
	Body
	NearEnd
	FarEnd
	Knife
	CouplerGrip
	FromStock
)

// Hold is the cable that is chosen, and what a hand does with it.
type Hold struct {
	// Order is that of the cable that is chosen, 0 for none.
	Order int
	Grip  Grip
	// Dragging tells that the press has become a drag; Change is what its release would do.
	Dragging bool
	Change   Change
	// Knife is where the chosen cable would be cut, in metres from its near end; 0 is its middle. Cutting tells that
	// keys move it.
	Knife   float64
	Cutting bool

	from raster.Point
}

// Reaches of a hand in points: how far a press travels before it is a drag, how near the mark and the ends are hit,
// and the narrowest cable whose ends are told from its body.
const (
	dragFrom   = 3.0
	knifeReach = 8.0
	endReach   = 16.0
	endsFrom   = 64.0
)

// own reports whether the part is one of the link's own cables, which can be taken hold of.
func (p Part) own() bool { return p.What == budget.Cable && !p.Assumed && p.Order > 0 }

// CableAt returns the order of the link's own cable under a point, and whether there is one.
func (l *Layout) CableAt(at raster.Point) (order int, some bool) {
	index, some := l.PartAt(at)
	if !some || !l.Parts[index].own() {
		return 0, false
	}
	return l.Parts[index].Order, true
}

// part returns the link's own cable of an order with its box.
func (l *Layout) part(order int) (Part, raster.Box, bool) {
	for i, part := range l.Parts {
		if part.own() && part.Order == order && i < len(l.Cells) {
			return part, l.Cells[i], true
		}
	}
	return Part{}, raster.Box{}, false
}

// Orders are those of the link's own cables, from the near end on.
func (l *Layout) Orders() (orders []int) {
	for _, part := range l.Parts {
		if part.own() {
			orders = append(orders, part.Order)
		}
	}
	return orders
}

// Press takes hold of what lies under a point.
func (l *Layout) Press(h Hold, at raster.Point) Hold {
	if mark, found := l.knife(h); found && mark.Contains(at) {
		h.Grip, h.from, h.Dragging, h.Change = Knife, at, false, Change{}
		return h
	}
	pressed := Hold{from: at}
	index, some := l.PartAt(at)
	if !some {
		return pressed
	}
	part, cell := l.Parts[index], l.Cells[index]
	pressed.Order = part.Order
	switch {
	case part.own():
		pressed.Grip = l.gripOf(part, cell, at)
	case part.What == budget.Coupler && !part.Assumed && part.Order > 1:
		pressed.Grip = CouplerGrip
	default:
		pressed.Order = 0
	}
	return pressed
}

// gripOf tells the ends of a cable, where another one follows, from its body.
func (l *Layout) gripOf(part Part, cell raster.Box, at raster.Point) Grip {
	orders := l.Orders()
	switch {
	case cell.Width() < endsFrom:
		return Body
	case at.X > cell.Right-endReach && part.Order != orders[len(orders)-1]:
		return FarEnd
	case at.X < cell.Left+endReach && part.Order != orders[0]:
		return NearEnd
	}
	return Body
}

// Drag follows a hand that holds something to a point.
func (l *Layout) Drag(h Hold, at raster.Point) Hold {
	if h.Grip == NoGrip || !h.Dragging && math.Hypot(at.X-h.from.X, at.Y-h.from.Y) < dragFrom {
		return h
	}
	h.Dragging, h.Change = true, Change{}
	switch h.Grip {
	case Body:
		if place := l.placeAt(h.Order, at.X); l.reachedBy(at) && slices.Index(l.Orders(), h.Order) != place {
			h.Change = Change{Doing: Move, Order: h.Order, Place: place}
		}
	case FarEnd, NearEnd:
		h.Change = l.joinAt(h, at)
	case Knife:
		h.Knife = l.knifeAt(h.Order, at.X)
		h.Change = Change{Doing: Cut, Order: h.Order, Metres: h.Knife}
	case FromStock:
		h.Change = l.aim(at)
	}
	return h
}

// Release returns what a hand that lets go does: the change of its drag, or the cut of a press on the mark.
func (l *Layout) Release(h Hold) Change {
	if h.Grip == Knife && !h.Dragging {
		return Change{Doing: Cut, Order: h.Order, Metres: l.cut(h)}
	}
	if !h.Dragging {
		return Change{}
	}
	return h.Change
}

// reachedBy reports whether a point is near enough to the strip for a drop.
func (l *Layout) reachedBy(at raster.Point) bool {
	return at.Y >= 0 && at.Y <= l.height && at.X >= 0 && at.X <= l.width
}

// placeAt is where a cable dropped at x goes: how many of the other cables have their middle before it.
func (l *Layout) placeAt(order int, x float64) (place int) {
	for i, part := range l.Parts {
		if part.own() && part.Order != order && i < len(l.Cells) && l.Cells[i].Centre().X < x {
			place++
		}
	}
	return place
}

// joinAt is the join with the neighbour that the end of a cable is dragged onto.
func (l *Layout) joinAt(h Hold, at raster.Point) Change {
	first, other := h.Order, h.Order+1
	if h.Grip == NearEnd {
		first, other = h.Order-1, h.Order-1
	}
	if _, cell, found := l.part(other); found && l.reachedBy(at) && cell.Left <= at.X && at.X <= cell.Right {
		return Change{Doing: Join, Order: first}
	}
	return Change{}
}

// aim is what a cable from a list would do at a point: take the place of the cable whose middle half lies there, or
// come before, between or after the cables.
func (l *Layout) aim(at raster.Point) Change {
	if !l.reachedBy(at) {
		return Change{}
	}
	for i, part := range l.Parts {
		if !part.own() || i >= len(l.Cells) {
			continue
		}
		if cell := l.Cells[i]; math.Abs(at.X-cell.Centre().X) < cell.Width()/4 {
			return Change{Doing: Replace, Order: part.Order}
		}
	}
	return Change{Doing: Insert, Place: l.placeAt(0, at.X)}
}

// mark is where the line stands that shows a place among the cables, the one of an order left out.
func (l *Layout) mark(order, place int) float64 {
	x, before := l.bar.Left, 0
	for i, part := range l.Parts {
		if !part.own() || part.Order == order || i >= len(l.Cells) {
			continue
		}
		if before == place {
			return x
		}
		before, x = before+1, l.Cells[i].Right
	}
	return x
}

// cut is where the chosen cable would be cut, in metres from its near end.
func (l *Layout) cut(h Hold) float64 {
	if h.Knife > 0 {
		return h.Knife
	}
	part, _, _ := l.part(h.Order)
	return l.wholeUnits(part, part.Length/2)
}

// knife is the mark on the chosen cable that is dragged to where it is to be cut; a reel and a house line have none.
func (l *Layout) knife(h Hold) (raster.Box, bool) {
	part, cell, found := l.part(h.Order)
	if !found || !part.Cuttable || cell.Width() < 2*knifeReach {
		return raster.Box{}, false
	}
	x := cell.Left + cell.Width()*l.cut(h)/part.Length
	return raster.Box{Left: x - knifeReach, Top: cell.Top - knifeReach - 5, Right: x + knifeReach, Bottom: cell.Top + 3}, true
}

// knifeAt is the cut of a cable nearest to a place, in metres from its near end.
func (l *Layout) knifeAt(order int, x float64) float64 {
	part, cell, found := l.part(order)
	if !found || cell.Width() <= 0 {
		return 0
	}
	return l.wholeUnits(part, part.Length*(x-cell.Left)/cell.Width())
}

// wholeUnits rounds a cut to whole metres or feet, or tenths of a short cable, and leaves something on both sides.
func (l *Layout) wholeUnits(part Part, metres float64) float64 {
	step := l.step(part)
	most := step * (math.Ceil(part.Length/step-1e-9) - 1)
	return math.Round(1e4*min(max(step*math.Round(metres/step), step), most)) / 1e4
}

// step is what a cut moves by: a metre or a foot, and a tenth of it in a cable of less than four.
func (l *Layout) step(part Part) float64 {
	_, unit := l.unit()
	if part.Length < 4*unit {
		return unit / 10
	}
	return unit
}

// Shifted returns the hold with its cut moved by steps.
func (l *Layout) Shifted(h Hold, steps int) Hold {
	if part, _, found := l.part(h.Order); found && part.Cuttable {
		h.Knife = l.wholeUnits(part, l.cut(h)+float64(steps)*l.step(part))
		h.Change = Change{Doing: Cut, Order: h.Order, Metres: h.Knife}
	}
	return h
}
