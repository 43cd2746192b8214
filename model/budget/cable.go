package budget

import (
	"strings"

	"stageloom/model/pairline"
	"stageloom/model/plan"
	"stageloom/model/standards"
)

// leastUnitFactor is the lowest unit factor that a measured or own figure may give: a cable far better than its category is a slip
// of the pen, and must not buy a grade. It is the least that pairline holds its formulas good for.
const leastUnitFactor = 0.8

// cable is one cable kind made ready for reckoning.
type cable struct {
	id                    plan.CableKindID
	known                 bool // its loss is known: a balanced pair of a known category, or with its own figure
	pair                  bool
	screened              bool
	figures               pairline.Cable
	strand, unit          float64
	ohm                   float64
	perMetre              pairline.Loss // at 20 °C
	plug                  *hardware
	nearSocket, farSocket bool
	drum                  bool
}

// hardware is connecting hardware made ready for reckoning.
type hardware struct {
	id      plan.HardwareID
	figures pairline.Interface
}

// Fits tells whether a cable kind's media is a transport's: the same words, or the same and a sort of it behind a hyphen.
func Fits(kind plan.CableKind, media standards.Media) bool {
	slug := strings.ReplaceAll(string(media), " ", "-")
	rest, found := strings.CutPrefix(kind.Media, slug)
	return found && (rest == "" || rest[0] == '-')
}

// newCable makes a kind ready. An unknown category with an own figure takes the shape of Cat 5e through that figure.
func (r *Reckoner) newCable(kind plan.CableKind) cable {
	c := cable{
		id: kind.ID, screened: kind.Screened, strand: 1, unit: 1, plug: r.hardwareOf(kind.Hardware),
		nearSocket: kind.NearEnd == "socket", farSocket: kind.FarEnd == "socket", drum: kind.Form == "drum",
		pair: Fits(kind, standards.BalancedPair),
	}
	category, err := standards.CableBySlug(standards.CableSlug(kind.Category))
	if err != nil {
		category, _ = standards.CableBySlug(poorestCategory)
	}
	c.figures = category.Figures
	c.known = c.pair && (err == nil || kind.OwnFigure.Set)
	conductor := conductorOf(kind.Gauge, kind.Solid)
	c.ohm = conductor.OhmPer100m
	switch {
	case kind.OwnFigure.Set:
		c.unit = max(leastUnitFactor, c.figures.UnitFactorFor(kind.OwnFigure.Value))
	case kind.Allowance:
		c.strand = standards.WholeAllowance
	default:
		c.strand = conductor.StrandFactor
	}
	c.perMetre = c.figures.Loss().Times(c.strand * c.unit / pairline.ReferenceLength)
	return c
}

const poorestCategory standards.CableSlug = "cat5e"

// conductorOf returns the conductor of this make and gauge, or the next thinner one that is known, or the thinnest. A
// blank gauge is that of a portable reel of unstated make.
func conductorOf(gauge int, solid bool) standards.Conductor {
	best, _ := standards.ConductorBySlug(standards.DefaultConductor)
	if gauge == 0 && !solid {
		return best
	}
	found := false
	for _, c := range standards.Conductors() {
		if c.Stranded == solid {
			continue
		}
		thinner := c.Gauge > best.Gauge
		fits, bestFits := c.Gauge >= gauge, best.Gauge >= gauge
		if !found || (fits && (!bestFits || !thinner)) || (!bestFits && thinner) {
			best, found = c, true
		}
	}
	return best
}

// measured returns the cable with the loss measured on one piece of it in the place of its kind's: dB at 100 MHz of the
// whole piece, taken as measured at 20 °C.
func (c cable) measured(lossDB, length float64) cable {
	c.strand = 1
	c.unit = max(leastUnitFactor, c.figures.UnitFactorFor(lossDB/length*pairline.ReferenceLength))
	c.perMetre = c.figures.Loss().Times(c.unit / pairline.ReferenceLength)
	return c
}

// segment is the cable as a part of a line.
func (c cable) segment(length, temperatureC float64) pairline.Segment {
	return pairline.Segment{
		Cable: c.figures, Length: length, StrandFactor: c.strand, UnitFactor: c.unit, TemperatureC: temperatureC,
		Screened: c.screened, Impedance: pairline.NominalImpedance, ConductorOhmPer100m: c.ohm,
	}
}
