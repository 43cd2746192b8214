package cabling

import (
	"math"

	"stageloom/model/budget"
)

// grain is what float arithmetic may be off by, in thousandths of a dB; a budget itself forgives more.
const grain = 1e-8

// up rounds a loss in dB up to thousandths, down a limit.
func up(lossDB float64) int    { return int(math.Ceil(lossDB*1000 - grain)) }
func down(limitDB float64) int { return int(math.Floor(limitDB*1000 + grain)) }

// millimetres is a length of the plan, which keeps no less.
func millimetres(length float64) int { return int(math.Round(length * 1000)) }

// unnoticed is how many millimetres a budget lets cables fall short of the run: less than 0.05 m.
const unnoticed = 49

// rounded is the loss of a budget's parts, each rounded up to thousandths of a dB.
func rounded(b *budget.Budget) int {
	sum := 0
	for i := range b.Parts {
		sum += up(b.Parts[i].LossDB)
	}
	return sum
}
