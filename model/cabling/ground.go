package cabling

import (
	"math"
	"slices"

	"stageloom/model/budget"
	"stageloom/model/plan"
)

// reach is the height in metres over either end's floor at which a person still reaches a coupler: common practice, no
// source.
const reach = 2.5

// ground tells where joins lie: in which areas and how high.
type ground struct {
	survey *survey
	areas  budget.Ground
	ways   map[plan.LinkID]*way
}

// way is the way of a link: where it lies in areas that bear no join, and its height along it.
type way struct {
	blocked []budget.Span
	// flat and slope are metres along the way at each of its points, on the map and in the air; height is that of the point.
	flat, slope, height []float64
}

func (s *survey) groundOf() *ground {
	if s.ground == nil {
		s.ground = &ground{survey: s, areas: s.reckoner.Ground(), ways: map[plan.LinkID]*way{}}
	}
	return s.ground
}

// noJoin are the uses of ground in which no coupler should lie.
var noJoin = []string{"road", "water", "crowd"}

func (g *ground) wayOf(link plan.Link) *way {
	if w, found := g.ways[link.ID]; found {
		return w
	}
	line := g.survey.reckoner.Way(link)
	w := &way{flat: make([]float64, len(line)), slope: make([]float64, len(line)), height: make([]float64, len(line))}
	for _, span := range g.areas.Spans(line) {
		if slices.Contains(noJoin, span.Area.Use) {
			w.blocked = append(w.blocked, span)
		}
	}
	points := g.survey.plan.PointsOf(link.ID)
	for i := range line {
		switch i {
		case 0:
			w.height[i] = g.deviceHeight(link.From)
		case len(line) - 1:
			w.height[i] = g.deviceHeight(link.To)
		default:
			w.height[i] = g.levelHeight(points[i-1].Level)
		}
		if i > 0 {
			flat := line[i-1].Distance(line[i])
			w.flat[i] = w.flat[i-1] + flat
			w.slope[i] = w.slope[i-1] + math.Hypot(flat, w.height[i]-w.height[i-1])
		}
	}
	g.ways[link.ID] = w
	return w
}

func (g *ground) deviceHeight(id plan.DeviceID) float64 {
	device, _ := g.survey.plan.Device(id)
	level := device.Level
	if level == "" {
		position, _ := g.survey.plan.Positions.Get(plan.Key(device.Position))
		level = position.Level
	}
	return g.levelHeight(level)
}

func (g *ground) levelHeight(id plan.LevelID) float64 {
	level, _ := g.survey.plan.Levels.Get(plan.Key(id))
	return level.Height
}

// joins counts the joins of cables of these lengths, in millimetres from the near end, that lie in areas which bear none,
// and those out of reach. What is left over lies coiled at the drum end, so places are measured from the other one.
func (g *ground) joins(r *run, lengths []int) (blocked, aloft int) {
	if len(lengths) < 2 {
		return 0, 0
	}
	w, b := g.wayOf(r.link), &r.now
	spare := 0.0
	if r.turned {
		spare = -b.Run
		for _, length := range lengths {
			spare += float64(length) / 1000
		}
	}
	at := -max(0, spare)
	for _, length := range lengths[:len(lengths)-1] {
		at += float64(length) / 1000
		place, rise := r.onWay(at)
		flat, height := w.at(place)
		if slices.ContainsFunc(w.blocked, func(s budget.Span) bool { return s.From <= flat && flat <= s.To }) {
			blocked++
		}
		low := min(w.height[0], w.height[len(w.height)-1])
		if height-low > reach && place > 0 && place < 1 || rise {
			aloft++
		}
	}
	return blocked, aloft
}

// onWay is where a metre of cable lies as a share of the way, 0 at its near end and 1 at its far end, and whether it hangs
// in a rise out of reach.
func (r *run) onWay(at float64) (share float64, rise bool) {
	b := &r.now
	ends := b.Measured.Ends
	start := ends[0] + r.link.RiseFrom
	stretch := b.Run - ends[0] - ends[1] - b.Rises
	switch {
	case at < start:
		return 0, hangs(at-ends[0], r.link.RiseFrom)
	case at > start+stretch:
		return 1, hangs(at-start-stretch, r.link.RiseTo)
	case stretch <= 0:
		return 0, false
	}
	return (at - start) / stretch, false
}

// hangs reports whether a point of a rise is out of reach from either of its ends.
func hangs(at, rise float64) bool { return at > reach && at < rise-reach }

// at gives the metres on the map and the height at a share of the way.
func (w *way) at(share float64) (flat, height float64) {
	last := len(w.slope) - 1
	metres := share * w.slope[last]
	for i := 1; i <= last; i++ {
		if metres > w.slope[i] && i < last || w.slope[i] == w.slope[i-1] {
			continue
		}
		part := (metres - w.slope[i-1]) / (w.slope[i] - w.slope[i-1])
		return w.flat[i-1] + part*(w.flat[i]-w.flat[i-1]), w.height[i-1] + part*(w.height[i]-w.height[i-1])
	}
	return w.flat[last], w.height[last]
}
