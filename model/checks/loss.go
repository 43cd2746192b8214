package checks

import (
	"fmt"
	"strings"

	"stageloom/model/budget"
	"stageloom/model/plan"
)

// ManyJoins is how many joins a link may have before each one more is a risk somebody should know of. Common practice.
const ManyJoins = 3

func overLimit(s *Subject) (found []Finding) {
	s.lines(func(link *plan.Link, b *budget.Budget, name string, where []Place) {
		if b.Grade == budget.Over {
			found = append(found, Finding{
				Severity: Stop, Where: where,
				What:   fmt.Sprintf("%s is %s", name, b.Why()),
				Remedy: "Do not use it like this. " + s.cureLine(link, b, shorten(b)),
			})
		}
	})
	return found
}

// shorten says what to do where no one change cures a link.
func shorten(b *budget.Budget) string {
	if instead(b) == "" {
		return "Shorten the run, or join fewer cables."
	}
	return "Shorten the run, join fewer cables" + instead(b) + ", which carries further than any copper."
}

// instead says what carries further than a link's medium; of one that nothing is reckoned of, fibre does.
func instead(b *budget.Budget) string {
	if b.Medium == nil {
		return ", or go over to fibre"
	}
	return b.Medium.Instead()
}

// cure says which one change would cure a link, or what else to do.
func (s *Subject) cure(link *plan.Link, otherwise string) string {
	cures := s.Reckoner.Cures(*link)
	if len(cures) == 0 {
		return otherwise
	}
	cure := cures[0]
	said := fmt.Sprintf("%s would leave %s dB in hand", s.change(cure), budget.InHand(cure.MarginDB))
	if cure.Grade == budget.Tight {
		wanted := s.Reckoner.Of(*link).WantedDB
		return fmt.Sprintf("%s: still tight, %s dB under what is wanted.", said, budget.LossTenths(wanted-cure.MarginDB))
	}
	return said + "."
}

// change says what a cure changes.
func (s *Subject) change(cure budget.Cure) string {
	kind, _ := s.Plan.CableKinds.Get(plan.Key(cure.Kind))
	switch {
	case cure.Another:
		return fmt.Sprintf("Another %s of %s in the place of cable %d, which was measured at %.0f %% of what its kind gives,",
			cableLength(cure.Length), kind.Name, cure.Order, 100*cure.Share)
	case cure.Coupler != "":
		return fmt.Sprintf("A coupler of %s before cable %d", s.Reckoner.HardwareName(cure.Coupler), cure.Order)
	case cure.Order == 0:
		return fmt.Sprintf("%s of %s for what it still lacks", cableLength(cure.Length), kind.Name)
	}
	return fmt.Sprintf("%s of %s in the place of cable %d", cableLength(cure.Length), kind.Name, cure.Order)
}

// cableLength prints a cable's length as its label does: whole metres without a nought behind the point.
func cableLength(metres float64) string { return strings.Replace(budget.Metres(metres), ".0 ", " ", 1) }

func tooShort(s *Subject) (found []Finding) {
	s.each(func(link *plan.Link, b *budget.Budget, v *view) {
		if b.TooShort() {
			shown := b.Printed(1)
			found = append(found, Finding{
				Severity: Stop, Where: at(link),
				What:   fmt.Sprintf("%s is %s too short: %s laid for a run of %s (%s)", link.Name, budget.Metres(shown.Missing), budget.Metres(shown.Laid), budget.Metres(shown.Run), b.Measured.Words()),
				Remedy: fmt.Sprintf("Add a cable of %s or more, or take a longer one.", budget.Metres(shown.Missing)),
			})
		}
	})
	return found
}

func uncabled(s *Subject) (found []Finding) {
	s.each(func(link *plan.Link, b *budget.Budget, v *view) {
		if !b.Bare() {
			return
		}
		finding := Finding{
			Severity: Warn, Where: at(link),
			What:   fmt.Sprintf("%s has no cable yet: %s to go (%s)", link.Name, budget.Metres(b.Run), b.Measured.Words()),
			Remedy: "Pick a cable for it.",
			many:   "have no cable yet", item: fmt.Sprintf("%s (%s)", link.Name, budget.Metres(b.Run)),
		}
		if b.Measured.Wanting() {
			finding.What, finding.item = link.Name+" has no cable yet, and no metres to pick one by", link.Name
			finding.Remedy = "Type the length of its way first, then pick a cable for it."
		}
		if partner, paired := s.Plan.Link(link.Partner); paired && isBackup(*link, partner) {
			finding.Where = and(finding.Where, plan.LinksTable, partner.Key())
			finding.What += fmt.Sprintf(", and until then %s has no backup", partner.Name)
			finding.many, finding.item = "", ""
		}
		found = append(found, finding)
	})
	return found
}

func tight(s *Subject) (found []Finding) {
	s.lines(func(link *plan.Link, b *budget.Budget, name string, where []Place) {
		if b.Grade == budget.Tight {
			found = append(found, Finding{
				Severity: Warn, Where: where,
				What:   fmt.Sprintf("%s is %s", name, b.Why()),
				Remedy: s.cureLine(link, b, "One join less, or cooler cable, may cure it.") + " As it is, test it under load before the show.",
			})
		}
	})
	return found
}

