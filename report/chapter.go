package report

import "stageloom/report/paper"

// Chapter names a chapter of a print.
type Chapter string

// The chapters.
const (
	SitePlan      Chapter = "plan"     // the plan to a round scale
	CableSchedule Chapter = "schedule" // every link with its pieces, for the crew
	LinkBudget    Chapter = "budget"   // every link with loss, limit and margin, for the engineer
	FindingsList  Chapter = "findings" // what the checks found, and what to do
	CautionsList  Chapter = "cautions" // the usual cautions, and what the figures rest on
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
	{CableSchedule, "Cable schedule", paper.Crew, true, (*print).drawSchedule},
	{LinkBudget, "Link budget", paper.Engineer, true, (*print).drawBudget},
	{FindingsList, "Findings", paper.Crew, true, (*print).drawFindings},
	{CautionsList, "Cautions and assumptions", paper.Crew, false, (*print).drawCautions},
}
