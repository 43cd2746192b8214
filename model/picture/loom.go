package picture

import (
	"slices"

	"stageloom/model/geom"
	"stageloom/model/plan"
)

// LoomFigure is a loom as drawn: its route with the devices at its two ends, and the corners where links join it or
// drop off.
type LoomFigure struct {
	ID       plan.LoomID
	Name     string
	From, To plan.DeviceID
	Route    []geom.Point
	Drops    []geom.Point
}

func (s *Scene) looms(p *plan.Plan) {
	for loom := range p.Looms.All() {
		links := p.LoomLinks(loom.ID)
		if len(links) == 0 {
			continue
		}
		figure := LoomFigure{ID: loom.ID, Name: loom.Name, Route: p.LoomRoute(loom.ID)}
		figure.From, figure.To = p.LoomEnds(loom.ID)
		for _, link := range links {
			if points := p.PointsOf(link.ID); len(points) > 0 {
				figure.drop(points[0].At())
				figure.drop(points[len(points)-1].At())
			}
		}
		s.Looms = append(s.Looms, figure)
	}
}

func (f *LoomFigure) drop(at geom.Point) {
	if !slices.Contains(f.Drops, at) {
		f.Drops = append(f.Drops, at)
	}
}

// line is the figure as the line of a link, for its path.
func (f *LoomFigure) line() LinkFigure { return LinkFigure{From: f.From, To: f.To, Way: f.Route} }

func loomRef(id plan.LoomID) Ref { return Ref{Table: plan.LoomsTable, Key: plan.Key(id)} }

// looms marks where links drop off, and draws the route of a selected loom with its handles. A loom that is not
// selected is hit on its marks and its name alone: its links lie along it.
func (p *Picture) looms() {
	for i := range p.arrangement.Scene.Looms {
		loom := &p.arrangement.Scene.Looms[i]
		ref := loomRef(loom.ID)
		if p.lacksLoom(loom) {
			continue
		}
		if p.options.Selected[ref] {
			p.route(loom)
		}
		p.drops(loom)
		if p.options.Selected[ref] {
			p.corners(loom)
		}
	}
}

// drops marks where links drop off, but for places that lie under a device; labels keep off the marks.
func (p *Picture) drops(loom *LoomFigure) {
	var marked []geom.Box
	for _, metres := range loom.Drops {
		at := p.View.Point(metres)
		box := geom.BoxAround(at, dropSize, dropSize)
		if !p.visible(box) || !p.blocked.free(box) {
			continue
		}
		marked = append(marked, box)
		p.add(Mark{Ref: loomRef(loom.ID), Shape: Panel, Role: RoleLabelFill, Edge: RoleLoomDrop, Points: []geom.Point{box.Min, box.Max}, Radius: dropSize / 2})
		p.targets = append(p.targets, target{ref: loomRef(loom.ID), rank: rankLabel, box: box.Inset(-2)})
	}
	for _, box := range marked {
		p.blocked.add(box)
	}
}

// dropSize is the width in points of the mark where links drop off a loom.
const dropSize = 9.0

// corners draws the handles of a selected loom.
func (p *Picture) corners(loom *LoomFigure) {
	for i, metres := range loom.Route {
		at, handle := p.View.Point(metres), Ref{Table: plan.LoomsTable, Key: plan.Key(loom.ID), Part: wayPart(i + 1)}
		p.add(Mark{Ref: handle, Shape: Fill, Role: RoleHandle, Points: ring(at, 5, 12, 0)})
		p.targets = append(p.targets, target{ref: handle, rank: rankPort, box: geom.BoxAround(at, 13, 13)})
	}
}

// route draws the whole route of a selected loom, from device to device, so that corners can be pulled out of it.
func (p *Picture) route(loom *LoomFigure) {
	line := loom.line()
	points := p.inView(p.arrangement.pathOf(&line, 0, p.arrangement.boxes).points)
	if len(points) < 2 {
		return
	}
	ref := loomRef(loom.ID)
	p.add(Mark{Ref: ref, Shape: Stroke, Role: RoleLoomRoute, Points: points})
	p.targets = append(p.targets, target{ref: ref, rank: rankLoom, box: geom.BoxOf(points...).Inset(-hitDistance), points: points})
}

// loomNames writes the name of each loom beside the middle of its route.
func (p *Picture) loomNames(size float64) {
	for i := range p.arrangement.Scene.Looms {
		loom := &p.arrangement.Scene.Looms[i]
		line := loom.line()
		points := p.inView(p.arrangement.pathOf(&line, 0, p.arrangement.boxes).points)
		way := geom.Polyline(points)
		if len(points) < 2 || !p.visible(geom.BoxOf(points...)) || p.lacksLoom(loom) {
			continue
		}
		at, _ := way.At(way.Length() / 2)
		spread := laneGap * float64(1+len(loom.Drops)) // clear of the lanes of its links
		p.nameBeside(loomRef(loom.ID), loom.Name, geom.BoxAround(at, 2*spread, 2*spread), size, RoleLoomText)
	}
}

// LoomMarks draw a loom whose route is being changed: its links along their ways, and the corners.
func (p *Picture) LoomMarks(links []LinkFigure, route []geom.Point) []Mark {
	o := &Picture{View: p.View, arrangement: p.arrangement, options: p.options, blocked: newObstacles(p.View.Box())}
	offsets := p.arrangement.laneOf()
	paths := make([][]geom.Point, len(links))
	for i := range links {
		paths[i] = o.inView(p.arrangement.pathOf(&links[i], offsets[links[i].ID], p.arrangement.boxes).points)
		o.Marks = append(o.Marks, linkMarks(Ref{}, &links[i], paths[i], true, p.arrangement.dense())...)
	}
	o.Marks = append(o.Marks, p.crossedBy(paths)...)
	for _, metres := range route {
		o.add(Mark{Shape: Fill, Role: RoleHandle, Points: ring(p.View.Point(metres), 5, 12, 0)})
	}
	for i := range links {
		if len(paths[i]) > 1 {
			o.label(&links[i], paths[i], o.blocked)
		}
	}
	return o.Marks
}
