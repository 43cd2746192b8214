package chart

import (
	"fmt"
	"math"

	"stageloom/model/budget"
	"stageloom/model/pairline"
	"stageloom/model/standards"
)

// Curve is values over frequency, in order of frequency, all of it above 0 MHz. Values in dB; what is no number is
// left out of the line.
type Curve struct {
	Name   string
	Points []pairline.Point
	// Costs tells that the less the better, so that it is printed rounded upwards.
	Costs bool
}

// tenths prints a value of the curve, rounded against who reads it.
func (c Curve) tenths(dB float64) string {
	if c.Costs {
		return budget.LossTenths(dB)
	}
	return budget.InHand(dB)
}

// Curves is what a chart shows.
type Curves struct {
	// Title stands above; blank is that of a loss.
	Title string
	// Above tells that the more the better: what is drawn must lie above its limit in dB, such as return loss and NEXT.
	Above bool
	// Grade gives the loss its colour and line; "" is a link without grade.
	Grade       string
	Loss, Limit Curve
	// Verdict is the limit that grades; a zero frequency is none. VerdictName names it where it lies off the limit's
	// curve.
	Verdict     pairline.Point
	VerdictName string
	// Worst is where the loss comes nearest to the limit, or goes farthest beyond; a zero frequency is none.
	Worst pairline.Point
	// Told is said while nothing is pointed at; blank is how the link is graded.
	Told string
	// More are drawn thin.
	More []Curve
	// Hint is shown instead of curves where there is no loss to draw.
	Hint string
}

// gridPoints is how many points of a curve are reckoned; at 2 or 3 pixels apart lines between them look round.
const gridPoints = 96

// Of returns the curves of a link. The limit is the curve that advises beside the rule that grades.
func Of(b budget.Budget) Curves {
	if !b.Graded {
		return Curves{Hint: b.TransportName + " carries no loss budget here"}
	}
	if !b.HasMargin() {
		return Curves{Hint: "no cable of known loss yet"}
	}
	loss, some := b.Curve()
	if !some {
		return Curves{Hint: b.TransportName + " is graded by one figure, not over frequency"}
	}
	grid := pairline.LogGrid(gridPoints)
	c := Curves{
		Grade: string(b.Standing()), Loss: Curve{Name: "loss", Points: pairline.Sample(loss, grid), Costs: true},
		Verdict: pairline.Point{FreqMHz: pairline.GradeMHz, DB: b.LimitDB},
	}
	rule, err := standards.LimitRuleBySlug(standards.RuleSlug(b.Rule))
	if err != nil {
		return c // a rule of another edition: its figure at 100 MHz still grades
	}
	advising := rule.CurveRule()
	c.Limit = Curve{Name: "limit", Points: pairline.Sample(advising.LimitAt, grid)}
	if advising.Slug != rule.Slug {
		c.Limit.Name, c.VerdictName = "standard's limit", "field rule"
	}
	_, worst := pairline.WorstPoint(loss, advising.LimitAt, grid)
	c.Worst = pairline.Point{FreqMHz: worst, DB: loss(worst)}
	return c
}

// At is the value of the curve at a frequency, straight on the logarithmic axis between its points, and whether it
// has one there.
func (c Curve) At(freqMHz float64) (dB float64, some bool) {
	for i := 1; i < len(c.Points); i++ {
		a, b := c.Points[i-1], c.Points[i]
		if freqMHz < a.FreqMHz || freqMHz > b.FreqMHz {
			continue
		}
		share := 0.0
		if b.FreqMHz > a.FreqMHz {
			share = math.Log(freqMHz/a.FreqMHz) / math.Log(b.FreqMHz/a.FreqMHz)
		}
		dB = a.DB + share*(b.DB-a.DB)
		return dB, !math.IsNaN(dB) && !math.IsInf(dB, 0)
	}
	return 0, false
}

// ReadOut says what the curves come to at a frequency: the loss of how much it may be, what is left between the two,
// then the further curves.
func (c Curves) ReadOut(freqMHz float64) string {
	text := megahertz(freqMHz) + " MHz"
	loss, some := c.Loss.At(freqMHz)
	if !some {
		return text
	}
	limit, limited := c.Limit.At(freqMHz)
	switch {
	case limited && c.Above:
		least, value, left := budget.TenthsLeft(limit, loss)
		text += fmt.Sprintf(": %s %s dB, at least %s, %s", c.Loss.Name, value, least, left)
	case limited:
		value, most, left := budget.TenthsLeft(loss, limit)
		text += fmt.Sprintf(": %s of %s dB, %s", value, most, left)
	case c.Above:
		text += fmt.Sprintf(": %s %s dB", c.Loss.Name, budget.InHand(loss))
	default:
		text += fmt.Sprintf(": %s dB", budget.LossTenths(loss))
	}
	if c.VerdictName != "" {
		text += " to the " + c.Limit.Name
	}
	for _, more := range c.More {
		if value, some := more.At(freqMHz); some {
			text += fmt.Sprintf(", %s %s", more.Name, more.tenths(value))
		}
	}
	return text
}

// Summary is what is said while nothing is pointed at: how the link is graded.
func (c Curves) Summary() string {
	if c.Told != "" {
		return c.Told
	}
	loss, some := c.Loss.At(c.Verdict.FreqMHz)
	if !some || !(c.Verdict.FreqMHz > 0) {
		return ""
	}
	value, most, left := budget.TenthsLeft(loss, c.Verdict.DB)
	return fmt.Sprintf("%s MHz: %s of %s dB, %s", megahertz(c.Verdict.FreqMHz), value, most, left)
}

// worst says what is left at the worst point, which is advice.
func (c Curves) worst() string {
	limit, some := c.Limit.At(c.Worst.FreqMHz)
	if !some {
		return "worst point"
	}
	_, _, left := budget.TenthsLeft(c.Worst.DB, limit)
	if c.Above {
		_, _, left = budget.TenthsLeft(limit, c.Worst.DB)
	}
	return fmt.Sprintf("worst %s at %s MHz", left, megahertz(c.Worst.FreqMHz))
}

// WorstWords say what the worst point is; blank where there is none.
func (c Curves) WorstWords() string {
	if !(c.Worst.FreqMHz > 0) {
		return ""
	}
	of := ""
	if c.VerdictName != "" {
		of = " of the " + c.Limit.Name
	}
	return fmt.Sprintf("worst at %s MHz: the frequency at which least is in hand%s", megahertz(c.Worst.FreqMHz), of)
}

// megahertz prints a frequency with no more figures than one can point at.
func megahertz(freqMHz float64) string {
	if freqMHz < 9.95 {
		return fmt.Sprintf("%.1f", freqMHz)
	}
	return fmt.Sprintf("%.0f", freqMHz)
}
