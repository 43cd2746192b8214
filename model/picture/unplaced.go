package picture

import "stageloom/model/geom"

// InTheList stands on the frame round devices without a place.
const InTheList = "in the list: no place on the ground"

// NotToScale stands where else the scale does.
const NotToScale = "not to scale"

// listGap is how far in points the frame stays off the devices in it.
const listGap = 14.0

// Grounded reports whether anything drawn stands on the ground, so that the picture has a scale: not in a plan of which no
// device has a place.
func (s *Scene) Grounded() bool {
	for i := range s.Devices {
		if !s.Devices[i].Unplaced {
			return true
		}
	}
	return len(s.Devices) == 0
}

// Listed reports whether a device without a place is drawn.
func (s *Scene) Listed() bool {
	for i := range s.Devices {
		if s.Devices[i].Unplaced {
			return true
		}
	}
	return false
}

// listBox is the frame round the devices without a place, in the view; drawn reports whether it is to be seen.
func (p *Picture) listBox() (box geom.Box, drawn bool) {
	box = geom.EmptyBox()
	for i := range p.arrangement.Scene.Devices {
		device := &p.arrangement.Scene.Devices[i]
		if device.Unplaced && !p.hides(device.ID) && !p.lacksDevice(device) {
			box = box.Union(p.boxOf(device.ID).Inset(-listGap))
		}
	}
	return box, !box.Empty() && p.visible(box)
}

// listFrame draws the frame. It is no row of the plan, and no pointer hits it.
func (p *Picture) listFrame() {
	if box, drawn := p.listBox(); drawn {
		p.add(Mark{Shape: Panel, Edge: RolePositionEdge, Points: []geom.Point{box.Min, box.Max}, Radius: 6})
	}
}
