package report

import (
	"fmt"

	"stageloom/model/geom"
	"stageloom/model/picture"
	"stageloom/report/paper"
)

// frame is the outline of another part on a sheet, with the box of its number; both in points of the sheet's view.
type frame struct {
	words string
	box   geom.Box
	tag   geom.Box
}

// tagSize is the size of a part's number, in points on A4.
const tagSize = 11.0

// frames returns the outlines of the parts other than this one that lie in a view or reach into it. Their numbers stand
// in a corner that no device takes.
func (c *cartographer) frames(l layout, view picture.View, parts []part, this int) []frame {
	var taken []geom.Box
	offset := view.Point(geom.Point{})
	for _, box := range l.arrangement.Boxes() {
		if box = box.Shift(offset); view.Box().Overlaps(box) {
			taken = append(taken, box)
		}
	}
	var frames []frame
	for i, other := range parts {
		f := frame{words: fmt.Sprintf("part %d", i+1), box: geom.BoxOf(view.Point(other.metres.Min), view.Point(other.metres.Max))}
		if i+1 == this || f.box.Intersection(view.Box()).Inset(8).Empty() {
			continue
		}
		size := tagSize * typeScale(l.format)
		f.tag = corner(f.box, view.Box(), c.measure(f.words, size, true)+4, size+4, taken)
		taken = append(taken, f.tag)
		frames = append(frames, f)
	}
	return frames
}

// corner returns a box in a corner of a frame that overlaps nothing taken, else one beside the frame in view, or the first
// corner where there is none.
func corner(frame, view geom.Box, width, height float64, taken []geom.Box) geom.Box {
	in := frame.Intersection(view.Inset(4)).Inset(4)
	half := geom.Point{X: width / 2, Y: height / 2}
	low, high, middle := in.Min.Add(half), in.Max.Sub(half), in.Centre()
	above, below := frame.Min.Y-half.Y-2, frame.Max.Y+half.Y+2
	places := []geom.Point{
		low,
		{X: high.X, Y: low.Y},
		{X: low.X, Y: high.Y},
		high,
		{X: middle.X, Y: low.Y},
		{X: middle.X, Y: high.Y},
		{X: middle.X, Y: above},
		{X: middle.X, Y: below},
		{X: frame.Min.X - half.X - 2, Y: middle.Y},
		{X: frame.Max.X + half.X + 2, Y: middle.Y},
	}
	for _, at := range places {
		if box := geom.BoxAround(at, width, height); view.ContainsBox(box) && !overlapsAny(box, taken) {
			return box
		}
	}
	return geom.BoxAround(low, width, height)
}

func overlapsAny(box geom.Box, others []geom.Box) bool {
	for _, other := range others {
		if box.Overlaps(other) {
			return true
		}
	}
	return false
}

// tags returns the boxes that labels keep off.
func tags(frames []frame) []geom.Box {
	boxes := make([]geom.Box, len(frames))
	for i, f := range frames {
		boxes[i] = f.tag
	}
	return boxes
}

// drawFrames draws the outlines of the parts that lie in the sheet, or reach into it.
func drawFrames(pen *paper.Pen, s planPage) {
	for _, f := range s.frames {
		corners := f.box.Corners()
		pen.Polygon(onPaper(corners[:]), paper.None, paper.Stroke{Colour: paper.Grey(90), Width: 0.25, Dash: []float64{4, 2}})
	}
}

// drawTags writes the numbers of the parts.
func drawTags(pen *paper.Pen, s planPage) {
	l := paper.Lettering{Face: paper.Bold, Size: tagSize * pen.Scale(), Colour: paper.Grey(60), Align: paper.Centre, Plate: 0.4}
	for _, f := range s.frames {
		_, high := pen.Measure(f.words, l)
		at := onPaper([]geom.Point{f.tag.Centre()})[0]
		pen.Text(paper.Point{X: at.X, Y: at.Y + high/2}, f.words, l)
	}
}
