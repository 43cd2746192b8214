package plan

import (
	"slices"

	"stageloom/model/geom"
)

// lie is where a link lies: its ends and way points from its near end on, and their levels.
type lie struct {
	points []geom.Point
	levels []LevelID
}

func (p *Plan) lieOf(link Link) lie {
	from, _ := p.Device(link.From)
	to, _ := p.Device(link.To)
	l := lie{[]geom.Point{from.At()}, []LevelID{from.Level}}
	for _, point := range p.PointsOf(link.ID) {
		l.points, l.levels = append(l.points, point.At()), append(l.levels, point.Level)
	}
	return lie{append(l.points, to.At()), append(l.levels, to.Level)}
}

// unmoved is what rounding to whole millimetres may shift a point against another, in metres.
const unmoved = 0.003

// like reports whether two lie alike; both shifted as a whole counts as alike, for what lies between two devices that move
// together moves with them.
func (l lie) like(other lie) bool {
	if len(l.points) != len(other.points) || !slices.Equal(l.levels, other.levels) {
		return false
	}
	by := other.points[0].Sub(l.points[0])
	for i, at := range l.points {
		if at.Add(by).Distance(other.points[i]) > unmoved {
			return false
		}
	}
	return true
}

// liesOtherwise reports whether an edit changed the way of a link or where one of its ends stands against the other.
func (e *Edit) liesOtherwise(old, link Link) bool {
	was, now := e.base.lieOf(old), e.next.lieOf(link)
	if was.like(now) {
		return false
	}
	slices.Reverse(now.points)
	slices.Reverse(now.levels)
	return !was.like(now)
}
