package paper

// press takes what a page is made of, in millimetres from its top left corner. The strings it is given are clean.
type press interface {
	// page begins a page of a size.
	page(width, height float64)
	// bookmark marks a height on the page, at a level from 0.
	bookmark(text string, level int, y float64)
	// text sets a line whose baseline begins at a point, turned counter-clockwise about it by an angle in degrees.
	text(at Point, text string, face Face, size float64, colour Colour, angle float64)
	// stroke draws along points, with a casing first when the line has one.
	stroke(points []Point, line Stroke)
	// shape fills and outlines rings as one path: a ring within a ring is a hole.
	shape(rings [][]Point, fill Colour, edge Stroke)
	// clip confines what draw draws to a box.
	clip(box Box, draw func())
	// picture draws a picture with its corners at points, from its own top left one clockwise.
	picture(at [4]Point, picture Picture) error
}

// blank is the press of a pass that only counts.
type blank struct{}

func (blank) page(float64, float64)                              {}
func (blank) bookmark(string, int, float64)                      {}
func (blank) text(Point, string, Face, float64, Colour, float64) {}
func (blank) stroke([]Point, Stroke)                             {}
func (blank) shape([][]Point, Colour, Stroke)                    {}
func (blank) clip(_ Box, draw func())                            { draw() }
func (blank) picture([4]Point, Picture) error                    { return nil }
