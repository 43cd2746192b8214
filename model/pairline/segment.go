package pairline

// ReferenceLength is the length, in metres, for which cable figures are given.
const ReferenceLength = 100.0

// ReferenceTemperatureC is the temperature, in °C, at which cable and conductor figures are given.
const ReferenceTemperatureC = 20.0

// NominalImpedance is the impedance, in ohms, of the ends of a line and of a cable as its standard names it.
const NominalImpedance = 100.0

// Cable holds the figures of a category of cable: 100 m of solid conductor at 20 °C. It is comparable; two segments are
// of one cable kind when their Cable is equal.
type Cable struct {
	Name string
	// K1, K2 and K3 give the loss k1·√f + k2·f + k3/√f in dB per 100 m.
	K1, K2, K3 float64
	// TopMHz is the frequency up to which the formula is specified.
	TopMHz float64
	// NEXTDB and PowerSumNEXTDB are near-end crosstalk at 100 MHz, between two pairs and from the three others together.
	NEXTDB, PowerSumNEXTDB float64
	// ACRFDB is far-end crosstalk less the loss, at 100 MHz.
	ACRFDB float64
}

// Loss is the loss of 100 m at 20 °C with solid conductors.
func (c Cable) Loss() Loss { return Loss{A: c.K1, B: c.K2, C: c.K3} }

// UnitFactorFor gives the unit factor of a maker's own or a measured figure, in dB per 100 m at 100 MHz and 20 °C. The
// figure is that of the cable as built, so a segment that uses it has strand factor 1.
func (c Cable) UnitFactorFor(figureDB float64) float64 { return figureDB / c.Loss().At(GradeMHz) }

// Segment is one cable of a line.
type Segment struct {
	Cable Cable
	// Length is in metres; the whole cable counts, laid out or coiled.
	Length float64
	// StrandFactor follows the conductor: 1 solid, 1.2 stranded 24 AWG or thicker, 1.5 stranded 26 AWG.
	StrandFactor float64
	// UnitFactor is 1, or this cable's own figure over the reckoned one.
	UnitFactor float64
	// TemperatureC is the temperature of the cable, not of the air.
	TemperatureC float64
	// Screened cable gains less loss with temperature.
	Screened bool
	// Impedance is the nominal characteristic impedance in ohms.
	Impedance float64
	// ConductorOhmPer100m is the resistance of one conductor at 20 °C, in ohms per 100 m.
	ConductorOhmPer100m float64
}

// Factor is what the loss of this segment is of the loss of its Cable's figures: strand × temperature × unit factor.
func (s Segment) Factor() float64 {
	return s.StrandFactor * s.UnitFactor * TemperatureFactor(s.TemperatureC, s.Screened)
}

// PerMetre is the loss of one metre of this segment as built and at its temperature.
func (s Segment) PerMetre() Loss { return s.Cable.Loss().Times(s.Factor() / ReferenceLength) }

// Loss is the loss of the whole segment.
func (s Segment) Loss() Loss { return s.PerMetre().Times(s.Length) }

// TemperatureFactor is the growth of cable loss above 20 °C: unscreened +0.4 % per kelvin to 40 °C and +0.6 % beyond,
// screened +0.2 % per kelvin throughout. Below 20 °C it stays 1, which errs on the safe side.
// Source: TIA-568-C.2 6.4.7, published, to 60 °C.
func TemperatureFactor(temperatureC float64, screened bool) float64 {
	above := temperatureC - ReferenceTemperatureC
	switch {
	case above <= 0:
		return 1
	case screened:
		return 1 + 0.002*above
	case above <= 20:
		return 1 + 0.004*above
	default:
		return 1.08 + 0.006*(above-20)
	}
}
