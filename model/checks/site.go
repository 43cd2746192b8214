package checks

import (
	"fmt"

	"stageloom/model/budget"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// stands is what a device's place is fed from and built as; blank figures are those of its position.
type stands struct{ supply, structure, exposure string }

func (s *Subject) stands(device plan.Device) stands {
	position, _ := s.Plan.Positions.Get(plan.Key(device.Position))
	return stands{
		orElse(device.Supply, position.Supply), orElse(device.Structure, position.Structure),
		orElse(orElse(device.Exposure, position.Exposure), s.Plan.Settings.Exposure),
	}
}

func orElse(given, otherwise string) string {
	if given == "" {
		return otherwise
	}
	return given
}

func differ(a, b string) bool { return a != "" && b != "" && !sameWord(a, b) }

func supplies(s *Subject) (found []Finding) {
	ground := s.Reckoner.Ground()
	s.each(func(link *plan.Link, b *budget.Budget, v *view) {
		if s.Reckoner.Transport(link.Transport).Media == "fibre" {
			return
		}
		from, to := v.ends[0].device, v.ends[1].device
		near, far := s.stands(from), s.stands(to)
		outdoors := near.exposure != "indoors" || far.exposure != "indoors"
		reason := ""
		switch {
		case differ(near.supply, far.supply):
			reason = fmt.Sprintf("two supplies (%s and %s)", near.supply, far.supply)
		case differ(near.structure, far.structure) && outdoors:
			reason = fmt.Sprintf("two structures outdoors (%s and %s)", near.structure, far.structure)
		case differ(near.structure, far.structure) && s.runsOutside(ground, *link):
			reason = fmt.Sprintf("two structures, and outdoors on its way (%s and %s)", near.structure, far.structure)
		default:
			return
		}
		found = append(found, Finding{
			Severity: Warn, Where: and(and(at(link), plan.DevicesTable, from.Key()), plan.DevicesTable, to.Key()),
			What:   fmt.Sprintf("%s is copper between %s: %s to %s", link.Name, reason, from.Name, to.Name),
			Remedy: "Take fibre: lightning and differences of earth go along copper. Where copper must stay, a qualified person answers for it; never cut a screen or lift an earth instead.",
			Short:  "copper between " + reason,
			many:   "are copper between " + reason, item: fmt.Sprintf("%s (%s to %s)", link.Name, from.Name, to.Name),
		})
	})
	return found
}

// Main and backup go the same way where most of the backup lies this near to the main, in metres.
const (
	besideDistance = 3.0
	besideShare    = 0.5
	besideStep     = 2.0
)

// isBackup reports whether a link is the backup of its partner.
func isBackup(link, partner plan.Link) bool {
	return link.Role == "backup" && partner.Role != "backup" || link.Role == "" && partner.Role == "main"
}

func sameWay(s *Subject) (found []Finding) {
	s.each(func(link *plan.Link, b *budget.Budget, v *view) {
		one := *link
		other, paired := s.Plan.Link(link.Partner)
		if !paired || one.ID > other.ID {
			return
		}
		said := "%s and its partner %s"
		if isBackup(one, other) || !isBackup(other, one) && words.Natural(other.Name, one.Name) < 0 {
			one, other = other, one
		}
		if isBackup(other, one) {
			said = "%s and its backup %s"
		}
		both := fmt.Sprintf(said, one.Name, other.Name)
		finding := Finding{Severity: Warn, Where: and(at(&one), plan.LinksTable, other.Key())}
		switch {
		case one.Loom != "" && one.Loom == other.Loom:
			loom, _ := s.Plan.Looms.Get(plan.Key(one.Loom))
			finding.What = fmt.Sprintf("%s lie in one loom, %s", both, loom.Name)
			finding.Remedy = "Take the backup out of the loom and lay it another way: one accident takes both."
		case s.beside(one, other):
			finding.What = both + " go the same way"
			finding.Remedy = "Draw the backup another way: one accident takes both."
		default:
			return
		}
		found = append(found, finding)
	})
	return found
}

// beside reports whether most of a backup's way lies along the main's.
func (s *Subject) beside(link, backup plan.Link) bool {
	along, way := s.Reckoner.Way(link), s.Reckoner.Way(backup)
	length := way.Length()
	if length == 0 {
		return true
	}
	near, all := 0, 0
	for at := 0.0; at <= length; at += besideStep {
		point, _ := way.At(at)
		all++
		if along.Distance(point) <= besideDistance {
			near++
		}
	}
	return float64(near) > besideShare*float64(all)
}
