package checks

import (
	"fmt"

	"stageloom/model/budget"
	"stageloom/model/plan"
	"stageloom/model/standards"
)

// hot finds links whose cable would be hotter in the sun than its figures go, and is reckoned at their end.
func hot(s *Subject) (found []Finding) {
	air := s.Plan.Settings.Air
	reaches := air.Value + standards.SunOverAirC
	if !air.Set || reaches <= standards.SpecifiedC {
		return nil
	}
	s.each(func(link *plan.Link, b *budget.Budget, v *view) {
		sunny := s.stands(v.ends[0].device).exposure == "sun" || s.stands(v.ends[1].device).exposure == "sun"
		if !b.Graded || b.TemperatureBy != budget.BySite || !sunny {
			return
		}
		found = append(found, Finding{
			Severity: Note, Where: at(link),
			What:   fmt.Sprintf("%s lies in the sun, where its cable may reach %.0f °C; figures for cable end at %.0f °C, and it is reckoned at that", link.Name, reaches, standards.SpecifiedC),
			Remedy: "Keep it out of the sun: under a ramp, in a trench, or beneath the stage.",
			many:   fmt.Sprintf("lie in the sun, where cable may reach %.0f °C; its figures end at %.0f °C, and they are reckoned at that", reaches, standards.SpecifiedC),
			item:   link.Name,
		})
	})
	return found
}

// gradeMHz is the frequency in MHz at which pairs are graded.
const gradeMHz = 100

// crosstalk finds links whose joined parts may couple more than their transport allows, all adding up at worst.
func crosstalk(s *Subject) (found []Finding) {
	s.each(func(link *plan.Link, b *budget.Budget, v *view) {
		transport := s.Reckoner.Transport(link.Transport)
		if transport.NEXTLimitDB == 0 || !b.HasMargin() {
			return
		}
		line := s.Reckoner.Line(*link)
		near, far := line.WorseEndNEXT(gradeMHz).WorstDB, line.ACRF(gradeMHz).WorstDB
		fault := ""
		switch {
		case near < transport.NEXTLimitDB:
			fault = fmt.Sprintf("NEXT of %s dB at worst, %.1f dB allowed", budget.InHand(near), transport.NEXTLimitDB)
		case far < transport.ACRFLimitDB:
			fault = fmt.Sprintf("ACR-F of %s dB at worst, %.1f dB allowed", budget.InHand(far), transport.ACRFLimitDB)
		default:
			return
		}
		found = append(found, Finding{
			Severity: Note, Where: at(link),
			What:   fmt.Sprintf("%s may couple more between its pairs than %s allows: %s, %s by catalogue figures", link.Name, b.TransportName, fault, b.Reference()),
			Remedy: "Take fewer joins, or couplers and cable of a better category: connections couple most. Test it under load.",
			many:   fmt.Sprintf("may couple more between their pairs than %s allows, %s by catalogue figures", b.TransportName, b.Reference()),
			item:   fmt.Sprintf("%s (%s)", link.Name, fault),
		})
	})
	return found
}

// Many joins near each other can ring: rule out cheaply what cannot. Three cables, or long reels, keep their ripple under
// half a decibel.
const (
	ringingCables = 4
	ringingLength = 15.0 // m, the shortest piece
)

// ringing finds lines whose couplers reflect in step. All cable that is graded has the same nominal impedance, so that
// nothing to speak of comes back from where two kinds meet.
func ringing(s *Subject) (found []Finding) {
	s.lines(func(link *plan.Link, b *budget.Budget, name string, where []Place) {
		if _, curved := b.Curve(); !curved || !b.HasMargin() || !mayRing(b) {
			return
		}
		r := s.Reckoner.Reflections(*link)
		if !r.Rings {
			return
		}
		found = append(found, Finding{
			Severity: Note, Where: where,
			What: fmt.Sprintf("%s may ring between its couplers: %.1f dB of ripple at %.0f MHz, return loss %s dB against its limit",
				name, r.RippleDB, r.RippleMHz, budget.TenthDB(r.ReturnLossMarginDB)),
			Remedy: "Take fewer and longer cables, or couplers of a better category.",
		})
	})
	return found
}

// mayRing reports whether a link has many cables and a short one among them.
func mayRing(b *budget.Budget) bool {
	cables, short := 0, false
	for i := range b.Parts {
		if part := &b.Parts[i]; part.What == budget.Cable && !part.Assumed {
			cables++
			short = short || part.Length < ringingLength
		}
	}
	return cables >= ringingCables && short
}
