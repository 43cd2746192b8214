package budget

import (
	"errors"
	"fmt"
	"slices"

	"stageloom/model/medium"
	"stageloom/model/pairline"
	"stageloom/model/plan"
	"stageloom/model/standards"
)

// ErrNoLine says that a link has nothing to advise on: its transport carries no grade, its medium has no curves, or it has no
// cable of known loss.
var ErrNoLine = errors.New("there is no line to advise on")

// Advice is what is worth knowing of a link beside its verdict, reckoned on demand.
type Advice struct {
	standards.Advice
	// Budget is the verdict that stands beside it, and Line the link as a line, its assumed part included.
	Budget Budget
	Line   pairline.Line
	// PowerW is what the link is to carry to its device, 0 where it carries none.
	PowerW float64
	// Feed is the direct current of the type of power that carries PowerW; PowerErr says why it does not arrive.
	PowerType standards.PowerType
	Feed      pairline.Feed
	PowerErr  error
	// Reaches says how far each kind of data cable in the plan would carry at this link's temperature, by its slug.
	Reaches []Reach
}

// Reach is how long a run of one kind may be with the joints the link has.
type Reach struct {
	Kind plan.CableKindID
	// AtLimit leaves nothing in hand; Wanted leaves the wanted margin. Metres.
	AtLimit, Wanted float64
}

// Line gives the electrical line that a link is part of, for curves: from active port to active port, the way that the
// link runs, assumed parts included, cables of unknown loss left out. A link whose transport carries no grade, or
// whose medium has no curves, gives a line without parts.
func (r *Reckoner) Line(link plan.Link) pairline.Line {
	line, _ := r.line(link)
	return line
}

func (r *Reckoner) line(link plan.Link) (pairline.Line, Budget) {
	parts, b := r.lineParts(link)
	if curved, is := b.Medium.(medium.Curved); is {
		return curved.Line(parts), b
	}
	return pairline.Line{}, b
}

// lineParts gives the parts of the line that a link is part of, the way that the link runs.
func (r *Reckoner) lineParts(link plan.Link) (line []medium.Part, b Budget) {
	c := chain{reckoner: r, keep: true}
	b = r.whole(&link, &c)
	if b.Whole == nil {
		return c.line, b
	}
	turned := false
	for _, step := range b.Whole.Steps {
		var piece []medium.Part
		switch {
		case step.Link == link.ID:
			piece, turned = slices.Clone(c.line), step.Reversed
		default:
			piece = r.stepLine(step, b.Whole.medium)
		}
		if step.Reversed {
			slices.Reverse(piece)
		}
		line = append(line, piece...)
	}
	if turned {
		slices.Reverse(line)
	}
	return line, b
}

// stepLine is one step of a whole as parts of its own, from its near end.
func (r *Reckoner) stepLine(step Step, m *ready) []medium.Part {
	tail := r.leadKind(step.TailKind, m)
	switch {
	case step.Link != "":
		other, _ := r.plan.Link(step.Link)
		c := chain{reckoner: r, keep: true}
		r.own(&other, &c)
		return c.line
	case !step.Guest:
		return []medium.Part{{Joint: step.joints[0]}, {Joint: step.joints[1]}}
	case step.Length == 0 || !tail.knownIn(m):
		return nil
	}
	return []medium.Part{{Cable: &tail.Cable, Length: step.Length, TemperatureC: r.siteOf(step.Device)}}
}

// Advise reckons what stands beside the verdict of a link: worst point, mean margin, risk, reflections, crosstalk, delay,
// direct current and reach. It refuses with ErrNoLine where there is none. It takes about a millisecond.
func (r *Reckoner) Advise(link plan.Link) (Advice, error) {
	line, b := r.line(link)
	if _, curved := b.Curve(); !curved || !b.HasMargin() {
		return Advice{}, fmt.Errorf("link %s: %w", link.Name, ErrNoLine)
	}
	rule, err := standards.LimitRuleBySlug(standards.RuleSlug(b.Rule))
	if err != nil {
		return Advice{}, fmt.Errorf("link %s: %w", link.Name, err)
	}
	a := Advice{Budget: b, Line: line, PowerW: link.PowerW}
	a.Advice = adviceOn(line, b, rule)
	if link.PowerW > 0 {
		a.power(r.Sender(link))
	}
	a.Reaches = r.reaches(b)
	return a, nil
}

func adviceOn(line pairline.Line, b Budget, rule standards.LimitRule) standards.Advice {
	const at = pairline.GradeMHz
	loss, tolerance := line.Loss(), pairline.DefaultTolerance()
	a := standards.Advice{
		Curve:        rule.CurveRule(),
		MeanMarginDB: pairline.MeanMargin(loss, b.LimitDB),
		SpreadDB:     line.SpreadDB(tolerance),
		RiskFrom20:   line.RiskOver(b.LimitDB, min(pairline.ReferenceTemperatureC, b.TemperatureC), b.TemperatureC, tolerance),
		Reflections:  line.Reflections(),
		NEXT:         line.WorseEndNEXT(at),
		ACRN:         line.ACRN(at),
		ACRF:         line.ACRF(at),
		DelayNs:      line.DelayNs(at),
		SkewNs:       line.SkewNs(),
		PhaseDelayNs: line.PhaseDelayNs(at),
		LoopOhm:      line.LoopResistance(),
	}
	a.WorstMarginDB, a.WorstMHz = pairline.WorstPoint(loss.At, a.Curve.LimitAt, pairline.LogGrid(pairline.AdditivePoints))
	a.Risk = pairline.Risk(b.MarginDB, a.SpreadDB)
	a.PowerSumNEXTDB = min(line.PowerSumNEXTDB(at), line.Reversed().PowerSumNEXTDB(at))
	return a
}

// A coarse sweep tells where a fine one cannot find ringing: its ripple stays far under what rings.
const (
	coarsePoints   = 64
	coarseRippleDB = 0.15
)

// Reflections sweeps a link for ringing: Rings reports whether it does. Links that a coarse sweep clears are not swept
// finely, and give what the coarse one found.
func (r *Reckoner) Reflections(link plan.Link) pairline.Reflections {
	line := r.Line(link)
	coarse := pairline.ReflectionsOf(line.Responses(pairline.LogGrid(coarsePoints)))
	if coarse.RippleDB < coarseRippleDB && coarse.ReturnLossMarginDB > 2 {
		return coarse
	}
	return line.Reflections()
}

// reaches gives the reach of each kind of data cable in the plan with the joints of this link, and what its line has beside
// it.
func (r *Reckoner) reaches(b Budget) []Reach {
	fixedDB := b.LossDB - b.OwnDB
	for _, part := range b.Parts {
		if part.Interfaces > 0 {
			fixedDB += part.LossDB
		}
	}
	var found []Reach
	for kind := range r.plan.CableKinds.All() {
		c := r.kindOf(kind.ID)
		if c.medium == nil || c.medium.Medium != b.Medium || !c.Known || kind.Form == "tail" {
			continue
		}
		found = append(found, reachOf(kind.ID, &b, fixedDB, r.transportOf(b.Transport).scale.dB(c.at(1, b.TemperatureC))))
	}
	return found
}
