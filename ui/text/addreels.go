package text

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"stageloom/model/catalogue"
	"stageloom/model/exchange"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// AddReels is the form by which cables come into a stock: a line for each sort, such as "12 x 50 m" or "3 x 20 m Cat 6".
type AddReels struct {
	Lines string
	// Kind is the kind of lines that name none.
	Kind plan.CableKindID
	// Tags names the cables of a single line, one by one or as A01-A12.
	Tags                      string
	Case, Owner, Hire, Return string
}

// Read makes a stock list of the form, with the reasons in words where it is none.
func (a AddReels) Read(p *plan.Plan, units words.Units) (exchange.Stock, string) {
	fields := []string{exchange.Length, exchange.Kind, exchange.Tag, exchange.CaseName, exchange.Owner, exchange.Hire, exchange.Return}
	grid := exchange.Grid{}
	for line := range strings.SplitSeq(a.Lines, "\n") {
		if strings.TrimSpace(line) != "" {
			grid.Rows = append(grid.Rows, []string{line, "", a.Tags, a.Case, a.Owner, a.Hire, a.Return})
		}
	}
	switch {
	case len(grid.Rows) == 0:
		return exchange.Stock{}, "Write what there is, for instance 12 x 50 m."
	case len(grid.Rows) > 1 && a.Tags != "":
		return exchange.Stock{}, "Tags go with one line: add the lines one after the other."
	}
	list := exchange.ReadStock(grid, exchange.Layout{Fields: fields}, exchange.Options{
		Bare: units.Length, Kinds: catalogue.CableKindsFor(p), Blank: a.Kind, Taken: exchange.TagTaken(p),
		Means: map[exchange.Said]string{exchange.SaidOf(exchange.OfOwner, a.Owner): whose(a.Owner)},
	})
	if len(list.Unknown) > 0 {
		return list, fmt.Sprintf("%q is no kind of cable of the plan or the catalogue; leave it out and choose the kind above.", list.Unknown[0].Word)
	}
	if len(list.Faults) > 0 {
		words := list.Faults[0].Words
		return list, begun(strings.TrimRight(words, ".")) + "."
	}
	return list, ""
}

// whose says of an owner that is typed by hand whether it is the house: as "us", or the house's own word.
func whose(owner string) string {
	if exchange.SaysOurs(owner) {
		return exchange.HouseItself
	}
	return exchange.AnotherOwner
}

// ListTold says what a stock list holds: "15 cables in 3 rows, 640 m in all", or "12 cables of 50 m, 600 m in all".
func ListTold(list exchange.Stock, units words.Units) string {
	rows, cables := list.Count()
	metres := 0.0
	for _, row := range list.Rows {
		for _, reel := range row.Reels {
			metres += reel.Length * float64(reel.Count())
		}
	}
	many := words.Counted(cables, "cable", "cables")
	switch {
	case cables == 1:
		return many + " of " + units.Piece(metres)
	case rows == 1:
		return fmt.Sprintf("%s of %s, %s in all", many, units.Piece(list.Rows[0].Reels[0].Length), units.Metres(metres))
	}
	return fmt.Sprintf("%s in %s, %s in all", many, words.Counted(rows, "row", "rows"), units.Metres(metres))
}

// ReadTold says how a list was read, and what is worth a look in it.
func ReadTold(how string, notices []string) string {
	told := "Read as " + how + "."
	for _, notice := range notices {
		told += " " + begun(notice) + "."
	}
	return told
}

// FaultsTold lists faults of a list, at most so many, each in a line of its own.
func FaultsTold(faults []exchange.Fault, most int) string {
	var lines []string
	for i, fault := range faults {
		if i == most {
			lines = append(lines, fmt.Sprintf("… and %d more.", len(faults)-most))
			break
		}
		lines = append(lines, begun(fault.String())+".")
	}
	return strings.Join(lines, "\n")
}

// begun is a text that begins with a capital.
func begun(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	return string(unicode.ToUpper(first)) + text[size:]
}

// NotRead stands for the meaning of a column that is not read.
const NotRead = "not read"

// PreviewColumn is a column of a list to be imported: its letter and head, then its first cells.
func PreviewColumn(grid exchange.Grid, layout exchange.Layout, column, most int) []string {
	cell := func(row int) string {
		if row < 0 || row >= len(grid.Rows) || column >= len(grid.Rows[row]) {
			return ""
		}
		return strings.Join(strings.Fields(grid.Rows[row][column]), " ")
	}
	texts := []string{strings.TrimSpace(exchange.Letter(column) + "  " + cell(layout.Head-1))}
	for row := layout.Head; row < min(layout.Head+most, len(grid.Rows)); row++ {
		texts = append(texts, cell(row))
	}
	return texts
}

// RowsWithFaults is "1 row has faults", "12 rows have faults".
func RowsWithFaults(rows int) string {
	return words.Counted(rows, "row has faults", "rows have faults")
}
