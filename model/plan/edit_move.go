package plan

import (
	"maps"
	"slices"

	"stageloom/model/geom"
)

// Moving is what moves together: devices, positions with their members, and the ways of links whose two ends
// both move. A link with one moving end keeps its way points and changes its length; so does one in a loom of which
// another link stays or stretches.
type Moving struct {
	Devices    map[DeviceID]bool
	Positions  map[PositionID]bool
	MovedWhole map[LinkID]bool
	Stretched  map[LinkID]bool
}

// MovingWith gathers all that moves when these devices and positions do. A move gives a device without a place one, so that
// such devices move by themselves: with what stands on the ground they stay in the list.
func MovingWith(p *Plan, devices []DeviceID, positions []PositionID) Moving {
	m := Moving{map[DeviceID]bool{}, map[PositionID]bool{}, map[LinkID]bool{}, map[LinkID]bool{}}
	for _, id := range positions {
		if p.Positions.Has(Key(id)) {
			m.Positions[id] = true
		}
	}
	m.takeDevices(p, devices)
	for link := range p.Links.All() {
		switch from, to := m.Devices[link.From], m.Devices[link.To]; {
		case from && to:
			m.MovedWhole[link.ID] = true
		case from || to:
			m.Stretched[link.ID] = true
		}
	}
	m.keepLooms(p)
	return m
}

// takeDevices takes in the devices that were chosen and those that stand on the ground at the positions that were.
func (m Moving) takeDevices(p *Plan, chosen []DeviceID) {
	var listed []DeviceID
	for _, id := range chosen {
		if device, found := p.Device(id); found && device.Unplaced {
			listed = append(listed, id)
		} else if found {
			m.Devices[id] = true
		}
	}
	for device := range p.Devices.All() {
		at, found := p.Positions.Get(Key(device.Position))
		if found && m.Positions[at.ID] && !at.Unplaced && !device.Unplaced {
			m.Devices[device.ID] = true
		}
	}
	if len(m.Devices)+len(m.Positions) > 0 {
		return
	}
	for _, id := range listed {
		m.Devices[id] = true
	}
}

// keepLooms leaves the route of a loom where it is unless all its links move: those that do stretch along it.
func (m Moving) keepLooms(p *Plan) {
	stays := map[LoomID]bool{}
	for link := range p.Links.All() {
		if link.Loom != "" && !m.MovedWhole[link.ID] {
			stays[link.Loom] = true
		}
	}
	if len(stays) == 0 {
		return
	}
	for link := range p.Links.All() {
		if m.MovedWhole[link.ID] && stays[link.Loom] {
			delete(m.MovedWhole, link.ID)
			m.Stretched[link.ID] = true
		}
	}
}

// Empty reports whether nothing moves.
func (m Moving) Empty() bool { return len(m.Devices)+len(m.Positions) == 0 }

// Move shifts all of it by a vector in metres. Devices join the position they come to lie in, as PositionAfter says.
func (e *Edit) Move(m Moving, by geom.Point) {
	belongs := map[DeviceID]PositionID{} // told before anything moves
	for id := range m.Devices {
		device, _ := e.next.Device(id)
		belongs[id] = m.PositionAfter(&e.next, device, by)
	}
	for _, id := range slices.Sorted(maps.Keys(m.Positions)) {
		change(e, Key(id), func(r *Position) { r.X, r.Y, r.Unplaced = r.X+by.X, r.Y+by.Y, false })
	}
	for _, id := range slices.Sorted(maps.Keys(m.Devices)) {
		change(e, Key(id), func(r *Device) {
			r.Position, r.X, r.Y, r.Unplaced = belongs[id], r.X+by.X, r.Y+by.Y, false
		})
	}
	for _, id := range slices.Sorted(maps.Keys(m.MovedWhole)) {
		for _, point := range slices.Clone(e.next.PointsOf(id)) {
			point.X, point.Y = point.X+by.X, point.Y+by.Y
			Put(e, point)
		}
	}
	for loom := range e.base.Looms.All() {
		e.moveRoute(loom.ID, m, by)
	}
}

// moveRoute shifts the route of a loom whose links all move as a whole.
func (e *Edit) moveRoute(id LoomID, m Moving, by geom.Point) {
	links := e.next.LoomLinks(id)
	if len(links) == 0 || slices.ContainsFunc(links, func(link Link) bool { return !m.MovedWhole[link.ID] }) {
		return
	}
	for _, point := range slices.Clone(e.next.LoomPoints.Under(Key(id))) {
		point.X, point.Y = point.X+by.X, point.Y+by.Y
		Put(e, point)
	}
}

// Update changes one row in place; the row's key must stay as it is.
func Update[R Row](e *Edit, key Key, with func(*R)) error {
	if !change(e, key, with) {
		return refuse("there is no %s any more", key)
	}
	return nil
}

func change[R Row](e *Edit, key Key, with func(*R)) bool {
	ops := opsOf[R]()
	row, found := (*ops.table(&e.next)).Get(key)
	if !found {
		return false
	}
	with(&row)
	if row.Key() != key {
		panic("plan: an update changed the key of " + string(key))
	}
	Put(e, row)
	return true
}
