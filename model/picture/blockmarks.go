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
		if p.arrangement.Dots || !p.visible(box) || p.hidesPosition(position.ID) {
			continue
		}
		p.blockLeader(b, position, box)
		p.fade(position.Level)
		p.solidly(box, func() { p.block(b, position, box) })
		p.fade()
	}
}

// blockLeader ties a box that had to move to where its position is.
func (p *Picture) blockLeader(b *block, position *PositionFigure, box geom.Box) {
	at := p.arrangement.middleOf(b).Add(p.offset())
	if box.Contains(at) {
		return
	}
	ref := Ref{Table: plan.PositionsTable, Key: plan.Key(position.ID)}
	p.add(Mark{Ref: ref, Shape: Stroke, Role: RoleLeader, Points: []geom.Point{at, edgePoint(box.Centre(), at, box)}})
	p.add(Mark{Ref: ref, Shape: Fill, Role: RoleDeviceDot, Points: ring(at, 2.5, 10, 0)})
}

func (p *Picture) block(b *block, position *PositionFigure, box geom.Box) {
	ref, scale := Ref{Table: plan.PositionsTable, Key: plan.Key(position.ID)}, p.arrangement.textScale
	head := b.head.Shift(p.offset())
	edge := RoleDeviceEdge
	if p.options.Selected[ref] {
		edge = RoleSelected
	}
	if b.loose == 0 { // else the outline on the ground holds them
		p.add(Mark{Ref: ref, Shape: Panel, Role: RoleDeviceFill, Edge: edge, Points: []geom.Point{box.Min, box.Max}, Radius: 5})
	}
	inner := head.Inset(0.6)
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
	p.targets = append(p.targets, target{ref: ref, rank: rankDevice, box: head})
	if !b.heads {
		p.rows(b)
	}
}

// rows draws the rows of a block.
func (p *Picture) rows(b *block) {
	for n, row := range b.rows {
		device := &p.arrangement.Scene.Devices[row]
		box := p.boxOf(device.ID)
		ref := Ref{Table: plan.DevicesTable, Key: plan.Key(device.ID)}
		if p.lacksDevice(device) {
			continue
		}
		p.targets = append(p.targets, target{ref: ref, rank: rankDevice, box: box})
		if p.hides(device.ID) || b.more > 0 && n > mostRows-1 {
			continue
		}
		words := device.Name
		if b.more > 0 && n == mostRows-1 {
			words = "and " + count(b.more) + " more"
		}
		p.row(ref, device, words, box, b.loose)
	}
}

// row draws one row: a line over it, what the device does as a pictogram, and its name.
func (p *Picture) row(ref Ref, device *DeviceFigure, words string, box geom.Box, loose float64) {
	switch {
	case p.options.Selected[ref]:
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
