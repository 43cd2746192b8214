package picture

import (
	"stageloom/model/geom"
	"stageloom/model/plan"
)

// Sizes of text in points; paper scales them by Options.TextScale.
const (
	deviceTextSize  = 12.5
	kindTextSize    = 10.0
	labelTextSize   = 11.5
	placeTextSize   = 11.0
	deviceHeight    = 36.0
	shortHeight     = 22.0
	widestDevice    = 150.0
	narrowestDevice = 48.0
	dotSize         = 9.0
)

// crowded is the share of the devices' ground that boxes may cover before devices become dots.
const crowded = 0.45

// shortAbove is the share of boxes lying on others above which boxes bear the name only.
const shortAbove = 0.3

// strayedAbove is the share of boxes that may be pushed further than farAway, in points, before all become dots.
const (
	strayedAbove = 0.25
	farAway      = 48.0
)

// Arrangement is a scene at one scale: a box for every device and a path for every link, in points from the
// site's origin, y down. Panning keeps it; zooming and editing make another.
type Arrangement struct {
	Scene *Scene
	Scale float64
	// Short tells that boxes bear the name only, since whole ones would push each other far aside; Dots that
	// devices are too many here for any box.
	Short, Dots bool

	measure   Measure
	textScale float64
	boxes     map[plan.DeviceID]geom.Box
	blocks    []block
	// blockOf is the place of a device's block from 1 on.
	blockOf map[plan.DeviceID]int
	// named are the positions that heads of blocks name.
	named map[plan.PositionID]bool
	// track is how far out of its block each end of a link turns, to the left where it is less than 0.
	track   map[linkEnd]float64
	widths  []float64
	paths   []path
	offsets []float64
	form    Form
}

// path is a link's line from box edge to box edge.
type path struct {
	points []geom.Point
	whole  []geom.Point
}

// Arrange gives every device its box and every link its path at a scale in points per metre.
func Arrange(s *Scene, scale, textScale float64, measure Measure) *Arrangement {
	return ArrangeAfter(Form{}, s, scale, textScale, measure)
}

// ArrangeAfter is Arrange after a view of the same plan in some form, which it keeps where a step of the zoom would go back to
// the one before.
func ArrangeAfter(last Form, s *Scene, scale, textScale float64, measure Measure) *Arrangement {
	a := &Arrangement{
		Scene: s, Scale: scale, measure: measure, textScale: textScale,
		boxes: make(map[plan.DeviceID]geom.Box, len(s.Devices)), offsets: lanes(s.Links),
	}
	boxes := a.placed(last)
	for i, device := range s.Devices {
		a.boxes[device.ID] = boxes[i]
	}
	a.tracks()
	a.paths = make([]path, len(s.Links))
	for i := range s.Links {
		a.paths[i] = a.pathOf(&s.Links[i], a.offsets[i], a.boxes)
	}
	return a
}

// manyLinks is from how many links on lines are drawn without casings, which then part nothing any more.
const manyLinks = 300

// dense tells that lines are too many for casings.
func (a *Arrangement) dense() bool { return a.Dots || len(a.Scene.Links) > manyLinks }

// world turns metres into points from the site's origin, y down.
func (a *Arrangement) world(metres geom.Point) geom.Point {
	return geom.Point{X: metres.X * a.Scale, Y: -metres.Y * a.Scale}
}

// deviceBoxes chooses the largest form of box for which there is room: name and kind, name only, or dots.
func (a *Arrangement) deviceBoxes() []geom.Box {
	a.Short = a.Scene.Gathered
	boxes := a.formed()
	if a.Short = a.Short || heaped(boxes) > shortAbove*float64(len(boxes)); a.Short && !a.Scene.Gathered {
		boxes = a.formed()
	}
	ground, covered := geom.EmptyBox(), 0.0
	for i, box := range boxes {
		ground = ground.Include(a.world(a.Scene.Devices[i].At))
		covered += (box.Width() + deviceGap) * (box.Height() + deviceGap)
	}
	a.Dots = a.Scene.Nameless || len(boxes) > 12 && covered > crowded*(ground.Width()+200)*(ground.Height()+100)
	if a.Dots {
		return a.dots(boxes)
	}
	return boxes
}

