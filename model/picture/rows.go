package picture

import (
	"stageloom/model/geom"
)

// Sizes of a gathered position in points: its head, a row a device with its pictogram, and the gaps beside them.
const (
	headHeight = 19.0
	rowHeight  = 21.0
	rowInset   = 7.0
	pictoSize  = 16.0
	headSize   = 10.5
	widestRow  = 200.0
)

// mostRows is how many rows a gathered position has; the last counts those that have none.
const mostRows = 12

// layOut gives a block its box about the middle of its position's outline and its devices their rows.
func (a *Arrangement) layOut(b *block, boxes []geom.Box) {
	head := a.measure(a.nameOf(b), headSize*a.textScale, false) + a.measure(b.counted(), headSize*a.textScale, false) + (2*rowInset+14)*a.textScale
	width := head
	if b.heads {
		width += 2 * rowInset * a.textScale
	}
	for _, row := range b.rows {
		if !b.heads {
			width = max(width, a.measure(a.Scene.Devices[row].Name, deviceTextSize*a.textScale, true)+(3*rowInset+pictoSize)*a.textScale)
		}
	}
	width = min(width, widestRow*a.textScale)
	shown := min(len(b.rows), mostRows)
	if b.heads {
		shown = 0
	}
	b.more = 0
	if shown < len(b.rows) && !b.heads {
		b.more = len(b.rows) - shown + 1
	}
	b.box = geom.BoxAround(a.middleOf(b), width, (headHeight+float64(shown)*rowHeight)*a.textScale)
	b.head = geom.BoxOf(b.box.Min, geom.Point{X: b.box.Max.X, Y: b.box.Min.Y + headHeight*a.textScale})
	whole := geom.EmptyBox()
	for n, row := range b.rows {
		place := b.head
		if !b.heads {
			top := b.box.Min.Y + (headHeight+float64(min(n, shown-1))*rowHeight)*a.textScale
			place = geom.BoxOf(geom.Point{X: b.box.Min.X, Y: top}, geom.Point{X: b.box.Max.X, Y: top + rowHeight*a.textScale})
		}
		if b.loose > 0 {
			place = between(place, geom.BoxAround(a.world(a.Scene.Devices[row].At), a.widths[row], shortHeight*a.textScale), b.loose)
		}
		boxes[row] = place
		whole = whole.Union(place)
	}
	if b.loose > 0 {
		a.loosen(b, whole, head)
	}
}

// loosen puts the head of a block over rows on their way to where the devices stand.
func (a *Arrangement) loosen(b *block, whole geom.Box, head float64) {
	gap := outlineGap * b.loose
	b.head = geom.BoxOf(geom.Point{X: whole.Min.X - gap, Y: whole.Min.Y - gap - headHeight*a.textScale}, geom.Point{X: max(whole.Max.X+gap, whole.Min.X-gap+head), Y: whole.Min.Y - gap})
	b.box = whole.Inset(-gap).Union(b.head)
}

func between(a, b geom.Box, share float64) geom.Box {
	return geom.Box{Min: a.Min.Between(b.Min, share), Max: a.Max.Between(b.Max, share)}
}

// nameOf is what the head of a block says.
func (a *Arrangement) nameOf(b *block) string {
	name := a.Scene.Positions[b.position].Name
	if b.others > 0 {
		name += " and " + count(b.others) + " more"
	}
	return name
}

// middleOf is where a block stands unless it is pushed aside, in points.
func (a *Arrangement) middleOf(b *block) geom.Point {
	if b.others > 0 {
		return b.at
	}
	return a.world(a.Scene.Positions[b.position].Outline.Centre())
}

// counted is what a head says beside the position's name.
func (b *block) counted() string {
	switch {
	case b.heads && len(b.rows) == 1:
		return "1 device"
	case b.heads:
		return count(len(b.rows)) + " devices"
	case b.inside > 0:
		return count(b.inside) + " inside"
	}
	return ""
}

// settle pushes blocks and the boxes of devices in none apart, and moves the rows of each block with it.
func (a *Arrangement) settle(boxes []geom.Box) {
	units, owner := make([]geom.Box, 0, len(boxes)), make([]int, 0, len(boxes))
	for i := range a.blocks {
		a.layOut(&a.blocks[i], boxes)
		units, owner = append(units, a.blocks[i].box), append(owner, i)
	}
	for i := range boxes {
		if a.blockOf[a.Scene.Devices[i].ID] == 0 {
			units, owner = append(units, boxes[i]), append(owner, i)
		}
	}
	spread(units)
	for n, unit := range units {
		if n >= len(a.blocks) {
			boxes[owner[n]] = unit
			continue
		}
		b := &a.blocks[n]
		by := unit.Min.Sub(b.box.Min)
		b.box, b.head = unit, b.head.Shift(by)
		for _, row := range b.rows {
			boxes[row] = boxes[row].Shift(by)
		}
	}
}
