package report

import (
	"slices"
	"sort"

	"stageloom/model/geom"
)

// fullestLefts returns the left edges of boxes from which a window can hold the most of them whole. It sweeps the left edge
// over the boxes and keeps, for every upper edge, how many a window there holds, so that it takes n·log n for n boxes.
func fullestLefts(boxes []geom.Box, width, height float64) map[float64]bool {
	lefts := edges(boxes, func(box geom.Box) float64 { return box.Min.X })
	tops := edges(boxes, func(box geom.Box) float64 { return box.Min.Y })
	begins, ends := make([][][2]int, len(lefts)), make([][][2]int, len(lefts))
	for _, box := range boxes {
		first, last := holders(lefts, width, box.Min.X, box.Max.X)
		upper, lower := holders(tops, height, box.Min.Y, box.Max.Y)
		if first <= last && upper <= lower {
			begins[first] = append(begins[first], [2]int{upper, lower})
			ends[last] = append(ends[last], [2]int{upper, lower})
		}
	}
	held, most, fullest := newTally(len(tops)), -1, map[float64]bool{}
	for i, left := range lefts {
		for _, reach := range begins[i] {
			held.add(1, 0, held.size-1, reach, 1)
		}
		if n := held.most[1]; n > most {
			most, fullest = n, map[float64]bool{left: true}
		} else if n == most {
			fullest[left] = true
		}
		for _, reach := range ends[i] {
			held.add(1, 0, held.size-1, reach, -1)
		}
	}
	return fullest
}

// edges are the edges of boxes in rising order, each once.
func edges(boxes []geom.Box, edge func(geom.Box) float64) []float64 {
	all := make([]float64, len(boxes))
	for i, box := range boxes {
		all[i] = edge(box)
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// holders are the first and the last of the edges from which a window of this size holds a box whole.
func holders(edges []float64, size, low, high float64) (first, last int) {
	first = sort.Search(len(edges), func(i int) bool { return edges[i]+size >= high })
	last = sort.Search(len(edges), func(i int) bool { return edges[i] > low }) - 1
	return first, last
}

// tally counts over stretches of places and knows the most that any place has: a tree whose nodes hold the most below them.
type tally struct {
	size       int
	most, here []int
}

func newTally(size int) *tally {
	return &tally{size: size, most: make([]int, 4*size+4), here: make([]int, 4*size+4)}
}

// add adds to all places of a reach, below a node that stands for the places from low to high.
func (t *tally) add(node, low, high int, reach [2]int, by int) {
	if reach[1] < low || high < reach[0] {
		return
	}
	if reach[0] <= low && high <= reach[1] {
		t.here[node] += by
		t.most[node] += by
		return
	}
	middle := (low + high) / 2
	t.add(2*node, low, middle, reach, by)
	t.add(2*node+1, middle+1, high, reach, by)
	t.most[node] = t.here[node] + max(t.most[2*node], t.most[2*node+1])
}
