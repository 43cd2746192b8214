package pairline

import "math"

// GradeMHz is the frequency, in MHz, at which a line is graded: the top of the band of 100 Mb/s and 1000 Mb/s pairs.
const GradeMHz = 100.0

// Loss is the additive loss of a part or a line, IL = A·√f + B·f + C/√f in dB with f in MHz. The three terms are those of
// the cable formula of TIA-568-C.2 6.4.7; connections add to A alone. The zero Loss is no loss.
type Loss struct {
	A float64 // dB per √MHz: the conductors
	B float64 // dB per MHz: the insulation
	C float64 // dB·√MHz: the rise towards low frequency
}

// At gives the loss in dB at a frequency in MHz, which must be above zero.
func (l Loss) At(freqMHz float64) float64 {
	root := math.Sqrt(freqMHz)
	return l.A*root + l.B*freqMHz + l.C/root
}

// Plus is the loss of two parts one after the other.
func (l Loss) Plus(other Loss) Loss {
	return Loss{A: l.A + other.A, B: l.B + other.B, C: l.C + other.C}
}

// Times is the loss of n such parts; n need not be whole.
func (l Loss) Times(n float64) Loss {
	return Loss{A: n * l.A, B: n * l.B, C: n * l.C}
}

// Curve is a limit over frequency: it takes MHz and gives dB.
type Curve func(freqMHz float64) float64
