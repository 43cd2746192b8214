package picture

import (
	"slices"

	"stageloom/model/geom"
)

// obstacles is a set of boxes that labels must keep clear of, gridded so that asking is cheap. What lies outside its
// ground is kept in the outermost cells.
type obstacles struct {
	origin     geom.Point
	cell       float64
	cols, rows int
	cells      [][]geom.Box
}

// obstacleCell is the least side of a cell in points: about a label's width. mostCells bounds their number.
const (
	obstacleCell = 64.0
	mostCells    = 4096
)

func newObstacles(ground geom.Box) *obstacles {
	o := &obstacles{origin: ground.Min, cell: obstacleCell}
	for ground.Width()/o.cell*(ground.Height()/o.cell) > mostCells {
		o.cell *= 2
	}
	o.cols, o.rows = int(ground.Width()/o.cell)+1, int(ground.Height()/o.cell)+1
	o.cells = make([][]geom.Box, o.cols*o.rows)
	return o
}

// within is the range of cells that a box touches.
func (o *obstacles) within(box geom.Box) (left, top, right, bottom int) {
	column := func(x float64) int { return min(max(int((x-o.origin.X)/o.cell), 0), o.cols-1) }
	row := func(y float64) int { return min(max(int((y-o.origin.Y)/o.cell), 0), o.rows-1) }
	return column(box.Min.X), row(box.Min.Y), column(box.Max.X), row(box.Max.Y)
}

func (o *obstacles) add(box geom.Box) {
	left, top, right, bottom := o.within(box)
	for y := top; y <= bottom; y++ {
		for x := left; x <= right; x++ {
			o.cells[y*o.cols+x] = append(o.cells[y*o.cols+x], box)
		}
	}
}

func (o *obstacles) free(box geom.Box) bool {
	left, top, right, bottom := o.within(box)
	for y := top; y <= bottom; y++ {
		for x := left; x <= right; x++ {
			for i := range o.cells[y*o.cols+x] {
				other := &o.cells[y*o.cols+x][i]
				if box.Min.X < other.Max.X && other.Min.X < box.Max.X && box.Min.Y < other.Max.Y && other.Min.Y < box.Max.Y {
					return false
				}
			}
		}
	}
	return true
}

// clone returns a copy that can be added to; what it shares is never written.
func (o *obstacles) clone() *obstacles {
	copied := *o
	copied.cells = slices.Clone(o.cells)
	for i, boxes := range copied.cells {
		copied.cells[i] = boxes[:len(boxes):len(boxes)]
	}
	return &copied
}
