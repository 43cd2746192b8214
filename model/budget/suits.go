package budget

import (
	"strings"

	"stageloom/model/plan"
	"stageloom/model/standards"
)

// Suits tells whether a kind of cable does for a whole link of a transport between these ports: its medium, its pairs and
// its screen are what the transport wants, it has plugs at both ends, and they go into each port. A port that states no
// connector takes any.
func Suits(kind plan.CableKind, transport standards.Transport, ports ...plan.KindPort) bool {
	switch {
	case !Fits(kind, transport.Media) || !ofItsImpedance(kind, transport):
		return false
	case kind.Form == "tail" || kind.Solid || kind.NearEnd == "socket" || kind.FarEnd == "socket":
		return false
	case kind.Pairs > 0 && kind.Pairs < transport.PairsNeeded:
		return false
	case transport.ScreenRequired && (!kind.Screened || transport.Graded() && !kind.MetalShell):
		return false
	}
	for _, port := range ports {
		if kind.Connector == "" || port.Connector == "" {
			continue
		}
		if kind.Connector != port.Connector || kind.Lockable && !port.Lockable {
			return false
		}
	}
	return true
}

// ofItsImpedance tells coax of 50 Ω from coax of 75 Ω; other media have one impedance each.
func ofItsImpedance(kind plan.CableKind, transport standards.Transport) bool {
	if transport.Media != standards.Coax {
		return true
	}
	return strings.Contains(transport.Connector, "50 Ω") == (kind.Media == "coax-50")
}
