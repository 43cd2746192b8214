package paper

import "strings"

// sizes are the type sizes of a reader in points, and the leading as a multiple.
type sizes struct {
	title, heading, body, id, head, small float64
	leading                               float64
}

// sizes returns the type sizes of the chapter on this sheet.
func (b *Book) sizes() sizes {
	s := sizes{title: 18, heading: 13, body: 11, id: 14, head: 9.5, small: 9, leading: 1.28}
	if b.chap.Reader == Engineer {
		s = sizes{title: 16, heading: 11, body: 8, id: 8, head: 7.5, small: 7, leading: 1.28}
	}
	k := b.Scale()
	for _, size := range []*float64{&s.title, &s.heading, &s.body, &s.id, &s.head, &s.small} {
		*size = max(*size*k, leastSize)
	}
	return s
}

// line returns the height of one line of type in millimetres.
func (s sizes) line(size float64) float64 { return size * pointMM * s.leading }

// Title sets the name of a chapter or page with a rule under it.
func (b *Book) Title(text string) {
	s := b.sizes()
	size, k := s.title, b.Scale()
	box := b.Take(size*pointMM*1.15 + 3*k)
	ready := b.clean(text, Bold)
	pen := b.pen(box)
	base := size*pointMM*0.9 + 0.2*k
	pen.set(Point{0, base}, ready.cut(size, box.W), Lettering{Face: ready.face, Size: size})
	pen.Polyline([]Point{{0, box.H - 1.2*k}, {box.W, box.H - 1.2*k}}, Stroke{Colour: Black, Width: 0.35})
	b.Skip(1.5 * k)
}

// Heading sets a line over what follows, and keeps some room with it so that it
// does not stand alone at the foot of a page.
func (b *Book) Heading(text string) {
	s, k := b.sizes(), b.Scale()
	height := s.line(s.heading) + 1*k
	b.Skip(2.5 * k)
	if b.Rest().H < height+4*s.line(s.body) {
		b.NewPage()
	}
	box := b.Take(height)
	ready := b.clean(text, Bold)
	b.pen(box).set(Point{0, s.heading * pointMM}, ready.cut(s.heading, box.W),
		Lettering{Face: ready.face, Size: s.heading})
}

// Paragraph sets a text across the page. A line break in it begins a new line.
func (b *Book) Paragraph(text string) {
	b.prose(text, Regular)
}

// Remark sets a text aslant, such as what a figure rests on.
func (b *Book) Remark(text string) {
	b.prose(text, Oblique)
}

// prose sets a text across the page: a short one whole, the first lines of a
// long one together.
func (b *Book) prose(text string, face Face) {
	const short, first = 4, 2
	lines := b.lines(text, face, b.Area().W)
	if len(lines) <= short {
		b.keep(len(lines))
	} else {
		b.keep(first)
	}
	b.flow(lines, 0, nil)
	b.Skip(b.sizes().line(b.sizes().body) * 0.45)
}

// Cautions sets texts with a warning triangle before each. A caution is never
// split while it fits on a page.
func (b *Book) Cautions(texts []string) {
	b.marked(texts, func(pen *Pen, at Point, size float64) { pen.Warning(at, size) })
}

// Ticks sets texts with a box to tick before each.
func (b *Book) Ticks(texts []string) {
	b.marked(texts, func(pen *Pen, at Point, size float64) { pen.TickBox(at, size*0.88) })
}

// Items sets texts with a dot before each.
func (b *Book) Items(texts []string) {
	b.marked(texts, func(pen *Pen, at Point, size float64) {
		r := size * 0.13
		dot := Box{X: at.X + size*0.3 - r, Y: at.Y + size/2 - r, W: 2 * r, H: 2 * r}
		pen.RoundBox(dot, r, Black, Stroke{})
	})
}

// Definition is a term and what it means.
type Definition struct{ Term, Text string }

// Definitions sets terms in a column of their own, as wide as the longest but
// not over a third of the page.
func (b *Book) Definitions(list []Definition) {
	s, k, area := b.sizes(), b.Scale(), b.Area()
	column := 0.0
	for _, d := range list {
		ready := b.clean(d.Term, Bold)
		column = max(column, ready.face.width(ready.text, s.body))
	}
	column = min(column, area.W/3)
	indent := column + 4*k
	for _, d := range list {
		terms := b.term(d.Term, column+0.01)
		lines := b.lines(d.Text, Regular, area.W-indent)
		b.keep(max(len(terms), len(lines)))
		begin, page := b.y, b.found.pages
		for i, line := range terms {
			b.pen(b.Rest()).set(Point{0, s.baseline(i)}, line.text, Lettering{Face: line.face})
		}
		b.flow(lines, indent, nil)
		if b.found.pages == page {
			b.y = max(b.y, min(begin+float64(len(terms))*s.line(s.body), b.Area().Bottom()))
		}
		b.Skip(s.line(s.body) * 0.25)
	}
}

// term wraps a term to a few lines and cuts what is longer.
func (b *Book) term(text string, width float64) []line {
	const most = 3
	lines := b.lines(text, Bold, width)
	if len(lines) > most {
		last := &lines[most-1]
		last.text = truncate(last.text+" "+lines[most].text, last.face, b.sizes().body, width)
		b.notice(b.quiet(text, Bold).text, "too long for its place, cut off")
	}
	return lines[:min(len(lines), most)]
}

// marked sets texts with a mark before each. The mark is drawn at the top left
// corner of a square of the given size.
func (b *Book) marked(texts []string, mark func(*Pen, Point, float64)) {
	s := b.sizes()
	side := s.body * pointMM * 1.15
	indent := side * 1.7
	for _, text := range texts {
		lines := b.lines(text, Regular, b.Area().W-indent)
		b.keep(len(lines))
		b.flow(lines, indent, func(pen *Pen) {
			middle := s.baseline(0) - capHeight*s.body*pointMM/2
			mark(pen, Point{0, middle - side/2}, side)
		})
		b.Skip(s.line(s.body) * 0.4)
	}
}

// line is a line of clean text and the face that covers it.
type line struct {
	text string
	face Face
}

// lines wraps a text whose line breaks are meant.
func (b *Book) lines(text string, face Face, width float64) []line {
	var lines []line
	for _, part := range strings.Split(text, "\n") {
		ready := b.clean(part, face)
		for _, words := range wrap(ready.text, ready.face, b.sizes().body, width) {
			lines = append(lines, line{text: words, face: ready.face})
		}
	}
	return lines
}

// keep begins a new page when so many lines do not fit on the rest of this one
// but would on a page of their own.
func (b *Book) keep(lines int) {
	height := float64(lines) * b.sizes().line(b.sizes().body)
	if b.Rest().H < height && height <= b.Area().H {
		b.NewPage()
	}
}

// flow sets lines one below the other, on to the next page where they do not
// fit; first is called with a pen whose corner is that of the first line.
func (b *Book) flow(lines []line, indent float64, first func(*Pen)) {
	s := b.sizes()
	for i, line := range lines {
		pen := b.pen(b.Take(s.line(s.body)))
		if i == 0 && first != nil {
			first(pen)
		}
		pen.set(Point{indent, s.baseline(0)}, line.text, Lettering{Face: line.face})
	}
}

// baseline returns how far below the top of a text its line i stands.
func (s sizes) baseline(i int) float64 {
	line := s.line(s.body)
	return float64(i)*line + (line+capHeight*s.body*pointMM)/2
}
