package picture

import (
	"stageloom/model/geom"
	"stageloom/model/plan"
)

const joinTick = 10.0

func (p *Picture) links() {
	for i := range p.arrangement.Scene.Links {
		link := &p.arrangement.Scene.Links[i]
		points := p.inView(p.arrangement.paths[i].points)
		ref := Ref{Table: plan.LinksTable, Key: plan.Key(link.ID)}
		if len(points) < 2 || !p.visible(geom.BoxOf(points...)) || p.lacksLink(link) || p.folded(link) {
			continue
		}
		p.targets = append(p.targets, target{ref: ref, rank: rankLink, box: geom.BoxOf(points...).Inset(-hitDistance), points: points})
		if p.hidesLink(link.ID) {
			continue
		}
		p.fadeLink(link)
		for _, m := range linkMarks(ref, link, points, p.options.Selected[ref], p.arrangement.dense()) {
			p.add(m)
		}
		p.fade()
		if p.options.Selected[ref] {
			p.wayPoints(link)
		}
	}
}

// linkMarks draws a link along a path: casing unless the picture is dense, halo when selected, what cable reaches,
// what is missing, the joins, what is done on site.
func linkMarks(ref Ref, link *LinkFigure, points []geom.Point, selected, dense bool) []Mark {
	roles := rolesOf(link.Standing)
	way := geom.Polyline(points)
	length := way.Length()
	var marks []Mark
	if !dense {
		marks = append(marks, Mark{Ref: ref, Shape: Stroke, Role: RoleLinkCasing, Points: points})
	}
	if selected {
		marks = append(marks, Mark{Ref: ref, Shape: Stroke, Role: RoleLinkHalo, Points: points})
	}
	reached := points
	if link.Reached < 1 && link.Grade != "uncabled" {
		reached = way.Cut(0, length*link.Reached)
		marks = append(marks, Mark{Ref: ref, Shape: Stroke, Role: RoleLinkMissing, Points: way.Cut(length*link.Reached, length)})
	}
	if len(reached) > 1 {
		marks = append(marks, Mark{Ref: ref, Shape: Stroke, Role: roles.link, Points: reached})
	}
	for _, share := range link.Joins {
		at, along := way.At(length * share)
		side := along.Perpendicular().Scale(joinTick / 2)
		marks = append(marks, Mark{Ref: ref, Shape: Stroke, Role: roles.join, Points: []geom.Point{at.Add(side), at.Sub(side)}})
	}
	return append(marks, doneMarks(ref, link, points)...)
}

// wayPoints draws the handles of a selected link.
func (p *Picture) wayPoints(link *LinkFigure) {
	for i, metres := range link.Way {
		at := p.View.Point(metres)
		ref := Ref{Table: plan.LinksTable, Key: plan.Key(link.ID), Part: wayPart(i + 1)}
		p.add(Mark{Ref: ref, Shape: Fill, Role: RoleHandle, Points: ring(at, 4.5, 12, 0)})
		p.targets = append(p.targets, target{ref: ref, rank: rankPort, box: geom.BoxAround(at, 12, 12)})
	}
}

// folded reports whether a link lies within one block, where it is counted and not drawn unless it is selected.
func (p *Picture) folded(link *LinkFigure) bool {
	return p.arrangement.within(link) && !p.options.Selected[Ref{Table: plan.LinksTable, Key: plan.Key(link.ID)}]
}
