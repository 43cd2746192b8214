package pairline

import "math"

// Band in which limits and responses are judged, in MHz, and the number of points that suffices there on a logarithmic
// grid: the additive loss is smooth, a cascade ripples.
const (
	BandLowMHz     = 1.0
	BandHighMHz    = 100.0
	AdditivePoints = 64
	CascadePoints  = 512
)

// meanHighMHz is the top of the band over which the mean margin is taken, 1 to 62.5 MHz: the half-rate of a 125 MBd pair.
const meanHighMHz = 62.5

// Coefficients of LinkSegmentLimit.
const (
	segmentScale, segmentPower, segmentRise = 2.1, 0.529, 0.4
)

// LinkSegmentLimit is the most a link segment may lose, 2.1·f^0.529 + 0.4/f dB from 1 to 100 MHz: 24.0 dB at 100 MHz.
// Source: IEEE 802.3 40.7.2.1, from memory; equals the published Cat 5 channel table at 1, 4 and 100 MHz.
func LinkSegmentLimit(freqMHz float64) float64 {
	return segmentScale*math.Pow(freqMHz, segmentPower) + segmentRise/freqMHz
}

// LogGrid gives n frequencies in MHz from BandLowMHz to BandHighMHz, both included, in equal ratios. n must be 2 or more.
func LogGrid(n int) []float64 {
	grid := make([]float64, n)
	step := math.Log(BandHighMHz/BandLowMHz) / float64(n-1)
	for i := range grid {
		grid[i] = BandLowMHz * math.Exp(step*float64(i))
	}
	grid[n-1] = BandHighMHz // exact, so that a limit that ends here still covers the last point
	return grid
}

// Point is one point of a curve to be drawn.
type Point struct{ FreqMHz, DB float64 }

// Sample gives a curve at each frequency of a grid; Loss.At is such a curve.
func Sample(curve Curve, grid []float64) []Point {
	points := make([]Point, len(grid))
	for i, freq := range grid {
		points[i] = Point{FreqMHz: freq, DB: curve(freq)}
	}
	return points
}

// WorstPoint is the smallest margin in dB of a loss against a limit over a grid of MHz, and the frequency in MHz where it
// occurs, the lower one of equals. Thick low-loss cable gains at high frequency only: at 2 to 4 MHz it can touch a limit
// while the line is healthy, so this is advice and never the verdict. The grid must not be empty.
func WorstPoint(loss, limit Curve, grid []float64) (marginDB, freqMHz float64) {
	marginDB = math.Inf(1)
	for _, freq := range grid {
		if margin := limit(freq) - loss(freq); margin < marginDB {
			marginDB, freqMHz = margin, freq
		}
	}
	return marginDB, freqMHz
}

// MeanMargin is the mean margin in dB over 1 to 62.5 MHz, what an ideal equaliser has in hand, against the link-segment
// curve scaled to pass through limitDB at 100 MHz. The means of √f, f, 1/√f and of the curve are taken in closed form.
func MeanMargin(loss Loss, limitDB float64) float64 {
	const width = meanHighMHz - BandLowMHz
	meanPower := func(power float64) float64 {
		return (math.Pow(meanHighMHz, power+1) - math.Pow(BandLowMHz, power+1)) / ((power + 1) * width)
	}
	meanLimit := segmentScale*meanPower(segmentPower) + segmentRise*math.Log(meanHighMHz/BandLowMHz)/width
	scale := limitDB / LinkSegmentLimit(GradeMHz)
	return meanLimit*scale - (loss.A*meanPower(0.5) + loss.B*meanPower(1) + loss.C*meanPower(-0.5))
}

// Reach is the longest run in metres that keeps to a limit in dB at 100 MHz, given the loss of what does not grow with
// the run (its couplers and panels) and the loss of each metre. It is 0 when the fixed part alone is over the limit and
// +Inf when a metre loses nothing. In closed form, since the loss of a cascade is not monotone in length.
func Reach(limitDB float64, fixed, perMetre Loss) float64 {
	left := limitDB - fixed.At(GradeMHz)
	slope := perMetre.At(GradeMHz)
	switch {
	case left <= 0:
		return 0
	case slope <= 0:
		return math.Inf(1)
	default:
		return left / slope
	}
}
