package report

import (
	"context"
	"fmt"
	"image"
	"io"
	"slices"
	"strings"
	"time"

	"stageloom/model/assess"
	"stageloom/model/picture"
	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/model/revision"
	"stageloom/report/paper"
)

// Choice says what to print and on what. Take one from ChoiceOf and change what
// differs from the plan's own choice.
type Choice struct {
	// Paper is A4, A3 or Letter; blank is the plan's own.
	Paper string
	// PlanPaper is the sheet of the plan's own pages, such as A3 in a print on A4; blank is that of the others.
	PlanPaper string
	// Grey draws links black, told apart by line and badge alone.
	Grey bool
	// Date is printed on every page and required: a print takes no date of its own.
	Date time.Time
	// Packs are those to print, each with a front page of its own, in the order of Packs(). With neither packs nor chapters,
	// the packs Lay and Engineer are printed.
	Packs []Pack
	// Chapters are printed alone, without a front page, behind the packs and in the order of Chapters().
	Chapters []Chapter
	// Position prints what has an end at this position and nothing else; blank prints all.
	Position plan.PositionID
	// Act prints the patch of one act and nothing of the others; blank prints all.
	Act plan.ActID
	// Device prints the patch of one box or console, and of links those that end there; blank prints all.
	Device plan.DeviceID
	// Changed prints of links those alone that are laid otherwise than at the last revision.
	Changed bool
	// Labels is the sheet of labels; the zero sheet is that of LabelSheetFor the paper.
	Labels LabelSheet
	// Images lie under the plan, and Picture finds what each of their sources shows; false for what is not there.
	Images  []picture.ImageFigure
	Picture func(source string) (paper.Picture, bool)
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
	return told(a.Plan, choice, done), err
}

// Write writes the chapters chosen to w. Nothing is written when it returns an error of the context or the choice.
func Write(ctx context.Context, w io.Writer, a *assess.Assessment, choice Choice) (Printed, error) {
	chapters, err := chaptersOf(a, choice)
	if err != nil {
		return Printed{}, err
	}
	done, err := paper.Write(ctx, w, setupOf(a.Plan, choice), chapters...)
	return told(a.Plan, choice, done), err
}

func setupOf(p *plan.Plan, choice Choice) paper.Setup {
	standing := revision.StandingOf(p)
	return paper.Setup{
		Plan: p.Settings.Name, Site: p.Settings.Site, Author: choice.Author,
		Revision: standing.Mark(), Unissued: !standing.AsIssued(), Dates: datesOf(p, standing),
		Made: choice.Date, Format: paper.Format{Sheet: sheetOf(p, choice)}, Uncompressed: choice.Uncompressed,
		Drawing: choice.Progress,
	}
}

// datesOf are the dates of a plan with their words, those that are told: of the show, and of the issue.
func datesOf(p *plan.Plan, standing revision.Standing) []string {
	var dates []string
	if p.Settings.Date != "" {
		dates = append(dates, "show "+p.Settings.Date)
	}
	if issued := standing.Date(); issued != "" {
		dates = append(dates, issued)
	}
	return dates
}

func sheetOf(p *plan.Plan, choice Choice) paper.Size {
	if choice.Paper == "" {
		return paper.Size(p.Settings.PrintPaper)
	}
	return paper.Size(choice.Paper)
}

// told says what was printed, and which cables got no label.
func told(p *plan.Plan, choice Choice, done paper.Print) Printed {
	result := printed(done)
	if said := untagged(p); said != "" && slices.Contains(choice.Chapters, ReelLabels) {
		result.Notices = append(result.Notices, said)
	}
	return result
}

func printed(done paper.Print) Printed {
	result := Printed{Pages: done.Pages, Notices: done.Notices}
	for _, entry := range done.Entries {
		result.Entries = append(result.Entries, Entry(entry))
	}
	return result
}

// printout is one print while it is made: every chapter sees it, on every pass.
type printout struct {
	*assess.Assessment
	choice Choice
	links  []plan.Link     // those to print, in natural order
	sums   assess.Totals   // over those to print
	since  *revision.Since // what changed since the last revision; nil where none was issued
	atlas  *atlas          // laid out at the first pass
	images map[shown]paper.Picture
	stage  stage // of the patch, found as it is asked for
}

