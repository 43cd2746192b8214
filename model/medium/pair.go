package medium

import (
	"fmt"

	"stageloom/model/pairline"
	"stageloom/model/plan"
	"stageloom/model/standards"
)

// Curved is a medium whose lines are known over frequency. Only they have curves, and the advice that rests on them.
type Curved interface {
	Medium
	// Curve is a loss over frequency.
	Curve(Loss) pairline.Curve
	// Line puts parts together as an electrical line, near end first; cable of unknown loss is not among them.
	Line([]Part) pairline.Line
	// StandardDB is what the standard of such lines allows, whatever rule grades one.
	StandardDB() float64
}

// Pair is the balanced pair of 100 Ω: loss is graded at 100 MHz, and its three figures are the terms of pairline.Loss.
type Pair struct{}

var _ Curved = Pair{}

// leastUnitFactor is the lowest share of its category's loss that a measured figure may claim: a cable far better than
// that is a slip of the pen, and must not buy a grade. It is the least that pairline holds its formulas good for.
const leastUnitFactor = 0.8

const poorestCategory standards.CableSlug = "cat5e"

// Media is that of four-pair data cable.
func (Pair) Media() standards.Media { return standards.BalancedPair }

// Reference is the frequency at which pairs are graded, whatever they carry.
func (Pair) Reference(standards.Transport) string { return "at 100 MHz" }

// DB is pairline.Loss.At(100) without a square root.
func (Pair) DB(l Loss, _ standards.Transport) float64 { return 10*l[0] + 100*l[1] + l[2]/10 }

// Joint loses K·√f.
func (Pair) Joint(h standards.Hardware) Loss { return Loss{h.Figures.K} }

// CouplerJoints: the body of a coupler has two sockets.
func (Pair) CouplerJoints() int { return 2 }

// Lead is stranded 26 AWG of the poorest category.
func (Pair) Lead() plan.CableKind {
	return plan.CableKind{Media: "balanced-pair", Category: string(poorestCategory), Gauge: 26}
}

// OwnFigure is as data sheets have it.
func (Pair) OwnFigure() string { return "dB per 100 m at 100 MHz and 20 °C" }

// RestsOn is the maker's figure, or the maximum of the kind's category.
func (p Pair) RestsOn(kind plan.CableKind) (words string, from standards.Provenance) {
	if kind.OwnFigure.Set {
		return fmt.Sprintf("own figure of the kind: %.4g %s", kind.OwnFigure.Value, p.OwnFigure()), from
	}
	category, err := standards.CableBySlug(standards.CableSlug(kind.Category))
	if err != nil {
		return "", from
	}
	return "catalogue maximum of " + category.Name, category.Provenance
}

// Instead is fibre.
func (Pair) Instead() string { return ", or go over to fibre" }

// Warm follows TIA-568-C.2 6.4.7.
func (Pair) Warm(temperatureC float64, screened bool) float64 {
	return pairline.TemperatureFactor(temperatureC, screened)
}

// Cable makes a kind ready. An unknown category with an own figure takes the shape of Cat 5e through that figure.
func (Pair) Cable(kind plan.CableKind) Cable {
	category, err := standards.CableBySlug(standards.CableSlug(kind.Category))
	if err != nil {
		category, _ = standards.CableBySlug(poorestCategory)
	}
	conductor, thin := standards.ConductorOf(kind.Gauge, kind.Solid)
	built := &standards.Construction{
		Cable: category, Conductor: conductor, WholeAllowance: kind.Allowance,
		Screened: kind.Screened, Impedance: pairline.NominalImpedance,
	}
	c := Cable{Known: true, Screened: kind.Screened, Figures: built}
	switch {
	case kind.OwnFigure.Set:
		if wrong := category.CheckOwnFigure(kind.OwnFigure.Value); wrong != nil {
			c.Known, c.Unknown = false, "its "+wrong.Error()
		}
		built.OwnFigureDB = leastFigure(category, kind.OwnFigure.Value)
	case err != nil:
		c.Known = false
	case thin != nil:
		c.Known, c.Unknown = false, thin.Error()
	}
	c.PerMetre = perMetre(*built)
	return c
}

// Measured takes the figure, in dB per 100 m at 100 MHz and 20 °C, in the place of the category's.
func (Pair) Measured(c Cable, lossDB, length float64) Cable {
	built := *c.Figures.(*standards.Construction)
	built.OwnFigureDB = leastFigure(built.Cable, lossDB/length*pairline.ReferenceLength)
	c.Known, c.Own, c.PerMetre = true, built.OwnFigureDB, perMetre(built)
	return c
}

func leastFigure(category standards.Cable, figureDB float64) float64 {
	return max(leastUnitFactor*category.Figures.Loss().At(pairline.GradeMHz), figureDB)
}

func perMetre(built standards.Construction) Loss {
	loss := built.Segment(1, pairline.ReferenceTemperatureC).Loss()
	return Loss{loss.A, loss.B, loss.C}
}

// Curve is the additive loss from 1 MHz on.
func (Pair) Curve(l Loss) pairline.Curve { return pairline.Loss{A: l[0], B: l[1], C: l[2]}.At }

// StandardDB is 24.0 dB: IEEE 802.3 40.7.2.1.
func (Pair) StandardDB() float64 { return pairline.LinkSegmentLimit(pairline.GradeMHz) }

// Line makes segments and interfaces of the parts.
func (Pair) Line(parts []Part) pairline.Line {
	var line pairline.Line
	for _, part := range parts {
		if part.Cable == nil {
			line.Parts = append(line.Parts, pairline.Poorer(interfaceOf(part.Joint[0]), interfaceOf(part.Joint[1])))
			continue
		}
		built := *part.Cable.Figures.(*standards.Construction)
		if part.Cable.Own != 0 {
			built.OwnFigureDB = part.Cable.Own
		}
		line.Parts = append(line.Parts, built.Segment(part.Length, part.TemperatureC))
	}
	return line
}

// interfaceOf is the figures of hardware that came from the standards' own rows.
func interfaceOf(h *Hardware) pairline.Interface {
	row, err := standards.HardwareBySlug(standards.HardwareSlug(h.ID))
	if err != nil {
		panic(err)
	}
	return row.Figures
}
