package standards

import (
	"slices"

	"stageloom/model/pairline"
)

// PowerSlug names a type and class of power over the link, such as "type3-class6".
type PowerSlug string

// PowerCaution goes wherever power over the link is shown.
const PowerCaution = "No power over the link on a coiled drum or in a tight hot bundle: the cable heats itself. " +
	"Follow the equipment's instructions and local codes."

// PowerType is a type and class of power over the link.
type PowerType struct {
	Slug          PowerSlug
	Name          string
	SourceVoltage float64 // V, the least a source may give
	SourcePower   float64 // W, the least a source must be good for
	DeviceVoltage float64 // V, the least a device must work from
	DevicePower   float64 // W, the most a device may draw
	Pairs         int     // that carry it
	Provenance
}

const clause33, clause145 = "IEEE 802.3 clause 33", "IEEE 802.3 clause 145"

var powerTypes = []PowerType{
	{"type1", "type 1, class 3", 44, 15.4, 37, 12.95, 2, Provenance{Memory, clause33 + "; powers published"}},
	{"type2", "type 2, class 4", 50, 30, 42.5, 25.5, 2, Provenance{Memory, clause33 + "; powers published"}},
	{"type3-class5", "type 3, class 5", 50, 45, 44.3, 40, 4, Provenance{Memory, clause145}},
	{"type3-class6", "type 3, class 6", 50, 60, 42.5, 51, 4, Provenance{Memory, clause145 + "; powers published"}},
	{"type4-class7", "type 4, class 7", 52, 75, 42.9, 62, 4, Provenance{Memory, clause145}},
	{"type4-class8", "type 4, class 8", 52, 90, 41.1, 71.3, 4, Provenance{Memory, clause145 + "; powers published"}},
}

// PowerTypes gives all types of power over the link, weakest first.
func PowerTypes() []PowerType { return slices.Clone(powerTypes) }

// PowerTypeBySlug finds a type of power, or an error that wraps ErrUnknown and lists the slugs there are.
func PowerTypeBySlug(slug PowerSlug) (PowerType, error) {
	return lookup(powerTypes, func(p PowerType) PowerSlug { return p.Slug }, slug, "type of power")
}

// Draw is what flows when a device draws its full power over a line whose pairs have this loop resistance in ohms. It
// refuses as pairline.Draw does: the power does not arrive, or the voltage falls under the type's minimum.
func (p PowerType) Draw(loopOhm float64) (pairline.Feed, error) {
	resistance, err := pairline.FeedResistance(loopOhm, p.Pairs)
	if err != nil {
		return pairline.Feed{}, err
	}
	return pairline.Draw(p.DevicePower, p.SourceVoltage, p.DeviceVoltage, resistance)
}

// Deliver is what arrives when the source gives its full power over a line whose pairs have this loop resistance in ohms;
// it refuses as pairline.Deliver does.
func (p PowerType) Deliver(loopOhm float64) (pairline.Feed, error) {
	resistance, err := pairline.FeedResistance(loopOhm, p.Pairs)
	if err != nil {
		return pairline.Feed{}, err
	}
	return pairline.Deliver(p.SourcePower, p.SourceVoltage, resistance)
}
