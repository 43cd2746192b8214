package pairline

import (
	"math"
	"math/cmplx"
)

// Response is what a line does to a sine wave between 100 Ω ends, reflections included. It is advice: the additive loss
// grades a line.
type Response struct {
	FreqMHz float64
	// LossDB is the insertion loss with reflections.
	LossDB float64
	// RippleDB is LossDB less the additive loss.
	RippleDB float64
	// ReturnLossNearDB and ReturnLossFarDB are the return loss at each end; +Inf where nothing at all comes back.
	ReturnLossNearDB, ReturnLossFarDB float64
}

// dispersion is q·√f of a segment, where q is what the conductors' inner inductance adds to delay and impedance:
// q = K·F·k1/(τ·√f), K = 1000/(2π·NP) turning dB per 100 m into ns per 100 m.
func dispersion(s Segment) float64 {
	return 1000 / (2 * math.Pi * neper) * s.Factor() * s.Cable.K1 / cableDelayNs
}

// stage is a part made ready for many frequencies.
type stage struct {
	cable      bool
	loss       Loss
	length     float64 // m
	dispersion float64 // q·√f
	impedance  float64 // of 100 Ω
	returnLoss float64 // dB at 1 MHz
}

// wave is a stage at one frequency. For a cable: twice the propagation as a factor, and its impedance. For a connection:
// its reflection S11 = S22 and the square of its transmission.
type wave struct {
	cable       bool
	lossDB      float64
	twice       complex128 // e^(−2γL), or S21²
	impedance   complex128 // of 100 Ω
	admittance  complex128 // 1/impedance
	reflection  complex128
	propagation float64 // rad, the phase of the transmission; kept for Transmission
}

func prepare(l Line) []stage {
	stages := make([]stage, len(l.Parts))
	for i, part := range l.Parts {
		switch p := part.(type) {
		case Segment:
			stages[i] = stage{
				cable: true, loss: p.Loss(), length: p.Length,
				dispersion: dispersion(p), impedance: p.Impedance / NominalImpedance,
			}
		case Interface:
			stages[i] = stage{loss: p.Loss(), returnLoss: p.ReturnLossDB}
		}
	}
	return stages
}

// alike gives for each stage the first that is the same: most of a long line is the same couplers and cables again, which
// need to be reckoned once at a frequency.
func alike(stages []stage) []int {
	first, like := map[stage]int{}, make([]int, len(stages))
	for i, s := range stages {
		at, found := first[s]
		if !found {
			at = i
			first[s] = i
		}
		like[i] = at
	}
	return like
}

// at reckons a stage at one frequency. Propagation and impedance are prescribed, not derived from resistance and
// capacitance: β = 2π·f·τ·(1+q), Zc = Z·(1 + q − jq).
func (s stage) at(freqMHz float64) wave {
	lossDB := s.loss.At(freqMHz)
	if !s.cable {
		// A reflection cannot exceed 1; above some hundreds of MHz the formula would.
		size := min(1, math.Pow(10, -s.returnLoss/20)*freqMHz)
		angle := math.Asin(size)
		return wave{
			lossDB:      lossDB,
			twice:       cmplx.Rect(math.Exp(-2*lossDB/neper), -2*angle),
			reflection:  cmplx.Rect(size, math.Pi/2-angle), // jρ·e^(−jθ)
			propagation: angle,
		}
	}
	q := s.dispersion / math.Sqrt(freqMHz)
	phase := 2 * math.Pi * freqMHz * 1e-3 * cableDelayNs * (1 + q) / ReferenceLength * s.length
	impedance := complex(s.impedance*(1+q), -s.impedance*q)
	return wave{
		cable:       true,
		lossDB:      lossDB,
		twice:       cmplx.Rect(math.Exp(-2*lossDB/neper), -2*phase),
		impedance:   impedance,
		admittance:  1 / impedance,
		propagation: phase,
	}
}

