package standards

import (
	"slices"

	"stageloom/model/pairline"
)

// CableSlug names a category of cable, such as "cat6a".
type CableSlug string

// Cable is a category of four-pair cable: figures of 100 m of solid conductor at 20 °C.
type Cable struct {
	Slug    CableSlug
	Name    string
	Figures pairline.Cable
	// Plug is the connecting hardware its plugs are rated as.
	Plug HardwareSlug
	// AlwaysScreened is true where the category exists in screened form only.
	AlwaysScreened bool
	Provenance
}

const (
	tiaLoss  = "TIA-568-C.2 6.4.7"
	iecLoss  = "IEC 61156-5"
	nextNote = "; crosstalk at 100 MHz from memory of the same standard"
)

var cables = []Cable{
	{
		"cat5e", "Cat 5e",
		pairline.Cable{
			Name: "Cat 5e", K1: 1.967, K2: 0.023, K3: 0.050, TopMHz: 100,
			NEXTDB: 35.3, PowerSumNEXTDB: 32.3, ACRFDB: 23.8,
		},
		"cat5e", false,
		Provenance{Memory, tiaLoss + "; equals the published table of loss at ten frequencies; NEXT and ACR-F published"},
	},
	{
		"cat6", "Cat 6",
		pairline.Cable{
			Name: "Cat 6", K1: 1.808, K2: 0.017, K3: 0.2, TopMHz: 250,
			NEXTDB: 44.3, PowerSumNEXTDB: 42.3, ACRFDB: 27.8,
		},
		"cat6", false,
		Provenance{Memory, tiaLoss + "; 19.8 dB at 100 MHz published; NEXT and ACR-F published"},
	},
	{
		"cat6a", "Cat 6A",
		pairline.Cable{
			Name: "Cat 6A", K1: 1.82, K2: 0.0091, K3: 0.25, TopMHz: 500,
			NEXTDB: 44.3, PowerSumNEXTDB: 42.3, ACRFDB: 27.8,
		},
		"cat6a", false,
		Provenance{Memory, tiaLoss + "; checked through the published channel values at 100, 250 and 500 MHz" + nextNote},
	},
	{
		"cat7", "Cat 7",
		pairline.Cable{
			Name: "Cat 7", K1: 1.80, K2: 0.010, K3: 0.20, TopMHz: 600,
			NEXTDB: 72.4, PowerSumNEXTDB: 69.4, ACRFDB: 55.3,
		},
		"cat6a", true,
		Provenance{Memory, iecLoss + nextNote + "; its usual plugs are rated as Cat 6A hardware"},
	},
	{
		"cat7a", "Cat 7A",
		pairline.Cable{
			Name: "Cat 7A", K1: 1.80, K2: 0.005, K3: 0.25, TopMHz: 1000,
			NEXTDB: 75.4, PowerSumNEXTDB: 72.4, ACRFDB: 55.3,
		},
		"cat6a", true,
		Provenance{Memory, iecLoss + nextNote + "; its usual plugs are rated as Cat 6A hardware"},
	},
	{
		"cat8", "Cat 8",
		pairline.Cable{
			Name: "Cat 8", K1: 1.80, K2: 0.005, K3: 0.25, TopMHz: 2000,
			NEXTDB: 44.3, PowerSumNEXTDB: 42.3, ACRFDB: 27.8,
		},
		"cat6a", true,
		Provenance{Memory, "TIA-568-C.2-1" + nextNote + "; its plugs are rated as Cat 6A hardware, to 100 MHz"},
	},
}

// Cables gives all categories, poorest first.
func Cables() []Cable { return slices.Clone(cables) }

// CableBySlug finds a category, or an error that wraps ErrUnknown and lists the slugs there are.
func CableBySlug(slug CableSlug) (Cable, error) {
	return lookup(cables, func(c Cable) CableSlug { return c.Slug }, slug, "cable category")
}