func pastDistance(s *Subject) (found []Finding) {
	s.lines(func(link *plan.Link, b *budget.Budget, name string, where []Place) {
		if b.PastDistance() {
			found = append(found, Finding{
				Severity: Note, Where: where,
				What:   fmt.Sprintf("%s has %s of cable, past the %.0f m stated for %s", name, budget.Metres(b.Printed(1).LineLength()), b.Distance, b.TransportName),
				Remedy: "The equipment's maker does not answer for it at this length, whatever the loss: test it" + instead(b) + ".",
				many:   fmt.Sprintf("are longer than the %.0f m stated for %s", b.Distance, b.TransportName),
				item:   fmt.Sprintf("%s (%s)", name, budget.Metres(b.Printed(1).LineLength())),
			})
		}
	})
	return found
}

func manyJoins(s *Subject) (found []Finding) {
	s.each(func(link *plan.Link, b *budget.Budget, v *view) {
		finding := Finding{Severity: Warn, Where: at(link), Remedy: "Take longer cables: each join is one more thing that can come apart, get wet or be trodden on."}
		switch {
		case link.MaxJoins > 0 && b.Joins > link.MaxJoins:
			finding.What = fmt.Sprintf("%s has %d joins, and %d are allowed for it", link.Name, b.Joins, link.MaxJoins)
		case b.Joins > ManyJoins:
			finding.What = fmt.Sprintf("%s has %d joins", link.Name, b.Joins)
		default:
			return
		}
		found = append(found, finding)
	})
	return found
}

func unknownLoss(s *Subject) (found []Finding) {
	s.each(func(link *plan.Link, b *budget.Budget, v *view) {
		for _, cable := range v.cables {
			if cable.part.Unknown && !cable.foreign {
				found = append(found, s.unknownOf(link, cable))
				return
			}
		}
	})
	return found
}

// What to do about a kind of cable whose loss is not stated, or not by anything that is known.
const (
	stateLoss        = "Enter the category of this kind of cable, or its maker's own figure in dB per 100 m."
	ownFigureInstead = "Make a kind of cable with its maker's own figure, in %s, and lay that in its place."
)

// unknownOf says why a cable of a link has no known loss.
func (s *Subject) unknownOf(link *plan.Link, cable laid) Finding {
	finding := Finding{
		Severity: Stop, Where: and(at(link), plan.CableKindsTable, cable.kind.Key()),
		What:   fmt.Sprintf("%s cannot be graded: nothing says what %s loses", link.Name, cable.named()),
		Remedy: stateLoss,
	}
	finding.Short = "cannot be graded"
	finding.many, finding.item = fmt.Sprintf("cannot be graded: nothing says what %s loses", cable.ofMany()), link.Name
	if why := s.Reckoner.WhyUnknown(cable.kind.ID); why != "" {
		finding.many = fmt.Sprintf("cannot be graded by %s: %s", cable.ofMany(), why)
		finding.What = fmt.Sprintf("%s cannot be graded by %s: %s", link.Name, cable.named(), why)
		finding.Remedy = fmt.Sprintf(ownFigureInstead, s.Reckoner.Medium(cable.kind.ID).OwnFigure())
	}
	return finding
}

func aboveStandard(s *Subject) (found []Finding) {
	s.lines(func(link *plan.Link, b *budget.Budget, name string, where []Place) {
		if limitDB, some := b.StandardDB(); some && b.AboveStandard() && b.Grade != budget.Over {
			above := fmt.Sprintf("inside its limit, but above the standard's %.1f dB", limitDB)
			found = append(found, Finding{
				Severity: Note, Where: where,
				What:   fmt.Sprintf("%s loses %s dB: %s", name, budget.LossTenths(b.LossDB), above),
				Remedy: "It runs by field practice, not by a standard. Test it, and say so to whoever answers for the show.",
				many:   fmt.Sprintf("are inside their limit, but above the standard's %.1f dB", limitDB),
				item:   fmt.Sprintf("%s (%s dB)", name, budget.LossTenths(b.LossDB)),
			})
		}
	})
	return found
}

func delay(s *Subject) (found []Finding) {
	s.lines(func(link *plan.Link, b *budget.Budget, name string, where []Place) {
		limit := s.Reckoner.Transport(link.Transport).DelayLimitNs
		if limit == 0 || !b.PastDistance() {
			return
		}
		if ns := s.Reckoner.Line(*link).DelayNs(gradeMHz); ns > limit {
			found = append(found, Finding{
				Severity: Note, Where: where,
				What:   fmt.Sprintf("%s delays by %.0f ns, past the %.0f ns stated for %s", name, ns, limit, b.TransportName),
				Remedy: "Nothing to do: a full-duplex link does not fail by it.",
				many:   fmt.Sprintf("delay by more than the %.0f ns stated for %s", limit, b.TransportName),
				item:   fmt.Sprintf("%s (%.0f ns)", name, ns),
			})
		}
	})
	return found
}
