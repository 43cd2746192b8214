package pairline

import "math"

// neper is one neper in dB.
var neper = 20 / math.Ln10

// Crosstalk is crosstalk in dB, more being better: the likely figure adds all contributions in power, the worst one adds
// the cables in power and every connection in voltage on top.
type Crosstalk struct{ LikelyDB, WorstDB float64 }

// powerSum gathers contributions to crosstalk in both ways.
type powerSum struct{ cables, interfaces, volts float64 }

func (s *powerSum) addCable(power float64) { s.cables += power }

func (s *powerSum) addInterface(power float64) {
	s.interfaces += power
	s.volts += math.Sqrt(power)
}

func (s *powerSum) crosstalk() Crosstalk {
	return Crosstalk{
		LikelyDB: -10 * math.Log10(s.cables+s.interfaces),
		WorstDB:  -20 * math.Log10(math.Sqrt(s.cables)+s.volts),
	}
}

func power(levelDB float64) float64 { return math.Pow(10, -levelDB/10) }

// nextOf picks which near-end figure of a part counts: between two pairs, or of the three other pairs together.
type nextOf struct {
	cable      func(Cable) float64
	connection func(Interface) float64
}

var (
	pairToPair = nextOf{func(c Cable) float64 { return c.NEXTDB }, func(i Interface) float64 { return i.NEXTDB }}
	powerSumOf = nextOf{func(c Cable) float64 { return c.PowerSumNEXTDB }, func(i Interface) float64 { return i.PowerSumNEXTDB }}
)

// nearEnd sums the parts, each reduced by twice the loss before it. A piece of cable counts for
// (1 − e^(−4αL))/(1 − e^(−4α·100 m)) of its 100 m figure, so cutting a cable changes nothing.
func (l Line) nearEnd(freqMHz float64, of nextOf) Crosstalk {
	var sum powerSum
	before := 0.0
	decades := math.Log10(freqMHz / GradeMHz)
	for _, part := range l.Parts {
		loss := part.Loss().At(freqMHz)
		switch p := part.(type) {
		case Segment:
			whole := p.PerMetre().Times(ReferenceLength).At(freqMHz)
			share := math.Expm1(-4*loss/neper) / math.Expm1(-4*whole/neper)
			sum.addCable(power(of.cable(p.Cable)-15*decades+2*before) * share)
		case Interface:
			sum.addInterface(power(of.connection(p) - 20*decades + 2*before))
		}
		before += loss
	}
	return sum.crosstalk()
}

// NEXT is the near-end crosstalk between two pairs as heard at the near end. For the far end ask the Reversed line; the
// two differ.
func (l Line) NEXT(freqMHz float64) Crosstalk { return l.nearEnd(freqMHz, pairToPair) }

// PowerSumNEXTDB is the likely near-end crosstalk of the three other pairs together, in dB, at the near end.
func (l Line) PowerSumNEXTDB(freqMHz float64) float64 { return l.nearEnd(freqMHz, powerSumOf).LikelyDB }

// WorseEndNEXT is NEXT at whichever end is worse, figure by figure.
func (l Line) WorseEndNEXT(freqMHz float64) Crosstalk {
	near, far := l.NEXT(freqMHz), l.Reversed().NEXT(freqMHz)
	return Crosstalk{LikelyDB: min(near.LikelyDB, far.LikelyDB), WorstDB: min(near.WorstDB, far.WorstDB)}
}

// ACRN is NEXT at the worse end less the loss of the line: how far the signal stands above its neighbour's leak.
func (l Line) ACRN(freqMHz float64) Crosstalk {
	next, loss := l.WorseEndNEXT(freqMHz), l.Loss().At(freqMHz)
	return Crosstalk{LikelyDB: next.LikelyDB - loss, WorstDB: next.WorstDB - loss}
}

// ACRF is far-end crosstalk less the loss, between two pairs. Cable counts in power with its length; both ends are equal.
func (l Line) ACRF(freqMHz float64) Crosstalk {
	var sum powerSum
	decades := math.Log10(freqMHz / GradeMHz)
	for _, part := range l.Parts {
		switch p := part.(type) {
		case Segment:
			sum.addCable(power(p.Cable.ACRFDB-20*decades) * p.Length / ReferenceLength)
		case Interface:
			sum.addInterface(power(p.FEXTDB - 20*decades))
		}
	}
	return sum.crosstalk()
}
