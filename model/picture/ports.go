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

// PortPlaces are the places of a device's ports, in rows below its box: on it they would cover its kind, and a box that
// is a dot they would cover whole.
func (p *Picture) PortPlaces(id plan.DeviceID) []PortPlace {
	for i := range p.arrangement.Scene.Devices {
		if device := &p.arrangement.Scene.Devices[i]; device.ID == id {
			return portPlaces(device, p.boxOf(id))
		}
	}
	return nil
}

func portPlaces(device *DeviceFigure, box geom.Box) []PortPlace {
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
func portMarks(device *DeviceFigure, box geom.Box) []Mark {
	var marks []Mark
	for _, place := range portPlaces(device, box) {
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
	for _, place := range portPlaces(device, box) {
		p.targets = append(p.targets, target{
			ref: portRef(device.ID, place.Name), rank: rankPort, box: geom.BoxAround(place.At, portGap, portGap),
		})
	}
}

// DeviceAt returns the device whose box, or whose ports, lie under a point of the view, and the port where it is on
// one; ports count whether they are drawn or not.
func (p *Picture) DeviceAt(at geom.Point) (id plan.DeviceID, port string, found bool) {
	for i := len(p.arrangement.Scene.Devices) - 1; i >= 0; i-- {
		device := &p.arrangement.Scene.Devices[i]
		if p.lacksDevice(device) {
			continue
		}
		box := p.boxOf(device.ID)
		for _, place := range portPlaces(device, box) {
			if geom.BoxAround(place.At, portGap, portGap).Contains(at) {
				return device.ID, place.Name, true
			}
		}
		if box.Contains(at) {
			id, found = device.ID, true
		}
	}
	return id, "", found
}
