package report

import (
	"context"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"stageloom/model/assess"
	"stageloom/model/plan"
	"stageloom/report/paper"
)

// Choice says what to print and on what. Take one from ChoiceOf and change what
// differs from the plan's own choice.
type Choice struct {
	// Paper is A4, A3 or Letter; blank is the plan's own.
	Paper string
	// Grey draws links black, told apart by line and badge alone.
	Grey bool
	// Date is printed on every page and required: a print takes no date of its own.
	Date time.Time
	// Chapters are those to print; none prints all. They always come in the order of Chapters().
	Chapters []Chapter
	// Author is kept in the document's properties; may be blank.
	Author string
	// Progress, when set, is told of every page as it is drawn: its number from 1 and how many there are.
	Progress func(page, pages int)
	// Uncompressed leaves page streams readable: larger, to compare two prints.
	Uncompressed bool
}

// ChoiceOf returns what the plan's print settings choose, at a date: all chapters.
func ChoiceOf(p *plan.Plan, date time.Time) Choice {
	return Choice{Paper: p.Settings.PrintPaper, Grey: p.Settings.PrintGrey, Date: date}
}

// Entry is a chapter and the page on which it begins, counted from 1.
type Entry struct {
	Name string
	Page int
}

// Printed says what was printed.
type Printed struct {
	Pages   int
	Entries []Entry
	// Notices tell of strings that are printed otherwise than typed, in one sentence each.
	Notices []string
}

// Print writes the chapters chosen into a file. The file is whole or as it was before; an error of the disk is an
// *atomicfile.Failure. Paper or a chapter that is not known is refused, and so is a missing date.
func Print(ctx context.Context, path string, a *assess.Assessment, choice Choice) (Printed, error) {
	chapters, err := chaptersOf(a, choice)
	if err != nil {
		return Printed{}, err
	}
	done, err := paper.Save(ctx, path, setupOf(a.Plan, choice), chapters...)
	return printed(done), err
}

// Write writes the chapters chosen to w. Nothing is written when it returns an error of the context or the choice.
func Write(ctx context.Context, w io.Writer, a *assess.Assessment, choice Choice) (Printed, error) {
	chapters, err := chaptersOf(a, choice)
	if err != nil {
		return Printed{}, err
	}
	done, err := paper.Write(ctx, w, setupOf(a.Plan, choice), chapters...)
	return printed(done), err
}

func setupOf(p *plan.Plan, choice Choice) paper.Setup {
	return paper.Setup{
		Plan: p.Settings.Name, Site: p.Settings.Site, Revision: p.Settings.Revision, Author: choice.Author,
		Made: choice.Date, Format: paper.Format{Sheet: sheetOf(p, choice)}, Uncompressed: choice.Uncompressed,
		Drawing: choice.Progress,
	}
}

func sheetOf(p *plan.Plan, choice Choice) paper.Sheet {
	if choice.Paper == "" {
		return paper.Sheet(p.Settings.PrintPaper)
	}
	return paper.Sheet(choice.Paper)
}

func printed(done paper.Print) Printed {
	result := Printed{Pages: done.Pages, Notices: done.Notices}
	for _, entry := range done.Entries {
		result.Entries = append(result.Entries, Entry(entry))
	}
	return result
}

// print is one print while it is made: every chapter sees it, on every pass.
type print struct {
	*assess.Assessment
	choice Choice
	atlas  *atlas // laid out at the first pass
}

// chaptersOf returns the chapters chosen, ready to draw.
func chaptersOf(a *assess.Assessment, choice Choice) ([]paper.Chapter, error) {
	for _, wanted := range choice.Chapters {
		if !slices.Contains(Chapters(), wanted) {
			return nil, fmt.Errorf("print %q: chapter %q is not known: choose from %s", a.Plan.Settings.Name, wanted, listed(Chapters()))
		}
	}
	p := &print{Assessment: a, choice: choice}
	var chapters []paper.Chapter
	for _, c := range contents {
		if len(choice.Chapters) == 0 || slices.Contains(choice.Chapters, c.chapter) {
			chapters = append(chapters, paper.Chapter{
				Name: c.name, Reader: c.reader, Format: &paper.Format{Sheet: sheetOf(a.Plan, choice), Landscape: c.landscape},
				Draw: func(b *paper.Book) error { c.draw(p, b); return b.Err() },
			})
		}
	}
	return chapters, nil
}

func listed(chapters []Chapter) string {
	names := make([]string, len(chapters))
	for i, chapter := range chapters {
		names[i] = string(chapter)
	}
	return strings.Join(names, ", ")
}
