package standards

import (
	"fmt"
	"strings"

	"stageloom/model/pairline"
)

// Construction is a cable as built: its category, its conductors, its screen, and its maker's figure if there is one.
type Construction struct {
	Cable Cable
	// OwnFigureDB is the maker's own or a measured loss of the cable as built, in dB per 100 m at 100 MHz and 20 °C; 0
	// where there is none. It holds for the conductors the cable has, so no strand factor comes on top.
	OwnFigureDB float64
	Conductor   Conductor
	// WholeAllowance takes ISO 11801's 50 % for a stranded conductor of any gauge that has no greater factor of its own.
	WholeAllowance bool
	Screened       bool
	Impedance      float64 // Ω, nominal
}

// Reel is the usual construction of a portable reel of a category: stranded 24 AWG, screened, 100 Ω, no own figure.
func Reel(cable Cable) Construction {
	conductor, err := ConductorBySlug(DefaultConductor)
	if err != nil {
		panic(err)
	}
	return Construction{Cable: cable, Conductor: conductor, Screened: true, Impedance: pairline.NominalImpedance}
}

// StrandFactor is what the conductors make of the loss: 1 where an own figure already holds for them.
func (c Construction) StrandFactor() float64 {
	switch {
	case c.OwnFigureDB != 0:
		return 1
	case c.WholeAllowance && c.Conductor.Stranded:
		return max(WholeAllowance, c.Conductor.StrandFactor)
	default:
		return c.Conductor.StrandFactor
	}
}

// UnitFactor is the own figure over that of the category, or 1.
func (c Construction) UnitFactor() float64 {
	if c.OwnFigureDB == 0 {
		return 1
	}
	return c.Cable.Figures.UnitFactorFor(c.OwnFigureDB)
}

// Segment is a length of this cable, in metres, at a cable temperature in °C.
func (c Construction) Segment(length, temperatureC float64) pairline.Segment {
	return pairline.Segment{
		Cable:               c.Cable.Figures,
		Length:              length,
		StrandFactor:        c.StrandFactor(),
		UnitFactor:          c.UnitFactor(),
		TemperatureC:        temperatureC,
		Screened:            c.Screened,
		Impedance:           c.Impedance,
		ConductorOhmPer100m: c.Conductor.OhmPer100m,
	}
}

// PlugFigures are the figures of the plugs on this cable.
func (c Construction) PlugFigures() (pairline.Interface, error) {
	plug, err := HardwareBySlug(c.Cable.Plug)
	if err != nil {
		return pairline.Interface{}, fmt.Errorf("plug of %s: %w", c.Cable.Name, err)
	}
	return plug.Figures, nil
}

// Label names the construction in words, such as "Cat 6A at 19.2 dB/100 m, stranded 24 AWG, screened".
func (c Construction) Label() string {
	name := c.Cable.Name
	if c.OwnFigureDB != 0 {
		name += fmt.Sprintf(" at %g dB/100 m", c.OwnFigureDB)
	}
	conductor, screen := "solid", "unscreened"
	if c.Conductor.Stranded {
		conductor = "stranded"
	}
	if c.Screened {
		screen = "screened"
	}
	words := []string{name, fmt.Sprintf("%s %d AWG", conductor, c.Conductor.Gauge), screen}
	if c.WholeAllowance {
		words = append(words, "ISO 50 % allowance")
	}
	if c.Impedance != pairline.NominalImpedance {
		words = append(words, fmt.Sprintf("%g Ω", c.Impedance))
	}
	return strings.Join(words, ", ")
}
