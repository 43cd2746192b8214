package plan

import (
	"fmt"
	"strings"
)

// AddDevice adds a device under a new id and returns it. A blank name becomes the kind's, without
// its numbers, and numbered when it is taken or stood on an issued revision. One without a place is drawn
// where there is room.
func (e *Edit) AddDevice(d Device) DeviceID {
	d.ID = DeviceID(newID[Device](e))
	if d.Name == "" {
		kind, _ := e.next.Kinds.Get(Key(d.Kind))
		d.Name = e.next.freshDeviceName(stemOf(kind.Name))
	}
	if d.Unplaced {
		d.X, d.Y = e.room()
	}
	Put(e, d)
	return d.ID
}

// stemOf is what a kind's name says before its numbers: "Stage box" of "Stage box 40 in, 20 out".
func stemOf(kind string) string {
	stem := strings.TrimRight(kind, " ")
	if at := strings.IndexAny(kind, ",0123456789"); at > 0 {
		stem = strings.TrimRight(kind[:at], " ")
	}
	return stem
}

// FreeDeviceName is a name, numbered when another device bears it. A device may take the name of one that is gone: it says
// where and what it is, and whoever replaces the console at FOH puts the FOH console there.
func (e *Edit) FreeDeviceName(stem string) string {
	taken := map[string]bool{}
	for device := range e.next.Devices.All() {
		taken[Folded(device.Name)] = true
	}
	if !taken[Folded(stem)] {
		return stem
	}
	for n := 2; ; n++ {
		if name := fmt.Sprintf("%s %d", strings.TrimSpace(stem), n); !taken[Folded(name)] {
			return name
		}
	}
}

// ReplaceKind gives a device another kind; every port that a link holds must exist there too.
func (e *Edit) ReplaceKind(id DeviceID, kind KindID) error {
	device, found := e.next.Device(id)
	if !found {
		return refuse("there is no such device any more")
	}
	for link := range e.next.Links.All() {
		for _, end := range []struct {
			device DeviceID
			port   string
		}{{link.From, link.FromPort}, {link.To, link.ToPort}} {
			if end.device == id && !e.next.KindPorts.Has(PortKey(kind, end.port)) {
				return refuse("%s holds port %s of %s, which the new kind has not; unplug it first", link.Name, end.port, device.Name)
			}
		}
	}
	return Update(e, Key(id), func(r *Device) { r.Kind = kind })
}

// LinksAt returns the links plugged into any of these devices.
func (p *Plan) LinksAt(devices ...DeviceID) []LinkID {
	wanted := map[DeviceID]bool{}
	for _, id := range devices {
		wanted[id] = true
	}
	var links []LinkID
	for link := range p.Links.All() {
		if wanted[link.From] || wanted[link.To] {
			links = append(links, link.ID)
		}
	}
	return links
}

// RemoveDevices removes devices with the links plugged into them and the patch rows that name them.
func (e *Edit) RemoveDevices(ids ...DeviceID) {
	e.RemoveLinks(e.next.LinksAt(ids...)...)
	for _, id := range ids {
		dropWhere(e, func(r StagePatch) bool { return r.Device == id })
		dropWhere(e, func(r ConsolePatch) bool { return r.Device == id || r.Console == id })
		dropWhere(e, func(r SlotPatch) bool { return r.Device == id })
		dropWhere(e, func(r OutputPatch) bool { return r.Device == id || r.Console == id })
		dropWhere(e, func(r ActConsole) bool { return r.Console == id })
		dropWhere(e, func(r SocketOwner) bool { return r.Device == id })
		dropWhere(e, func(r SocketName) bool { return r.Device == id })
		e.forget(id)
		Drop[Device](e, Key(id))
	}
}

// forget blanks what names a device and stands without it: a sub-snake, a drop, an owner. An owner's row that says
// nothing more goes.
func (e *Edit) forget(id DeviceID) {
	changeWhere(e, func(r Input) bool { return r.Snake == id }, func(r *Input) { r.Snake, r.SnakeWay = "", 0 })
	changeWhere(e, func(r ActConsole) bool { return r.Drop == id }, func(r *ActConsole) { r.Drop, r.DropPort = "", "" })
	changeWhere(e, func(r SocketOwner) bool { return r.Gain == id }, func(r *SocketOwner) { r.Gain = "" })
	changeWhere(e, func(r SocketOwner) bool { return r.Phantom == id }, func(r *SocketOwner) { r.Phantom = "" })
	dropWhere(e, func(r SocketOwner) bool { return r.Gain == "" && r.Phantom == "" && !r.Strike })
}

// AddPosition adds a position under a new id and returns it.
func (e *Edit) AddPosition(p Position) PositionID {
	p.ID = PositionID(newID[Position](e))
	Put(e, p)
	return p.ID
}

// RemovePosition removes a position; its devices stay where they are, and house lines forget it.
func (e *Edit) RemovePosition(id PositionID) {
	changeWhere(e, func(r Device) bool { return r.Position == id }, func(r *Device) { r.Position = "" })
	changeWhere(e, func(r HouseLine) bool { return r.FromPosition == id }, func(r *HouseLine) { r.FromPosition = "" })
	changeWhere(e, func(r HouseLine) bool { return r.ToPosition == id }, func(r *HouseLine) { r.ToPosition = "" })
	Drop[Position](e, Key(id))
}

// RemoveArea removes an area with its corners.
func (e *Edit) RemoveArea(id AreaID) {
	dropWhere(e, func(r AreaPoint) bool { return r.Area == id })
	Drop[Area](e, Key(id))
}

// dropWhere drops every row that the test picks.
func dropWhere[R Row](e *Edit, picked func(R) bool) {
	ops := opsOf[R]()
	var keys []Key
	for row := range (*ops.table(&e.next)).All() {
		if picked(row) {
			keys = append(keys, row.Key())
		}
	}
	for _, key := range keys {
		Drop[R](e, key)
	}
}

// changeWhere changes every row that the test picks.
func changeWhere[R Row](e *Edit, picked func(R) bool, with func(*R)) {
	ops := opsOf[R]()
	var keys []Key
	for row := range (*ops.table(&e.next)).All() {
		if picked(row) {
			keys = append(keys, row.Key())
		}
	}
	for _, key := range keys {
		change(e, key, with)
	}
}
