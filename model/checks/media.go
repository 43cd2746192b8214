package checks

import (
	"fmt"

	"stageloom/model/budget"
	"stageloom/model/plan"
)

func wrongMedium(s *Subject) (found []Finding) {
	s.each(func(link *plan.Link, b *budget.Budget, v *view) {
		media := s.Reckoner.Transport(link.Transport).Media
		if media == "" {
			return
		}
		sort := ""
		for _, cable := range v.cables {
			finding := Finding{Severity: Stop, Where: and(at(link), plan.CableKindsTable, cable.kind.Key())}
			switch {
			case cable.foreign:
				finding.What = fmt.Sprintf("%s runs on %s, and %s is none", link.Name, media, cable.named())
				finding.Remedy = "Take cable that this transport runs on."
				finding.Short = fmt.Sprintf("%s in the place of %s", cable.kind.Name, media)
				finding.many, finding.item = fmt.Sprintf("run on %s, and %s is none", media, cable.ofMany()), link.Name
			case sort != "" && sort != sortOf(cable.kind):
				finding.What = fmt.Sprintf("%s joins two sorts of %s: %s is not like the cable before it", link.Name, media, cable.named())
				finding.Remedy = "Stay with one sort from end to end; the two do not pass on each other's signal."
			default:
				sort = sortOf(cable.kind)
				continue
			}
			found = append(found, finding)
			return
		}
	})
	return found
}

// sortOf is what tells apart cables of one media that do not pass on each other's signal.
func sortOf(kind *plan.CableKind) string {
	if mode := glassOf(kind).mode; mode != "" {
		return mode
	}
	return kind.Media
}

// impedance finds coax of another impedance than its transport's.
func impedance(s *Subject) (found []Finding) {
	s.each(func(link *plan.Link, b *budget.Budget, v *view) {
		wanted := s.Reckoner.Transport(link.Transport).Impedance
		for _, cable := range v.cables {
			ohms := ohmsOf(cable.kind)
			if wanted == 0 || cable.foreign || ohms == 0 || ohms == wanted {
				continue
			}
			finding := Finding{
				Severity: Warn, Where: and(at(link), plan.CableKindsTable, cable.kind.Key()),
				What:   fmt.Sprintf("%s: %s is of %d Ω, and %s wants %d Ω", link.Name, cable.named(), ohms, b.TransportName, wanted),
				Remedy: fmt.Sprintf("Take %d Ω coax with %d Ω plugs from end to end: another impedance throws the signal back.", wanted, wanted),
				Short:  fmt.Sprintf("%d Ω coax where %d Ω is wanted", ohms, wanted),
				many:   fmt.Sprintf("carry %s, which wants %d Ω, on coax of %d Ω", b.TransportName, wanted, ohms), item: link.Name,
			}
			if wanted == 50 { // an antenna on 75 Ω loses a fraction of a decibel: common practice
				finding.Severity = Note
			}
			found = append(found, finding)
			return
		}
	})
	return found
}

// ohmsOf is the impedance of a kind of coax: 75 Ω unless its media says otherwise, 0 for what is no coax.
func ohmsOf(kind *plan.CableKind) (ohms int) {
	if kind.Media == "coax" {
		return 75
	}
	if n, err := fmt.Sscanf(kind.Media, "coax-%d", &ohms); n != 1 || err != nil {
		return 0
	}
	return ohms
}
