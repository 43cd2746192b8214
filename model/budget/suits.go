package budget

import (
	"slices"
	"strings"

	"stageloom/model/plan"
	"stageloom/model/standards"
)

// Suits reports whether a kind of cable does for a whole link of a transport between these ports: its medium, its pairs and
// its screen are what the transport wants, it has plugs at both ends, and they go into each port. A port that states no
// connector takes any.
func Suits(kind plan.CableKind, transport standards.Transport, ports ...plan.KindPort) bool {
	switch {
	case !Fits(kind, transport.Media) || !ofItsImpedance(kind, transport):
		return false
	case !portable(kind):
		return false
	case kind.Pairs > 0 && kind.Pairs < transport.PairsNeeded:
		return false
	case transport.ScreenRequired && (!kind.Screened || transport.Graded() && !kind.MetalShell):
		return false
	}
	return !slices.ContainsFunc(ports, func(port plan.KindPort) bool { return !goesInto(kind, port) })
}

// portable reports whether a kind is a whole cable with a plug at both ends.
func portable(kind plan.CableKind) bool {
	return kind.Form != "tail" && !kind.Solid && kind.NearEnd != "socket" && kind.FarEnd != "socket"
}

// goesInto reports whether a kind's plug goes into a port, as far as both say what they are.
func goesInto(kind plan.CableKind, port plan.KindPort) bool {
	if kind.Connector == "" || port.Connector == "" {
		return true
	}
	return kind.Connector == port.Connector && (port.Lockable || !kind.Lockable)
}

// ofItsImpedance tells coax of 50 Ω from coax of 75 Ω; other media have one impedance each.
func ofItsImpedance(kind plan.CableKind, transport standards.Transport) bool {
	if transport.Media != standards.Coax {
		return true
	}
	return strings.Contains(transport.Connector, "50 Ω") == (kind.Media == "coax-50")
}
