package plan

import (
	"fmt"

	"stageloom/model/geom"
)

// Outline is the position's outline, and whether it has one: a spot has none.
func (r Position) Outline() (geom.Box, bool) {
	return geom.BoxAround(r.At(), r.Width, r.Depth), r.Width > 0 && r.Depth > 0 && !r.Unplaced
}

// holds reports whether a point lies within the position's outline.
func (r Position) holds(at geom.Point) bool {
	outline, has := r.Outline()
	return has && outline.Contains(at)
}

// PositionAt is the position whose outline a point lies in, the smallest of several; blank for none.
func (p *Plan) PositionAt(at geom.Point) PositionID { return p.positionAt(at, Moving{}, geom.Point{}) }

// positionAt is PositionAt with some positions moved by a vector.
func (p *Plan) positionAt(at geom.Point, m Moving, by geom.Point) (found PositionID) {
	least := 0.0
	for i := range p.Positions.Len() {
		position := p.Positions.At(i)
		from := at
		if m.Positions[position.ID] {
			from = at.Sub(by)
		}
		if size := position.Width * position.Depth; position.holds(from) && (found == "" || size < least) {
			found, least = position.ID, size
		}
	}
	return found
}

// PositionAfter is the position that a device belongs to once what moves has moved by a vector. A device dropped within an
// outline joins that position, one taken out of the outline of its own leaves it; one that stood outside before keeps the
// position it was given by hand.
func (m Moving) PositionAfter(p *Plan, device Device, by geom.Point) PositionID {
	if !m.Devices[device.ID] || m.Positions[device.Position] && device.Position != "" {
		return device.Position
	}
	own, _ := p.Positions.Get(Key(device.Position))
	to := device.At().Add(by).RoundMM()
	if own.holds(to) {
		return device.Position
	}
	if at := p.positionAt(to, m, by); at != "" {
		return at
	}
	if own.holds(device.At()) && !device.Unplaced {
		return ""
	}
	return device.Position
}

// TakeIn makes the devices within the outline of a position belong to it, and returns them; devices within the outline
// of the position they belong to stay there.
func (e *Edit) TakeIn(id PositionID) (taken []DeviceID) {
	position, _ := e.next.Positions.Get(Key(id))
	for device := range e.next.Devices.All() {
		own, _ := e.next.Positions.Get(Key(device.Position))
		if !device.Unplaced && device.Position != id && position.holds(device.At()) && !own.holds(device.At()) {
			taken = append(taken, device.ID)
		}
	}
	for _, device := range taken {
		change(e, Key(device), func(r *Device) { r.Position = id })
	}
	return taken
}

// Stretch gives a position another outline; devices of no position that lie within it now belong to it.
func (e *Edit) Stretch(id PositionID, outline geom.Box) error {
	if outline.Empty() {
		return refuse("the outline of a position has no room in it")
	}
	err := Update(e, Key(id), func(r *Position) {
		middle := outline.Centre()
		r.X, r.Y, r.Width, r.Depth = middle.X, middle.Y, outline.Width(), outline.Height()
	})
	e.TakeIn(id)
	return err
}

// FreePositionName returns the first of Position, Position 2, Position 3, … that no position bears.
func (p *Plan) FreePositionName() string {
	taken := map[string]bool{}
	for position := range p.Positions.All() {
		taken[position.Name] = true
	}
	name := "Position"
	for n := 2; taken[name]; n++ {
		name = fmt.Sprintf("Position %d", n)
	}
	return name
}

// The size in metres of a position that was just placed.
const (
	newWidth = 10
	newDepth = 8
)

// PlacePosition makes a position about a point, and returns it with the devices within its outline, which belong to it.
func (e *Edit) PlacePosition(at geom.Point) (PositionID, []DeviceID) {
	id := e.AddPosition(Position{Name: e.next.FreePositionName(), X: at.X, Y: at.Y, Width: newWidth, Depth: newDepth})
	return id, e.TakeIn(id)
}

// ListPosition makes a position that has no place, and returns it.
func (e *Edit) ListPosition() PositionID {
	return e.AddPosition(Position{Name: e.next.FreePositionName(), Unplaced: true})
}

// aroundDevices is the room in metres between devices and the outline of their position.
const aroundDevices = 3.0

// Gather makes a position round devices, which belong to it from then on; it has no place where none of them has one.
func (e *Edit) Gather(devices ...DeviceID) (PositionID, error) {
	box := geom.EmptyBox()
	for _, id := range devices {
		if device, found := e.next.Device(id); found && !device.Unplaced {
			box = box.Include(device.At())
		}
	}
	made := Position{Name: e.next.FreePositionName(), Unplaced: box.Empty()}
	if !box.Empty() {
		box = box.Inset(-aroundDevices)
		middle := box.Centre()
		made.X, made.Y, made.Width, made.Depth = middle.X, middle.Y, box.Width(), box.Height()
	}
	id := e.AddPosition(made)
	for _, device := range devices {
		if err := Update(e, Key(device), func(r *Device) { r.Position = id }); err != nil {
			return "", err
		}
	}
	return id, nil
}
