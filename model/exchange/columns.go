package exchange

import (
	"cmp"
	"slices"
	"strings"
	"unicode"

	"stageloom/model/quantity"
)

// Field is what a column can mean.
type Field struct {
	// Name is the field in words, and what a written sheet's head says.
	Name string
	// Words are heads that mean it, the likeliest first, in small letters without signs.
	Words []string
	// looks tells of a filled cell whether it can be of this field; nil where any text can.
	looks func(string) bool
	// never tells of a filled cell that it can't be of this field, where any other text can.
	never func(string) bool
	// heads gives points to a head in place of Words; such a column is taken only where its cells look so.
	heads func(head string) int
}

// Layout says which row is the head and what each column means.
type Layout struct {
	// Head is the number of the row with the columns' names, from 1; 0 when there is none.
	Head int
	// Fields holds a field's name for each column, blank for one that is not read.
	Fields []string
}

// column is the column of a field, -1 where none is.
func (l Layout) column(field string) int { return slices.Index(l.Fields, field) }

// Set gives a column, from 0, another meaning; a column that had it loses it, since a field stands in one column, while several
// may go into the note or be passed over.
func (l Layout) Set(column int, field string) Layout {
	l.Fields = slices.Clone(l.Fields)
	for i := range l.Fields {
		if l.Fields[i] == field && field != IntoNote && field != PassOver {
			l.Fields[i] = ""
		}
	}
	l.Fields[column] = field
	return l
}

// mostHead is how far down the head is looked for.
const mostHead = 30

// Guess finds the head of a grid and what its columns mean, by the heads' words and, where there are none, by what the
// cells look like. What is not recognised is left blank for the user to name.
func Guess(g Grid, fields []Field) Layout {
	best, score := Layout{Fields: make([]string, g.Width())}, 0
	for row := range min(len(g.Rows), mostHead) {
		layout, points := headed(g, row, fields)
		if points > score {
			best, score = layout, points
		}
	}
	if score < enoughPoints {
		best = bare(g, fields)
	}
	return best
}

const (
	// wholeWord are the points of a head that is a field's word, partWord of one that holds it among others.
	wholeWord, partWord = 100, 10
	enoughPoints        = wholeWord
	// weaker divides the points of a column whose cells mostly cannot be of the field.
	weaker = 4
)

type claim struct{ points, column, field int }

// headed takes a row for the head: each column gets the field that its words fit best, and no two the same.
func headed(g Grid, row int, fields []Field) (Layout, int) {
	var claims []claim
	above := headAbove(g, row)
	for column := range g.Width() {
		head := plainHead(g.cell(row, column))
		for i, field := range fields {
			points := fitsTwo(above[column], head, field)
			switch {
			case points == 0 || looksLike(g, row+1, column, field):
			case field.heads != nil:
				points = 0
			default:
				points /= weaker // it may be meant, with faults in it, but another field comes first
			}
			if points > 0 {
				claims = append(claims, claim{points, column, i})
			}
		}
	}
	slices.SortStableFunc(claims, func(a, b claim) int { return cmp.Compare(b.points, a.points) })
	layout, total := Layout{Head: row + 1, Fields: make([]string, g.Width())}, 0
	for _, c := range claims {
		name := fields[c.field].Name
		if layout.Fields[c.column] == "" && layout.column(name) < 0 {
			layout.Fields[c.column] = name
			total += c.points
		}
	}
	return layout, total
}

// headAbove are the heads of the line above a row, where a head may have two: a cell of it heads the blank ones behind it too.
// It is blank where either line has fewer than two cells with something in them.
func headAbove(g Grid, row int) []string {
	above := make([]string, g.Width())
	if row == 0 || filledCells(g, row) < 2 || filledCells(g, row-1) < 2 {
		return above
	}
	last := ""
	for column := range above {
		if cell := plainHead(g.cell(row-1, column)); cell != "" {
			last = cell
		}
		above[column] = last
	}
	return above
}

