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
	for range spreadRounds {
		if !spreadOnce(boxes) {
			return
		}
	}
	setOut(boxes)
}

// groundOf is the box that holds all boxes.
func groundOf(boxes []geom.Box) geom.Box {
	ground := geom.EmptyBox()
	for _, box := range boxes {
		ground = ground.Union(box)
	}
	return ground
}

// setOut puts each box in turn at the free place nearest to where it lies.
func setOut(boxes []geom.Box) {
	placed := newObstacles(groundOf(boxes))
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

// buckets sorts box centres into cells at least as wide and high as the largest box with its gap, so that boxes
// that touch lie in neighbouring cells.
type buckets struct {
	origin     geom.Point
	cell       geom.Point
	cols, rows int
	first      []int32
	next       []int32
}

func newBuckets(boxes []geom.Box) *buckets {
	b := &buckets{next: make([]int32, len(boxes))}
	ground := geom.EmptyBox()
	for _, box := range boxes {
		ground = ground.Include(box.Centre())
		b.cell.X = max(b.cell.X, box.Width()+deviceGap)
		b.cell.Y = max(b.cell.Y, box.Height()+deviceGap)
	}
	b.origin = ground.Min
	// Boxes strewn wide get larger cells rather than many empty ones.
	most := float64(4*len(boxes) + 64)
	for ground.Width()/b.cell.X*(ground.Height()/b.cell.Y) > most {
		b.cell = b.cell.Scale(2)
	}
	b.cols, b.rows = int(ground.Width()/b.cell.X)+1, int(ground.Height()/b.cell.Y)+1
	b.first = make([]int32, b.cols*b.rows)
	for i := range b.first {
		b.first[i] = -1
	}
	return b
}

// at is the cell of a point; what was pushed out of the ground lies in the outermost.
func (b *buckets) at(p geom.Point) (x, y int) {
	x, y = int((p.X-b.origin.X)/b.cell.X), int((p.Y-b.origin.Y)/b.cell.Y)
	return min(max(x, 0), b.cols-1), min(max(y, 0), b.rows-1)
}

func (b *buckets) add(i int, p geom.Point) {
	x, y := b.at(p)
	b.next[i], b.first[y*b.cols+x] = b.first[y*b.cols+x], int32(i)
}

func spreadOnce(boxes []geom.Box) bool {
	b := newBuckets(boxes)
	moved := false
	for i := range boxes {
		x, y := b.at(boxes[i].Centre())
		for cy := max(y-1, 0); cy <= min(y+1, b.rows-1); cy++ {
			for cx := max(x-1, 0); cx <= min(x+1, b.cols-1); cx++ {
				for j := b.first[cy*b.cols+cx]; j >= 0; j = b.next[j] {
					moved = pushApart(&boxes[j], &boxes[i]) || moved
				}
			}
		}
		b.add(i, boxes[i].Centre())
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
