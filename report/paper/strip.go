package paper

import (
	"fmt"
	"slices"
	"strings"
	"time"
)

const frameWidth = 0.5

// drawFrame draws the frame and the title strip of the page: what a sheet that
// is found on the ground must tell.
func (b *Book) drawFrame() {
	edge := Stroke{Colour: Black, Width: frameWidth}
	pen := b.pen(b.format.strip())
	k := b.Scale()
	strip := Box{W: pen.box.W, H: pen.box.H}

	page := Box{X: strip.W - 26*k, W: 26 * k, H: strip.H}
	date := Box{X: page.X - 34*k, W: 34 * k, H: strip.H}
	revision := Box{X: date.X - 17*k, W: 17 * k, H: strip.H}
	if b.setup.Unissued {
		revision.X, revision.W = date.X-30*k, 30*k
	}
	names := Box{W: revision.X, H: strip.H}

	b.stripNames(pen, names)
	b.stripRevision(pen, revision)
	b.stripDates(pen, date)
	stripField(pen, page, "Page", fmt.Sprintf("%d of %d", b.found.pages, b.known.pages))

	pen.Polyline([]Point{{0, 0}, {strip.W, 0}}, edge)
	for _, x := range []float64{date.X, page.X} {
		pen.Polyline([]Point{{x, 0}, {x, strip.H}}, Stroke{Colour: Black, Width: 0.25})
	}
	sheet := b.pen(b.format.frame())
	sheet.Polygon(corners(Box{W: sheet.box.W, H: sheet.box.H}), None, edge)
}

// stripNames writes the plan's name over the site's, and the chapter's name,
// so that a sheet found alone says what it is. Long names are cut.
func (b *Book) stripNames(pen *Pen, box Box) {
	k := b.Scale()
	room := box.W - 6*k
	plan, site := b.clean(b.setup.Plan, Bold), b.clean(b.setup.Site, Regular)
	chapter := b.clean(b.chap.Name, Regular)
	const planSize, smallSize = 15, 9.5
	pen.set(Point{3 * k, 6.6 * k}, plan.cut(planSize*k, room), Lettering{Face: plan.face, Size: planSize * k})
	left := room - site.face.width(site.text, smallSize*k) - 4*k // what a short site leaves
	name := chapter.cut(smallSize*k, max(room*0.45, left))
	width := pen.set(Point{box.W - 3*k, 10.8 * k}, name, Lettering{Face: chapter.face, Size: smallSize * k, Align: Right})
	pen.set(Point{3 * k, 10.8 * k}, site.cut(smallSize*k, room-width-4*k), Lettering{Face: site.face, Size: smallSize * k})
}

// stripRevision writes the revision white on black, to be told from across a
// table; the field stays white where there is no revision.
func (b *Book) stripRevision(pen *Pen, box Box) {
	revision := b.clean(b.setup.Revision, Bold)
	if revision.text == "" {
		return
	}
	k := b.Scale()
	if b.setup.Unissued {
		b.stripUnissued(pen, box, revision)
		return
	}
	size := 20 * k
	for size > leastSize && revision.face.width(revision.text, size) > box.W-3*k {
		size--
	}
	pen.Polygon(corners(box), Black, Stroke{})
	pen.Text(Point{box.Centre().X, 3.6 * k}, "Revision", Lettering{Size: 6.5 * k, Colour: White, Align: Centre})
	pen.set(Point{box.Centre().X, 10.9 * k}, revision.cut(size, box.W-2*k),
		Lettering{Face: revision.face, Size: size, Colour: White, Align: Centre})
}

// stripUnissued writes what was not issued black on white in a heavy frame, so that nobody takes it for an issue in bad light:
// what it is over the words "not issued".
func (b *Book) stripUnissued(pen *Pen, box Box, revision printable) {
	k := b.Scale()
	const border = 0.9
	pen.Polygon(corners(box.Inset(border/2)), None, Stroke{Colour: Black, Width: border})
	pen.Text(Point{box.Centre().X, 3.7 * k}, "Revision", Lettering{Size: 6.5 * k, Colour: Grey(70), Align: Centre})
	lines := []string{revision.text, ""}
	if at := strings.LastIndex(revision.text, ", "); at > 0 {
		lines = []string{revision.text[:at+1], revision.text[at+2:]}
	}
	for i, line := range lines {
		words := b.quiet(line, Bold)
		size := 10.5 * k
		for size > leastSize && words.face.width(words.text, size) > box.W-3.5*k {
			size -= 0.5
		}
		pen.set(Point{box.Centre().X, (7.5 + 3.7*float64(i)) * k}, words.cut(size, box.W-3.5*k), Lettering{Face: words.face, Size: size, Align: Centre})
	}
}

// stripDates writes the dates below each other, that of the print last.
func (b *Book) stripDates(pen *Pen, box Box) {
	k := b.Scale()
	lines := append(slices.Clone(b.setup.Dates), "printed "+b.setup.Made.Format(time.DateOnly))
	const pitch = 3.7
	y := box.Centre().Y/k - pitch*float64(len(lines)-1)/2 + 1.2
	for _, line := range lines {
		words := b.clean(line, Regular)
		size := 9 * k
		for size > leastSize && words.face.width(words.text, size) > box.W-4*k {
			size -= 0.5
		}
		pen.set(Point{box.X + 2.5*k, y * k}, words.cut(size, box.W-4*k), Lettering{Face: words.face, Size: size})
		y += pitch
	}
}

// stripField writes a word over a figure.
func stripField(pen *Pen, box Box, word, figure string) {
	k := pen.book.Scale()
	pen.Text(Point{box.X + 3*k, 4 * k}, word, Lettering{Size: 6.5 * k, Colour: Grey(70)})
	size := 12 * k
	for size > leastSize && Bold.width(figure, size) > box.W-5*k { // a book of a thousand pages
		size -= 0.5
	}
	pen.Text(Point{box.X + 3*k, 10.3 * k}, figure, Lettering{Face: Bold, Size: size})
}
