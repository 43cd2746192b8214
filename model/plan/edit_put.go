package plan

import (
	"math"

	"stageloom/model/geom"
)

// AddDevices adds so many devices like one, and returns the first of them: a name that was given is numbered from the second
// on. Where says for each that has a place, on the plan as it is then, where it stands; one that was given no position
// belongs to that whose outline it stands in.
func (e *Edit) AddDevices(like Device, count int, where func(*Plan) geom.Point) (first DeviceID) {
	for i := range count {
		device := like
		if i > 0 && device.Name != "" {
			device.Name = e.FreeDeviceName(device.Name)
		}
		if !device.Unplaced {
			at := where(&e.next)
			device.X, device.Y = at.X, at.Y
			if device.Position == "" {
				device.Position = e.next.PositionAt(at)
			}
		}
		if id := e.AddDevice(device); i == 0 {
			first = id
		}
	}
	return first
}

// roomRings is how many rings round a point FreePlace looks at.
const roomRings = 40

// FreePlace is the first place on rings round a point that no device stands nearer to than so many metres, or the point
// itself where all of them are taken.
func (p *Plan) FreePlace(at geom.Point, clear float64) geom.Point {
	for ring := range roomRings {
		steps := max(1, 8*ring)
		for step := range steps {
			place := at.Add(geom.Polar(float64(ring)*clear*1.1, 2*math.Pi*float64(step)/float64(steps)))
			if p.clearOfDevices(place, clear) {
				return place
			}
		}
	}
	return at
}

func (p *Plan) clearOfDevices(at geom.Point, clear float64) bool {
	for device := range p.Devices.All() {
		if device.At().Distance(at) < clear {
			return false
		}
	}
	return true
}

// Rename gives a device, link, position, area or loom another name; rows of other tables bear none that is given so, and
// stay as they are.
func (e *Edit) Rename(ref Ref, name string) error {
	switch ref.Table {
	case DevicesTable:
		return Update(e, ref.Key, func(r *Device) { r.Name = name })
	case LinksTable:
		return Update(e, ref.Key, func(r *Link) { r.Name = name })
	case PositionsTable:
		return Update(e, ref.Key, func(r *Position) { r.Name = name })
	case AreasTable:
		return Update(e, ref.Key, func(r *Area) { r.Name = name })
	case LoomsTable:
		return Update(e, ref.Key, func(r *Loom) { r.Name = name })
	}
	return nil
}
