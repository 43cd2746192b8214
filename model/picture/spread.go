package picture

import (
	"math"

	"stageloom/model/geom"
)

// deviceGap is the free space in points kept between device boxes.
const deviceGap = 7.0

// spreadRounds bounds the pushing apart; a heap that has not settled by then is set out one by one.
const spreadRounds = 40

// spread pushes boxes apart until none covers another, each as little as it can. Boxes are moved in place; the
// order of the boxes decides ties, so the same plan always spreads alike.
func spread(boxes []geom.Box) {
	if len(boxes) < 2 {
		return
	}
	cell := 1.0
	for _, box := range boxes {
		cell = max(cell, box.Width()+deviceGap, box.Height()+deviceGap)
	}
	for range spreadRounds {
		if !spreadOnce(boxes, cell) {
			return
		}
	}
	setOut(boxes)
}

// setOut puts each box in turn at the free place nearest to where it lies.
func setOut(boxes []geom.Box) {
	placed := newObstacles()
	for i, box := range boxes {
		boxes[i] = nearestFree(box, placed)
		placed.add(boxes[i].Inset(-deviceGap / 2))
	}
}

// nearestFree searches rings of places round a box; there is always one, since the ground has no end.
func nearestFree(box geom.Box, placed *obstacles) geom.Box {
	stepX, stepY := box.Width()/4+deviceGap, box.Height()/2+deviceGap
	for ring := 0; ; ring++ {
		for dy := -ring; dy <= ring; dy++ {
			for dx := -ring; dx <= ring; dx++ {
				if max(dx, -dx) != ring && max(dy, -dy) != ring {
					continue
				}
				at := box.Shift(geom.Point{X: float64(dx) * stepX, Y: float64(dy) * stepY})
				if placed.free(at.Inset(-deviceGap / 2)) {
					return at
				}
			}
		}
	}
}

type cellKey struct{ x, y int }

func spreadOnce(boxes []geom.Box, cell float64) bool {
	grid := make(map[cellKey][]int, len(boxes))
	moved := false
	for i := range boxes {
		centre := boxes[i].Centre()
		at := cellKey{int(math.Floor(centre.X / cell)), int(math.Floor(centre.Y / cell))}
		for dx := -1; dx <= 1; dx++ {
			for dy := -1; dy <= 1; dy++ {
				for _, j := range grid[cellKey{at.x + dx, at.y + dy}] {
					moved = pushApart(&boxes[j], &boxes[i]) || moved
				}
			}
		}
		centre = boxes[i].Centre()
		at = cellKey{int(math.Floor(centre.X / cell)), int(math.Floor(centre.Y / cell))}
		grid[at] = append(grid[at], i)
	}
	return moved
}

// pushApart moves two boxes away from each other along the axis that costs least.
func pushApart(a, b *geom.Box) bool {
	ca, cb := a.Centre(), b.Centre()
	overX := (a.Width()+b.Width())/2 + deviceGap - math.Abs(cb.X-ca.X)
	overY := (a.Height()+b.Height())/2 + deviceGap - math.Abs(cb.Y-ca.Y)
	if overX <= 1e-6 || overY <= 1e-6 {
		return false
	}
	push := geom.Point{Y: math.Copysign(overY/2+1e-3, cb.Y-ca.Y)}
	if overX < overY {
		push = geom.Point{X: math.Copysign(overX/2+1e-3, cb.X-ca.X)}
	}
	*a, *b = a.Shift(push.Scale(-1)), b.Shift(push)
	return true
}
