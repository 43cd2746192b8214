package picture

import (
	"cmp"
	"slices"

	"stageloom/model/geom"
	"stageloom/model/plan"
)

// outlines draws the outlines of positions, the smaller over the larger and what is selected over all, and lets a pointer hit
// them: their edges before any area and before the inside of another.
func (p *Picture) outlines() {
	order := make([]*PositionFigure, len(p.arrangement.Scene.Positions))
	for i := range order {
		order[i] = &p.arrangement.Scene.Positions[i]
	}
	size := func(f *PositionFigure) float64 { return f.Outline.Width() * f.Outline.Height() }
	slices.SortStableFunc(order, func(a, b *PositionFigure) int {
		if x, y := p.options.Selected[positionRef(a.ID)], p.options.Selected[positionRef(b.ID)]; x != y {
			if x {
				return 1
			}
			return -1
		}
		return cmp.Compare(size(b), size(a))
	})
	for _, position := range order {
		p.outline(position)
	}
	p.fade()
}

func positionRef(id plan.PositionID) Ref {
	return Ref{Table: plan.PositionsTable, Key: plan.Key(id)}
}

func (p *Picture) outline(position *PositionFigure) {
	box := p.outlineOf(*position)
	if !p.visible(box) || p.lacksPosition(*position) {
		return
	}
	ref := positionRef(position.ID)
	p.targets = append(p.targets, target{ref: ref, rank: rankPosition, box: box})
	edge, rank := RolePositionEdge, rankEdge
	if p.options.Selected[ref] {
		edge, rank = RoleSelected, rankSelectedEdge
	}
	if box.Width() > 0 && box.Height() > 0 {
		around := []geom.Point{box.Min, {X: box.Max.X, Y: box.Min.Y}, box.Max, {X: box.Min.X, Y: box.Max.Y}, box.Min}
		p.targets = append(p.targets, target{ref: ref, rank: rank, box: box.Inset(-hitDistance), points: around})
	}
	if p.hidesPosition(position.ID) {
		return
	}
	p.fade(position.Level)
	p.add(Mark{Ref: ref, Shape: Panel, Edge: edge, Points: []geom.Point{box.Min, box.Max}, Radius: 6})
}

// outlineOf is a position's outline in the view, true on the ground whatever the boxes of its devices need.
func (p *Picture) outlineOf(position PositionFigure) geom.Box {
	return geom.BoxOf(p.View.Point(position.Outline.Min), p.View.Point(position.Outline.Max))
}

// hollowOutlines draws selected positions without a device once more, over the boxes of others that they lie under.
func (p *Picture) hollowOutlines() {
	for i := range p.arrangement.Scene.Positions {
		position := &p.arrangement.Scene.Positions[i]
		ref, box := positionRef(position.ID), p.outlineOf(*position)
		holds := func(device DeviceFigure) bool { return device.Position == position.ID && !device.Unplaced }
		if !p.options.Selected[ref] || p.hidesPosition(position.ID) || !p.visible(box) || slices.ContainsFunc(p.arrangement.Scene.Devices, holds) {
			continue
		}
		p.add(Mark{Ref: ref, Shape: Panel, Edge: RoleSelected, Points: []geom.Point{box.Min, box.Max}, Radius: 6})
	}
}

// PositionAt returns the outline on the ground of the position whose box of rows lies under a point of the view; of several
// that one box stands for it is the nearest.
func (p *Picture) PositionAt(at geom.Point) (id plan.PositionID, outline geom.Box, found bool) {
	a, metres := p.arrangement, p.View.Metres(at)
	nearest := 0.0
	for i := range a.blocks {
		b := &a.blocks[i]
		if a.Dots || b.loose > 0.5 || !b.box.Shift(p.offset()).Contains(at) {
			continue
		}
		for _, row := range b.rows {
			for j := range a.Scene.Positions {
				position := &a.Scene.Positions[j]
				if position.ID != a.Scene.Devices[row].Position {
					continue
				}
				if away := metres.Distance(Within(metres, position.Outline)); !found || away < nearest {
					id, outline, found, nearest = position.ID, position.Outline, true, away
				}
			}
		}
	}
	return id, outline, found
}

// Within is the point of an outline that is nearest to one, a little inside.
func Within(at geom.Point, outline geom.Box) geom.Point {
	if outline.Contains(at) {
		return at
	}
	in := min(0.25, outline.Width()/4, outline.Height()/4)
	return geom.Point{
		X: max(outline.Min.X+in, min(outline.Max.X-in, at.X)),
		Y: max(outline.Min.Y+in, min(outline.Max.Y-in, at.Y)),
	}
}
