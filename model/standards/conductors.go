package standards

import (
	"errors"
	"fmt"
	"slices"
)

// ConductorSlug names a conductor by gauge and make, such as "24awg-stranded".
type ConductorSlug string

// DefaultConductor is that of a portable reel of unstated make.
const DefaultConductor ConductorSlug = "24awg-stranded"

// WholeAllowance is the strand factor of ISO 11801's 50 % allowance for cords of any gauge, to be chosen explicitly.
const WholeAllowance = 1.5

// Conductor is a wire of a pair. Strand factor and resistance follow it, not the screen.
type Conductor struct {
	Slug     ConductorSlug
	Gauge    int // AWG; a higher number is a thinner wire
	Stranded bool
	// StrandFactor is what the cable loses of what the same category with solid conductors loses.
	StrandFactor float64
	// OhmPer100m is the resistance of one conductor at 20 °C.
	OhmPer100m float64
	Provenance
}

const (
	solidSource    = "NBS Handbook 100 basis: annealed copper at 20 °C, drawn to AWG diameter"
	strandedSource = "factor: TIA-568 and ISO 11801, published; resistance: common stranded copper"
	thinSource     = "factor: TIA-568.2-D, from memory; resistance: solid of this gauge, more by as much as at 26 AWG"
)

var conductors = []Conductor{
	{"22awg-solid", 22, false, 1, 5.295, Provenance{Published, solidSource}},
	{"23awg-solid", 23, false, 1, 6.680, Provenance{Published, solidSource}},
	{"24awg-solid", 24, false, 1, 8.422, Provenance{Published, solidSource}},
	{"26awg-solid", 26, false, 1, 13.389, Provenance{Published, solidSource}},
	{"28awg-solid", 28, false, 1, 21.293, Provenance{Published, solidSource}},
	{"22awg-stranded", 22, true, 1.2, 5.6, Provenance{Memory, strandedSource}},
	{"23awg-stranded", 23, true, 1.2, 7.1, Provenance{Memory, strandedSource}},
	{"24awg-stranded", 24, true, 1.2, 8.9, Provenance{Memory, strandedSource}},
	{"26awg-stranded", 26, true, 1.5, 14.0, Provenance{Memory, strandedSource}},
	{"28awg-stranded", 28, true, 1.95, 22.3, Provenance{Memory, thinSource}},
}

// Conductors gives all conductors, solid ones first, thickest first.
func Conductors() []Conductor { return slices.Clone(conductors) }

// ConductorBySlug finds a conductor, or an error that wraps ErrUnknown and lists the slugs there are.
func ConductorBySlug(slug ConductorSlug) (Conductor, error) {
	return lookup(conductors, func(c Conductor) ConductorSlug { return c.Slug }, slug, "conductor")
}

// ErrNoFactor says that no strand factor is known for so thin a stranded conductor.
var ErrNoFactor = errors.New("no factor is known for the loss of so thin a stranded conductor")

// ConductorOf returns the conductor of a gauge in AWG and make, or the next thinner one that is known. A blank gauge is
// that of a portable reel of unstated make. Stranded wire thinner than any known one is an error that wraps ErrNoFactor,
// beside the thinnest known; solid cable has its category's loss by what the category demands, whatever its gauge.
func ConductorOf(gauge int, solid bool) (Conductor, error) {
	if gauge == 0 && !solid {
		return ConductorBySlug(DefaultConductor)
	}
	var thinnest Conductor
	for _, c := range conductors { // thickest first
		if c.Stranded == solid {
			continue
		}
		if c.Gauge >= gauge {
			return c, nil
		}
		thinnest = c
	}
	if solid {
		return thinnest, nil
	}
	return thinnest, fmt.Errorf("stranded %d AWG: %w; the thinnest known is %d AWG", gauge, ErrNoFactor, thinnest.Gauge)
}