// newPrint makes ready what all chapters ask for.
func newPrint(a *assess.Assessment, choice Choice) (*printout, error) {
	p := &printout{Assessment: a, choice: choice}
	var err error
	if p.since, err = revision.SinceLast(a, quantity.Metric); err != nil {
		return nil, err
	}
	for _, link := range a.Links() {
		if p.wants(link) {
			p.links = append(p.links, link)
		}
	}
	p.sums = sumsOf(a, p.links)
	return p, nil
}

// Links are the links to print, in the natural order of their names; they stand in the place of the assessment's.
func (p *printout) Links() []plan.Link { return p.links }

// wants reports whether the choice takes a link.
func (p *printout) wants(link plan.Link) bool {
	if p.choice.Position != "" {
		from, _ := p.Plan.Device(link.From)
		to, _ := p.Plan.Device(link.To)
		if from.Position != p.choice.Position && to.Position != p.choice.Position {
			return false
		}
	}
	if p.choice.Device != "" && link.From != p.choice.Device && link.To != p.choice.Device {
		return false
	}
	return !p.choice.Changed || p.since == nil || p.since.Links[link.ID]
}

// chaptersOf returns the chapters chosen, ready to draw.
func chaptersOf(a *assess.Assessment, choice Choice) ([]paper.Chapter, error) {
	if err := choice.check(a.Plan); err != nil {
		return nil, fmt.Errorf("print %q: %w", a.Plan.Settings.Name, err)
	}
	p, err := newPrint(a, choice)
	if err != nil {
		return nil, fmt.Errorf("print %q: %w", a.Plan.Settings.Name, err)
	}
	if len(choice.Packs) == 0 && len(choice.Chapters) == 0 {
		p.choice.Packs = []Pack{Lay, Engineer}
	}
	var chapters []paper.Chapter
	for _, b := range booklets {
		if slices.Contains(p.choice.Packs, b.pack) {
			chapters = append(chapters, p.bound(b)...)
		}
	}
	for _, c := range contents {
		if slices.Contains(choice.Chapters, c.chapter) {
			chapters = append(chapters, p.chapter(c, ""))
		}
	}
	return chapters, nil
}

// check refuses what is not known.
func (c Choice) check(p *plan.Plan) error {
	for _, wanted := range c.Packs {
		if !slices.Contains(Packs(), wanted) {
			return fmt.Errorf("pack %q is not known: choose from %s", wanted, listed(Packs()))
		}
	}
	for _, wanted := range c.Chapters {
		if !slices.Contains(Chapters(), wanted) {
			return fmt.Errorf("chapter %q is not known: choose from %s", wanted, listed(Chapters()))
		}
	}
	if _, _, err := (paper.Format{Sheet: paper.Size(c.PlanPaper)}).Size(); err != nil {
		return err
	}
	if c.Position != "" && !p.Positions.Has(plan.Key(c.Position)) {
		return fmt.Errorf("position %q is not in the plan", c.Position)
	}
	if c.Act != "" && !p.Acts.Has(plan.Key(c.Act)) {
		return fmt.Errorf("act %q is not in the plan", c.Act)
	}
	if c.Device != "" && !p.Devices.Has(plan.Key(c.Device)) {
		return fmt.Errorf("device %q is not in the plan", c.Device)
	}
	return c.Labels.check(sheetOf(p, c))
}

func listed[N ~string](known []N) string {
	names := make([]string, len(known))
	for i, name := range known {
		names[i] = string(name)
	}
	return strings.Join(names, ", ")
}

// Proof draws one page of a print as a picture, so many pixels to the millimetre, to be looked at before it is printed.
// Pages count from 1; a page that is not there gives no picture.
func Proof(ctx context.Context, a *assess.Assessment, choice Choice, page int, scale float64) (*image.RGBA, Printed, error) {
	chapters, err := chaptersOf(a, choice)
	if err != nil {
		return nil, Printed{}, err
	}
	picture, done, err := paper.Proof(ctx, setupOf(a.Plan, choice), page, scale, chapters...)
	return picture, printed(done), err
}
