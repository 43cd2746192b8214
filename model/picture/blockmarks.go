package picture

import (
	"strconv"

	"stageloom/model/geom"
	"stageloom/model/plan"
)

func count(n int) string { return strconv.Itoa(n) }

// gathered draws the boxes of gathered positions, over the links; the rows of what is hidden stay blank.
func (p *Picture) gathered() {
	for i := range p.arrangement.blocks {
		b := &p.arrangement.blocks[i]
		position := &p.arrangement.Scene.Positions[b.position]
		box := b.box.Shift(p.offset())
		if p.arrangement.Dots || !p.visible(box) || p.moves(b) {
			continue
		}
		p.blockLeader(b, position, box)
		p.fade(position.Level)
		p.solidly(box, func() { p.block(b, position, box) })
		p.fade()
	}
}

// moves reports whether a block moves as a whole; one that stands for several positions stays while one of them does.
func (p *Picture) moves(b *block) bool {
	return b.others == 0 && p.hidesPosition(p.arrangement.Scene.Positions[b.position].ID)
}

// blockLeader ties a box that had to move to where its position is.
func (p *Picture) blockLeader(b *block, position *PositionFigure, box geom.Box) {
	at := p.arrangement.middleOf(b).Add(p.offset())
	if box.Contains(at) {
		return
	}
	ref := positionRef(position.ID)
	p.add(Mark{Ref: ref, Shape: Stroke, Role: RoleLeader, Points: []geom.Point{at, edgePoint(box.Centre(), at, box)}})
	p.add(Mark{Ref: ref, Shape: Fill, Role: RoleDeviceDot, Points: ring(at, 2.5, 10, 0)})
}

func (p *Picture) block(b *block, position *PositionFigure, box geom.Box) {
	ref := positionRef(position.ID)
	edge := RoleDeviceEdge
	if p.options.Selected[ref] || b.heads && p.anySelected(b.rows) {
		edge = RoleSelected
	}
	if b.loose == 0 { // else the outline on the ground holds them
		p.add(Mark{Ref: ref, Shape: Panel, Role: RoleDeviceFill, Edge: edge, Points: []geom.Point{box.Min, box.Max}, Radius: 5})
	}
	head := b.head.Shift(p.offset())
	p.blockHead(b, ref, head)
	p.targets = append(p.targets, target{ref: ref, rank: rankDevice, box: head})
	p.rows(b)
}

// blockHead names a position and says what its box counts.
func (p *Picture) blockHead(b *block, ref Ref, head geom.Box) {
	scale, inner := p.arrangement.textScale, head.Inset(0.6)
	p.add(Mark{Ref: ref, Shape: Panel, Role: RoleHeadFill, Points: []geom.Point{inner.Min, inner.Max}, Radius: 4})
	said, room := b.counted(), head.Width()-2*rowInset*scale
	if said != "" {
		room -= p.arrangement.measure(said, headSize*scale, false) + 8*scale
		p.add(Mark{
			Ref: ref, Shape: Words, Role: RoleHeadText, Points: []geom.Point{{X: head.Max.X - rowInset*scale, Y: head.Centre().Y}},
			Text: said, Size: headSize * scale, Anchor: Right,
		})
	}
	p.add(Mark{
		Ref: ref, Shape: Words, Role: RoleHeadText, Points: []geom.Point{{X: head.Min.X + rowInset*scale, Y: head.Centre().Y}},
		Text: Shortened(p.arrangement.nameOf(b), room, headSize*scale, false, p.arrangement.measure), Size: headSize * scale, Anchor: Left,
	})
}

// anySelected reports whether one of these devices is selected.
func (p *Picture) anySelected(rows []int) bool {
	for _, row := range rows {
		if p.options.Selected[Ref{Table: plan.DevicesTable, Key: plan.Key(p.arrangement.Scene.Devices[row].ID)}] {
			return true
		}
	}
	return false
}

