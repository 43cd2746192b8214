package paper

// Table is a table that flows over pages. Its heads are repeated on each page
// with the title and "continued"; rows are never split; a group row stays with
// the row below it, and totals with the last row above them.
type Table struct {
	Title   string // over the table; may be empty
	Columns []Column
	Rows    []Row
	// BlankRows are empty rows at the end for the pen; a crew's table has two.
	BlankRows int
	// OnePage sets the rows closer, down to where they still read at arm's length, and then leaves out the blank ones, where
	// that puts the whole table on one page.
	OnePage bool
	Empty   string // what is printed in place of rows when there are none
}

// Column is a column of a table.
type Column struct {
	Head  string
	Align Align // figures stand on the right, so that their units stand below each other
	Width Width
	Face  Face
	// Lines is how many lines a cell may have before it is cut with an ellipsis
	// and a notice; 0 is 12.
	Lines int
	// NoWrap cuts instead of wrapping.
	NoWrap bool
}

// Width says how wide a column is. The zero Width fits the contents.
type Width struct {
	fixed, most, share float64
}

// Fixed is a width in millimetres, on A4.
func Fixed(mm float64) Width { return Width{fixed: mm} }

// Fit is as wide as the widest cell, but at most so many millimetres on A4.
func Fit(most float64) Width { return Width{most: most} }

// Fill takes a share of what the other columns leave.
func Fill(share float64) Width { return Width{share: share} }

// RowKind is what a row is in its table.
type RowKind int

// The kinds of row.
const (
	Ordinary RowKind = iota
	Group            // its first cell is a heading across the table
	Total            // set bold below a rule, kept with the row before
)

// Row is a row of a table; missing cells are empty.
type Row struct {
	Kind  RowKind
	Cells []Cell
}

// Cell is what stands in one place of a table: a text, a badge or a tick box.
type Cell struct {
	Text  string
	Badge *Badge // drawn in place of the text
	Tick  bool   // a box to tick in place of the text
	Bold  bool
	ID    bool // set in Mono at the size of ids, whatever the column's face
}

// Texts returns an ordinary row of texts.
func Texts(texts ...string) Row {
	row := Row{Cells: make([]Cell, len(texts))}
	for i, text := range texts {
		row.Cells[i].Text = text
	}
	return row
}

// GroupRow returns a heading across the table.
func GroupRow(text string) Row {
	return Row{Kind: Group, Cells: []Cell{{Text: text}}}
}

// cell returns cell i of the row, empty where there is none.
func (r Row) cell(i int) Cell {
	if i < len(r.Cells) {
		return r.Cells[i]
	}
	return Cell{}
}

const usualLines = 12

// lines returns how many lines a cell of the column may have.
func (c Column) lines() int {
	switch {
	case c.NoWrap:
		return 1
	case c.Lines > 0:
		return c.Lines
	default:
		return usualLines
	}
}
