package report

import (
	"slices"

	"stageloom/report/paper"
)

// Pack names the pages for one reader. A pack begins with a front page, so that it can be handed over by itself.
type Pack string

// The packs.
const (
	Prep     Pack = "prep"     // for who loads the truck
	Lay      Pack = "lay"      // for who lays and joins the cables
	Patch    Pack = "patch"    // for who plugs in and who mixes
	Engineer Pack = "engineer" // for who answers for the links
	Venue    Pack = "venue"    // for the venue and whoever keeps its ways clear
	Strike   Pack = "strike"   // for who takes it up and counts it back
)

// booklet is a pack with its reader and its chapters.
type booklet struct {
	pack     Pack
	name     string // on its front page
	reader   string // for whom, in words
	chapters []Chapter
}

var booklets = []booklet{
	{Prep, "Prep", "For who loads the truck", []Chapter{PullList, TruckList, HireOrder, LabelSheets, TapeList}},
	{Lay, "Lay", "For who lays and joins the cables", []Chapter{SitePlan, LoomSheets, CableSchedule, RunDrawings, CautionsList}},
	{Patch, "Patch", "For who plugs in and who mixes", []Chapter{PatchLists, BoxPatch, ActChanges, LineCheck, ChannelPatch}},
	{Engineer, "Engineer", "For who answers for the links", []Chapter{LinkBudget, FindingsList, SiteTests, AssumptionsList}},
	{Venue, "Venue", "For the venue, and whoever keeps its ways clear", []Chapter{SitePlan, VenueSheet, CautionsList}},
	{Strike, "Strike", "For who takes it up and counts it back", []Chapter{StrikeSheets, ReturnList}},
}

// Packs returns the packs there are, in the order in which they are printed.
func Packs() []Pack {
	packs := make([]Pack, len(booklets))
	for i, b := range booklets {
		packs[i] = b.pack
	}
	return packs
}

// Name is the pack's name as its front page says it, and for whom it is.
func (p Pack) Name() (name, reader string) {
	for _, b := range booklets {
		if b.pack == p {
			return b.name, b.reader
		}
	}
	return string(p), ""
}

// Chapters are the chapters of the pack in their order, without its front page.
func (p Pack) Chapters() []Chapter {
	for _, b := range booklets {
		if b.pack == p {
			return slices.Clone(b.chapters)
		}
	}
	return nil
}

// bound returns the chapters of a pack ready to draw: its front page, then those that have something to say. The name of
// the pack stands on every strip, so that loose sheets find back.
func (p *printout) bound(b booklet) []paper.Chapter {
	front := content{name: b.name + " pack", draw: func(p *printout, book *paper.Book) { p.drawFront(book, b) }}
	chapters := []paper.Chapter{p.chapter(front, "")}
	for _, c := range contents {
		if slices.Contains(b.chapters, c.chapter) && (c.empty == nil || !c.empty(p)) {
			chapters = append(chapters, p.chapter(c, b.name+": "))
		}
	}
	return chapters
}

// chapter makes a chapter ready to draw.
func (p *printout) chapter(c content, prefix string) paper.Chapter {
	sheet := sheetOf(p.Plan, p.choice)
	if c.chapter == SitePlan && p.choice.PlanPaper != "" {
		sheet = paper.Size(p.choice.PlanPaper)
	}
	return paper.Chapter{
		Name: prefix + c.name, Reader: c.reader, Format: &paper.Format{Sheet: sheet, Landscape: c.landscape},
		Draw: func(b *paper.Book) error { c.draw(p, b); return b.Err() },
	}
}