// dots makes every device a dot where it stands.
func (a *Arrangement) dots(boxes []geom.Box) []geom.Box {
	a.Dots = true
	for i := range boxes {
		boxes[i] = geom.BoxAround(a.world(a.Scene.Devices[i].At), dotSize, dotSize)
	}
	return boxes
}

// strayed reports whether so many boxes were pushed so far from where their devices stand that they mislead: dots tell the
// truth then, and a closer view the names.
func (a *Arrangement) strayed(boxes []geom.Box) bool {
	far := 0
	for i, box := range boxes {
		if box.Centre().Distance(a.world(a.Scene.Devices[i].At)) > farAway*a.textScale {
			far++
		}
	}
	return float64(far) > strayedAbove*float64(len(boxes))
}

// formed gives every device its box where it stands, whatever lies there too.
func (a *Arrangement) formed() []geom.Box {
	boxes := make([]geom.Box, len(a.Scene.Devices))
	a.widths = make([]float64, len(boxes))
	for i, device := range a.Scene.Devices {
		width, height := a.measure(device.Name, deviceTextSize*a.textScale, true), shortHeight
		if a.Scene.Gathered {
			width += (pictoSize + rowInset) * a.textScale
		}
		if !a.Short {
			width, height = max(width, a.measure(device.Kind, kindTextSize*a.textScale, false)), deviceHeight
		}
		a.widths[i] = min(max(width+16*a.textScale, narrowestDevice*a.textScale), widestDevice*a.textScale)
		boxes[i] = geom.BoxAround(a.world(device.At), a.widths[i], height*a.textScale)
	}
	return boxes
}

// heaped counts the boxes that lie on an earlier one, which is what makes them travel when they are spread.
func heaped(boxes []geom.Box) float64 {
	placed, count := newObstacles(groundOf(boxes)), 0.0
	for _, box := range boxes {
		if !placed.free(box) {
			count++
		}
		placed.add(box)
	}
	return count
}

// pathOf returns the path of a link between the boxes of its devices.
func (a *Arrangement) pathOf(link *LinkFigure, offset float64, boxes map[plan.DeviceID]geom.Box) path {
	if a.within(link) {
		points := a.insidePath(link, boxes)
		return path{points: points, whole: points}
	}
	if a.blockOf[link.From]+a.blockOf[link.To] > 0 && !a.Dots {
		return a.blockPath(link, offset, boxes)
	}
	from, to := boxes[link.From], boxes[link.To]
	whole := make([]geom.Point, 0, len(link.Way)+2)
	whole = append(whole, from.Centre())
	for _, at := range link.Way {
		whole = append(whole, a.world(at))
	}
	whole = append(whole, to.Centre())
	if a.Dots {
		offset /= 2
	}
	return path{points: leaving(leaving(shifted(whole, offset), from, false), to, true), whole: whole}
}

// leaving cuts off what a path does inside the box it starts from (or, turned, ends in).
func leaving(points []geom.Point, box geom.Box, turned bool) []geom.Point {
	if turned {
		points = turnedRound(points)
	}
	last := -1
	for i, at := range points {
		if box.Contains(at) {
			last = i
		}
	}
	if last >= 0 && last+1 < len(points) {
		cut := edgePoint(points[last], points[last+1], box)
		points = append([]geom.Point{cut}, points[last+1:]...)
	}
	if turned {
		points = turnedRound(points)
	}
	return points
}

func turnedRound(points []geom.Point) []geom.Point { return geom.Polyline(points).Reversed() }

// edgePoint returns where the line from a point inside the box to one outside crosses its edge.
func edgePoint(inside, outside geom.Point, box geom.Box) geom.Point {
	share := 1.0
	step := outside.Sub(inside)
	if step.X > 0 {
		share = min(share, (box.Max.X-inside.X)/step.X)
	} else if step.X < 0 {
		share = min(share, (box.Min.X-inside.X)/step.X)
	}
	if step.Y > 0 {
		share = min(share, (box.Max.Y-inside.Y)/step.Y)
	} else if step.Y < 0 {
		share = min(share, (box.Min.Y-inside.Y)/step.Y)
	}
	return inside.Between(outside, share)
}
