package medium

import (
	"math"
	"slices"
	"strings"

	"stageloom/model/plan"
	"stageloom/model/standards"
)

// Loss is what parts lose, in figures that add up along a line. What each stands for is the medium's: the three terms of a
// pair's formula, or decibels in the first alone. The zero Loss is no loss.
type Loss [3]float64

// Plus is the loss of two parts one after the other.
func (l Loss) Plus(other Loss) Loss {
	return Loss{l[0] + other[0], l[1] + other[1], l[2] + other[2]}
}

// Times is the loss of n such parts; n need not be whole.
func (l Loss) Times(n float64) Loss { return Loss{n * l[0], n * l[1], n * l[2]} }

// Medium is what links of some transports run through, as a loss budget sees it.
type Medium interface {
	// Media is what transports, limit rules, hardware and kinds of cable call it.
	Media() standards.Media
	// Reference stands behind a figure of a transport and says what it is taken at: "at 100 MHz". The zero transport is
	// for what no transport is known of: the reference of the medium's own figures.
	Reference(standards.Transport) string
	// DB is what a loss comes to in decibels at the reference of a transport. It is linear.
	DB(Loss, standards.Transport) float64
	// Joint is the loss of one mated connection of its hardware.
	Joint(standards.Hardware) Loss
	// CouplerJoints is how many mated connections a coupler or a panel makes, 1 or 2: two where a plug goes into each side
	// of its body, one where it only holds two plugs together.
	CouplerJoints() int
	// Cable makes a kind of cable of the medium ready for reckoning.
	Cable(plan.CableKind) Cable
	// Measured is a cable with the loss in dB that was measured on one piece of it, so many metres long, at 20 °C.
	Measured(c Cable, lossDB, length float64) Cable
	// Lead is the kind that an inner lead or a tail of no stated kind is taken for: the poorest there is.
	Lead() plan.CableKind
	// OwnFigure says how a maker's own figure is given, behind "in": "dB per 100 m at 100 MHz and 20 °C".
	OwnFigure() string
	// RestsOn says what the loss of a kind rests on, and where that is from where it is no user's figure; blank where
	// nothing is known of it.
	RestsOn(plan.CableKind) (words string, from standards.Provenance)
	// Instead says what carries further, as the end of a remedy: ", or go over to …"; blank where nothing does.
	Instead() string
	// Warm is how many times the loss at 20 °C a cable loses at a temperature in °C.
	Warm(temperatureC float64, screened bool) float64
}

// Cable is a kind of cable made ready for reckoning.
type Cable struct {
	// Known tells that its loss is known; Unknown says why not, where something is stated that does not do.
	Known   bool
	Unknown string
	// PerMetre is the loss of a metre at 20 °C.
	PerMetre Loss
	Screened bool
	// Own is a piece's measured figure in the unit of the medium's own figures; 0 where none is measured.
	Own float64
	// Figures are what the medium itself holds of the kind.
	Figures any
}

// Hardware is a class of connecting hardware made ready for reckoning: one mated connection of it.
type Hardware struct {
	ID   plan.HardwareID
	Name string
	Loss Loss
	DB   float64 // at the reference of the medium's own figures
}

// Joint is one mated connection, by the hardware of its two sides. It loses what the poorer of them does.
type Joint [2]*Hardware

// Poorer is the side that loses more.
func (j Joint) Poorer() *Hardware {
	if j[1].DB > j[0].DB {
		return j[1]
	}
	return j[0]
}

// Part is one part of a line: so many metres of cable at a temperature in °C, or a joint where it is of no cable.
type Part struct {
	Cable        *Cable
	Length       float64
	TemperatureC float64
	Joint        Joint
}

// Reach is the longest run in metres that keeps to a limit, given the loss of what does not grow with the run and that of
// each metre, all in dB: 0 where the fixed part alone is over, +Inf where a metre loses nothing.
func Reach(limitDB, fixedDB, metreDB float64) float64 {
	left := limitDB - fixedDB
	switch {
	case left <= 0:
		return 0
	case metreDB <= 0:
		return math.Inf(1)
	default:
		return left / metreDB
	}
}

// HardwareOf makes the hardware of a medium ready, poorest first.
func HardwareOf(m Medium) (all []Hardware) {
	for _, row := range standards.HardwareOf(m.Media()) {
		loss := m.Joint(row)
		all = append(all, Hardware{plan.HardwareID(row.Slug), row.Name, loss, m.DB(loss, standards.Transport{})})
	}
	return all
}

var media []Medium

// Register adds a medium, whose hardware must be held by then, and returns what takes out again all that were added since.
// Not while a plan is reckoned.
func Register(m Medium) (undo func()) {
	if len(standards.HardwareOf(m.Media())) == 0 {
		panic("the medium " + string(m.Media()) + " has no connecting hardware")
	}
	before := media
	media = append(slices.Clip(media), m)
	return func() { media = before }
}

func init() { Register(Pair{}) }

// All gives the media there are, the balanced pair first.
func All() []Medium { return slices.Clone(media) }

// Of finds the medium by its name in transports.
func Of(name standards.Media) (Medium, bool) {
	for _, m := range media {
		if m.Media() == name {
			return m, true
		}
	}
	return nil, false
}

// References says what decibels are taken at where figures of these transports may stand: "at 100 MHz". Those that no medium
// grades have none.
func References(of ...standards.Transport) string {
	var words []string
	for _, transport := range of {
		m, known := Of(transport.Media)
		if !known || !transport.Graded() {
			continue
		}
		if reference := m.Reference(transport); !slices.Contains(words, reference) {
			words = append(words, reference)
		}
	}
	return strings.Join(words, " or ")
}

// HardwareFor lists what a user may choose between where connecting hardware is named for cable of a medium, poorest first:
// the medium's own, or the first medium's where no loss of it is reckoned, which is asked for names alone.
func HardwareFor(name standards.Media) []standards.Hardware {
	if m, known := Of(name); known {
		return standards.HardwareOf(m.Media())
	}
	return standards.HardwareOf(media[0].Media())
}