// rows draws the rows of a block; devices that it only counts are there for a band alone.
func (p *Picture) rows(b *block) {
	for n, row := range b.rows {
		device := &p.arrangement.Scene.Devices[row]
		if p.lacksDevice(device) {
			continue
		}
		ref, box := Ref{Table: plan.DevicesTable, Key: plan.Key(device.ID)}, p.boxOf(device.ID)
		counted := b.counts(n)
		p.targets = append(p.targets, target{ref: ref, rank: rankDevice, box: box, silent: counted})
		if !counted && !p.hides(device.ID) {
			p.row(ref, device, device.Name, box, b.loose, p.options.Selected[ref])
		}
	}
	if b.more > 0 {
		last := b.rows[mostRows-1]
		device, ref := &p.arrangement.Scene.Devices[last], positionRef(p.arrangement.Scene.Positions[b.position].ID)
		box := p.boxOf(device.ID) // which a click takes for the position
		p.targets = append(p.targets, target{ref: ref, rank: rankDevice, box: box})
		p.row(Ref{Table: plan.DevicesTable, Key: plan.Key(device.ID)}, device, "and "+count(b.more)+" more", box, b.loose, p.anySelected(b.rows[mostRows-1:]))
	}
}

// counts reports whether a device of a block, by its place in it, has no row of its own.
func (b *block) counts(n int) bool { return b.heads || b.more > 0 && n >= mostRows-1 }

// counted reports whether a device is only counted where several are.
func (a *Arrangement) counted(id plan.DeviceID) bool {
	b, rowed := a.rowed(id)
	if !rowed || len(b.rows) == 1 || !b.heads && b.more == 0 {
		return false
	}
	for n, row := range b.rows {
		if a.Scene.Devices[row].ID == id {
			return b.counts(n)
		}
	}
	return false
}

// row draws one row: a line over it, what the device does as a pictogram, and its name.
func (p *Picture) row(ref Ref, device *DeviceFigure, words string, box geom.Box, loose float64, selected bool) {
	switch {
	case selected:
		inner := box.Inset(1)
		p.add(Mark{Ref: ref, Shape: Panel, Role: RoleDeviceFill, Edge: RoleSelected, Points: []geom.Point{inner.Min, inner.Max}, Radius: 4})
	case loose > 0:
		p.add(Mark{Ref: ref, Shape: Panel, Role: RoleDeviceFill, Edge: RoleDeviceEdge, Points: []geom.Point{box.Min, box.Max}, Radius: 5})
	default:
		p.add(Mark{Ref: ref, Shape: Stroke, Role: RoleRowRule, Points: []geom.Point{box.Min, {X: box.Max.X, Y: box.Min.Y}}})
	}
	p.rowWords(ref, device.Pictogram, words, box)
}

// rowWords writes a name with what its device does before it.
func (p *Picture) rowWords(ref Ref, pictogram, words string, box geom.Box) {
	scale := p.arrangement.textScale
	left := box.Min.X + rowInset*scale
	side := min(pictoSize*scale, box.Height()-4)
	p.pictogram(ref, pictogram, geom.BoxAround(geom.Point{X: left + side/2, Y: box.Centre().Y}, side, side))
	left += side + rowInset*scale
	p.add(Mark{
		Ref: ref, Shape: Words, Role: RoleDeviceText, Points: []geom.Point{{X: left, Y: box.Centre().Y}}, Anchor: Left, Bold: true,
		Text: Shortened(words, box.Max.X-4*scale-left, deviceTextSize*scale, true, p.arrangement.measure), Size: deviceTextSize * scale,
	})
}

// pictogram draws what a device does in a square.
func (p *Picture) pictogram(ref Ref, name string, box geom.Box) {
	for _, stroke := range Pictogram(name) {
		points := make([]geom.Point, len(stroke.Points))
		for i, at := range stroke.Points {
			points[i] = geom.Point{X: box.Min.X + at.X*box.Width(), Y: box.Min.Y + at.Y*box.Height()}
		}
		m := Mark{Ref: ref, Shape: Stroke, Role: RolePictogram, Points: points}
		if stroke.Filled {
			m.Shape = Fill
		}
		p.add(m)
	}
}
