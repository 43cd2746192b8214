package paper

import "math"

// Pen draws freely within a box of the page. Points are millimetres to the
// right of and below the top left corner of the box. Points that are not finite
// are left out. Nothing keeps a pen inside its box but Clip.
type Pen struct {
	book *Book
	box  Box
}

// Pen returns a pen for a box of the page, such as one that Take returned.
func (b *Book) Pen(box Box) *Pen {
	b.need()
	return b.pen(box)
}

func (b *Book) pen(box Box) *Pen { return &Pen{book: b, box: box} }

// Size returns the width and height of the pen's box in millimetres.
func (p *Pen) Size() (width, height float64) { return p.box.W, p.box.H }

// Counts tells that this pass only counts pages: what takes no room on the page need not be drawn.
func (p *Pen) Counts() bool { return p.book.press == press(blank{}) }

// Scale returns how much larger than on A4 things are set on this sheet.
func (p *Pen) Scale() float64 { return p.book.Scale() }

// onSheet moves points from the box to the sheet.
func (p *Pen) onSheet(points []Point) []Point {
	moved := make([]Point, len(points))
	for i, at := range points {
		moved[i] = Point{X: at.X + p.box.X, Y: at.Y + p.box.Y}
	}
	return moved
}

// Polyline draws along points.
func (p *Pen) Polyline(points []Point, line Stroke) {
	p.book.press.stroke(p.onSheet(points), line)
}

// Polygon fills and outlines what points enclose.
func (p *Pen) Polygon(points []Point, fill Colour, edge Stroke) {
	p.Rings([][]Point{points}, fill, edge)
}

// Rings fills and outlines several closed lines as one path, without a seam
// where they touch: a ring within a ring is a hole. A code whose modules are
// drawn so can be scanned.
func (p *Pen) Rings(rings [][]Point, fill Colour, edge Stroke) {
	moved := make([][]Point, len(rings))
	for i, ring := range rings {
		moved[i] = p.onSheet(ring)
	}
	p.book.press.shape(moved, fill, edge)
}

// RoundBox fills and outlines a box whose corners have a radius.
func (p *Pen) RoundBox(box Box, radius float64, fill Colour, edge Stroke) {
	p.Polygon(rounded(box, radius), fill, edge)
}

// Text sets one line of text: its baseline begins, ends or is centred at a
// point. It returns the width in millimetres.
func (p *Pen) Text(at Point, text string, l Lettering) float64 {
	ready := p.book.clean(text, l.Face)
	l.Face = ready.face
	return p.set(at, ready.text, l)
}

// set is Text for a string that is clean already, in a face that covers it.
func (p *Pen) set(at Point, text string, l Lettering) float64 {
	l = p.book.lettering(l)
	width := l.Face.width(text, l.Size)
	from := -width * map[Align]float64{Left: 0, Right: 1, Centre: 0.5}[l.Align]
	turned := l.turner(at)
	if l.Plate > 0 && text != "" {
		rise := capHeight * l.Size * pointMM
		plate := Box{X: at.X + from, Y: at.Y - rise, W: width, H: rise}.Inset(-l.Plate)
		corners := corners(plate)
		for i := range corners {
			corners[i] = turned(corners[i])
		}
		p.Polygon(corners, White, Stroke{})
	}
	begin := p.onSheet([]Point{turned(Point{X: at.X + from, Y: at.Y})})[0]
	p.book.press.text(begin, visual(text), l.Face, l.Size, l.Colour, l.Angle)
	return width
}

// Measure returns how wide a text is and how high its capitals stand, in
// millimetres.
func (p *Pen) Measure(text string, l Lettering) (width, height float64) {
	return p.book.Measure(text, l)
}

// Measure is Pen.Measure before a page is begun, so that a chapter can choose
// its page by what has to stand on it.
func (b *Book) Measure(text string, l Lettering) (width, height float64) {
	ready := b.quiet(text, l.Face)
	l = b.lettering(l)
	return ready.face.width(ready.text, l.Size), capHeight * l.Size * pointMM
}

// Clip keeps what draw draws inside a box.
func (p *Pen) Clip(box Box, draw func()) {
	box.X, box.Y = box.X+p.box.X, box.Y+p.box.Y
	p.book.press.clip(box, draw)
}

// lettering fills in what a lettering leaves open.
func (b *Book) lettering(l Lettering) Lettering {
	if l.Size == 0 {
		l.Size = b.sizes().body
	}
	l.Size = max(l.Size, leastSize)
	if !l.Colour.inked {
		l.Colour = Black
	}
	return l
}

// turner returns the turn of the lettering about a point.
func (l Lettering) turner(about Point) func(Point) Point {
	sin, cos := math.Sincos(l.Angle * math.Pi / 180)
	return func(p Point) Point {
		dx, dy := p.X-about.X, p.Y-about.Y
		return Point{X: about.X + dx*cos + dy*sin, Y: about.Y - dx*sin + dy*cos}
	}
}

// corners returns the corners of a box.
func corners(b Box) []Point {
	return []Point{{b.X, b.Y}, {b.Right(), b.Y}, {b.Right(), b.Bottom()}, {b.X, b.Bottom()}}
}

// rounded returns the outline of a box with round corners, each of enough
// straight pieces to look round on paper.
func rounded(b Box, radius float64) []Point {
	radius = max(0, min(radius, b.W/2, b.H/2))
	if radius == 0 {
		return corners(b)
	}
	const pieces = 12
	points := make([]Point, 0, 4*(pieces+1))
	middles := corners(b.Inset(radius))
	for quarter, middle := range middles {
		for i := range pieces + 1 {
			sin, cos := math.Sincos((float64(quarter) + float64(i)/pieces) * math.Pi / 2)
			points = append(points, Point{X: middle.X - radius*cos, Y: middle.Y - radius*sin})
		}
	}
	return points
}
