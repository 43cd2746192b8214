package paper

import (
	"context"
	"errors"
	"fmt"
	"io"
	"runtime/debug"
	"slices"
	"time"
)

// Setup is what holds for a whole book.
type Setup struct {
	Plan     string    // name of the plan: on every strip, and the title of the document
	Site     string    // name of the site; may be empty
	Revision string    // "A", or where it stands otherwise, "A + changes, not issued"; may be empty
	Unissued bool      // the revision field is framed, not filled: what it says was not issued
	Dates    []string  // lines above the date of the print, with their words: "show 2027-06-12", "issued 2027-05-30"
	Author   string    // of the document; may be empty
	Made     time.Time // printed on every strip and kept as the date of the document; required
	Format   Format    // of pages whose chapter names none
	// Uncompressed leaves page streams readable: larger, for tests and for
	// comparing two books.
	Uncompressed bool
	// Drawing, when set, is told of each page as it is begun: its number from 1
	// and how many there are. Passes that count pages are not told of.
	Drawing func(page, pages int)
}

// Reader is for whom a chapter is set, which decides its type sizes.
type Reader int

// The readers: a crew reads at arm's length at night, an engineer at a desk.
const (
	Crew Reader = iota
	Engineer
)

// Chapter is a part of the book that begins on a page of its own. Draw is
// called once for every pass and must do the same each time.
type Chapter struct {
	Name   string // in the bookmarks and in errors
	Reader Reader
	Format *Format // nil takes the setup's
	Draw   func(*Book) error
}

// Entry is a chapter and the page on which it begins.
type Entry struct {
	Name string
	Page int
}

// Print says what was printed.
type Print struct {
	Pages   int
	Entries []Entry  // the chapters that drew something
	Notices []string // strings that are printed otherwise than they were given
}

// ErrNothing is returned when no chapter drew anything.
var ErrNothing = errors.New("there is nothing to print: no chapter drew a page")

// Fault is a failure inside a chapter or the PDF library, caught so that a
// program goes on.
type Fault struct {
	Chapter string
	Page    int
	Cause   any
	Stack   []byte
}

// Error names the chapter and the page.
func (f *Fault) Error() string {
	return fmt.Sprintf("chapter %q, page %d: internal fault: %v", f.Chapter, f.Page, f.Cause)
}

// Write draws the chapters into w as one PDF. Nothing is written to w when it
// returns an error of the context, of a chapter or of the setup. The same
// setup and chapters give the same bytes.
func Write(ctx context.Context, w io.Writer, setup Setup, chapters ...Chapter) (Print, error) {
	if err := setup.check(chapters); err != nil {
		return Print{}, fmt.Errorf("print %q: %w", setup.Plan, err)
	}
	known, err := count(ctx, setup, chapters)
	if err != nil {
		return Print{}, fmt.Errorf("print %q: %w", setup.Plan, err)
	}
	print, err := draw(ctx, w, setup, chapters, known)
	if err != nil {
		return Print{}, fmt.Errorf("print %q: %w", setup.Plan, err)
	}
	return print, nil
}

// check refuses a setup that can't be printed.
func (s Setup) check(chapters []Chapter) error {
	if s.Made.IsZero() {
		return errors.New("the date of the print is missing")
	}
	if _, _, err := s.Format.Size(); err != nil {
		return err
	}
	for _, chapter := range chapters {
		if chapter.Format != nil {
			if _, _, err := chapter.Format.Size(); err != nil {
				return fmt.Errorf("chapter %q: %w", chapter.Name, err)
			}
		}
		if chapter.Draw == nil {
			return fmt.Errorf("chapter %q draws nothing: it has no Draw", chapter.Name)
		}
	}
	return nil
}

// count lays the book out without ink until what the chapters asked about it,
// its notices and its contents, no longer changes.
func count(ctx context.Context, setup Setup, chapters []Chapter) (outcome, error) {
	const most = 5
	var known outcome
	for range most {
		book := newBook(ctx, setup, known, nil)
		if err := book.run(chapters); err != nil {
			return outcome{}, err
		}
		settled := book.settled()
		known = book.found
		if settled {
			return known, nil
		}
	}
	return outcome{}, fmt.Errorf("the contents and the notices still change after %d passes", most)
}

// draw lays the book out with ink. An outcome other than the counted one is an
// error: the strips would carry wrong page numbers.
func draw(ctx context.Context, w io.Writer, setup Setup, chapters []Chapter, known outcome) (print Print, err error) {
	defer func() {
		if cause := recover(); cause != nil {
			err = &Fault{Chapter: "end of the document", Page: known.pages, Cause: cause, Stack: debug.Stack()}
		}
	}()
	if known.pages == 0 {
		return Print{}, ErrNothing
	}
	ink := newInk(setup, known.lastHeight)
	book := newBook(ctx, setup, known, ink)
	if err := book.run(chapters); err != nil {
		return Print{}, err
	}
	if book.found.pages != known.pages {
		return Print{}, fmt.Errorf("a chapter draws differently each time: %d pages counted, %d drawn", known.pages, book.found.pages)
	}
	if err := ink.output(w); err != nil {
		return Print{}, err
	}
	return Print{Pages: known.pages, Entries: slices.Clone(known.entries), Notices: slices.Clone(known.notices)}, nil
}

// run calls every chapter in order.
func (b *Book) run(chapters []Chapter) error {
	for _, chapter := range chapters {
		if err := b.runChapter(chapter); err != nil {
			return err
		}
	}
	return nil
}

// runChapter calls one chapter and turns a panic into an error.
func (b *Book) runChapter(chapter Chapter) (err error) {
	defer func() {
		if cause := recover(); cause != nil {
			err = &Fault{Chapter: chapter.Name, Page: b.found.pages, Cause: cause, Stack: debug.Stack()}
		}
	}()
	b.begin(chapter)
	if err := chapter.Draw(b); err != nil {
		return fmt.Errorf("chapter %q: %w", chapter.Name, err)
	}
	if b.err != nil {
		return fmt.Errorf("chapter %q, page %d: %w", chapter.Name, b.found.pages, b.err)
	}
	return nil
}
