package paper

import (
	"context"
	"fmt"
	"slices"
)

// outcome is what one pass found out about the book.
type outcome struct {
	pages      int
	lastHeight float64
	entries    []Entry
	notices    []string
}

// Book is what a chapter draws on. Text, tables and lists flow from the top of
// a page downwards and go on to the next page of the same format. A Book must
// be used only by the chapter it is given to, while that runs.
//
// The first failure, such as a print that was called off, is kept: from then on
// nothing more is drawn. A chapter need not ask, but Err lets it stop early.
type Book struct {
	ctx    context.Context
	setup  Setup
	press  press
	inked  bool    // this pass leaves something behind
	known  outcome // of the pass before
	found  outcome // of this pass
	err    error
	asked  struct{ notices, contents bool }
	seen   map[string]bool // what was said of which string
	told   map[string]bool // the notices of this pass and the one before
	ready  map[lookup]printable
	chap   Chapter
	format Format
	open   bool    // a page of this chapter has begun
	y      float64 // where the next thing begins
	fresh  bool    // nothing stands on the page yet
}

type lookup struct {
	text string
	face Face
}

// newBook returns a book for one pass; without a press it only counts.
func newBook(ctx context.Context, setup Setup, known outcome, on press) *Book {
	b := &Book{
		ctx: ctx, setup: setup, press: blank{}, known: known,
		seen: map[string]bool{}, told: map[string]bool{}, ready: map[lookup]printable{},
	}
	if on != nil {
		b.press, b.inked = on, true
	}
	for _, notice := range known.notices {
		b.told[notice] = true
	}
	return b
}

// begin makes ready for a chapter; its first page begins with what it draws.
func (b *Book) begin(chapter Chapter) {
	b.chap, b.open, b.format = chapter, false, b.setup.Format
	clear(b.ready) // chapters share few strings, and a large plan has a hundred thousand
	if chapter.Format != nil {
		b.format = *chapter.Format
	}
}

// settled reports whether this pass was told what it found.
func (b *Book) settled() bool {
	return (!b.asked.notices || slices.Equal(b.known.notices, b.found.notices)) &&
		(!b.asked.contents || slices.Equal(b.known.entries, b.found.entries))
}

// Err returns the first failure, such as the context's when the print was
// called off.
func (b *Book) Err() error { return b.err }

// Fail stops the book with an error, unless one is kept already.
func (b *Book) Fail(err error) {
	if b.err == nil {
		b.err = err
	}
}

// Scale returns how much larger than on A4 things are set on this sheet.
func (b *Book) Scale() float64 { return b.format.scale() }

// Format returns the format of the page.
func (b *Book) Format() Format { return b.format }

// NewPage begins a page of the format of the page before. Nothing happens on a
// page that is still empty.
func (b *Book) NewPage() {
	if b.open && b.fresh {
		return
	}
	b.turn(b.format)
}

// NewPageOf begins a page of another format, which then holds for the pages
// that follow. A sheet that is not known fails the book.
func (b *Book) NewPageOf(format Format) {
	if b.open && b.fresh && format == b.format {
		return
	}
	b.turn(format)
}

// turn begins a page, asks whether the print was called off, and draws the
// frame and the strip.
func (b *Book) turn(format Format) {
	width, height, err := format.Size()
	if err == nil {
		err = b.ctx.Err()
	} else {
		format = Format{}
	}
	if err != nil {
		b.Fail(err)
	}
	if b.err != nil {
		b.press, b.inked = blank{}, false
	}
	b.format = format
	b.found.pages++
	b.found.lastHeight = height
	b.press.page(width, height)
	if !format.Bare {
		b.drawFrame()
	}
	b.y, b.fresh = format.Area().Y, true
	if b.inked && b.setup.Drawing != nil {
		b.setup.Drawing(b.found.pages, b.known.pages)
	}
	if !b.open {
		b.open = true
		b.found.entries = append(b.found.entries, Entry{Name: b.clean(b.chap.Name, Regular).text, Page: b.found.pages})
		b.mark(b.chap.Name, 0, 0)
	}
}

// need makes sure that a page is open.
func (b *Book) need() {
	if !b.open {
		b.turn(b.format)
	}
}

// Area returns the box of the page that is there for chapters.
func (b *Book) Area() Box { return b.format.Area() }

// Rest returns what is left of the page: from the last thing drawn down.
func (b *Book) Rest() Box {
	b.need()
	area := b.format.Area()
	return Box{X: area.X, Y: b.y, W: area.W, H: area.Bottom() - b.y}
}

// Take returns a box of the given height across the page and moves on below it.
// It begins a new page when the rest of this one is lower; a box higher than a
// page is as high as the page.
func (b *Book) Take(height float64) Box {
	b.need()
	const slip = 1e-6 // sums of row heights differ in the last bits
	if b.Rest().H < height-slip && !b.fresh {
		b.NewPage()
	}
	rest := b.Rest()
	if !(height > 0) { // so that NaN counts as nothing
		height = 0
	}
	rest.H = min(rest.H, height)
	b.y += rest.H
	b.fresh = b.fresh && rest.H == 0
	return rest
}

// Skip leaves a gap, but never at the top of a page.
func (b *Book) Skip(height float64) {
	if b.need(); !b.fresh && height > 0 {
		b.y = min(b.y+height, b.format.Area().Bottom())
	}
}

// Page returns the number of the page, counted from 1.
func (b *Book) Page() int { return b.found.pages }

// Bookmark marks the place below the last thing drawn, one level below the
// chapter.
func (b *Book) Bookmark(name string) {
	b.need()
	b.mark(name, 1, b.y)
}

// mark writes a bookmark.
func (b *Book) mark(name string, level int, y float64) {
	b.press.bookmark(b.clean(name, Regular).text, level, y)
}

// Contents returns the chapters and the pages on which they begin. A chapter
// may print them wherever it stands: passes are added until they no longer
// change.
func (b *Book) Contents() []Entry {
	b.asked.contents = true
	return slices.Clone(b.known.entries)
}

// Notices returns a sentence for every string of the whole book that is printed
// otherwise than it was given. A chapter may print them wherever it stands.
func (b *Book) Notices() []string {
	b.asked.notices = true
	return slices.Clone(b.known.notices)
}

// notice keeps what is said of a string, with the first page it is on.
func (b *Book) notice(text, sentence string) {
	key := text + "\x00" + sentence
	if !b.seen[key] {
		b.seen[key] = true
		whole := fmt.Sprintf("%s (page %d): %s.", quote(text), max(b.found.pages, 1), sentence)
		b.told[whole] = true
		b.found.notices = append(b.found.notices, whole)
	}
}

// clean makes a string fit for the page and records what was changed, once for
// each string and face.
func (b *Book) clean(text string, face Face) printable {
	p := b.quiet(text, face)
	if b.told[text] {
		return p // a notice that is printed needs no notice of its own
	}
	for _, sentence := range p.sentences() {
		b.notice(p.text, sentence)
	}
	return p
}

// quiet is clean for a string that is only measured yet.
func (b *Book) quiet(text string, face Face) printable {
	key := lookup{text: text, face: face}
	if p, ok := b.ready[key]; ok {
		return p
	}
	p := clean(text, face)
	b.ready[key] = p
	return p
}
