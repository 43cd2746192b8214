package standards

import (
	"slices"

	"stageloom/model/pairline"
)

// HardwareSlug names a class of connecting hardware, such as "cat6a".
type HardwareSlug string

// DefaultCoupler is the hardware a coupler is taken for unless a plan or a user says otherwise; UnknownCoupler is what a
// coupler of unknown make must be taken for.
const (
	DefaultCoupler HardwareSlug = "cat6a"
	UnknownCoupler HardwareSlug = "cat5e"
)

// Hardware is a class of connecting hardware of a medium: the figures of one mated connection.
type Hardware struct {
	Slug  HardwareSlug
	Name  string
	Media Media
	// Figures are those of a pair's hardware; LossDB is the loss in dB of hardware of other media, where it is one figure.
	Figures pairline.Interface
	LossDB  float64
	Provenance
}

const hardwareSource = "TIA-568-C.2, connecting hardware; loss, NEXT and FEXT published, return loss and power sum from memory"

var pairHardware = []Hardware{
	{
		Slug: "cat5e", Name: "Cat 5e hardware", Media: BalancedPair,
		Figures: pairline.Interface{
			Name: "Cat 5e hardware", K: 0.04, ReturnLossDB: 60, NEXTDB: 43, PowerSumNEXTDB: 40, FEXTDB: 35.1,
		},
		Provenance: Provenance{Memory, hardwareSource},
	},
	{
		Slug: "cat6", Name: "Cat 6 hardware", Media: BalancedPair,
		Figures: pairline.Interface{
			Name: "Cat 6 hardware", K: 0.02, ReturnLossDB: 64, NEXTDB: 54, PowerSumNEXTDB: 50, FEXTDB: 43.1,
		},
		Provenance: Provenance{Memory, hardwareSource},
	},
	{
		Slug: "cat6a", Name: "Cat 6A hardware", Media: BalancedPair,
		Figures: pairline.Interface{
			Name: "Cat 6A hardware", K: 0.02, ReturnLossDB: 68, NEXTDB: 54, PowerSumNEXTDB: 50, FEXTDB: 43.1,
		},
		Provenance: Provenance{Memory, hardwareSource},
	},
}

// AllHardware gives all classes of connecting hardware, those of a medium together, poorest first.
func AllHardware() []Hardware { return slices.Clone(held.Hardware) }

// HardwareOf gives the classes of connecting hardware of a medium, poorest first.
func HardwareOf(media Media) []Hardware {
	return slices.DeleteFunc(AllHardware(), func(h Hardware) bool { return h.Media != media })
}

// HardwareBySlug finds a class of hardware, or an error that wraps ErrUnknown and lists the slugs there are.
func HardwareBySlug(slug HardwareSlug) (Hardware, error) {
	return lookup(held.Hardware, func(h Hardware) HardwareSlug { return h.Slug }, slug, "connecting hardware")
}
