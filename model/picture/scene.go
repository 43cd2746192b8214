package picture

import (
	"stageloom/model/geom"
	"stageloom/model/plan"
)

// Scene is what a plan shows, in metres, before any view.
type Scene struct {
	// Images lie under everything, in their order.
	Images    []ImageFigure
	Areas     []AreaFigure
	Positions []PositionFigure
	Devices   []DeviceFigure
	Links     []LinkFigure
	Looms     []LoomFigure
	// Bounds is the box of metres that holds it all. Images count only where there is nothing else, as a photograph may
	// show far more than the show takes; a plan without anything has 40 by 30 m about the origin.
	Bounds geom.Box
	// Gathered makes positions whose devices would lie on each other boxes of rows.
	Gathered bool
	// Nameless draws devices as dots.
	Nameless bool
}

// AreaFigure is an area with its corners.
type AreaFigure struct {
	ID      plan.AreaID
	Name    string
	Use     string
	Corners []geom.Point
}

// PositionFigure is a position with its outline; a spot has an outline without extent.
type PositionFigure struct {
	ID      plan.PositionID
	Name    string
	Outline geom.Box
	Level   plan.LevelID
}

// DeviceFigure is a device with the two lines on its box.
type DeviceFigure struct {
	ID       plan.DeviceID
	Position plan.PositionID
	Name     string
	Kind     string
	// Pictogram is the name of what it does as drawn.
	Pictogram string
	At        geom.Point
	Level     plan.LevelID
	Ports     []PortFigure
	// Unplaced tells of a device without a place on the ground: where it is drawn means nothing.
	Unplaced bool
}

// PortFigure is a port of a device; Link is the link it holds, if any.
type PortFigure struct {
	Name string
	Link plan.LinkID
}

// LinkFigure is a link as drawn: its way from device to device, the joins along it and what is missing at its end.
type LinkFigure struct {
	ID plan.LinkID
	// Label is its name with the margin, and Lacks says of Missing metres how they are missing; blank for none.
	Label   string
	Lacks   string
	Missing float64
	// Name is its name alone, and Run its length in metres; 0 where it has none.
	Name string
	Run  float64
	// Grade is how the link would be once it is laid, which the SHAPE of its badge tells; Standing is how it is as it lies,
	// which decides every colour. Where they differ the badge is hollow, and Word says why.
	Grade, Standing, Word string
	// Tape is the colour of the tape at both ends in the user's words; blank for none.
	Tape string
	// Multicore links are known on stage by their name and the colour of their tape: their labels always bear it.
	Multicore bool
	// Transport is what the link carries.
	Transport plan.TransportID
	From, To  plan.DeviceID
	// Loom is the loom that it lies in, if any.
	Loom plan.LoomID
	// Way holds the way points between the two devices; none is a straight way.
	Way []geom.Point
	// Joins are where cables join, as shares 0…1 of the run.
	Joins []float64
	// Reached is the share of the run that cable reaches; 1 when nothing is missing.
	Reached float64
	// Done is the last step done on site, blank for none.
	Done string
	// Levels are those of its two devices.
	Levels [2]plan.LevelID
}

// Shifted returns the figure with its way moved by metres.
func (l LinkFigure) Shifted(by geom.Point) LinkFigure {
	way := make([]geom.Point, len(l.Way))
	for i, at := range l.Way {
		way[i] = at.Add(by)
	}
	l.Way = way
	return l
}

// key tells which links lie in one lane group: those through the same way points, or between the same devices.
func (l LinkFigure) key() (key string, turned bool) {
	if len(l.Way) == 0 {
		if l.From > l.To {
			return string(l.To) + "|" + string(l.From), true
		}
		return string(l.From) + "|" + string(l.To), false
	}
	first, last := l.Way[0], l.Way[len(l.Way)-1]
	turned = last.X < first.X || (last.X == first.X && last.Y < first.Y)
	if first == last { // a single way point tells no direction, its devices do
		turned = l.From > l.To
	}
	return wayKey(l.Way, turned), turned
}

func (s *Scene) bound() {
	box := geom.EmptyBox()
	for _, area := range s.Areas {
		box = box.Union(geom.BoxOf(area.Corners...))
	}
	for _, position := range s.Positions {
		box = box.Union(position.Outline)
	}
	for _, device := range s.Devices {
		box = box.Include(device.At)
	}
	for _, link := range s.Links {
		box = box.Union(geom.BoxOf(link.Way...))
	}
	for _, loom := range s.Looms {
		box = box.Union(geom.BoxOf(loom.Route...))
	}
	if box.Empty() {
		for _, image := range s.Images {
			box = box.Union(geom.BoxOf(image.Corners[:]...))
		}
	}
	if box.Empty() {
		box = geom.BoxAround(geom.Point{}, 40, 30)
	}
	s.Bounds = box
}
