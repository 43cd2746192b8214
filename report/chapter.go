package report

import "stageloom/report/paper"

// Chapter names a chapter of a print.
type Chapter string

// The chapters.
const (
	SitePlan   Chapter = "plan"   // the plan to a round scale
	LinkBudget Chapter = "budget" // every link with loss, limit and margin, for the engineer
)

// Chapters returns the chapters there are, in the order in which they are printed.
func Chapters() []Chapter {
	chapters := make([]Chapter, len(contents))
	for i, c := range contents {
		chapters[i] = c.chapter
	}
	return chapters
}

// content is a chapter and how it is drawn.
type content struct {
	chapter   Chapter
	name      string // on the strip and in the bookmarks
	reader    paper.Reader
	landscape bool // unless the chapter chooses for itself
	draw      func(*print, *paper.Book)
}

var contents = []content{
	{SitePlan, "Plan", paper.Crew, true, (*print).drawPlan},
	{LinkBudget, "Link budget", paper.Engineer, true, (*print).drawBudget},
}
