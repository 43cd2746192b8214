package chart

import (
	"fmt"
	"math"

	"stageloom/model/budget"
	"stageloom/model/pairline"
)

// Shown values end here: a quiet line sends next to nothing back, and nobody reads beyond it. In dB.
const quietest = 80.0

// ReturnLossOf is the return loss of a link over frequency, at the worse end, with its limit: IEEE 802.3 40.7.2.3. The
// more the better.
func ReturnLossOf(b budget.Budget, line pairline.Line) Curves {
	c := Curves{Title: "Return loss, worse end", Above: true, Grade: ""}
	if hint := Of(b).Hint; hint != "" {
		c.Hint = hint
		return c
	}
	grid := pairline.LogGrid(pairline.CascadePoints)
	worst := math.Inf(1)
	for _, response := range line.Responses(grid) {
		dB := min(response.ReturnLossNearDB, response.ReturnLossFarDB, quietest)
		c.Loss.Points = append(c.Loss.Points, pairline.Point{FreqMHz: response.FreqMHz, DB: dB})
		if over := dB - pairline.ReturnLossLimit(response.FreqMHz); over < worst {
			worst, c.Worst = over, pairline.Point{FreqMHz: response.FreqMHz, DB: dB}
		}
	}
	c.Loss.Name = "return loss"
	c.Limit = Curve{Name: "limit", Points: pairline.Sample(pairline.ReturnLossLimit, pairline.LogGrid(gridPoints))}
	c.Told = "computed; must lie under the dashed line"
	return c
}

// NextOf is the crosstalk at the worse end of a link over frequency: likely, as a sum of powers, and worst, as a sum of
// voltages at the connections. The more the better. Links of these transports have no limit of their own for it.
func NextOf(b budget.Budget, line pairline.Line) Curves {
	c := Curves{Title: "NEXT, worse end", Above: true}
	if hint := Of(b).Hint; hint != "" {
		c.Hint = hint
		return c
	}
	likely := Curve{Name: "likely"}
	c.Loss.Name = "worst"
	for _, freqMHz := range pairline.LogGrid(gridPoints) {
		next := line.WorseEndNEXT(freqMHz)
		c.Loss.Points = append(c.Loss.Points, pairline.Point{FreqMHz: freqMHz, DB: next.WorstDB})
		likely.Points = append(likely.Points, pairline.Point{FreqMHz: freqMHz, DB: next.LikelyDB})
	}
	loss, _ := b.Curve()
	c.More = []Curve{likely, {Name: "loss", Points: pairline.Sample(loss, pairline.LogGrid(gridPoints)), Costs: true}}
	at := line.WorseEndNEXT(pairline.GradeMHz)
	c.Told = fmt.Sprintf("%s MHz: worst %s, likely %s dB; no limit here", megahertz(pairline.GradeMHz), budget.InHand(at.WorstDB), budget.InHand(at.LikelyDB))
	return c
}
