package pairline

import "math"

// Figures of TIA-568-C.2: a cable delays by 534 + 36/√f ns per 100 m and its pairs differ by up to 45 ns per 100 m; a
// connection adds 2.5 ns and 1.25 ns. Delay published; the skew of a connection from memory, and it reproduces the
// published 50 ns of a channel with four connections.
const (
	cableDelayNs     = 534.0
	cableDelayRiseNs = 36.0
	cableSkewNs      = 45.0
	interfaceDelayNs = 2.5
	interfaceSkewNs  = 1.25
)

// DelayNs is the longest propagation delay of a line of standard cable, in nanoseconds.
func (l Line) DelayNs(freqMHz float64) float64 {
	per100m := cableDelayNs + cableDelayRiseNs/math.Sqrt(freqMHz)
	return l.Length()/ReferenceLength*per100m + interfaceDelayNs*float64(l.countInterfaces())
}

// SkewNs is the most by which the pairs of a line of standard cable differ in delay, in nanoseconds.
func (l Line) SkewNs() float64 {
	return l.Length()/ReferenceLength*cableSkewNs + interfaceSkewNs*float64(l.countInterfaces())
}

// PhaseDelayNs is the delay β/ω of the line as the cascade models it, in nanoseconds: nearer to the cable at hand than
// DelayNs, which is the standard's bound.
func (l Line) PhaseDelayNs(freqMHz float64) float64 {
	sum := interfaceDelayNs * float64(l.countInterfaces())
	for _, part := range l.Parts {
		if segment, ok := part.(Segment); ok {
			sum += segment.Length / ReferenceLength * cableDelayNs * (1 + dispersion(segment)/math.Sqrt(freqMHz))
		}
	}
	return sum
}

func (l Line) countInterfaces() int {
	count := 0
	for _, part := range l.Parts {
		if _, ok := part.(Interface); ok {
			count++
		}
	}
	return count
}
