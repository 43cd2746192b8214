package main

import (
	"fmt"
	"strings"

	"stageloom/model/budget"
	"stageloom/model/pairline"
	"stageloom/model/standards"
)

// adviceRow is one thing worth knowing beside the verdict, with what its figure is.
type adviceRow struct{ name, figure, basis string }

// Columns of the advice.
const (
	adviceColumn = 19
	figureColumn = 35
)

func (row adviceRow) print(p *page) {
	figures := wrap(row.figure, figureColumn-2)
	bases := wrap(row.basis, pageWidth-adviceColumn-figureColumn)
	for i := range max(len(figures), len(bases)) {
		name := ""
		if i == 0 {
			name = "  " + row.name
		}
		p.line("%s%s%s", left(name, adviceColumn), left(nth(figures, i), figureColumn), nth(bases, i))
	}
}

func nth(lines []string, i int) string {
	if i < len(lines) {
		return lines[i]
	}
	return ""
}

// What figures of advice are.
const (
	basisComputed = "computed"
	basisRisk     = "judgement, upper estimate"
	basisLimits   = "from catalogue limits"
	basisMaximum  = "catalogue maximum"
	basisPower    = "computed; type: memory"
)

func basisWorst(curve standards.LimitRule) string { return "computed; curve: " + status(curve.Status) }

// basisLoop names the statuses of the conductors' resistances.
func (r reckonResult) basisLoop() string {
	found := map[standards.Status]bool{}
	for _, cable := range r.Chain.Cables {
		found[cable.Conductor.Status] = true
	}
	var named []string
	for _, s := range []standards.Status{standards.Published, standards.Memory, standards.CommonPractice} {
		if found[s] {
			named = append(named, status(s))
		}
	}
	return "computed; wire: " + strings.Join(named, " and ")
}

// status writes how well a figure is founded.
func status(s standards.Status) string {
	if s == standards.CommonPractice {
		return "common practice, no source"
	}
	return string(s)
}

// advice gives what stands beside the verdict.
func (r reckonResult) advice() []adviceRow {
	a := r.Advice
	rows := []adviceRow{
		{"worst point", fmt.Sprintf("%s at %s", margin(a.WorstMarginDB), megahertz(a.WorstMHz)), basisWorst(a.Curve)},
		{"mean margin", margin(a.MeanMarginDB) + " over 1 to 62.5 MHz", basisComputed},
		{"risk", r.risk(), basisRisk},
		{"ripple", fmt.Sprintf("%s at %s", decibels(a.Reflections.RippleDB), megahertz(a.Reflections.RippleMHz)), basisComputed},
		{"return loss", fmt.Sprintf("%s margin at %s", margin(a.Reflections.ReturnLossMarginDB), megahertz(a.Reflections.ReturnLossMHz)), "computed; limit: published"},
		{"NEXT", crosstalk(a.NEXT), basisLimits},
		{"NEXT, power sum", budget.InHand(a.PowerSumNEXTDB) + " dB likely", basisLimits},
		{"ACR-N", crosstalkLess(a.NEXT, r.LossDB), basisLimits},
		{"ACR-F", crosstalk(a.ACRF), basisLimits},
		{"delay", nanoseconds(a.DelayNs), basisMaximum},
		{"delay, modelled", nanoseconds(a.PhaseDelayNs), basisComputed},
		{"skew", nanoseconds(a.SkewNs), basisMaximum},
		{"loop resistance", fmt.Sprintf("%.1f Ω a pair", a.LoopOhm), r.basisLoop()},
	}
	if len(a.Power) == 0 {
		rows = append(rows, adviceRow{"power", "none over " + r.Transport.Name, r.Transport.Name + ": " + status(r.Transport.Status)})
	}
	return rows
}

// adviceRemark says how the advice is meant.
func (r reckonResult) adviceRemark() string {
	return fmt.Sprintf("The worst point is against %s; the return loss against IEEE 802.3 40.7.2.3. Return loss, NEXT and ACR-N are those of "+
		"the worse end; crosstalk, delay and skew at 100 MHz. Risk is the chance of being over the limit when cables scatter by 3 %% and connections "+
		"by 0.05 dB: an upper estimate, since catalogue figures are maxima. No error rate is predicted: count errors on the real link.", r.Advice.Curve.Name)
}

// risk says the chance of being over at the temperature reckoned with and, where that is warm, over the range up to it.
func (r reckonResult) risk() string {
	at := fmt.Sprintf("%s at %s", budget.Chance(r.Advice.Risk), temperature(r.TemperatureC))
	if r.TemperatureC <= pairline.ReferenceTemperatureC {
		return at
	}
	return fmt.Sprintf("%s, %s from 20 °C up", at, budget.Chance(r.Advice.RiskFrom20))
}

// crosstalk prints both ways of adding up, rounded downwards like a margin.
func crosstalk(c pairline.Crosstalk) string {
	return fmt.Sprintf("%s dB likely, %s dB worst", budget.InHand(c.LikelyDB), budget.InHand(c.WorstDB))
}

// crosstalkLess is what stays of crosstalk above the loss, as both are printed.
func crosstalkLess(next pairline.Crosstalk, lossDB float64) string {
	_, likely := budget.CrosstalkLess(next.LikelyDB, lossDB)
	_, worst := budget.CrosstalkLess(next.WorstDB, lossDB)
	return fmt.Sprintf("%s dB likely, %s dB worst", likely, worst)
}

// printPower says which types of power over the link the chain bears.
func (r reckonResult) printPower(p *page) {
	p.line("Power over the link: computed; types from memory of IEEE 802.3")
	for _, direct := range r.Advice.Power {
		p.hang(left("  "+direct.Type.Name, adviceColumn), powerFigure(direct))
	}
}

func powerFigure(direct standards.Direct) string {
	if direct.Err != nil {
		return "refused: " + direct.Err.Error()
	}
	return fmt.Sprintf("works: %.4g W at %.1f V, %.2f A", direct.Feed.DevicePower, direct.Feed.DeviceVoltage, direct.Feed.Current)
}
