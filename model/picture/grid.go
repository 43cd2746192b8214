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

// ScaleBar draws a bar of a round length in the lower left corner of a view.
func ScaleBar(v View, unit float64, unitName string) []Mark {
	length := RoundStep(80/v.Scale/unit) * unit
	width := length * v.Scale
	left, y := scaleEdge, v.Height-20
	if v.Height < 60 || v.Width < width+80 {
		return nil
	}
	bar := []geom.Point{{X: left, Y: y - 5}, {X: left, Y: y}, {X: left + width, Y: y}, {X: left + width, Y: y - 5}}
	text := strconv.FormatFloat(math.Round(length/unit*1000)/1000, 'f', -1, 64) + " " + unitName
	return []Mark{
		{Shape: Stroke, Role: RoleScaleBar, Points: bar},
		{Shape: Words, Role: RoleScaleText, Points: []geom.Point{{X: left + width + 8, Y: y - 3}}, Text: text, Size: placeTextSize, Anchor: Left},
	}
}

// scaleEdge is how far in points a scale bar stays off the edges of a view, scaleStep how far on the next place is looked for.
const (
	scaleEdge = 18.0
	scaleStep = 40.0
)

// ScaleBar is that of a view within the picture, where it lies on no device: along the foot from the left, else along the top.
// Where devices are everywhere there is none.
func (p *Picture) ScaleBar(v View, unit float64, unitName string) []Mark {
	marks := ScaleBar(v, unit, unitName)
	if len(marks) == 0 {
		return nil
	}
	bar, words := marks[0].Points, marks[1]
	end := words.Points[0].X + p.arrangement.measure(words.Text, words.Size, false)
	box := geom.BoxOf(bar[0], bar[2], geom.Point{X: end, Y: bar[0].Y - 8}).Inset(-4)
	shift := p.View.Point(v.Origin)
	for _, up := range []float64{0, v.Height - 2*scaleEdge - box.Height()/2} {
		for across := 0.0; box.Max.X+across < v.Width-scaleEdge; across += scaleStep {
			by := geom.Point{X: across, Y: -up}
			if p.clearOfBoxes(box.Shift(by).Shift(shift)) {
				return Shifted(marks, by)
			}
		}
	}
	return nil
}

// clearOfBoxes reports whether a box of the view lies on no device and no block.
func (p *Picture) clearOfBoxes(box geom.Box) bool {
	for i := range p.arrangement.Scene.Devices {
		if p.boxOf(p.arrangement.Scene.Devices[i].ID).Overlaps(box) {
			return false
		}
	}
	for i := range p.arrangement.blocks {
		if p.arrangement.blocks[i].box.Shift(p.offset()).Overlaps(box) {
			return false
		}
	}
	return true
}

// ScaleNote says in the place of the scale bar that a view has no scale.
func ScaleNote(v View) []Mark {
	if v.Height < 60 {
		return nil
	}
	at := geom.Point{X: 18, Y: v.Height - 23}
	return []Mark{{Shape: Words, Role: RoleScaleText, Points: []geom.Point{at}, Text: NotToScale, Size: placeTextSize, Anchor: Left}}
}

// Shifted returns marks moved by points of the view.
func Shifted(marks []Mark, by geom.Point) []Mark {
	moved := make([]Mark, len(marks))
	for i, m := range marks {
		points := make([]geom.Point, len(m.Points))
		for j, at := range m.Points {
			points[j] = at.Add(by)
		}
		m.Points = points
		moved[i] = m
	}
	return moved
}
