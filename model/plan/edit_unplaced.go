package plan

import "stageloom/model/geom"

// Devices without a place are drawn in rows of so many, so many metres apart, every other one lower by a step, so that a link
// from the first to the third doesn't run through the second.
const (
	roomColumns = 4
	roomApart   = 12.0
	roomStep    = 5.0
	roomLowest  = -20000.0
)

// room is where the picture can draw one more device without a place: under all that has one.
func (e *Edit) room() (x, y float64) {
	low := e.lowest()
	for n := 0; ; n++ {
		column, row := n%roomColumns, n/roomColumns
		x, y = float64(column)*roomApart, low-float64(row)*roomApart-float64(column%2)*roomStep
		if y <= roomLowest {
			return x, roomLowest
		}
		if !e.occupied(x, y) {
			return x, y
		}
	}
}

// lowest is the height in metres under all that has a place; 0 where nothing has.
func (e *Edit) lowest() float64 {
	ground := geom.EmptyBox()
	for device := range e.next.Devices.All() {
		if !device.Unplaced {
			ground = ground.Include(device.At())
		}
	}
	for position := range e.next.Positions.All() {
		if !position.Unplaced {
			ground = ground.Union(geom.BoxAround(position.At(), position.Width, position.Depth))
		}
	}
	for corner := range e.next.AreaPoints.All() {
		ground = ground.Include(geom.Pt(corner.X, corner.Y))
	}
	if ground.Empty() {
		return 0
	}
	return ground.Min.Y - roomApart
}

// occupied reports whether a device is drawn about there.
func (e *Edit) occupied(x, y float64) bool {
	at := geom.Pt(x, y)
	for device := range e.next.Devices.All() {
		if device.At().Distance(at) < roomApart/2 {
			return true
		}
	}
	return false
}

// TakeOff takes devices off the plan: they stay in the list, at their positions, with their links and patch. Ways that are
// drawn to them are no ways on the ground any more; lengths that were typed stand.
func (e *Edit) TakeOff(ids ...DeviceID) error {
	for _, id := range ids {
		device, found := e.next.Device(id)
		switch {
		case !found:
			return refuse("there is no such device any more")
		case device.Unplaced:
			continue
		}
		device.Unplaced = true
		Put(e, device)
		device.X, device.Y = e.room()
		Put(e, device)
	}
	return nil
}

// From is where a move of a device to a typed coordinate sets out from: what has no place sets out from the plan's zero.
func (r Device) From() geom.Point {
	if r.Unplaced {
		return geom.Point{}
	}
	return r.At()
}

// From is where a move of a position to a typed coordinate sets out from: what has no place sets out from the plan's zero.
func (r Position) From() geom.Point {
	if r.Unplaced {
		return geom.Point{}
	}
	return r.At()
}

// Unplaced reports whether the plan has devices and none of them has a place.
func (p *Plan) Unplaced() bool {
	for i := range p.Devices.Len() {
		if !p.Devices.At(i).Unplaced {
			return false
		}
	}
	return p.Devices.Len() > 0
}
