package main

import (
	"stageloom/model/standards"
)

// source is where figures come from.
type source struct {
	what string
	standards.Provenance
}

// sources lists where the figures of a reckoning come from.
func (r reckonResult) sources() []source {
	found := reachSources(r.Setting, constructionsOf(r.Chain))
	found = append(found,
		source{"curve of the worst point: " + r.Advice.Curve.Name, r.Advice.Curve.Provenance},
		source{"delay and skew", standards.Provenance{Status: standards.Published, Source: "TIA-568-C.2; the skew of a connection from memory"}},
	)
	for _, direct := range r.Advice.Power {
		found = append(found, source{"power, " + direct.Type.Name, direct.Type.Provenance})
	}
	return found
}

// reachSources lists where the figures of a limit and of some kinds of cable come from.
func reachSources(setting standards.Setting, kinds []standards.Construction) []source {
	found := []source{
		{setting.Transport.Name, setting.Transport.Provenance},
		{setting.Rule.Name, setting.Rule.Provenance},
		{"couplers: " + setting.Coupler.Name, setting.Coupler.Provenance},
	}
	seen := map[string]bool{}
	add := func(what string, from standards.Provenance) {
		if !seen[what] {
			seen[what] = true
			found = append(found, source{what, from})
		}
	}
	for _, kind := range kinds {
		add(kind.Cable.Name, kind.Cable.Provenance)
		if kind.OwnFigureDB != 0 {
			add("own figure of "+kind.Cable.Name, standards.Provenance{Status: "as given", Source: "The maker's or a measured one, not ours to vouch for"})
		}
		add("conductors "+string(kind.Conductor.Slug), kind.Conductor.Provenance)
	}
	return append(found, source{"loss over temperature", standards.Provenance{Status: standards.Published, Source: "TIA-568-C.2 6.4.7, 20 to 60 °C"}})
}

func printSources(p *page, sources []source) {
	p.line("Sources")
	for _, s := range sources {
		p.hang("  - ", s.what+": "+string(s.Status)+". "+s.Source)
	}
}
