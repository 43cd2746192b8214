package paper

import (
	"math"
	"slices"
	"strconv"
	"unicode/utf8"
)

// pointsPerMM turns the millimetres of a page into the points of a PDF.
const pointsPerMM = 72 / 25.4

// content is what one page is drawn with: operators of ISO 32000-1 (8 and 9), in points from its bottom left corner.
type content struct {
	out    []byte
	height float64 // of the page, in mm
}

// begin empties the content for a page of a height.
func (c *content) begin(height float64) { c.out, c.height = c.out[:0], height }

// x and y are where a point lies in points.
func (c *content) x(mm float64) float64 { return mm * pointsPerMM }

func (c *content) y(mm float64) float64 { return (c.height - mm) * pointsPerMM }

// number writes a number with two decimals: a hundredth of a point is 0.0035 mm.
func number(out []byte, value float64) []byte {
	hundredths := int64(math.Round(value * 100))
	if hundredths < 0 {
		out, hundredths = append(out, '-'), -hundredths
	}
	out = append(strconv.AppendInt(out, hundredths/100, 10), '.')
	return append(out, byte('0'+hundredths/10%10), byte('0'+hundredths%10))
}

// operator writes numbers with an operator behind them on a line of its own.
func (c *content) operator(name string, numbers ...float64) {
	for _, value := range numbers {
		c.out = append(number(c.out, value), ' ')
	}
	c.word(name)
}

// word writes a line as it is.
func (c *content) word(name string) { c.out = append(append(c.out, name...), '\n') }

// save keeps how things look until restore.
func (c *content) save() { c.out = append(c.out, "q "...) }

func (c *content) restore() { c.word("Q") }

// fill sets the colour of what is filled and of letters.
func (c *content) fill(colour Colour) { c.word(colour.operator("g", "rg")) }

// operator is the colour as an operator: one number where it is grey.
func (c Colour) operator(grey, coloured string) string {
	out := make([]byte, 0, 24)
	share := func(part uint8) { out = append(strconv.AppendFloat(out, float64(part)/255, 'f', 3, 64), ' ') }
	share(c.R)
	if c.R == c.G && c.G == c.B {
		return string(append(out, grey...))
	}
	share(c.G)
	share(c.B)
	return string(append(out, coloured...))
}

// pen sets everything about the next stroke, whatever the one before it set.
func (c *content) pen(line Stroke) {
	c.word(line.Colour.operator("G", "RG"))
	c.operator("w", c.x(line.Width))
	ends := "0 J\n0 j"
	if line.Round {
		ends = "1 J\n1 j"
	}
	c.word(ends)
	c.out = append(c.out, '[')
	if dashes(line.Dash) {
		for i, length := range line.Dash {
			if i > 0 {
				c.out = append(c.out, ' ')
			}
			c.out = number(c.out, c.x(length))
		}
	}
	c.word("] 0.00 d")
}

// ring lays a closed path to be filled; a box upright on the page is written as such, a third of the length.
func (c *content) ring(points []Point) {
	if box, upright := boxOf(points); upright {
		left, bottom := hundredth(c.x(box.X)), hundredth(c.y(box.Bottom()))
		c.operator("re", left, bottom, hundredth(c.x(box.Right()))-left, hundredth(c.y(box.Y))-bottom)
		return
	}
	c.path(points, true)
}

// path lays a path through points.
func (c *content) path(points []Point, closed bool) {
	for i, p := range points {
		operator := "l"
		if i == 0 {
			operator = "m"
		}
		c.operator(operator, c.x(p.X), c.y(p.Y))
	}
	if closed {
		c.word("h")
	}
}

// hundredth rounds as number does, so that boxes that touch share their edge.
func hundredth(value float64) float64 { return math.Round(value*100) / 100 }

// boxOf is the box whose four corners these points are, going round it.
func boxOf(points []Point) (Box, bool) {
	if len(points) != 4 {
		return Box{}, false
	}
	a, b, c, d := points[0], points[1], points[2], points[3]
	along := a.Y == b.Y && b.X == c.X && c.Y == d.Y && d.X == a.X
	up := a.X == b.X && b.Y == c.Y && c.X == d.X && d.Y == a.Y
	if !along && !up {
		return Box{}, false
	}
	left, top := min(a.X, c.X), min(a.Y, c.Y)
	return Box{X: left, Y: top, W: max(a.X, c.X) - left, H: max(a.Y, c.Y) - top}, true
}

// clip confines what follows to a box, until restore.
func (c *content) clip(box Box) {
	c.save()
	c.operator("re W n", c.x(box.X), c.y(box.Y), c.x(box.W), -c.x(box.H))
}

// turn turns what follows counter-clockwise about a point by degrees, until restore.
func (c *content) turn(at Point, degrees float64) {
	c.save()
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	x, y := c.x(at.X), c.y(at.Y)
	c.matrix(cos, sin, -sin, cos, x+sin*y-cos*x, y-cos*y-sin*x)
	c.word("cm")
}

// matrix writes the six numbers of a matrix, fine enough to turn a page by.
func (c *content) matrix(numbers ...float64) {
	for _, value := range numbers {
		c.out = append(strconv.AppendFloat(c.out, value, 'f', 5, 64), ' ')
	}
}

// clipTo confines what follows to what four points enclose, until restore.
func (c *content) clipTo(corners [4]Point) {
	if box, upright := boxOf(corners[:]); upright {
		c.clip(box)
		return
	}
	c.save()
	c.path(corners[:], true)
	c.word("W n")
}

// picture draws a picture that the document holds under a name with its corners at points, wider than they are apart by a
// factor.
func (c *content) picture(name string, at [4]Point, stretch float64) {
	origin := at[3]
	c.out = append(c.out, "q "...)
	c.matrix(c.x(at[1].X-at[0].X)*stretch, c.x(at[0].Y-at[1].Y)*stretch, c.x(at[0].X-origin.X), c.x(origin.Y-at[0].Y), c.x(origin.X), c.y(origin.Y))
	c.word("cm /" + name + " Do Q")
}

// text sets a line in a font that the document holds under a name. Its letters are UTF-16, which is how the library numbers
// those of its fonts.
func (c *content) text(at Point, text, font string, size float64, colour Colour) {
	c.out = append(number(append(append(append(c.out, "BT /"...), font...), ' '), size), " Tf ET\n"...)
	c.fill(colour)
	c.out = append(c.out, "BT "...)
	c.out = append(number(append(number(c.out, c.x(at.X)), ' '), c.y(at.Y)), " Td ("...)
	for _, r := range text {
		if r > 0xFFFF {
			r = utf8.RuneError // no face has any; clean text holds none
		}
		c.out = escaped(escaped(c.out, byte(r>>8)), byte(r))
	}
	c.out = append(c.out, ") Tj ET\n"...)
}

// escaped writes a byte of a string as a PDF wants it (ISO 32000-1, 7.3.4.2).
func escaped(out []byte, b byte) []byte {
	switch b {
	case '\\', '(', ')':
		return append(out, '\\', b)
	case '\r':
		return append(out, '\\', 'r')
	}
	return append(out, b)
}

// bytes are the operators so far, of their own.
func (c *content) bytes() []byte { return slices.Clone(c.out) }
