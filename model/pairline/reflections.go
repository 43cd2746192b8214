package pairline

import "math"

// ringingDB is the ripple from which a line is said to ring: long reels stay under 0.2 dB, many short pieces of unlike
// cable reach 4 dB. Judgement.
const ringingDB = 0.5

// ReturnLossLimit is the least return loss of a link segment, 15 dB to 20 MHz and 15 − 10·log(f/20) dB above, 1–100 MHz.
// Source: IEEE 802.3 40.7.2.3, published as TSB-95.
func ReturnLossLimit(freqMHz float64) float64 {
	return 15 - 10*math.Log10(max(freqMHz, 20)/20)
}

// Reflections is what the reflections of a line come to over a sweep.
type Reflections struct {
	// RippleDB is the largest difference, in size, between the loss with reflections and the additive loss, at RippleMHz.
	RippleDB, RippleMHz float64
	// ReturnLossMarginDB is the smallest margin of the return loss at either end against ReturnLossLimit, at
	// ReturnLossMHz; negative is under the limit.
	ReturnLossMarginDB, ReturnLossMHz float64
	// Rings warns of many short pieces: ripple of half a decibel or more, or return loss under its limit. Cables of
	// unlike impedance reflect where they meet, like ones at the connections between them alone.
	Rings bool
}

// Reflections sweeps the line over 1 to 100 MHz at CascadePoints frequencies and refines each extreme with a parabola
// through its neighbours.
func (l Line) Reflections() Reflections { return ReflectionsOf(l.Responses(LogGrid(CascadePoints))) }

// ReflectionsOf does the same with a sweep already made, in rising order of frequency.
func ReflectionsOf(sweep []Response) Reflections {
	ripple := func(i int) float64 { return math.Abs(sweep[i].RippleDB) }
	near := func(i int) float64 { return ReturnLossLimit(sweep[i].FreqMHz) - sweep[i].ReturnLossNearDB }
	far := func(i int) float64 { return ReturnLossLimit(sweep[i].FreqMHz) - sweep[i].ReturnLossFarDB }
	var found Reflections
	found.RippleDB, found.RippleMHz = peak(sweep, ripple)
	excess, freq := peak(sweep, near)
	if other, at := peak(sweep, far); other > excess {
		excess, freq = other, at
	}
	found.ReturnLossMarginDB, found.ReturnLossMHz = -excess, freq
	found.Rings = found.RippleDB >= ringingDB || found.ReturnLossMarginDB < 0
	return found
}

// peak is the largest of a sweep's values and its frequency in MHz, refined by a parabola over the logarithm of frequency.
func peak(sweep []Response, value func(int) float64) (height, freqMHz float64) {
	if len(sweep) == 0 {
		return 0, 0
	}
	top := 0
	for i := range sweep {
		if value(i) > value(top) {
			top = i
		}
	}
	if top == 0 || top == len(sweep)-1 {
		return value(top), sweep[top].FreqMHz
	}
	left, middle, right := value(top-1), value(top), value(top+1)
	bend := left - 2*middle + right
	if !(bend < 0) || math.IsInf(bend, 0) { // flat, or a neighbour reflects nothing at all
		return middle, sweep[top].FreqMHz
	}
	shift := (left - right) / (2 * bend)
	ratio := sweep[top+1].FreqMHz / sweep[top].FreqMHz
	return middle - (left-right)*shift/4, sweep[top].FreqMHz * math.Pow(ratio, shift)
}
