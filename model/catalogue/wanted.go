package catalogue

import (
	"slices"

	"stageloom/model/budget"
	"stageloom/model/plan"
	"stageloom/model/standards"
)

// usualKinds are what links are reckoned as until they are cabled, the likest first: portable reels of the trade with
// shells, and with plain plugs for ports that take no shell. All are of a standard's grade, without a maker's own figure: a
// stock is likelier to have them, and the low-loss ones of the catalogue are examples whose figures are invented.
var usualKinds = map[plan.TransportID][]plan.CableKindID{
	aes50:           {"cat6a", "cat5e"},
	ethernet:        {"cat6a", "cat6-unscreened"},
	fast:            {"cat5e", "cat5e-unscreened"},
	aes3:            {"audio-pair"},
	"analogue-line": {"audio-pair"},
	talk:            {"intercom"},
	multicore:       {"multicore-12", "multicore-16", "multicore-24", "multicore-48"},
	fibre:           {"fibre-multimode", "fibre-singlemode"},
	"aes10":         {"coax"},
	"word-clock":    {"coax"},
	video:           {"coax"},
	aerial:          {"coax-50"},
}

// wantedKind is the kind that goes into these ports and that most links of a transport have in the plan; else the
// catalogue's usual one that goes into them; else any that does, those of the plan first; blank where none does.
func wantedKind(p *plan.Plan, id plan.TransportID, ends []plan.KindPort) plan.CableKindID {
	transport, err := standards.TransportBySlug(standards.TransportSlug(id))
	if err != nil {
		return ""
	}
	ways := 0
	for _, end := range ends {
		ways = max(ways, waysOf(p, end))
	}
	kinds := slices.DeleteFunc(CableKindsFor(p), func(kind plan.CableKind) bool {
		return !budget.Suits(kind, transport, ends...) || transport.Media == standards.AnalogueMulticore && kind.Ways < ways
	})
	if len(kinds) == 0 {
		return ""
	}
	worn := map[plan.CableKindID]int{}
	for link := range p.Links.All() {
		if link.Transport == id {
			worn[link.FillKind]++
		}
	}
	rank := func(kind plan.CableKind) int {
		if at := slices.Index(usualKinds[id], kind.ID); at >= 0 {
			return at
		}
		return len(kinds)
	}
	return slices.MinFunc(kinds, func(a, b plan.CableKind) int {
		if worn[a.ID] != worn[b.ID] {
			return worn[b.ID] - worn[a.ID]
		}
		return rank(a) - rank(b)
	}).ID
}

// waysOf is how many ways a multicore port has: those that lie parallel to sockets, or else the greater count of its
// kind's sockets.
func waysOf(p *plan.Plan, port plan.KindPort) (ways int) {
	for row := range p.KindWays.All() {
		if row.Kind == port.Kind && row.Port == port.Name {
			ways = max(ways, row.First+row.Count-1)
		}
	}
	if kind, found := p.Kinds.Get(plan.Key(port.Kind)); ways == 0 && found {
		return max(kind.Inputs, kind.Outputs)
	}
	return ways
}
