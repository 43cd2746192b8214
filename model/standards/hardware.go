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

// Hardware is a class of connecting hardware: the figures of one mated connection.
type Hardware struct {
	Slug    HardwareSlug
	Name    string
	Figures pairline.Interface
	Provenance
}

const hardwareSource = "TIA-568-C.2, connecting hardware; loss, NEXT and FEXT published, return loss and power sum from memory"

var hardware = []Hardware{
	{
		"cat5e", "Cat 5e hardware",
		pairline.Interface{
			Name: "Cat 5e hardware", K: 0.04, ReturnLossDB: 60, NEXTDB: 43, PowerSumNEXTDB: 40, FEXTDB: 35.1,
		},
		Provenance{Memory, hardwareSource},
	},
	{
		"cat6", "Cat 6 hardware",
		pairline.Interface{
			Name: "Cat 6 hardware", K: 0.02, ReturnLossDB: 64, NEXTDB: 54, PowerSumNEXTDB: 50, FEXTDB: 43.1,
		},
		Provenance{Memory, hardwareSource},
	},
	{
		"cat6a", "Cat 6A hardware",
		pairline.Interface{
			Name: "Cat 6A hardware", K: 0.02, ReturnLossDB: 68, NEXTDB: 54, PowerSumNEXTDB: 50, FEXTDB: 43.1,
		},
		Provenance{Memory, hardwareSource},
	},
}

// AllHardware gives all classes of connecting hardware, poorest first.
func AllHardware() []Hardware { return slices.Clone(hardware) }

// HardwareBySlug finds a class of hardware, or an error that wraps ErrUnknown and lists the slugs there are.
func HardwareBySlug(slug HardwareSlug) (Hardware, error) {
	return lookup(hardware, func(h Hardware) HardwareSlug { return h.Slug }, slug, "connecting hardware")
}