func filledCells(g Grid, row int) (count int) {
	for column := range g.Rows[row] {
		if g.cell(row, column) != "" {
			count++
		}
	}
	return count
}

// fitsTwo gives points to a head of two lines: what its own line says, what both say together, or the upper one where its
// own is blank.
func fitsTwo(above, head string, field Field) int {
	switch {
	case above == "":
		return fits(head, field)
	case head == "":
		return fits(above, field)
	}
	return max(fits(head, field), fits(above+" "+head, field))
}

// fits gives points to a head for a field: more for the whole word than for part of the head, more for a likelier word.
func fits(head string, field Field) int {
	if field.heads != nil {
		return field.heads(head)
	}
	best := 0
	for i, word := range field.Words {
		switch {
		case head == word:
			best = max(best, wholeWord-i)
		case strings.Contains(" "+head+" ", " "+word+" "):
			best = max(best, partWord)
		}
	}
	return best
}

// looksLike reports whether most filled cells below a head can be of the field.
func looksLike(g Grid, from, column int, field Field) bool {
	looks := field.looks
	switch {
	case looks == nil && field.never == nil:
		return true
	case looks == nil:
		looks = func(cell string) bool { return !field.never(cell) }
	}
	filled, good := 0, 0
	for row := from; row < min(len(g.Rows), from+mostLooked); row++ {
		if cell := g.cell(row, column); cell != "" {
			filled++
			if len(cell) <= longestName && looks(cell) {
				good++
			}
		}
	}
	return good*2 >= filled
}

// bare guesses the columns of a grid without a head by their cells: the first column that mostly fits a field takes it.
func bare(g Grid, fields []Field) Layout {
	layout := Layout{Fields: make([]string, g.Width())}
	for _, field := range fields {
		for column := range layout.Fields {
			if field.looks != nil && field.heads == nil && layout.Fields[column] == "" && hasCells(g, column) && looksLike(g, 0, column, field) {
				layout.Fields[column] = field.Name
				break
			}
		}
	}
	if firstIsHead(g, layout, fields) {
		layout.Head = 1
	}
	return layout
}

// firstIsHead reports whether the first row has words in every column that was recognised, and nothing that its cells below
// look like.
func firstIsHead(g Grid, layout Layout, fields []Field) bool {
	found := false
	for _, field := range fields {
		column := layout.column(field.Name)
		if column < 0 {
			continue
		}
		cell := g.cell(0, column)
		if cell == "" || field.looks(cell) {
			return false
		}
		found = true
	}
	return found
}

func hasCells(g Grid, column int) bool {
	for row := range min(len(g.Rows), mostLooked) {
		if g.cell(row, column) != "" {
			return true
		}
	}
	return false
}

// plainHead makes a head comparable: small letters, its unit and signs left out, one blank between words.
func plainHead(head string) string {
	head = strings.ToLower(strings.Trim(head, " \t\ufeff"))
	if open := strings.IndexAny(head, "(["); open > 0 {
		head = head[:open]
	}
	return strings.Join(strings.FieldsFunc(head, func(sign rune) bool {
		return !unicode.IsLetter(sign) && !unicode.IsDigit(sign) && sign != '#'
	}), " ")
}

// lengthSystem is the system of a bare length under a head: that which the head names, as in "Length (ft)", else the given one.
func lengthSystem(head string, otherwise quantity.System) quantity.System {
	words := strings.FieldsFunc(strings.ToLower(head), func(sign rune) bool { return !unicode.IsLetter(sign) })
	switch {
	case slices.ContainsFunc(words, func(word string) bool { return word == "ft" || word == "feet" || word == "foot" }):
		return quantity.Imperial
	case slices.ContainsFunc(words, func(word string) bool { return word == "m" || word == "metres" || word == "meters" || word == "metre" }):
		return quantity.Metric
	}
	return otherwise
}
