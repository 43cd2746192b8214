package picture

import (
	"stageloom/model/geom"
	"stageloom/model/plan"
)

// hoverGap is how far in points from a device and its ports a pointer still counts as resting on it.
const hoverGap = 4.0

// HoverMarks draw the ports of the device that the pointer rests on, over the picture; nothing for one that shows them anyway.
func (p *Picture) HoverMarks(id plan.DeviceID) []Mark {
	device := p.figure(id)
	if device == nil || !p.bears(device) {
		return nil
	}
	return p.portMarks(device, p.boxOf(id))
}

// Rests reports whether a point of the view lies on a device or on its ports, or between them.
func (p *Picture) Rests(id plan.DeviceID, at geom.Point) bool {
	device := p.figure(id)
	if device == nil || !p.bears(device) {
		return false
	}
	box := p.boxOf(id)
	for _, place := range p.portPlaces(device, box) {
		box = box.Union(geom.BoxAround(place.At, portGap, portGap))
	}
	return box.Inset(-hoverGap).Contains(at)
}

// PickOver is Pick while the ports of a device are drawn over the picture: a port is hit unless a label or a neighbour lies there.
func (p *Picture) PickOver(id plan.DeviceID, at geom.Point) (Ref, bool) {
	best, found := p.best(at)
	device := p.figure(id)
	if device == nil || !p.bears(device) || found && best.rank > rankDevice || found && best.rank == rankDevice && best.ref.Key != plan.Key(id) {
		return best.ref, found
	}
	for _, place := range p.portPlaces(device, p.boxOf(id)) {
		if geom.BoxAround(place.At, portGap, portGap).Contains(at) {
			return portRef(id, place.Name), true
		}
	}
	return best.ref, found
}

// bears reports whether a device can show ports of its own here.
func (p *Picture) bears(device *DeviceFigure) bool {
	return !p.lacksDevice(device) && !p.hides(device.ID) && !p.arrangement.counted(device.ID)
}