// before carries voltage and current (in units of 1/100 Ω) from the far side of a wave's part to its near side. Its own
// transmission is left out, to be summed in dB: so nothing overflows, however long the line.
func (w wave) before(voltage, current complex128) (complex128, complex128) {
	if w.cable {
		sum, difference := 1+w.twice, 1-w.twice
		return 0.5 * (sum*voltage + difference*w.impedance*current), 0.5 * (difference*w.admittance*voltage + sum*current)
	}
	outward, inward := (voltage+current)/2, (voltage-current)/2
	incident := outward - w.reflection*inward
	reflected := w.reflection*incident + w.twice*inward
	return incident + reflected, incident - reflected
}

// fromFar carries a matched load at the far end through all waves to the near end.
func fromFar(waves []wave) (voltage, current complex128) {
	voltage, current = 1, 1
	for i := len(waves) - 1; i >= 0; i-- {
		voltage, current = waves[i].before(voltage, current)
	}
	return voltage, current
}

// fromNear carries a matched load at the near end to the far end; every part is the same from both sides.
func fromNear(waves []wave) (voltage, current complex128) {
	voltage, current = 1, 1
	for _, w := range waves {
		voltage, current = w.before(voltage, current)
	}
	return voltage, current
}

func returnLossDB(voltage, current complex128) float64 {
	return -20 * math.Log10(cmplx.Abs((voltage-current)/(voltage+current)))
}

// Responses gives the response of a line at each frequency of a grid in MHz. Connections are modelled up to 100 MHz.
func (l Line) Responses(grid []float64) []Response {
	stages := prepare(l)
	like := alike(stages)
	waves := make([]wave, len(stages))
	responses := make([]Response, len(grid))
	for i, freq := range grid {
		responses[i] = respond(stages, like, waves, freq)
	}
	return responses
}

// ResponseAt gives the response of a line at one frequency in MHz.
func (l Line) ResponseAt(freqMHz float64) Response { return l.Responses([]float64{freqMHz})[0] }

func respond(stages []stage, like []int, waves []wave, freqMHz float64) Response {
	additive := 0.0
	for i, s := range stages {
		if like[i] < i {
			waves[i] = waves[like[i]]
		} else {
			waves[i] = s.at(freqMHz)
		}
		additive += waves[i].lossDB
	}
	voltage, current := fromFar(waves)
	near := returnLossDB(voltage, current)
	ripple := 20 * math.Log10(cmplx.Abs(voltage+current)/2)
	voltage, current = fromNear(waves)
	return Response{
		FreqMHz: freqMHz, LossDB: additive + ripple, RippleDB: ripple,
		ReturnLossNearDB: near, ReturnLossFarDB: returnLossDB(voltage, current),
	}
}

// Transmission is the complex transmission S21 of the line between 100 Ω ends at one frequency in MHz, from the near end
// to the far end. It is the same in both directions.
func (l Line) Transmission(freqMHz float64) complex128 {
	waves := make([]wave, 0, len(l.Parts))
	through := complex128(1)
	for _, s := range prepare(l) {
		w := s.at(freqMHz)
		waves = append(waves, w)
		through *= cmplx.Rect(math.Exp(-w.lossDB/neper), -w.propagation)
	}
	voltage, current := fromFar(waves)
	return 2 * through / (voltage + current)
}

// ReturnLossEnvelopeDB is the return loss at the near end if every reflection, counted once, came back in step: the worst
// that lengths could conspire to. Junctions count between the impedances of cables that follow each other. At least 0.
func (l Line) ReturnLossEnvelopeDB(freqMHz float64) float64 {
	sum, before := 0.0, 0.0
	impedance := complex128(1)
	step := func(next complex128) {
		sum += cmplx.Abs((next-impedance)/(next+impedance)) * math.Exp(-2*before/neper)
		impedance = next
	}
	for _, s := range prepare(l) {
		w := s.at(freqMHz)
		if w.cable {
			step(w.impedance)
		} else {
			sum += cmplx.Abs(w.reflection) * math.Exp(-2*before/neper)
		}
		before += w.lossDB
	}
	step(1)
	return max(0, -20*math.Log10(sum))
}
