package paper

import "fmt"

const frameWidth = 0.5

// drawFrame draws the frame and the title strip of the page: what a sheet that
// is found on the ground must tell.
func (b *Book) drawFrame() {
	edge := Line{Colour: Black, Width: frameWidth}
	pen := b.pen(b.format.strip())
	k := b.Scale()
	strip := Box{W: pen.box.W, H: pen.box.H}

	page := Box{X: strip.W - 30*k, W: 30 * k, H: strip.H}
	date := Box{X: page.X - 33*k, W: 33 * k, H: strip.H}
	revision := Box{X: date.X - 17*k, W: 17 * k, H: strip.H}
	names := Box{W: revision.X, H: strip.H}

	b.stripNames(pen, names)
	b.stripRevision(pen, revision)
	stripField(pen, date, "Date", b.setup.Made.Format("2 Jan 2006"))
	stripField(pen, page, "Page", fmt.Sprintf("%d of %d", b.found.pages, b.known.pages))

	pen.Polyline([]Point{{0, 0}, {strip.W, 0}}, edge)
	pen.Polyline([]Point{{page.X, 0}, {page.X, strip.H}}, Line{Colour: Black, Width: 0.25})
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
	name := chapter.cut(smallSize*k, room*0.45)
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
	size := 20 * k
	for size > leastSize && revision.face.width(revision.text, size) > box.W-3*k {
		size--
	}
	pen.Polygon(corners(box), Black, Line{})
	pen.Text(Point{box.Centre().X, 3.6 * k}, "Revision", Lettering{Size: 6.5 * k, Colour: White, Align: Centre})
	pen.set(Point{box.Centre().X, 10.9 * k}, revision.cut(size, box.W-2*k),
		Lettering{Face: revision.face, Size: size, Colour: White, Align: Centre})
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
