package checks

import (
	"fmt"
	"strings"

	"stageloom/model/budget"
	"stageloom/model/plan"
)

// The modes of fibre.
const (
	multimode  = "multimode"
	singlemode = "singlemode"
)

// glass is what is known of a fibre: its mode, and the core of a multimode one in µm.
type glass struct {
	mode string
	core float64
}

// sorts are the words in a kind's media or category that say what its fibre is. ISO 11801, published.
var sorts = map[string]glass{
	"multimode": {multimode, 0}, "singlemode": {singlemode, 0},
	"om1": {multimode, 62.5}, "om2": {multimode, 50}, "om3": {multimode, 50}, "om4": {multimode, 50}, "om5": {multimode, 50},
	"os1": {singlemode, 0}, "os1a": {singlemode, 0}, "os2": {singlemode, 0},
}

// glassOf reads what a kind of cable says of its fibre.
func glassOf(kind *plan.CableKind) (g glass) {
	if !strings.HasPrefix(kind.Media, "fibre") {
		return g
	}
	for _, word := range strings.Split(kind.Media+"-"+kind.Category, "-") {
		if known, found := sorts[word]; found {
			g.mode, g.core = known.mode, max(g.core, known.core)
		}
	}
	return g
}

// fibreMode finds fibre of another mode than a port is made for, and two ports of two modes.
func fibreMode(s *Subject) (found []Finding) {
	s.each(func(link *plan.Link, b *budget.Budget, v *view) {
		near, far := &v.ends[0], &v.ends[1]
		for _, end := range []*plugged{near, far} {
			if end.meets == nil || end.port.Fibre == "" {
				continue
			}
			if mode := glassOf(end.meets.kind).mode; mode != "" && mode != end.port.Fibre {
				found = append(found, Finding{
					Severity: Stop, Where: end.at(link),
					What:   fmt.Sprintf("%s: %s is %s, but %s is made for %s", link.Name, end.meets.named(), mode, end.named(), end.port.Fibre),
					Remedy: "Take fibre of the port's own sort, or put the other optics into the port, at both ends alike.",
				})
			}
		}
		if near.port.Fibre != "" && far.port.Fibre != "" && near.port.Fibre != far.port.Fibre {
			found = append(found, Finding{
				Severity: Stop, Where: and(near.at(link), plan.DevicesTable, far.device.Key()),
				What:   fmt.Sprintf("%s: %s is made for %s, but %s for %s", link.Name, near.named(), near.port.Fibre, far.named(), far.port.Fibre),
				Remedy: "Put the same optics into both ports.",
			})
		}
	})
	return found
}

// fibreCore finds multimode of two cores joined: most of the light of the wider one is lost in the narrower.
func fibreCore(s *Subject) (found []Finding) {
	s.each(func(link *plan.Link, b *budget.Budget, v *view) {
		before := 0.0
		for _, cable := range v.cables {
			core := glassOf(cable.kind).core
			if before > 0 && core > 0 && core != before {
				found = append(found, Finding{
					Severity: Warn, Where: and(at(link), plan.CableKindsTable, cable.kind.Key()),
					What:   fmt.Sprintf("%s joins fibre of %g µm and of %g µm: %s is not like the cable before it", link.Name, before, core, cable.named()),
					Remedy: "Stay with one core from end to end: several dB are lost where the wider leads into the narrower.",
				})
				return
			}
			before = max(before, core)
		}
	})
	return found
}

// How far gigabit optics reach: 1000BASE-SX on 62.5 µm and 50 µm, 1000BASE-LX on singlemode, IEEE 802.3 clause 38,
// published.
const (
	reachWide   = 275.0
	reachNarrow = 550.0
	reachSingle = 5000.0
)

// fibreReach finds fibre longer than the usual optics reach.
func fibreReach(s *Subject) (found []Finding) {
	s.each(func(link *plan.Link, b *budget.Budget, v *view) {
		if s.Reckoner.Transport(link.Transport).Media != "fibre" || len(v.cables) == 0 {
			return
		}
		all := glassOf(v.cables[0].kind)
		for _, cable := range v.cables[1:] {
			if g := glassOf(cable.kind); g.mode != all.mode {
				return
			} else if g.core > all.core {
				all.core = g.core
			}
		}
		reach, optics := reachNarrow, "1000BASE-SX"
		switch {
		case all.mode == "":
			return
		case all.mode == singlemode:
			reach, optics = reachSingle, "1000BASE-LX"
		case all.core > 50:
			reach = reachWide
		}
		if b.Length() <= reach {
			return
		}
		remedy := "Take singlemode with its own optics, or optics whose maker states so far on this fibre."
		if all.mode == singlemode {
			remedy = "Take optics whose maker states so far, and reckon their loss."
		}
		found = append(found, Finding{
			Severity: Warn, Where: at(link),
			What:   fmt.Sprintf("%s has %s of %s, and %s reaches %.0f m on it", link.Name, budget.Metres(b.Length()), all.mode, optics, reach),
			Remedy: remedy,
			Short:  fmt.Sprintf("past the %.0f m that %s reaches on %s", reach, optics, all.mode),
			many:   fmt.Sprintf("are longer than the %.0f m that %s reaches on %s", reach, optics, all.mode),
			item:   fmt.Sprintf("%s (%s)", link.Name, budget.Metres(b.Length())),
		})
	})
	return found
}
