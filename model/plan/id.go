package plan

import (
	"math/rand/v2"
	"regexp"
)

// Typed ids: a letter for the table and five signs, never shown to a user. Kinds and cable kinds bear slugs.
type (
	// DeviceID names a device.
	DeviceID string
	// PositionID names a position.
	PositionID string
	// LevelID names a level.
	LevelID string
	// KindID is the slug of a device kind.
	KindID string
	// CableKindID is the slug of a cable kind.
	CableKindID string
	// ReelID names a reel, or a row of equal reels.
	ReelID string
	// GivenBackID names what was given back to the house's stock.
	GivenBackID string
	// ServiceID names a line of a reel's history.
	ServiceID string
	// CaseID names a case.
	CaseID string
	// HouseLineID names a house line.
	HouseLineID string
	// LoomID names a loom.
	LoomID string
	// LinkID names a link.
	LinkID string
	// AreaID names an area.
	AreaID string
	// RouteID names a route.
	RouteID string
	// InputID names a row of the input list.
	InputID string
	// OutputID names a row of the output list.
	OutputID string
	// ActID names an act; blank is the house patch.
	ActID string
	// ContactID names a contact.
	ContactID string
	// TransportID is the slug of a transport, e.g. "aes50".
	TransportID string
	// RuleID is the slug of a limit rule, e.g. "aes50-field".
	RuleID string
	// HardwareID is the slug of connecting hardware, e.g. "cat6a".
	HardwareID string
)

// Signs are the 29 signs of an id: digits and consonants that make no word.
const Signs = "23456789bcdfghjklmnpqrstvwxyz"

var (
	idForm   = regexp.MustCompile(`^[a-z]-[` + Signs + `]{5}$`)
	slugForm = regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)
)

// IDSource gives new ids. It is not safe for use from two goroutines.
type IDSource struct{ random, identities *rand.Rand }

// NewIDSource gives ids from a seed; the same seed gives the same ids, which is what tests want.
func NewIDSource(seed1, seed2 uint64) *IDSource {
	return &IDSource{rand.New(rand.NewPCG(seed1, seed2)), rand.New(rand.NewPCG(^seed2, seed1))}
}

// Next returns an id such as "d-7k2qm" that taken does not know.
func (s *IDSource) Next(letter string, taken func(string) bool) string {
	for {
		signs := [5]byte{}
		for i := range signs {
			signs[i] = Signs[s.random.IntN(len(Signs))]
		}
		if id := letter + "-" + string(signs[:]); !taken(id) {
			return id
		}
	}
}
