package paper

import (
	"bytes"
	"fmt"
	"io"
	"math"

	"github.com/jung-kurt/gofpdf"
)

// ink is the press that writes a PDF, and the one door to the PDF library. Nothing is left to the library's memory: each stroke sets its
// colour, width, dash and ends anew, since the library keeps them from page to
// page.
type ink struct {
	pdf        *gofpdf.Fpdf
	lastHeight float64 // of the last page, in mm
	pageHeight float64
	level      int // of the last bookmark
	pictures   map[string]placed
}

// Families under which the library knows the faces.
const (
	textFamily = "dejavu"
	idFamily   = "dejavumono"
)

// newInk opens a document whose last page has the given height. The strings of
// about must be clean.
func newInk(about Setup, lastHeight float64) *ink {
	pdf := gofpdf.NewCustom(&gofpdf.InitType{
		OrientationStr: "P", UnitStr: "mm", Size: gofpdf.SizeType{Wd: 210, Ht: 297},
	})
	pdf.SetCompression(!about.Uncompressed)
	pdf.SetCatalogSort(true)
	pdf.SetCreationDate(about.Made)
	pdf.SetModificationDate(about.Made)
	pdf.SetMargins(0, 0, 0)
	pdf.SetAutoPageBreak(false, 0)
	pdf.SetTitle(clean(about.Plan, Regular).text, true)
	pdf.SetAuthor(clean(about.Author, Regular).text, true)
	pdf.SetCreator("Stageloom", true)
	pdf.SetProducer("Stageloom", true)
	k := &ink{pdf: pdf, lastHeight: lastHeight, level: -1, pictures: map[string]placed{}}
	for face := Regular; face < faceCount; face++ {
		family, style := face.family()
		pdf.AddUTF8FontFromBytes(family, style, face.ownTrueType())
	}
	return k
}

// family returns the name and style letter of the face within the library.
func (f Face) family() (family, style string) {
	switch f {
	case Bold:
		return textFamily, "B"
	case Oblique:
		return textFamily, "I"
	case Mono:
		return idFamily, "B"
	default:
		return textFamily, ""
	}
}

// page begins a page of the given size. It is always upright for the library,
// whose own turning of pages depends on the page before.
func (k *ink) page(width, height float64) {
	k.pageHeight = height
	k.pdf.AddPageFormat("P", gofpdf.SizeType{Wd: width, Ht: height})
}

// bookmark marks a place on the page. The library measures it from the height
// of the last page, so it is moved by the difference; a level may be only one
// deeper than the level before.
func (k *ink) bookmark(text string, level int, y float64) {
	k.level = max(0, min(level, k.level+1))
	y += k.lastHeight - k.pageHeight
	if y == -1 {
		y = -1.001 // -1 means "here" to the library
	}
	k.pdf.SetFont(textFamily, "", leastSize)
	k.pdf.Bookmark(text, k.level, y)
}

// text sets a line of clean text whose baseline begins at a point, turned
// counter-clockwise about it.
func (k *ink) text(at Point, text string, face Face, size float64, colour Colour, angle float64) {
	if text == "" || !at.sane() || !(size < far) || !(math.Abs(angle) < far) {
		return
	}
	family, style := face.family()
	if angle != 0 {
		k.pdf.TransformBegin()
		k.pdf.TransformRotate(angle, at.X, at.Y)
	}
	k.pdf.SetFont(family, style, size)
	// Both inks alike: the library skips the ink of text that equals the fill it
	// remembers, and its memory is wrong behind a clip or a turn.
	k.pdf.SetFillColor(int(colour.R), int(colour.G), int(colour.B))
	k.pdf.SetTextColor(int(colour.R), int(colour.G), int(colour.B))
	k.pdf.Text(at.X, at.Y, text)
	if angle != 0 {
		k.pdf.TransformEnd()
	}
}

