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

// PortPlaces are the places of a device's ports: in rows below its box, since on it they would cover its kind, and a box that
// is a dot they would cover whole; those of a row of a block stand beside the block, where they cover no other row.
func (p *Picture) PortPlaces(id plan.DeviceID) []PortPlace {
	for i := range p.arrangement.Scene.Devices {
		if device := &p.arrangement.Scene.Devices[i]; device.ID == id {
			return p.portPlaces(device, p.boxOf(id))
		}
	}
	return nil
}

// portPlaces are the places of a device's ports where its box is, which may be on its way elsewhere.
func (p *Picture) portPlaces(device *DeviceFigure, box geom.Box) []PortPlace {
	if b, rowed := p.arrangement.rowed(device.ID); rowed {
		return p.portsBeside(b, device, box)
	}
	inRow := max(1, min(len(device.Ports), int(box.Width()/portGap)))
	places := make([]PortPlace, len(device.Ports))
	for i, port := range device.Ports {
		row, column := i/inRow, i%inRow
		count := min(inRow, len(device.Ports)-row*inRow)
		at := geom.Point{
			X: box.Centre().X + (float64(column)-float64(count-1)/2)*portGap,
			Y: box.Max.Y + (float64(row)+0.5)*portGap,
		}
		places[i] = PortPlace{port.Name, port.Link, at}
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
// one; ports count whether they are drawn or not. A device that a position counts with others, without a row of its own, lies
// nowhere: nobody could say which of them is meant.
func (p *Picture) DeviceAt(at geom.Point) (id plan.DeviceID, port string, found bool) {
	for i := len(p.arrangement.Scene.Devices) - 1; i >= 0; i-- {
		device := &p.arrangement.Scene.Devices[i]
		if p.lacksDevice(device) || p.arrangement.countedWithOthers(device.ID) {
			continue
		}
		box := p.boxOf(device.ID)
		if box.Contains(at) {
			return device.ID, "", true
		}
		for _, place := range p.portPlaces(device, box) {
			if !found && geom.BoxAround(place.At, portGap, portGap).Contains(at) {
				id, port, found = device.ID, place.Name, true
			}
		}
	}
	return id, port, found
}

// portsInColumn is how many ports stand below one another beside a row.
const portsInColumn = 2

// portsBeside places the ports of a row in columns beside its block, at the side that has room.
func (p *Picture) portsBeside(b *block, device *DeviceFigure, box geom.Box) []PortPlace {
	whole := b.box.Shift(p.offset())
	columns := (len(device.Ports) + portsInColumn - 1) / portsInColumn
	out, start := 1.0, max(whole.Max.X, box.Max.X)
	if beside := geom.BoxOf(geom.Point{X: start, Y: box.Min.Y}, geom.Point{X: start + float64(columns)*portGap, Y: box.Max.Y}); p.onBlock(beside, b) {
		out, start = -1, min(whole.Min.X, box.Min.X)
	}
	places := make([]PortPlace, len(device.Ports))
	for i, port := range device.Ports {
		column, row := i/portsInColumn, i%portsInColumn
		inColumn := min(portsInColumn, len(device.Ports)-column*portsInColumn)
		places[i] = PortPlace{port.Name, port.Link, geom.Point{
			X: start + out*(float64(column)+0.6)*portGap,
			Y: box.Centre().Y + (float64(row)-float64(inColumn-1)/2)*portGap,
		}}
	}
	return places
}

// onBlock reports whether a box of the view lies on a block other than one.
func (p *Picture) onBlock(box geom.Box, but *block) bool {
	for i := range p.arrangement.blocks {
		if b := &p.arrangement.blocks[i]; b != but && b.box.Shift(p.offset()).Overlaps(box) {
			return true
		}
	}
	return false
}

// keepOffPorts lets labels keep off the ports that are drawn.
func (p *Picture) keepOffPorts() {
	for _, t := range p.targets {
		if t.rank == rankPort && t.ref.Table == plan.DevicesTable {
			p.blocked.add(t.box)
		}
	}
}
