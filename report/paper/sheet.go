package paper

import "fmt"

// Size is a size of paper; the empty Size is A4.
type Size string

// The sheets a book may mix: A4 and A3 of ISO 216, Letter of ANSI/ASME Y14.1.
const (
	A4     Size = "A4"
	A3     Size = "A3"
	Letter Size = "Letter"
)

// Format is a sheet and which way round it lies. The zero Format is A4 upright.
type Format struct {
	Sheet     Size
	Landscape bool
	// Bare leaves out frame and title strip and gives the chapter the whole sheet, as sheets of labels want it.
	Bare bool
}

// Point is a place in millimetres, to the right of and below a corner.
type Point struct{ X, Y float64 }

// Box is an upright rectangle in millimetres: its top left corner and its size.
type Box struct{ X, Y, W, H float64 }

// Margins in millimetres: the left one leaves room for punching.
const (
	punchMargin = 15.0
	margin      = 8.0
	stripHeight = 13.0
	innerGap    = 3.5
)

// Size returns the width and height of the sheet as it lies, in millimetres.
// It returns an error for a sheet that is none of the three.
func (f Format) Size() (width, height float64, err error) {
	switch f.Sheet {
	case A4, "":
		width, height = 210, 297
	case A3:
		width, height = 297, 420
	case Letter:
		width, height = 215.9, 279.4
	default:
		return 0, 0, fmt.Errorf("paper %q is not known: choose %s, %s or %s", f.Sheet, A4, A3, Letter)
	}
	if f.Landscape {
		width, height = height, width
	}
	return width, height, nil
}

// scale returns how much larger type is set on the sheet, which on A3 is read
// from further away.
func (f Format) scale() float64 {
	if f.Sheet == A3 {
		return 1.2
	}
	return 1
}

// frame returns the box whose edge is the frame round the page.
func (f Format) frame() Box {
	width, height, err := f.Size()
	if err != nil {
		width, height, _ = Format{}.Size()
	}
	return Box{X: punchMargin, Y: margin, W: width - punchMargin - margin, H: height - 2*margin}
}

// strip returns the box of the title strip, at the foot of the frame.
func (f Format) strip() Box {
	frame, height := f.frame(), stripHeight*f.scale()
	return Box{X: frame.X, Y: frame.Y + frame.H - height, W: frame.W, H: height}
}

// Area returns the box of the page that is left for chapters, so that a chapter
// can choose which way round its page lies before it begins it.
func (f Format) Area() Box {
	if f.Bare {
		frame := f.frame()
		return Box{W: frame.W + punchMargin + margin, H: frame.H + 2*margin}
	}
	frame, strip := f.frame(), f.strip()
	return Box{
		X: frame.X + innerGap,
		Y: frame.Y + innerGap,
		W: frame.W - 2*innerGap,
		H: strip.Y - frame.Y - 2*innerGap,
	}
}

// Inset returns the box made smaller by d millimetres on every side.
func (b Box) Inset(d float64) Box {
	return Box{X: b.X + d, Y: b.Y + d, W: b.W - 2*d, H: b.H - 2*d}
}

// Right returns the x of the box's right edge.
func (b Box) Right() float64 { return b.X + b.W }

// Bottom returns the y of the box's lower edge.
func (b Box) Bottom() float64 { return b.Y + b.H }

// Centre returns the middle of the box.
func (b Box) Centre() Point { return Point{X: b.X + b.W/2, Y: b.Y + b.H/2} }
