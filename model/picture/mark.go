package picture

import (
	"stageloom/model/geom"
	"stageloom/model/plan"
)

// Ref is the plan's row that a mark stands for; Part tells which piece of it (a port's name, a way point's order).
type Ref = plan.Ref

// Shape is what a mark draws.
type Shape uint8

// The shapes of marks.
const (
	// Stroke is a line through Points.
	Stroke Shape = iota
	// Fill is the polygon of Points.
	Fill
	// Panel is a box from Points[0] to Points[1] with rounded corners, filled with Role and edged with Edge;
	// blank is none.
	Panel
	// Words is a line of text at Points[0].
	Words
	// Image is a picture whose corners are Points, from its own top left one clockwise; Text is its source.
	Image
)

// Anchor says which side of a text stands at its point; it is centred in height.
type Anchor uint8

// The anchors of text.
const (
	Centre Anchor = iota
	Left
	Right
)

// Mark is one thing to draw. Points are points of the view, x to the right and y DOWN from its top left corner.
type Mark struct {
	Ref    Ref
	Shape  Shape
	Role   Role
	Edge   Role
	Points []geom.Point
	Radius float64
	Text   string
	Size   float64
	Bold   bool
	Anchor Anchor
	// Opacity is that of an Image, above 0 and at most 1.
	Opacity float64
	// Faded marks lie on a level that is not shown.
	Faded bool
}

// Pen draws marks on one medium, which gives each role its colour, width and dash.
type Pen interface {
	// Fade makes what follows faint, or plain again.
	Fade(faint bool)
	// Stroke draws a line through points.
	Stroke(points []geom.Point, role Role)
	// Fill fills a polygon.
	Fill(points []geom.Point, role Role)
	// Panel fills and edges a box with rounded corners; a blank role draws none.
	Panel(box geom.Box, radius float64, fill, edge Role)
	// Words writes a line of text of a size in points, centred in height at a point.
	Words(at geom.Point, anchor Anchor, text string, size float64, bold bool, role Role)
	// Image draws the picture of a source with its corners at these points, from its own top left one clockwise: those of
	// a rectangle, turned or not. A source that the medium does not have draws nothing.
	Image(corners [4]geom.Point, source string, opacity float64)
}

// Draw draws marks in their order.
func Draw(marks []Mark, pen Pen) {
	faint := false
	for _, m := range marks {
		if m.Faded != faint {
			faint = m.Faded
			pen.Fade(faint)
		}
		switch m.Shape {
		case Stroke:
			pen.Stroke(m.Points, m.Role)
		case Fill:
			pen.Fill(m.Points, m.Role)
		case Panel:
			pen.Panel(geom.BoxOf(m.Points...), m.Radius, m.Role, m.Edge)
		case Words:
			pen.Words(m.Points[0], m.Anchor, m.Text, m.Size, m.Bold, m.Role)
		case Image:
			pen.Image([4]geom.Point(m.Points), m.Text, m.Opacity)
		}
	}
	if faint {
		pen.Fade(false)
	}
}

// Measure returns the width in points of a line of text on the medium.
type Measure func(text string, size float64, bold bool) float64
