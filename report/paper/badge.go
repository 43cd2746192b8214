package paper

// Badge shows the grade of a link by its SHAPE and filling, so that it is told
// apart in black and white and at arm's length; Text is the figure in it, such
// as whole dB.
//
//	ample     round ends, thin edge
//	enough    square corners, medium edge
//	tight     a peaked roof, grey, thick edge
//	over      black with notched ends, white figure
//	uncabled  dotted edge
//
// Without Text a badge is as wide as high: a disc, a square, a peak, a notched
// block, a dotted square.
type Badge struct {
	Grade Role
	Text  string
}

// badgeEdge is the width of the outline by grade, in parts of the height.
var badgeEdge = map[Role]float64{Ample: 0.05, Enough: 0.1, Tight: 0.1, Over: 0.05, Uncabled: 0.07}

// Badge draws a badge of the given height centred at a point and returns its
// width. A grade without a shape is drawn as plain text.
func (p *Pen) Badge(centre Point, height float64, badge Badge) float64 {
	l := Lettering{Face: Bold, Size: badgeSize(height), Align: Centre}
	width := p.BadgeWidth(height, badge)
	box := Box{X: centre.X - width/2, Y: centre.Y - height/2, W: width, H: height}
	edge := Stroke{Colour: Black, Width: badgeEdge[badge.Grade] * height}
	box = box.Inset(edge.Width / 2)
	drop := 0.0 // of the figure below the middle
	switch badge.Grade {
	case Ample:
		p.RoundBox(box, box.H/2, White, edge)
	case Enough:
		p.Polygon(corners(box), White, edge)
	case Tight:
		p.Polygon(house(box), Grey(208), edge)
		drop = 0.07 * height
	case Over:
		p.Polygon(notched(box), Black, edge)
		l.Colour = White
	case Uncabled:
		edge.Dash, edge.Round = []float64{0, edge.Width * 2}, true
		p.Polygon(corners(box), White, edge)
	}
	if l.Size >= leastSize {
		rise := capHeight * l.Size * pointMM
		p.Text(Point{centre.X, centre.Y + rise/2 + drop}, badge.Text, l)
	}
	return width
}

// BadgeWidth returns the width of a badge of the given height. Badges of one or
// two digits are equally wide.
func (p *Pen) BadgeWidth(height float64, badge Badge) float64 {
	if badge.Text == "" {
		return height
	}
	text, _ := p.Measure(badge.Text, Lettering{Face: Bold, Size: badgeSize(height)})
	return max(2.2*height, text+1.2*height)
}

// badgeSize returns the size of the figure in points.
func badgeSize(height float64) float64 { return height * 0.64 / pointMM }

// house returns a box with a peaked roof.
func house(b Box) []Point {
	eaves := b.Y + b.H*0.34
	return []Point{
		{b.X, b.Bottom()},
		{b.X, eaves},
		{b.X + b.W/2, b.Y},
		{b.Right(), eaves},
		{b.Right(), b.Bottom()},
	}
}

// notched returns a box with a notch cut into its left and right ends.
func notched(b Box) []Point {
	d := b.H * 0.3
	return []Point{
		{b.X, b.Y},
		{b.Right(), b.Y},
		{b.Right() - d, b.Y + b.H/2},
		{b.Right(), b.Bottom()},
		{b.X, b.Bottom()},
		{b.X + d, b.Y + b.H/2},
	}
}

// Warning draws a warning triangle with its top left corner at a point, in a
// square of the given side.
func (p *Pen) Warning(at Point, side float64) {
	edge := Stroke{Colour: Black, Width: side * 0.09, Round: true}
	b := Box{X: at.X, Y: at.Y, W: side, H: side}.Inset(edge.Width / 2)
	p.Polygon([]Point{{b.X, b.Bottom()}, {b.X + b.W/2, b.Y + b.H*0.06}, {b.Right(), b.Bottom()}}, White, edge)
	middle := b.X + b.W/2
	bar := []Point{
		{middle - side*0.065, b.Y + b.H*0.36},
		{middle + side*0.065, b.Y + b.H*0.36},
		{middle + side*0.04, b.Y + b.H*0.7},
		{middle - side*0.04, b.Y + b.H*0.7},
	}
	p.Polygon(bar, Black, Stroke{})
	dot := Box{X: middle - side*0.06, Y: b.Y + b.H*0.77, W: side * 0.12, H: side * 0.12}
	p.RoundBox(dot, dot.W/2, Black, Stroke{})
}

// TickBox draws an empty box to tick with its top left corner at a point.
func (p *Pen) TickBox(at Point, side float64) {
	edge := Stroke{Colour: Black, Width: max(0.3, side*0.09)}
	p.Polygon(corners(Box{X: at.X, Y: at.Y, W: side, H: side}.Inset(edge.Width/2)), White, edge)
}
