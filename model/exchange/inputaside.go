package exchange

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"stageloom/model/plan"
)

// tell says something of the row at hand that is no fault, of a field's cell where one is named.
func (r *inputReader) tell(field, words string) {
	told := Fault{Row: r.number(), Words: words}
	if column := r.layout.column(field); field != "" && column >= 0 {
		told.Column, told.Head = Letter(column), r.head(field)
	}
	r.told = append(r.told, told)
}

// filled counts the filled cells of the row at hand, and gives the first of them.
func (r *inputReader) filled() (count int, first string) {
	for column := range r.grid.Rows[r.at] {
		if cell := r.grid.cell(r.at, column); cell != "" {
			if count == 0 {
				first = cell
			}
			count++
		}
	}
	return count, first
}

// unread tells what lies above the head, and which columns with something in them are not read.
func (r *inputReader) unread() {
	for r.at = 0; r.at < r.layout.Head-1; r.at++ {
		if count, first := r.filled(); count > 0 {
			r.tell("", fmt.Sprintf("%q stands above the column heads: it is no input", plan.Clipped(first)))
		}
	}
	for column, field := range r.layout.Fields {
		words := "this column is not read: say above it what it means, if it is wanted"
		switch field {
		case "":
		case Multi, Line:
			words = "what it says is the sub-snake and its way where the plan has a multicore or a sub-snake of that name; else it goes into the note"
		default:
			continue
		}
		for row := r.layout.Head; row < len(r.grid.Rows); row++ {
			if r.grid.cell(row, column) == "" {
				continue
			}
			told := Fault{Row: max(1, r.layout.Head), Column: Letter(column), Words: words}
			if r.layout.Head > 0 {
				told.Head = r.grid.cell(r.layout.Head-1, column)
			}
			r.told = append(r.told, told)
			break
		}
	}
}

// totals are words that begin the row of a sum.
var totals = strings.Fields("total totals sum summe gesamt somme insgesamt")

// aside tells of a row that is no input and no fault: a heading, a total, a line of the head, a note that goes on, a number
// without anything.
func (r *inputReader) aside() bool {
	count, first := r.filled()
	_, pair, _ := readPair(r.text(Number))
	numbered := pair || r.text(Number) != "" && isCount(r.text(Number))
	switch {
	case !r.hasRead():
		r.tell("", fmt.Sprintf("%q stands in no column that is read", plan.Clipped(first)))
	case !numbered && slices.Contains(totals, firstWord(first)):
		r.tell("", fmt.Sprintf("%q is a total, and no input", plan.Clipped(first)))
	case !numbered && r.likeHead():
		r.tell("", "it belongs to the column heads, and is no input")
	case count == 1 && r.text(Note) != "" && len(r.rows) > 0:
		r.goOn()
	case numbered && count == 1:
		r.tell("", fmt.Sprintf("number %s has nothing beside it: it is no input", first))
	case count == 1 && r.isHeading(first):
		r.tell("", fmt.Sprintf("%q stands alone: it is taken for a heading, and no input", plan.Clipped(first)))
	default:
		return false
	}
	return true
}

func firstWord(text string) string {
	word, _, _ := strings.Cut(plainHead(text), " ")
	return word
}

// hasRead reports whether a column that is read holds something in the row at hand.
func (r *inputReader) hasRead() bool {
	for column, field := range r.layout.Fields {
		if field != "" && r.grid.cell(r.at, column) != "" {
			return true
		}
	}
	return false
}

// likeHead reports whether two cells or more of the row at hand are heads of what their columns mean: the head's second
// line, or the head again on another page.
func (r *inputReader) likeHead() bool {
	heads := 0
	for _, field := range r.fields {
		if cell := r.text(field.Name); cell != "" && fits(plainHead(cell), field) > partWord {
			heads++
		}
	}
	return heads >= 2
}

// isHeading reports whether a cell that stands alone heads a section: in a list with numbers whatever has none, in one
// without a text in capitals or before a colon, where other rows say more than a name.
func (r *inputReader) isHeading(text string) bool {
	if r.layout.column(Number) >= 0 {
		return true
	}
	read := 0
	for _, field := range r.layout.Fields {
		if field != "" {
			read++
		}
	}
	letters := strings.IndexFunc(text, unicode.IsLetter) >= 0
	return read > 1 && letters && (strings.HasSuffix(text, ":") || text == strings.ToUpper(text) && len(text) > 2)
}

// goOn adds a note that stands alone to that of the row above.
func (r *inputReader) goOn() {
	more := r.words(Note)
	last := r.rows[len(r.rows)-1].Row
	for i := range r.rows {
		if note := &r.rows[i].Input.Note; r.rows[i].Row == last {
			*note = strings.TrimSpace(*note + "\n" + more)
		}
	}
	r.tell(Note, fmt.Sprintf("it stands alone: it goes on with the note of row %d", last))
}

// sayWords tells what was read from the words of sources, and which words told nothing.
func (r *inputReader) sayWords() {
	r.at = max(0, r.layout.Head-1)
	if len(r.read) > 0 {
		r.tell(Source, "where no cell says it, the type and 48 V are read from these words: "+quoted(r.read))
	}
	if len(r.unknown) > 0 {
		r.tell(Source, "these words do not say which type it is, nor of 48 V: "+quoted(r.unknown))
	}
}
