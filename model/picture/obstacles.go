package picture

import (
	"math"

	"stageloom/model/geom"
)

// obstacles is a set of boxes that labels must keep clear of, gridded so that asking is cheap.
type obstacles struct {
	cells map[cellKey][]geom.Box
}

const obstacleCell = 64.0

func newObstacles() *obstacles { return &obstacles{map[cellKey][]geom.Box{}} }

func cellsOf(box geom.Box) (low, high cellKey) {
	return cellKey{int(math.Floor(box.Min.X / obstacleCell)), int(math.Floor(box.Min.Y / obstacleCell))},
		cellKey{int(math.Floor(box.Max.X / obstacleCell)), int(math.Floor(box.Max.Y / obstacleCell))}
}

func (o *obstacles) add(box geom.Box) {
	low, high := cellsOf(box)
	for x := low.x; x <= high.x; x++ {
		for y := low.y; y <= high.y; y++ {
			o.cells[cellKey{x, y}] = append(o.cells[cellKey{x, y}], box)
		}
	}
}

func (o *obstacles) free(box geom.Box) bool {
	low, high := cellsOf(box)
	for x := low.x; x <= high.x; x++ {
		for y := low.y; y <= high.y; y++ {
			for _, other := range o.cells[cellKey{x, y}] {
				if box.Min.X < other.Max.X && other.Min.X < box.Max.X && box.Min.Y < other.Max.Y && other.Min.Y < box.Max.Y {
					return false
				}
			}
		}
	}
	return true
}
