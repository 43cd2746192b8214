package picture

import (
	"stageloom/model/geom"
	"stageloom/model/plan"
)

// portGap is the distance in points between ports drawn under a device's box, portSize their size.
const (
	portGap  = 13.0
	portSize = 8.0
)

// PortPlace is where a port of a device is drawn in the view. Link is the link it holds, if any.
type PortPlace struct {
	Name string
	Link plan.LinkID
	At   geom.Point
}

// PortPlaces are the places of a device's ports: below its box, since on it they would cover its name, or at another side where
// they would lie on a neighbour there; those of a row of a block stand beside the block, where they cover no other row.
func (p *Picture) PortPlaces(id plan.DeviceID) []PortPlace {
	if device := p.figure(id); device != nil {
		return p.portPlaces(device, p.boxOf(id))
	}
	return nil
}

// portPlaces are the places of a device's ports where its box is, which may be on its way elsewhere.
func (p *Picture) portPlaces(device *DeviceFigure, box geom.Box) []PortPlace {
	b, rowed := p.arrangement.rowed(device.ID)
	if box != p.boxOf(device.ID) { // it moves, and its neighbours with it change
		if rowed {
			return portsAt(device, box, right, 0)
		}
		return portsAt(device, box, below, 0)
	}
	if places, known := p.places[device.ID]; known {
		return places
	}
	sides := []side{below, above, right, left}
	if rowed {
		whole := b.box.Shift(p.offset())
		sides = []side{right, left}
		box = geom.BoxOf(geom.Point{X: min(whole.Min.X, box.Min.X), Y: box.Min.Y}, geom.Point{X: max(whole.Max.X, box.Max.X), Y: box.Max.Y})
	}
	places := p.freePorts(device, box, sides)
	if p.places == nil {
		p.places = map[plan.DeviceID][]PortPlace{}
	}
	p.places[device.ID] = places
	return places
}

// side is where the ports of a device stand from its box.
type side uint8

const (
	below side = iota
	above
	right
	left
)

// mostAway is how many rows of ports away from their box ports look for room.
const mostAway = 4

// freePorts places the ports of a device at the first side where they lie on nothing.
func (p *Picture) freePorts(device *DeviceFigure, box geom.Box, sides []side) []PortPlace {
	for away := range mostAway {
		for _, at := range sides {
			places, clear := portsAt(device, box, at, away), true
			for i := 0; i < len(places) && clear; i++ {
				clear = p.blocked.free(geom.BoxAround(places[i].At, portSize, portSize))
			}
			if clear {
				return places
			}
		}
	}
	return portsAt(device, box, sides[0], 0)
}

// portsInColumn is how many ports stand below one another beside a box.
const portsInColumn = 2

// portsAt places the ports of a device in rows below or above a box, or in columns beside it, so many rows away from it.
func portsAt(device *DeviceFigure, box geom.Box, at side, away int) []PortPlace {
	places := make([]PortPlace, len(device.Ports))
	centre := box.Centre()
	inLine := portsInColumn
	if at == below || at == above {
		inLine = max(1, min(len(device.Ports), int(box.Width()/portGap)))
	}
	for i, port := range device.Ports {
		line, place := i/inLine, i%inLine
		count := min(inLine, len(device.Ports)-line*inLine)
		along, out := (float64(place)-float64(count-1)/2)*portGap, (float64(line+away)+0.55)*portGap
		where := geom.Point{X: centre.X + along, Y: box.Max.Y + out}
		switch at {
		case above:
			where.Y = box.Min.Y - out
		case right:
			where = geom.Point{X: box.Max.X + out, Y: centre.Y + along}
		case left:
			where = geom.Point{X: box.Min.X - out, Y: centre.Y + along}
		}
		places[i] = PortPlace{port.Name, port.Link, where}
	}
	return places
}

// portMarks draws the ports of a selected device: the free ones hollow, the ones in use filled.
func (p *Picture) portMarks(device *DeviceFigure, box geom.Box) []Mark {
	var marks []Mark
	for _, place := range p.portPlaces(device, box) {
		dot := geom.BoxAround(place.At, portSize, portSize)
		role := RolePortFree
		if place.Link != "" {
			role = RolePortUsed
		}
		marks = append(marks, Mark{
			Ref: portRef(device.ID, place.Name), Shape: Panel, Role: role, Edge: RoleDeviceEdge,
			Points: []geom.Point{dot.Min, dot.Max}, Radius: portSize / 2,
		})
	}
	return marks
}

func portRef(id plan.DeviceID, port string) Ref {
	return Ref{Table: plan.DevicesTable, Key: plan.Key(id), Part: port}
}

// aimPorts lets a pointer hit the ports of a device.
func (p *Picture) aimPorts(device *DeviceFigure, box geom.Box) {
	for _, place := range p.portPlaces(device, box) {
		p.targets = append(p.targets, target{
			ref: portRef(device.ID, place.Name), rank: rankPort, box: geom.BoxAround(place.At, portGap, portGap),
		})
	}
}

// DeviceAt returns the device whose box, or whose ports, lie under a point of the view, and the port where it is on
// one; ports count whether they are drawn or not. It is blank where several devices have one box, which only counts them:
// nobody could say which of them is meant.
func (p *Picture) DeviceAt(at geom.Point) (id plan.DeviceID, port string, found bool) {
	for i := len(p.arrangement.Scene.Devices) - 1; i >= 0; i-- {
		device := &p.arrangement.Scene.Devices[i]
		if p.lacksDevice(device) {
			continue
		}
		box := p.boxOf(device.ID)
		counted := p.arrangement.counted(device.ID)
		if box.Contains(at) {
			if counted {
				return "", "", true
			}
			return device.ID, "", true
		}
		if counted || found || !box.Inset(-portsReach).Contains(at) {
			continue
		}
		for _, place := range p.portPlaces(device, box) {
			if !found && geom.BoxAround(place.At, portGap, portGap).Contains(at) {
				id, port, found = device.ID, place.Name, true
			}
		}
	}
	return id, port, found
}

// portsReach is how far in points from its box the ports of a device are looked for.
const portsReach = 240.0

// keepOffPorts lets labels keep off the ports that are drawn.
func (p *Picture) keepOffPorts() {
	for _, t := range p.targets {
		if t.rank == rankPort && t.ref.Table == plan.DevicesTable {
			p.blocked.add(t.box)
		}
	}
}
