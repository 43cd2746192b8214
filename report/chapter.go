package report

import (
	"stageloom/model/assess"
	"stageloom/report/paper"
)

// Chapter names a chapter of a print.
type Chapter string

// The chapters.
const (
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
	landscape bool
	draw      func(*paper.Book, *assess.Assessment, Choice) error
}

var contents []content

func init() {
	contents = []content{
		{LinkBudget, "Link budget", paper.Engineer, true, drawBudget},
	}
}
