package picture

import (
	"stageloom/model/geom"
	"stageloom/model/plan"
)

// outlineGap is how far in points a position's outline stays off the devices in it.
const outlineGap = 6.0

// Bounds is the box that holds every area, position, device and link of the arrangement, in points from the site's
// origin, y down: what a sheet of paper must have room for. Labels are not in it.
func (a *Arrangement) Bounds() geom.Box {
	bounds := geom.EmptyBox()
	for _, area := range a.Scene.Areas {
		for _, corner := range area.Corners {
			bounds = bounds.Include(a.world(corner))
		}
	}
	for _, position := range a.Scene.Positions {
		bounds = bounds.Union(geom.BoxOf(a.world(position.Outline.Min), a.world(position.Outline.Max)))
	}
	for _, device := range a.Scene.Devices {
		gap := outlineGap
		if device.Unplaced {
			gap = listGap
		}
		bounds = bounds.Union(a.boxes[device.ID].Inset(-gap)).Include(a.world(device.At))
	}
	for i := range a.paths {
		bounds = bounds.Union(geom.BoxOf(a.paths[i].points...))
	}
	if bounds.Empty() {
		return geom.BoxOf(a.world(a.Scene.Bounds.Min), a.world(a.Scene.Bounds.Max))
	}
	return bounds
}

// Sheet returns the view of this size in points that shows the arrangement with a place of it in the middle; the place
// is in points from the site's origin, such as the centre of Bounds.
func (a *Arrangement) Sheet(centre geom.Point, width, height float64) View {
	corner := geom.Point{X: centre.X - width/2, Y: centre.Y - height/2}
	return View{
		Scale: a.Scale, Width: width, Height: height,
		Origin: geom.Point{X: corner.X / a.Scale, Y: -corner.Y / a.Scale},
	}
}

// Boxes returns the boxes of the devices in the order of the scene, each with where its device really stands, in points
// from the site's origin, y down.
func (a *Arrangement) Boxes() []geom.Box {
	boxes := make([]geom.Box, len(a.Scene.Devices))
	for i, device := range a.Scene.Devices {
		boxes[i] = a.boxes[device.ID].Include(a.world(device.At))
	}
	return boxes
}

// Ways returns the boxes of the links' paths in the order of the scene, in points from the site's origin, y down.
func (a *Arrangement) Ways() []geom.Box {
	boxes := make([]geom.Box, len(a.paths))
	for i := range a.paths {
		boxes[i] = geom.BoxOf(a.paths[i].points...)
	}
	return boxes
}

// Pushed reports whether a device's box was pushed off the place where the device really stands.
func (a *Arrangement) Pushed(id plan.DeviceID) bool {
	for _, device := range a.Scene.Devices {
		if device.ID == id {
			return !a.boxes[id].Contains(a.world(device.At))
		}
	}
	return false
}

// Scene is what the picture shows, in metres.
func (p *Picture) Scene() *Scene { return p.arrangement.Scene }