// stroke draws along points, with a casing first when the line has one.
func (k *ink) stroke(points []Point, line Line) {
	points = sane(points)
	if len(points) < 2 || !line.visible() {
		return
	}
	if line.Casing > 0 && line.Casing < far {
		k.pen(Line{Colour: White, Width: line.Width + 2*line.Casing, Round: line.Round})
		k.path(points, false)
		k.pdf.DrawPath("S")
	}
	k.pen(line)
	k.path(points, false)
	k.pdf.DrawPath("S")
}

// shape fills and outlines rings as one path: a ring within a ring is a hole.
func (k *ink) shape(rings [][]Point, fill Colour, edge Line) {
	operator := map[[2]bool]string{{true, true}: "B*", {true, false}: "f*", {false, true}: "S"}[[2]bool{fill.inked, edge.visible()}]
	if operator == "" {
		return
	}
	k.pen(edge)
	k.pdf.SetFillColor(int(fill.R), int(fill.G), int(fill.B))
	drawn := false
	for _, ring := range rings {
		if ring = sane(ring); len(ring) >= 3 {
			k.path(ring, true)
			drawn = true
		}
	}
	if drawn {
		k.pdf.DrawPath(operator)
	}
}

// pen sets everything about the next stroke.
func (k *ink) pen(line Line) {
	ends, corners := "butt", "miter"
	if line.Round {
		ends, corners = "round", "round"
	}
	k.pdf.SetDrawColor(int(line.Colour.R), int(line.Colour.G), int(line.Colour.B))
	width, dash := line.Width, line.Dash
	if !line.visible() {
		width, dash = 0, nil
	}
	if !dashes(dash) {
		dash = nil
	}
	k.pdf.SetLineWidth(width)
	k.pdf.SetLineCapStyle(ends)
	k.pdf.SetLineJoinStyle(corners)
	k.pdf.SetDashPattern(dash, 0)
}

// dashes reports whether a viewer accepts the lengths: none negative and not
// all of them nought.
func dashes(lengths []float64) bool {
	total := 0.0
	for _, length := range lengths {
		if !(length >= 0 && length < far) { // so that NaN fails
			return false
		}
		total += length
	}
	return total > 0
}

// path lays a path through points.
func (k *ink) path(points []Point, closed bool) {
	k.pdf.MoveTo(points[0].X, points[0].Y)
	for _, p := range points[1:] {
		k.pdf.LineTo(p.X, p.Y)
	}
	if closed {
		k.pdf.ClosePath()
	}
}

// clip confines what draw draws to a box.
func (k *ink) clip(box Box, draw func()) {
	if !box.sane() {
		draw()
		return
	}
	k.pdf.ClipRect(box.X, box.Y, box.W, box.H, false)
	draw()
	k.pdf.ClipEnd()
}

// output closes the document and writes it.
func (k *ink) output(w io.Writer) error {
	var whole bytes.Buffer
	if err := k.pdf.Output(&whole); err != nil {
		return fmt.Errorf("close the PDF: %w", err)
	}
	if _, err := whole.WriteTo(w); err != nil {
		return fmt.Errorf("write the PDF: %w", err)
	}
	return nil
}

// visible reports whether a line leaves any ink.
func (l Line) visible() bool { return l.Colour.inked && l.Width > 0 && l.Width < far }

// far is a length in mm beyond anything on a page.
const far = 1e4

// sane reports whether a point can be written in a PDF, which has no infinity.
func (p Point) sane() bool {
	return math.Abs(p.X) < far && math.Abs(p.Y) < far // false for NaN
}

// sane reports whether both corners of the box can be written.
func (b Box) sane() bool {
	return Point{b.X, b.Y}.sane() && Point{b.Right(), b.Bottom()}.sane()
}

// sane returns the points that can be written.
func sane(points []Point) []Point {
	kept := make([]Point, 0, len(points))
	for _, p := range points {
		if p.sane() {
			kept = append(kept, p)
		}
	}
	return kept
}
