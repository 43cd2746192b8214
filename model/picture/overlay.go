package picture

import (
	"slices"

	"stageloom/model/geom"
	"stageloom/model/plan"
)

// Overlay draws what moves on top of a picture that hides it: devices shifted by metres, and their links as
// figures reckoned for this moment. Labels keep clear of what stands still and of each other.
func (p *Picture) Overlay(moving plan.Moving, by geom.Point, links []LinkFigure) []Mark {
	a := p.arrangement
	o := &Picture{View: p.View, arrangement: a, options: p.options, blocked: p.blocked.clone(), bearer: p.bearer, leaders: slices.Clone(p.leaders)}
	o.options.Hidden = nil
	shift := geom.Point{X: by.X * a.Scale, Y: -by.Y * a.Scale}
	boxes := make(map[plan.DeviceID]geom.Box, len(moving.Devices))
	place := func(id plan.DeviceID) {
		box := a.boxes[id]
		if moving.Devices[id] {
			box = box.Shift(shift)
		}
		boxes[id] = box
	}
	for id := range moving.Devices {
		place(id)
		o.blocked.add(boxes[id].Shift(p.offset()))
	}
	o.movingOutlines(moving, by)
	offsets := a.laneOf()
	paths := make([][]geom.Point, len(links))
	for i := range links {
		place(links[i].From)
		place(links[i].To)
		paths[i] = o.inView(a.pathOf(&links[i], offsets[links[i].ID], boxes).points)
		ref := Ref{Table: plan.LinksTable, Key: plan.Key(links[i].ID)}
		if p.lacksLink(&links[i]) {
			paths[i] = nil
		}
		if len(paths[i]) > 1 {
			o.Marks = append(o.Marks, linkMarks(ref, &links[i], paths[i], p.options.Selected[ref], a.dense())...)
		}
	}
	o.Marks = append(o.Marks, p.crossedBy(paths)...)
	o.movingBlocks(moving, shift)
	o.movingDevices(moving, boxes)
	o.labelMoving(links, paths)
	return o.Marks
}

// labelMoving sets the labels of links that are seen.
func (o *Picture) labelMoving(links []LinkFigure, paths [][]geom.Point) {
	if o.options.Plain || o.options.LeftOut.Labels {
		return
	}
	for i := range links {
		if len(paths[i]) > 1 {
			o.label(&links[i], paths[i], o.blocked)
		}
	}
	o.tapes()
}

func (o *Picture) movingOutlines(moving plan.Moving, by geom.Point) {
	for _, position := range o.arrangement.Scene.Positions {
		if !moving.Positions[position.ID] || o.lacksPosition(position) {
			continue
		}
		outline := position.Outline.Shift(by)
		box := geom.BoxOf(o.View.Point(outline.Min), o.View.Point(outline.Max))
		o.add(Mark{
			Ref: Ref{Table: plan.PositionsTable, Key: plan.Key(position.ID)}, Shape: Panel, Edge: RoleSelected,
			Points: []geom.Point{box.Min, box.Max}, Radius: 6,
		})
	}
}

// movingBlocks draws the heads of blocks that move, and the rows of what they count.
func (o *Picture) movingBlocks(moving plan.Moving, shift geom.Point) {
	for i := range o.arrangement.blocks {
		b := &o.arrangement.blocks[i]
		position := &o.arrangement.Scene.Positions[b.position]
		if o.arrangement.Dots || b.others > 0 || !moving.Positions[position.ID] || o.lacksPosition(*position) {
			continue
		}
		ref, by := positionRef(position.ID), o.offset().Add(shift)
		box := b.box.Shift(by)
		if b.loose == 0 {
			o.add(Mark{Ref: ref, Shape: Panel, Role: RoleDeviceFill, Edge: RoleSelected, Points: []geom.Point{box.Min, box.Max}, Radius: 5})
		}
		o.blockHead(b, ref, b.head.Shift(by))
		if b.more > 0 {
			last := &o.arrangement.Scene.Devices[b.rows[mostRows-1]]
			o.row(Ref{Table: plan.DevicesTable, Key: plan.Key(last.ID)}, last, "and "+count(b.more)+" more", o.arrangement.boxes[last.ID].Shift(by), b.loose, false)
		}
	}
}

func (o *Picture) movingDevices(moving plan.Moving, boxes map[plan.DeviceID]geom.Box) {
	for i := range o.arrangement.Scene.Devices {
		device := &o.arrangement.Scene.Devices[i]
		if !moving.Devices[device.ID] || o.lacksDevice(device) {
			continue
		}
		ref := Ref{Table: plan.DevicesTable, Key: plan.Key(device.ID)}
		box := boxes[device.ID].Shift(o.offset())
		if o.arrangement.counted(device.ID) {
			continue
		}
		o.add(deviceMark(ref, box, o.arrangement.Dots, true))
		if !o.arrangement.Dots {
			o.deviceWords(ref, device, box, o.arrangement.widths[i])
		}
		if device.ID == o.bearer {
			o.Marks = append(o.Marks, o.portMarks(device, box)...)
		}
	}
}

// laneOf returns the lane offset of each link.
func (a *Arrangement) laneOf() map[plan.LinkID]float64 {
	offsets := make(map[plan.LinkID]float64, len(a.offsets))
	for i := range a.Scene.Links {
		offsets[a.Scene.Links[i].ID] = a.offsets[i]
	}
	return offsets
}

// crossedBy returns the marks of the devices and labels that lines would cross, to be drawn on top of them again.
func (p *Picture) crossedBy(paths [][]geom.Point) []Mark {
	var marks []Mark
	for _, solid := range p.solids {
		for _, path := range paths {
			if geom.Polyline(path).Meets(solid.box) {
				marks = append(marks, p.Marks[solid.from:solid.to]...)
				break
			}
		}
	}
	return marks
}
