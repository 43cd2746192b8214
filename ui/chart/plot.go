package chart

import (
	"math"

	"stageloom/model/pairline"
	"stageloom/model/raster"
)

// The room round the plot, in units of the screen: words above, figures to the left and below, and the names of the
// curves at the foot.
const (
	inset     = 6.0 // free at both sides, as much as a label of the window has
	roomAbove = 40.0
	roomLeft  = inset + 31.0
	roomRight = inset + 11.0
	roomBelow = 22.0
	rowHeight = 16.0
)

// plot turns frequencies and decibels into places.
type plot struct {
	box      raster.Box
	low, top float64 // MHz
	deepest  float64 // dB at the foot
	step     float64 // dB between lines
}

// plotOf lays a plot out for curves; it is empty where there is no room for one.
func plotOf(c Curves, width, height float64) plot {
	p := plot{
		box: raster.Box{
			Left: roomLeft, Top: roomAbove, Right: width - roomRight,
			Bottom: height - roomBelow - rowHeight*float64(len(c.key(width))),
		},
		low: pairline.BandLowMHz, top: pairline.BandHighMHz,
	}
	most := 1.0
	for _, curve := range append([]Curve{c.Loss, c.Limit}, c.More...) {
		for _, at := range curve.Points {
			if drawable(at) {
				p.low, p.top = min(p.low, at.FreqMHz), max(p.top, at.FreqMHz)
				most = max(most, min(at.DB, mostDB))
			}
		}
	}
	if c.Verdict.FreqMHz > 0 && drawable(c.Verdict) {
		most = max(most, min(c.Verdict.DB, mostDB))
	}
	p.step = stepFor(most, int(math.Max(2, p.box.Height()/26)))
	p.deepest = p.step * math.Ceil(most*1.02/p.step)
	return p
}

// mostDB bounds the axis, whose figures have no room for a fourth digit; nobody reads a loss beyond it.
const mostDB = 400

// drawable reports whether a point can be shown.
func drawable(at pairline.Point) bool {
	return at.FreqMHz > 0 && !math.IsInf(at.FreqMHz, 0) && !math.IsNaN(at.DB) && !math.IsInf(at.DB, 0)
}

// stepFor returns the smallest of 1, 2, 5, 10, 20 … that cuts the range into no more than so many parts.
func stepFor(most float64, parts int) float64 {
	for decade := 1.0; ; decade *= 10 {
		for _, step := range []float64{1, 2, 5} {
			if step*decade*float64(parts) >= most {
				return step * decade
			}
		}
	}
}

// marks are the frequencies that the axis names.
func (p plot) marks() []float64 {
	var all []float64
	for decade := math.Pow(10, math.Floor(math.Log10(p.low))); decade <= p.top; decade *= 10 {
		for _, digit := range []float64{1, 3} {
			if at := digit * decade; at >= p.low*(1-1e-9) && at <= p.top*(1+1e-9) {
				all = append(all, at)
			}
		}
	}
	return all
}

// x is the place of a frequency.
func (p plot) x(freqMHz float64) float64 {
	return p.box.Left + p.box.Width()*math.Log(freqMHz/p.low)/math.Log(p.top/p.low)
}

// y is the place of a number of decibels.
func (p plot) y(dB float64) float64 { return p.box.Top + p.box.Height()*dB/p.deepest }

// frequencyAt is the frequency at a place, that of the nearer end where it lies beside the plot.
func (p plot) frequencyAt(x float64) float64 {
	share := min(max((x-p.box.Left)/p.box.Width(), 0), 1)
	return p.low * math.Pow(p.top/p.low, share)
}

// line gives the places of a curve.
func (p plot) line(c Curve) []raster.Point {
	points := make([]raster.Point, 0, len(c.Points))
	for _, at := range c.Points {
		place := raster.Point{X: math.NaN()} // breaks the line
		if drawable(at) {
			place = p.place(at)
		}
		points = append(points, place)
	}
	return points
}

// place is where a point lies.
func (p plot) place(at pairline.Point) raster.Point {
	return raster.Point{X: p.x(at.FreqMHz), Y: p.y(at.DB)}
}
