package raster

import "math"

// mostPeriods is how many dashes of one leg are drawn apart; a leg that shows more of them is drawn plain.
const mostPeriods = 1 << 16

// dashes is a pattern along a line, in pixels; the empty one is a plain line.
type dashes struct {
	marks  []float64 // start and end of each dash within the period, in order
	period float64
}

// dashesOf reads lengths on, off, on, off …; of an odd number the last is followed by no gap. Lengths that make no
// pattern, or one too fine to see, give a plain line.
func dashesOf(lengths []float64, scale float64) dashes {
	var d dashes
	for i, length := range lengths {
		length *= scale
		if !(length >= 0) || math.IsInf(length, 0) {
			return dashes{}
		}
		if i%2 == 0 {
			d.marks = append(d.marks, d.period, d.period+length)
		}
		d.period += length
	}
	if d.period < leastPeriod {
		return dashes{}
	}
	return d
}

// through reports whether a dash runs through the place, with some of it on both sides.
func (d dashes) through(at float64) bool {
	if d.period == 0 {
		return true
	}
	at -= math.Floor(at/d.period) * d.period
	for i := 0; i < len(d.marks); i += 2 {
		if d.marks[i] < at && at < d.marks[i+1] {
			return true
		}
	}
	return false
}

// pieces tells which parts of a leg are drawn: at least all of them between two shares of its length. A piece is
// given by its distances from the start of the leg, and has a cap where the dash or the line ends.
func (d dashes) pieces(leg leg, from, to float64, draw func(a, b float64, startCap, endCap bool)) {
	first := math.Floor((leg.at + from*leg.length) / d.period)
	last := math.Floor((leg.at + to*leg.length) / d.period)
	if d.period == 0 || !(last-first < mostPeriods) {
		draw(0, leg.length, leg.before < 0, !leg.joined)
		return
	}
	for n := range int(last-first) + 1 {
		period := first + float64(n)
		for i := 0; i < len(d.marks); i += 2 {
			on, off := period*d.period+d.marks[i], period*d.period+d.marks[i+1]
			if off < leg.at || on > leg.end() || on == leg.end() && leg.joined || off == leg.at && on < off {
				continue
			}
			startCap := on >= leg.at || leg.before < 0
			endCap := off <= leg.end() || !leg.joined
			draw(max(on-leg.at, 0), min(off-leg.at, leg.length), startCap, endCap)
		}
	}
}
