package standards

import (
	"fmt"
	"math"

	"stageloom/model/pairline"
)

// Shares of its category's loss within which an own figure of a cable must lie: a cable far better is a slip of the pen
// that must not buy a grade, a far worse one is faulty. They are those that pairline holds its formulas good for.
const (
	leastFigureShare = 0.8
	mostFigureShare  = 2.0
)

// OwnFigureBounds are the least and the greatest own figure that a cable of this category can have, in dB per 100 m at
// 100 MHz and 20 °C, both allowed.
func (c Cable) OwnFigureBounds() (low, high float64) {
	usual := c.Figures.Loss().At(pairline.GradeMHz)
	return math.Ceil(leastFigureShare*usual*10) / 10, math.Floor(mostFigureShare*usual*10) / 10
}

// CheckOwnFigure refuses, in words, a figure that no cable of this category can have.
func (c Cable) CheckOwnFigure(figure float64) error {
	low, high := c.OwnFigureBounds()
	if figure >= low && figure <= high {
		return nil
	}
	return fmt.Errorf("own figure is %g dB per 100 m; for %s it must be from %g to %g", figure, c.Name, low, high)
}
