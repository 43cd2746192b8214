package pairline

import (
	"math"
	"math/cmplx"
	"slices"
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

// square is a part, or several in a row, as it carries voltage and current (in units of 1/100 Ω) from its far side to its near
// side. Its own transmission is left out, to be summed in dB: so nothing overflows, however long the line.
type square struct{ a, b, c, d complex128 }

// then puts another part behind this one.
func (m square) then(n square) square {
	return square{m.a*n.a + m.b*n.c, m.a*n.b + m.b*n.d, m.c*n.a + m.d*n.c, m.c*n.b + m.d*n.d}
}

// times puts so many of the same in a row, in few steps.
func (m square) times(count int) square {
	all := square{a: 1, d: 1}
	for ; count > 0; count /= 2 {
		if count%2 == 1 {
			all = all.then(m)
		}
		m = m.then(m)
	}
	return all
}

// near and far are voltage and current at an end when the other one is matched. Every part is the same from both sides, so
// that turning the line round exchanges a and d.
func (m square) near() (voltage, current complex128) { return m.a + m.b, m.c + m.d }
func (m square) far() (voltage, current complex128)  { return m.d + m.b, m.c + m.a }

// square is the part of a wave.
func (w wave) square() square {
	if w.cable {
		straight, across := (1+w.twice)/2, (1-w.twice)/2
		return square{straight, across * w.impedance, across * w.admittance, straight}
	}
	plus, less := 1+w.reflection, 1-w.reflection
	straight := (plus*less + w.twice) / 2
	return square{straight, (plus*plus - w.twice) / 2, (less*less - w.twice) / 2, straight}
}

// repeat is a row of stages that comes so many times, one after the other. As is the first of the line's that is the same.
type repeat struct{ first, length, times, as int }

// longestRow is how many stages a row that repeats may have: a cable, a coupler of two connections, and as much again.
const longestRow = 6

// repeats parts a line into rows of stages that repeat: many like pieces are reckoned as one, taken so many times.
func repeats(like []int) (rows []repeat) {
	for at := 0; at < len(like); {
		best := repeat{first: at, length: 1, times: 1}
		for length := 1; length <= longestRow && at+2*length <= len(like); length++ {
			times := 1
			for end := at + (times+1)*length; end <= len(like) && slices.Equal(like[at:at+length], like[end-length:end]); end += length {
				times++
			}
			if times > 1 && times*length > best.times*best.length {
				best = repeat{first: at, length: length, times: times}
			}
		}
		stages := like[at : at+best.length]
		best.as = slices.IndexFunc(rows, func(r repeat) bool {
			return r.times == best.times && slices.Equal(like[r.first:r.first+r.length], stages)
		})
		if best.as < 0 {
			best.as = len(rows)
		}
		rows = append(rows, best)
		at += best.length * best.times
	}
	return rows
}

// through puts all waves in a row; blocks is room for what each repeat is.
func through(waves []wave, rows []repeat, blocks []square) square {
	all := square{a: 1, d: 1}
	for n, row := range rows {
		if row.as == n {
			blocks[n] = waves[row.first].square()
			for i := row.first + 1; i < row.first+row.length; i++ {
				blocks[n] = blocks[n].then(waves[i].square())
			}
			if row.times > 1 {
				blocks[n] = blocks[n].times(row.times)
			}
		}
		all = all.then(blocks[row.as])
	}
	return all
}

func returnLossDB(voltage, current complex128) float64 {
	return -20 * math.Log10(cmplx.Abs((voltage-current)/(voltage+current)))
}

// Responses gives the response of a line at each frequency of a grid in MHz. Connections are modelled up to 100 MHz.
func (l Line) Responses(grid []float64) []Response {
	stages := prepare(l)
	like := alike(stages)
	rows := repeats(like)
	waves, blocks := make([]wave, len(stages)), make([]square, len(rows))
	responses := make([]Response, len(grid))
	for i, freq := range grid {
		additive := reckon(stages, like, waves, freq)
		responses[i] = respond(through(waves, rows, blocks), additive, freq)
	}
	return responses
}

// ResponseAt gives the response of a line at one frequency in MHz.
func (l Line) ResponseAt(freqMHz float64) Response { return l.Responses([]float64{freqMHz})[0] }

// reckon fills in the waves of a frequency and returns their additive loss in dB.
func reckon(stages []stage, like []int, waves []wave, freqMHz float64) (additive float64) {
	for i, s := range stages {
		if like[i] < i {
			waves[i] = waves[like[i]]
		} else {
			waves[i] = s.at(freqMHz)
		}
		additive += waves[i].lossDB
	}
	return additive
}

func respond(line square, additive, freqMHz float64) Response {
	voltage, current := line.near()
	near := returnLossDB(voltage, current)
	ripple := 20 * math.Log10(cmplx.Abs(voltage+current)/2)
	voltage, current = line.far()
	return Response{
		FreqMHz: freqMHz, LossDB: additive + ripple, RippleDB: ripple,
		ReturnLossNearDB: near, ReturnLossFarDB: returnLossDB(voltage, current),
	}
}

// Transmission is the complex transmission S21 of the line between 100 Ω ends at one frequency in MHz, from the near end
// to the far end. It is the same in both directions.
func (l Line) Transmission(freqMHz float64) complex128 {
	line, passed := square{a: 1, d: 1}, complex128(1)
	for _, s := range prepare(l) {
		w := s.at(freqMHz)
		line = line.then(w.square())
		passed *= cmplx.Rect(math.Exp(-w.lossDB/neper), -w.propagation)
	}
	voltage, current := line.near()
	return 2 * passed / (voltage + current)
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
