package cabling

import (
	"stageloom/model/budget"
	"stageloom/model/plan"
)

// jointKey is two kinds that meet, the coupler named for them, and how their drums lie.
type jointKey struct {
	a, b    plan.CableKindID
	coupler plan.HardwareID
	medium  string
	turned  bool
}

// lossKey is what decides the loss of a line of stock on a link.
type lossKey struct {
	medium       string // blank where nothing is graded
	temperatureC float64
	turned       bool
}

// medium names the medium that a run is graded in; blank where it is not.
func (r *run) medium() string {
	if r.fixed.Medium == nil {
		return ""
	}
	return string(r.fixed.Medium.Media())
}

// lossesFor is what each line of stock loses on a run, inner connections of drums included, in thousandths of a dB, each
// part rounded up; −1 where its loss is not known on the run's transport.
func (s *survey) lossesFor(r *run) []int {
	key := lossKey{r.medium(), r.fixed.TemperatureC, r.turned}
	if known, found := s.losses[key]; found {
		return known
	}
	losses := make([]int, len(s.lines))
	for i := range s.lines {
		l := &s.lines[i]
		losses[i] = r.lossOf(l.sample)
		if s.hiring && l.measured.Set { // what is hired was not measured
			losses[i] = max(losses[i], r.lossOf(plan.Segment{Kind: l.kind, Length: l.length}))
		}
	}
	s.losses[key] = losses
	return losses
}

// lossOf is what one cable loses on a run, its inner connection included; −1 where that is not known.
func (r *run) lossOf(segment plan.Segment) (loss int) {
	b := r.survey.reckoner.Cabled(r.link, renumbered([]plan.Segment{segment}))
	for _, part := range b.Parts {
		if part.Order != 1 || part.Assumed {
			continue
		}
		if part.Unknown {
			return -1
		}
		loss += up(part.LossDB)
	}
	return loss
}

// jointOf is what the joint of two kinds that follow each other loses on a graded run, in thousandths of a dB. Where it
// takes a coupler and none is named, it is the plan's own.
func (s *survey) jointOf(r *run, a, b plan.CableKindID, coupler plan.HardwareID) int {
	if !r.fixed.Graded {
		return 0
	}
	key := jointKey{a, b, coupler, r.medium(), r.turned}
	if known, found := s.joints[key]; found {
		return known
	}
	pair := s.reckoner.Cabled(r.link, renumbered([]plan.Segment{{Kind: a, Length: 1}, {Kind: b, Length: 1, Coupler: coupler}}))
	for _, part := range pair.Parts {
		if part.Order == 2 && (part.What == budget.Coupler || part.What == budget.Connection) {
			s.joints[key] = up(part.LossDB)
		}
	}
	return s.joints[key]
}
