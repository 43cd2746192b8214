package budget

import (
	"stageloom/model/plan"
	"stageloom/model/standards"
)

// Loom is the form of a stock loom, which carries several links and is no cable of one.
const Loom = "loom"

// Carries reports whether a kind of cable carries a transport at all: its medium, its pairs, its screen through. What picking
// lays and what is found in a plan are told apart by this one test.
func Carries(kind plan.CableKind, t standards.Transport, graded bool) bool {
	switch {
	case kind.Form == Loom || !Fits(kind, t.Media):
		return false
	case kind.Pairs > 0 && kind.Pairs < t.PairsNeeded:
		return false
	case t.ScreenRequired && (!kind.Screened || graded && !kind.MetalShell):
		return false
	}
	return true
}

// Meant reports whether a link may have a kind of cable that carries it. Where no loss tells kinds apart, a link that wants a
// kind means that one: no other sort of fibre, no intercom cable for digital audio, no multicore of other ways.
func Meant(link plan.Link, kind plan.CableKindID, graded bool) bool {
	return graded || link.FillKind == "" || link.FillKind == kind
}
