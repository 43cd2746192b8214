package budget

import (
	"errors"
	"fmt"
	"slices"

	"stageloom/model/pairline"
	"stageloom/model/plan"
	"stageloom/model/standards"
)

// ErrNoLine says that a link has nothing to advise on: its transport carries no grade, or it has no cable of known loss.
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
// link runs, assumed parts included, cables of unknown loss left out. A link whose transport carries no grade gives a line
// without parts.
func (r *Reckoner) Line(link plan.Link) pairline.Line {
	line, _ := r.line(link)
	return line
}

func (r *Reckoner) line(link plan.Link) (pairline.Line, Budget) {
	c := chain{reckoner: r, keep: true}
	b := r.whole(&link, &c)
	if b.Whole == nil {
		return pairline.Line{Parts: c.line}, b
	}
	own := pairline.Line{Parts: slices.Clone(c.line)}
	var line pairline.Line
	turned := false
	for _, step := range b.Whole.Steps {
		piece := own
		switch {
		case step.Link == link.ID:
			turned = step.Reversed
		default:
			piece = r.stepLine(step)
		}
		if step.Reversed {
			piece = piece.Reversed()
		}
		line.Parts = append(line.Parts, piece.Parts...)
	}
	if turned {
		line = line.Reversed()
	}
	return line, b
}

// stepLine is one step of a whole as a line of its own, from its near end.
func (r *Reckoner) stepLine(step Step) pairline.Line {
	switch {
	case step.Link != "":
		other, _ := r.plan.Link(step.Link)
		c := chain{reckoner: r, keep: true}
		r.own(&other, &c)
		return pairline.Line{Parts: c.line}
	case !step.Guest:
		return pairline.Line{Parts: []pairline.Part{step.joints[0], step.joints[1]}}
	case step.Length == 0 || !r.leadKind(step.TailKind).known:
		return pairline.Line{}
	}
	return pairline.Line{Parts: []pairline.Part{r.leadKind(step.TailKind).built.Segment(step.Length, r.siteOf(step.Device))}}
}

// Advise reckons what stands beside the verdict of a link: worst point, mean margin, risk, reflections, crosstalk, delay,
// direct current and reach. It refuses with ErrNoLine where there is none. It takes about a millisecond.
func (r *Reckoner) Advise(link plan.Link) (Advice, error) {
	line, b := r.line(link)
	if !b.HasMargin() {
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
	tolerance := pairline.DefaultTolerance()
	a := standards.Advice{
		Curve:        rule.CurveRule(),
		MeanMarginDB: pairline.MeanMargin(b.Loss, b.LimitDB),
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
	a.WorstMarginDB, a.WorstMHz = pairline.WorstPoint(b.Loss, a.Curve.LimitAt, pairline.LogGrid(pairline.AdditivePoints))
	a.Risk = pairline.Risk(b.MarginDB, a.SpreadDB)
	a.PowerSumNEXTDB = min(line.PowerSumNEXTDB(at), line.Reversed().PowerSumNEXTDB(at))
	return a
}

// A coarse sweep tells where a fine one cannot find ringing: its ripple stays far under what rings.
const (
	coarsePoints   = 64
	coarseRippleDB = 0.15
)

// Reflections sweeps a link for ringing: Rings tells whether it does. Links that a coarse sweep clears are not swept
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
	fixed := b.Loss.Plus(b.ownLoss.Times(-1))
	for _, part := range b.Parts {
		if part.Interfaces > 0 {
			fixed.A += part.LossDB / 10
		}
	}
	var found []Reach
	for kind := range r.plan.CableKinds.All() {
		c := r.kindOf(kind.ID)
		if !c.known || kind.Form == "tail" {
			continue
		}
		metre := c.built.Segment(1, b.TemperatureC).Loss()
		found = append(found, Reach{
			kind.ID, pairline.Reach(b.LimitDB, fixed, metre), pairline.Reach(b.LimitDB-b.WantedDB, fixed, metre),
		})
	}
	return found
}
