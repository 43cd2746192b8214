package paper

import (
	"bytes"
	"cmp"
	"compress/zlib"
	"fmt"
	"io"
	"maps"
	"math"
	"regexp"
	"slices"

	"github.com/jung-kurt/gofpdf"
)

// ink is the press that writes a PDF, and the one door to the PDF library. The library holds the document: its pages, fonts,
// pictures and bookmarks. What stands on a page is written here and packed as soon as the page is full, since the library
// would keep all pages plain until the last.
type ink struct {
	pdf        *gofpdf.Fpdf
	lastHeight float64 // of the last page, in mm
	pageHeight float64
	level      int // of the last bookmark
	pictures   map[string]placed
	now        content  // of the page that is drawn
	full       [][]byte // the contents of those before
	packer     *zlib.Writer
	packed     bytes.Buffer
	plain      bool
	fonts      [faceCount]string        // what the document calls the faces
	letters    [faceCount]map[rune]bool // set in each face
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
	pdf.SetCompression(false) // pages are packed here, fonts and pictures are anyway
	pdf.SetCatalogSort(true)
	pdf.SetCreationDate(about.Made)
	pdf.SetModificationDate(about.Made)
	pdf.SetMargins(0, 0, 0)
	pdf.SetAutoPageBreak(false, 0)
	pdf.SetTitle(clean(about.Plan, Regular).text, true)
	pdf.SetAuthor(clean(about.Author, Regular).text, true)
	pdf.SetCreator("Stageloom", true)
	pdf.SetProducer("Stageloom", true)
	k := &ink{pdf: pdf, lastHeight: lastHeight, level: -1, pictures: map[string]placed{}, plain: about.Uncompressed}
	k.packer, _ = zlib.NewWriterLevel(&k.packed, zlib.BestSpeed) // fails for a level that is not known alone
	for face := Regular; face < faceCount; face++ {
		family, style := face.family()
		pdf.AddUTF8FontFromBytes(family, style, face.ownTrueType())
		k.fonts[face] = k.called(fontName, func(t *gofpdf.Tpl) { t.SetFont(family, style, leastSize) })
		k.letters[face] = map[rune]bool{}
	}
	return k
}

// How the library writes that it takes a font or a picture.
var (
	fontName    = regexp.MustCompile(`/(F\w+) [\d.]+ Tf`)
	pictureName = regexp.MustCompile(`/(I\w+) Do`)
)

// called asks the library what its document calls what is drawn; the page is thrown away.
func (k *ink) called(name *regexp.Regexp, draw func(*gofpdf.Tpl)) string {
	if found := name.FindSubmatch(k.pdf.CreateTemplate(draw).Bytes()); found != nil {
		return string(found[1])
	}
	k.pdf.SetErrorf("name of a resource: %w", errForm)
	return ""
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
	k.turnOver()
	k.pageHeight = height
	k.pdf.AddPageFormat("P", gofpdf.SizeType{Wd: width, Ht: height})
	k.now.begin(height)
}

// turnOver packs the page that was drawn.
func (k *ink) turnOver() {
	if k.pdf.PageNo() == 0 {
		return
	}
	if k.plain {
		k.full = append(k.full, k.now.bytes())
		return
	}
	k.packed.Reset()
	k.packer.Reset(&k.packed)
	_, err := k.packer.Write(k.now.out)
	if err := cmp.Or(err, k.packer.Close()); err != nil {
		k.pdf.SetError(err)
	}
	k.full = append(k.full, bytes.Clone(k.packed.Bytes()))
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
	for _, r := range text {
		k.letters[face][r] = true
	}
	if angle != 0 {
		k.now.turn(at, angle)
		defer k.now.restore()
	}
	k.now.text(at, text, k.fonts[face], size, colour)
}

// stroke draws along points, with a casing first when the line has one.
func (k *ink) stroke(points []Point, line Stroke) {
	points = sane(points)
	if len(points) < 2 || !line.visible() {
		return
	}
	if line.Casing > 0 && line.Casing < far {
		k.now.pen(Stroke{Colour: White, Width: line.Width + 2*line.Casing, Round: line.Round})
		k.now.path(points, false)
		k.now.word("S")
	}
	k.now.pen(line)
	k.now.path(points, false)
	k.now.word("S")
}

// shape fills and outlines rings as one path: a ring within a ring is a hole.
func (k *ink) shape(rings [][]Point, fill Colour, edge Stroke) {
	operator := map[[2]bool]string{{true, true}: "B*", {true, false}: "f*", {false, true}: "S"}[[2]bool{fill.inked, edge.visible()}]
	if operator == "" {
		return
	}
	lay, drawn := k.now.ring, false
	if edge.visible() {
		k.now.pen(edge)
		lay = func(ring []Point) { k.now.path(ring, true) }
	}
	if fill.inked {
		k.now.fill(fill)
	}
	for _, ring := range rings {
		if ring = sane(ring); len(ring) >= 3 {
			lay(ring)
			drawn = true
		}
	}
	if drawn {
		k.now.word(operator)
	}
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

// clip confines what draw draws to a box.
func (k *ink) clip(box Box, draw func()) {
	if !box.sane() {
		draw()
		return
	}
	k.now.clip(box)
	draw()
	k.now.restore()
}

// output closes the document and writes it.
func (k *ink) output(w io.Writer) error {
	k.turnOver()
	for face := Regular; face < faceCount; face++ {
		if letters := slices.Sorted(maps.Keys(k.letters[face])); len(letters) > 0 {
			family, style := face.family()
			k.pdf.SetFont(family, style, leastSize)
			k.pdf.Text(0, 0, string(letters)) // the library embeds the letters it has set
		}
	}
	var document bytes.Buffer
	if err := k.pdf.Output(&document); err != nil {
		return fmt.Errorf("close the PDF: %w", err)
	}
	filter := "/Filter /FlateDecode "
	if k.plain {
		filter = ""
	}
	return bind(w, document.Bytes(), k.full, filter)
}

// visible reports whether a line leaves any ink.
func (l Stroke) visible() bool { return l.Colour.inked && l.Width > 0 && l.Width < far }

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
