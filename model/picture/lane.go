package picture

import (
	"sort"
	"strconv"

	"stageloom/model/geom"
)

// laneGap is the distance in points between links that go the same way.
const laneGap = 6.0

func wayKey(way []geom.Point, turned bool) string {
	key := make([]byte, 0, 24*len(way))
	for i := range way {
		at := way[i]
		if turned {
			at = way[len(way)-1-i]
		}
		key = strconv.AppendFloat(key, at.X, 'f', 2, 64)
		key = append(key, ',')
		key = strconv.AppendFloat(key, at.Y, 'f', 2, 64)
		key = append(key, ';')
	}
	return string(key)
}

// lanes gives each link its offset in points across its way, so that links going the same way lie side by side.
// A link that goes the other way round gets its offset turned along.
func lanes(links []LinkFigure) []float64 {
	type member struct {
		link   int
		turned bool
	}
	groups := map[string][]member{}
	for i := range links {
		key, turned := links[i].key()
		groups[key] = append(groups[key], member{i, turned})
	}
	offsets := make([]float64, len(links))
	for _, group := range groups {
		sort.Slice(group, func(i, j int) bool { return links[group[i].link].ID < links[group[j].link].ID })
		for lane, m := range group {
			offset := (float64(lane) - float64(len(group)-1)/2) * laneGap
			if m.turned {
				offset = -offset
			}
			offsets[m.link] = offset
		}
	}
	return offsets
}

// shifted returns the path moved sideways by an offset in points, its corners mitred.
func shifted(path []geom.Point, offset float64) []geom.Point {
	if offset == 0 || len(path) < 2 {
		return path
	}
	moved := make([]geom.Point, len(path))
	for i, at := range path {
		before, after := normalAt(path, i-1), normalAt(path, i)
		if i == 0 {
			before = after
		}
		if i == len(path)-1 {
			after = before
		}
		mitre := before.Add(after)
		if length := mitre.Dot(mitre); length > 0.5 {
			mitre = mitre.Scale(2 / length)
		} else {
			mitre = before
		}
		moved[i] = at.Add(mitre.Scale(offset))
	}
	return moved
}

// normalAt is the unit normal of the piece of path that begins at point i.
func normalAt(path []geom.Point, i int) geom.Point {
	if i < 0 || i+1 >= len(path) {
		return geom.Point{}
	}
	return path[i+1].Sub(path[i]).Unit().Perpendicular()
}
