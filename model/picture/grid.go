package picture

import (
	"math"
	"strconv"

	"stageloom/model/geom"
)

// gridGap is the least distance in points between grid lines.
const gridGap = 38.0

// grid draws lines at round lengths of the unit, every fifth stronger.
func (p *Picture) grid() {
	step := RoundStep(gridGap/p.View.Scale/p.options.Unit) * p.options.Unit
	low := p.View.Metres(geom.Point{Y: p.View.Height})
	high := p.View.Metres(geom.Point{X: p.View.Width})
	var fine, coarse []Mark
	line := func(n int, from, to geom.Point) {
		m := Mark{Shape: Stroke, Role: RoleGridFine, Points: []geom.Point{p.View.Point(from), p.View.Point(to)}}
		if n%5 == 0 {
			m.Role = RoleGridCoarse
			coarse = append(coarse, m)
			return
		}
		fine = append(fine, m)
	}
	for n := int(math.Ceil(low.X / step)); float64(n)*step <= high.X; n++ {
		x := float64(n) * step
		line(n, geom.Point{X: x, Y: low.Y}, geom.Point{X: x, Y: high.Y})
	}
	for n := int(math.Ceil(low.Y / step)); float64(n)*step <= high.Y; n++ {
		y := float64(n) * step
		line(n, geom.Point{X: low.X, Y: y}, geom.Point{X: high.X, Y: y})
	}
	p.Marks = append(append(p.Marks, fine...), coarse...)
}

// scaleBar draws a bar of a round length in the lower left corner.
func (p *Picture) scaleBar() {
	length := RoundStep(80/p.View.Scale/p.options.Unit) * p.options.Unit
	width := length * p.View.Scale
	left, y := 18.0, p.View.Height-20
	if p.View.Height < 60 || p.View.Width < width+80 {
		return
	}
	bar := []geom.Point{{X: left, Y: y - 5}, {X: left, Y: y}, {X: left + width, Y: y}, {X: left + width, Y: y - 5}}
	p.add(Mark{Shape: Stroke, Role: RoleScaleBar, Points: bar})
	text := strconv.FormatFloat(math.Round(length/p.options.Unit*1000)/1000, 'f', -1, 64) + " " + p.options.UnitName
	p.add(Mark{Shape: Words, Role: RoleScaleText, Points: []geom.Point{{X: left + width + 8, Y: y - 3}}, Text: text, Size: placeTextSize, Anchor: Left})
}
