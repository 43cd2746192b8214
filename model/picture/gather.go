package picture

import (
	"cmp"
	"math"
	"slices"

	"stageloom/model/geom"
	"stageloom/model/plan"
)

// blendOver is over which growth of the scale the rows of a position go to where their devices stand, once these do not lie
// on each other any more.
const blendOver = 0.25

// roomy is how much further apart than they need devices stand before they leave their rows.
const roomy = 1.5

// block is a position whose devices would lie on each other at this scale: a box with a head that names it, and a row a device.
type block struct {
	// position and rows are places in the scene.
	position int
	rows     []int
	// others counts the positions beside the named one, where it stands for several.
	others int
	// at is the middle of what it stands for, in points; a block of one position stands about its outline.
	at geom.Point
	// more counts the devices behind the last row, which have none of their own.
	more int
	// inside counts the links whose two ends are in it.
	inside int
	// loose is how far its rows are on their way to where the devices stand, 0 to 1.
	loose float64
	// heads tells that there is room for the head alone, which counts the devices.
	heads bool
	box   geom.Box
	head  geom.Box
}

// gathering is how much of a gathered position is drawn.
type gathering uint8

// The gatherings, the largest first: all rows, the heads alone, one head for positions whose heads lie on each other, and
// nothing at all, where even those have no room.
const (
	inRows gathering = iota
	asHeads
	inClusters
	byThemselves
)

// gather finds the positions whose devices would lie on each other, and which links are inside.
func (a *Arrangement) gather(form gathering) {
	a.blocks, a.blockOf, a.named = nil, map[plan.DeviceID]int{}, map[plan.PositionID]bool{}
	if !a.Scene.Gathered {
		return
	}
	members := a.members()
	for i := range a.Scene.Positions {
		rows := members[a.Scene.Positions[i].ID]
		if len(rows) == 0 {
			continue
		}
		apart := roomy * a.apartAt(i, rows)
		if a.Scale >= apart*(1+blendOver) {
			continue
		}
		b := block{position: i, rows: rows, heads: form != inRows}
		if form == inRows {
			b.loose = max(0, min(1, (a.Scale/apart-1)/blendOver))
		}
		a.blocks = append(a.blocks, b)
	}
	if form == inClusters {
		a.cluster()
	}
	a.own()
}

// members are the devices of each position as they stand on the ground, from the top of the plan.
func (a *Arrangement) members() map[plan.PositionID][]int {
	members := map[plan.PositionID][]int{}
	for i := range a.Scene.Devices {
		if device := &a.Scene.Devices[i]; device.Position != "" && !device.Unplaced {
			members[device.Position] = append(members[device.Position], i)
		}
	}
	for _, rows := range members {
		slices.SortStableFunc(rows, func(x, y int) int {
			at, other := a.Scene.Devices[x].At, a.Scene.Devices[y].At
			return cmp.Or(cmp.Compare(other.Y, at.Y), cmp.Compare(at.X, other.X))
		})
	}
	return members
}

// own notes which block each device is in, and counts the links inside.
func (a *Arrangement) own() {
	for n := range a.blocks {
		for _, row := range a.blocks[n].rows {
			a.blockOf[a.Scene.Devices[row].ID] = n + 1
			a.named[a.Scene.Devices[row].Position] = true
		}
	}
	for i := range a.Scene.Links {
		link := &a.Scene.Links[i]
		if in := a.blockOf[link.From]; in > 0 && in == a.blockOf[link.To] {
			a.blocks[in-1].inside++
		}
	}
}

// apartAt is the scale from which on the boxes of a position's devices do not lie on each other, each where its device stands;
// a position of one device is a box while its outline has no room for the device's.
func (a *Arrangement) apartAt(position int, rows []int) (scale float64) {
	if len(rows) == 1 {
		outline := a.Scene.Positions[position].Outline
		return (a.widths[rows[0]] + 2*outlineGap) / max(outline.Width(), 1)
	}
	height := shortHeight*a.textScale + deviceGap
	for n, i := range rows {
		for _, j := range rows[:n] {
			away := a.Scene.Devices[i].At.Sub(a.Scene.Devices[j].At)
			across := ((a.widths[i]+a.widths[j])/2 + deviceGap) / math.Abs(away.X)
			scale = max(scale, min(across, height/math.Abs(away.Y)))
		}
	}
	return scale
}

// cluster joins blocks whose heads lie on each other, until none does.
func (a *Arrangement) cluster() {
	boxes := make([]geom.Box, len(a.Scene.Devices))
	for joined := true; joined; {
		joined = false
		for i := range a.blocks {
			a.layOut(&a.blocks[i], boxes)
		}
		for i := 0; i < len(a.blocks) && !joined; i++ {
			for j := i + 1; j < len(a.blocks) && !joined; j++ {
				if a.blocks[i].box.Inset(-deviceGap / 2).Overlaps(a.blocks[j].box.Inset(-deviceGap / 2)) {
					a.blocks[i] = a.joined(&a.blocks[i], &a.blocks[j])
					a.blocks, joined = slices.Delete(a.blocks, j, j+1), true
				}
			}
		}
	}
}

// joined is one block for two, between them by how many devices each has.
func (a *Arrangement) joined(b, other *block) block {
	share := float64(len(other.rows)) / float64(len(b.rows)+len(other.rows))
	return block{
		position: b.position, others: b.others + other.others + 1, at: a.middleOf(b).Between(a.middleOf(other), share),
		rows: append(slices.Clone(b.rows), other.rows...), heads: true,
	}
}

// rowed reports whether a device is a row of a block, and gives the block.
func (a *Arrangement) rowed(id plan.DeviceID) (*block, bool) {
	if n := a.blockOf[id]; n > 0 && !a.Dots {
		return &a.blocks[n-1], true
	}
	return nil, false
}

// crowdedOut reports whether the blocks cover too much of the ground, or were pushed too far, to tell where anything is.
func (a *Arrangement) crowdedOut() bool {
	ground, covered, far := geom.EmptyBox(), 0.0, 0
	for i := range a.blocks {
		b := &a.blocks[i]
		at := a.middleOf(b)
		ground = ground.Include(at)
		covered += (b.box.Width() + deviceGap) * (b.box.Height() + deviceGap)
		outline := a.Scene.Positions[b.position].Outline
		reach := geom.BoxAround(at, outline.Width()*a.Scale, outline.Height()*a.Scale).Inset(-farAway * a.textScale)
		if !reach.Overlaps(b.box) {
			far++
		}
	}
	if len(a.blocks) < 3 {
		return false
	}
	return covered > 0.7*(ground.Width()+400)*(ground.Height()+300) || float64(far) > strayedAbove*float64(len(a.blocks))
}

// headed reports whether a position is named by the head of a block.
func (a *Arrangement) headed(id plan.PositionID) bool { return a.named[id] && !a.Dots }
