package picture

import (
	"stageloom/model/geom"
	"stageloom/model/plan"
)

// SketchMarks draw a link from a port to the pointer: its line in its grade, what it would be in a label, and the
// ports of what lies under the pointer, the one that would take it lit up. A reason is written instead of the label.
func (p *Picture) SketchMarks(from plan.DeviceID, port string, at geom.Point, figure LinkFigure, aim plan.DeviceID, aimPort, reason string) []Mark {
	o := &Picture{View: p.View, arrangement: p.arrangement, options: p.options, blocked: newObstacles(p.View.Box())}
	start := p.boxOf(from).Centre()
	for _, place := range p.PortPlaces(from) {
		if place.Name == port {
			start = place.At
		}
	}
	end := at
	if aim != "" {
		if device := p.figure(aim); device != nil {
			o.Marks = append(o.Marks, p.portMarks(device, p.boxOf(aim))...)
		}
		for _, place := range p.PortPlaces(aim) {
			if place.Name == aimPort {
				end = place.At
				o.add(Mark{Shape: Fill, Role: RoleHandle, Points: ring(end, portSize*0.8, 16, 0)})
			}
		}
	}
	line := []geom.Point{start, end}
	o.Marks = append(o.Marks, linkMarks(Ref{}, &figure, line, true, false)...)
	if reason != "" {
		o.note(reason, at)
		return o.Marks
	}
	o.label(&figure, line, o.blocked)
	return o.Marks
}

func (p *Picture) figure(id plan.DeviceID) *DeviceFigure {
	for i := range p.arrangement.Scene.Devices {
		if p.arrangement.Scene.Devices[i].ID == id {
			return &p.arrangement.Scene.Devices[i]
		}
	}
	return nil
}

// note writes a sentence beside the pointer, inside the view.
func (p *Picture) note(text string, at geom.Point) {
	width, height := p.arrangement.measure(text, placeTextSize, false)+16, placeTextSize+10
	centre := geom.Point{X: at.X + width/2 + 14, Y: at.Y - 16}
	seen := p.View.Box().Inset(p.options.Margin)
	centre.X = max(seen.Min.X+width/2, min(seen.Max.X-width/2, centre.X))
	box := geom.BoxAround(centre, width, height)
	p.add(Mark{Shape: Panel, Role: RoleLabelFill, Edge: RoleSelected, Points: []geom.Point{box.Min, box.Max}, Radius: 4})
	p.add(Mark{Shape: Words, Role: RoleLabelText, Points: []geom.Point{centre}, Text: text, Size: placeTextSize})
}

// WayMarks draw a link along a way that is being drawn, with its way points and its label.
func (p *Picture) WayMarks(figure LinkFigure) []Mark {
	o := &Picture{View: p.View, arrangement: p.arrangement, options: p.options, blocked: newObstacles(p.View.Box())}
	points := o.inView(p.arrangement.pathOf(&figure, 0, p.arrangement.boxes).points)
	o.Marks = append(o.Marks, linkMarks(Ref{}, &figure, points, true, false)...)
	for _, at := range figure.Way {
		o.add(Mark{Shape: Fill, Role: RoleHandle, Points: ring(p.View.Point(at), 4.5, 12, 0)})
	}
	if len(points) > 1 {
		o.label(&figure, points, o.blocked)
	}
	return o.Marks
}

// RingMark is a ring round the way point that keys work on.
func (p *Picture) RingMark(metres geom.Point) Mark {
	round := ring(p.View.Point(metres), 8.5, 20, 0)
	return Mark{Shape: Stroke, Role: RoleSelected, Points: append(round, round[0])}
}

// RulerMarks draw a measured line with its length in words.
func (p *Picture) RulerMarks(from, to geom.Point, words string) []Mark {
	o := &Picture{View: p.View, arrangement: p.arrangement, options: p.options}
	a, b := p.View.Point(from), p.View.Point(to)
	o.add(Mark{Shape: Stroke, Role: RoleSelected, Points: []geom.Point{a, b}})
	for _, end := range []geom.Point{a, b} {
		o.add(Mark{Shape: Fill, Role: RoleHandle, Points: ring(end, 3.5, 12, 0)})
	}
	o.note(words, b)
	return o.Marks
}

// CornerMarks write a note into the lower right corner of a view.
func CornerMarks(v View, words string, measure Measure) []Mark {
	width := measure(words, placeTextSize, false) + 16
	box := geom.BoxAround(geom.Point{X: v.Width - 12 - width/2, Y: v.Height - 22}, width, placeTextSize+10)
	return []Mark{
		{Shape: Panel, Role: RoleLabelFill, Edge: RoleAreaEdge, Points: []geom.Point{box.Min, box.Max}, Radius: 4},
		{Shape: Words, Role: RoleScaleText, Points: []geom.Point{box.Centre()}, Text: words, Size: placeTextSize},
	}
}

// EmptyMarks say in the middle of a view of nothing what to do first.
func EmptyMarks(v View, words string) []Mark {
	middle := geom.Point{X: v.Width / 2, Y: v.Height / 2}
	return []Mark{{Shape: Words, Role: RoleAreaText, Points: []geom.Point{middle}, Text: words, Size: deviceTextSize}}
}
