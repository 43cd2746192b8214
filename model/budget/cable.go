package budget

import (
	"stageloom/model/pairline"
	"stageloom/model/plan"
	"stageloom/model/standards"
)

// leastUnitFactor is the lowest share of its category's loss that a measured figure may claim: a cable far better than
// that is a slip of the pen, and must not buy a grade. It is the least that pairline holds its formulas good for.
const leastUnitFactor = 0.8

// cable is one cable kind made ready for reckoning.
type cable struct {
	id         plan.CableKindID
	name       string
	built      standards.Construction
	pair       bool          // it is a four-pair data cable
	known      bool          // and its loss is known: a category, or an own or measured figure
	unknown    string        // why its loss is not known, where something is stated that does not do
	perMetre   pairline.Loss // at 20 °C
	plug       *hardware
	nearSocket bool
	farSocket  bool
	drum       bool
}

// hardware is connecting hardware made ready for reckoning.
type hardware struct {
	id      plan.HardwareID
	figures pairline.Interface
}

// Fits tells whether a cable kind's media is a transport's: the same words with hyphens for blanks, or the same and a
// sort of it behind one more hyphen, such as "fibre-multimode" for fibre.
func Fits(kind plan.CableKind, media standards.Media) bool {
	own := kind.Media
	if media == "" || len(own) < len(media) {
		return false
	}
	for i := range len(media) {
		if own[i] != media[i] && (media[i] != ' ' || own[i] != '-') {
			return false
		}
	}
	return len(own) == len(media) || own[len(media)] == '-'
}

// newCable makes a kind ready. An unknown category with an own figure takes the shape of Cat 5e through that figure.
func (r *Reckoner) newCable(kind plan.CableKind) cable {
	category, err := standards.CableBySlug(standards.CableSlug(kind.Category))
	if err != nil {
		category, _ = standards.CableBySlug(poorestCategory)
	}
	conductor, thin := standards.ConductorOf(kind.Gauge, kind.Solid)
	c := cable{
		id: kind.ID, name: kind.Name, plug: r.hardwareOf(kind.Hardware), pair: Fits(kind, standards.BalancedPair),
		nearSocket: kind.NearEnd == "socket", farSocket: kind.FarEnd == "socket", drum: kind.Form == "drum",
		built: standards.Construction{
			Cable: category, Conductor: conductor, WholeAllowance: kind.Allowance,
			Screened: kind.Screened, Impedance: pairline.NominalImpedance,
		},
	}
	if kind.OwnFigure.Set {
		if wrong := category.CheckOwnFigure(kind.OwnFigure.Value); wrong != nil {
			c.unknown = "its " + wrong.Error()
		}
		c.known = c.pair && c.unknown == ""
		return c.withFigure(kind.OwnFigure.Value)
	}
	if err == nil && thin != nil {
		c.unknown = thin.Error()
	}
	c.known = c.pair && err == nil && thin == nil
	c.perMetre = c.built.Segment(1, pairline.ReferenceTemperatureC).Loss()
	return c
}

const poorestCategory standards.CableSlug = "cat5e"

// withFigure returns the cable with its own loss, in dB per 100 m at 100 MHz and 20 °C, in the place of its category's.
func (c cable) withFigure(figureDB float64) cable {
	c.built.OwnFigureDB = max(leastUnitFactor*at100(c.built.Cable.Figures.Loss()), figureDB)
	c.perMetre = c.built.Segment(1, pairline.ReferenceTemperatureC).Loss()
	return c
}

// measured returns the cable with the loss measured on one piece of it, in dB at 100 MHz, taken as measured at 20 °C.
func (c cable) measured(lossDB, length float64) cable {
	c.known = c.pair
	return c.withFigure(lossDB / length * pairline.ReferenceLength)
}
