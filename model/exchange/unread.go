package exchange

import (
	"slices"

	"stageloom/model/plan"
)

// Unread is a column, from 0, that holds something and of which nobody said yet that it is not read: its head, some of what it
// holds, each once, and the field that it looks like, blank where it looks like none.
type Unread struct {
	Column   int
	Head     string
	Examples []string
	Likely   string
}

const (
	// mostExamples is how much of a column is told.
	mostExamples = 3
	// fewWords is how many different words a column of conditions or of units has at most.
	fewWords = 12
)

// UnreadOf lists the columns of a stock list that hold something and are not read.
func UnreadOf(g Grid, l Layout) (columns []Unread) {
	for column := range g.Width() {
		if column < len(l.Fields) && l.Fields[column] != "" {
			continue
		}
		words := wordsOf(g, l.Head, column)
		if len(words) == 0 {
			continue
		}
		unread := Unread{Column: column, Examples: words[:min(len(words), mostExamples)], Likely: wordsLookLike(words)}
		if l.Head > 0 {
			unread.Head = g.cell(l.Head-1, column)
		}
		columns = append(columns, unread)
	}
	return columns
}

// wordsOf are the different words of a column, one more than a column of few words has at most.
func wordsOf(g Grid, head, column int) (words []string) {
	for row := head; row < len(g.Rows) && len(words) <= fewWords; row++ {
		cell := g.cell(row, column)
		if cell != "" && !slices.ContainsFunc(words, func(word string) bool { return plan.Folded(word) == plan.Folded(cell) }) {
			words = append(words, cell)
		}
	}
	return words
}

// wordsLookLike is the field that a column of few words is likely to be of, by those that are known.
func wordsLookLike(words []string) string {
	if len(words) > fewWords {
		return ""
	}
	isLength := func(word string) bool { unit, known := unitNamed(word); return known && unit != CountedIn }
	switch {
	case slices.ContainsFunc(words, isLength):
		return Unit
	case slices.ContainsFunc(words, isCondition):
		return Condition
	case slices.ContainsFunc(words, saysOurs):
		return Owner
	}
	return ""
}
