package report

import (
	"fmt"
	"strings"

	"stageloom/model/plan"
	"stageloom/model/stocklist"
	"stageloom/model/words"
	"stageloom/report/paper"
)

// lotsTable is a table of cables by kind and length, with boxes to tick at the end, and its sum below. What is tied into one
// piece stands on a line of its own, with its cables below it.
type lotsTable struct {
	title  string
	ticks  []string // heads of boxes to tick
	pens   []string // heads of columns for the pen
	more   string   // head of a column of figures, which figure says
	figure func(stocklist.Lot) string
	total  string // said of the sum; blank leaves the sum out
	empty  string
}

// columns are the table's.
func (t lotsTable) columns() []paper.Column {
	columns := []paper.Column{
		{Head: "Cable", Width: paper.Fixed(58), Lines: 3},
		{Head: "m", Align: paper.Right, Width: paper.Fixed(17)},
		{Head: "Number", Align: paper.Right, Width: paper.Fixed(17)},
		{Head: "Tags", Width: paper.Fill(1), Lines: 40},
	}
	if t.more != "" {
		columns = append(columns, paper.Column{Head: t.more, Align: paper.Right, Width: paper.Fixed(24)})
	}
	for _, head := range t.ticks {
		columns = append(columns, paper.Column{Head: head, Align: paper.Centre})
	}
	for _, head := range t.pens {
		columns = append(columns, paper.Column{Head: head, Width: paper.Fixed(36)})
	}
	return columns
}

// table makes the table of some lots.
func (t lotsTable) table(lots []stocklist.Lot) paper.Table {
	table := paper.Table{Title: t.title, Columns: t.columns(), Empty: t.empty}
	sum, whole := 0, ""
	for _, lot := range lots {
		if lot.Whole != whole {
			whole = lot.Whole
			row := wholeRow(whole, stocklist.InWhole(lots, whole))
			if t.more != "" {
				row.Cells = append(row.Cells, paper.Cell{})
			}
			table.Rows = append(table.Rows, t.ticked(row))
		}
		row := lotCells(lot)
		if t.more != "" {
			row.Cells = append(row.Cells, paper.Cell{Text: t.figure(lot)})
		}
		if whole == "" {
			row = t.ticked(row)
		}
		table.Rows = append(table.Rows, row)
		sum += lot.Count
	}
	if t.total != "" && len(lots) > 0 {
		row := paper.Texts(t.total, "", fmt.Sprint(sum))
		row.Kind = paper.Total
		table.Rows = append(table.Rows, row)
	}
	return table
}

// ticked puts the boxes to tick behind a row.
func (t lotsTable) ticked(row paper.Row) paper.Row {
	for range t.ticks {
		row.Cells = append(row.Cells, paper.Cell{Tick: true})
	}
	return row
}

// wholeRow says what is tied into one piece and of how many cables it is; the number stands with these, so that sums hold.
func wholeRow(name string, cables int) paper.Row {
	row := paper.Texts(name, "", "", "one piece, tied of "+words.Counted(cables, "cable", "cables"))
	row.Cells[0].Bold = true
	return row
}

// lotCells are a lot's kind, length, number and tags.
func lotCells(lot stocklist.Lot) paper.Row {
	kind := lot.Kind
	if lot.Whole != "" {
		kind = "– " + kind
	}
	row := paper.Texts(kind, stocklist.Bare(lot.Length), fmt.Sprint(lot.Count), strings.Join(lot.Tags, ", "))
	row.Cells[1].Bold = true
	return row
}

// pieceLength is the length of one cable as it is, with its unit.
func pieceLength(metres float64) string { return stocklist.Bare(metres) + space + "m" }

// drawLoads prints what is in each case, one table a case; empty ones have none.
func drawLoads(b *paper.Book, p *plan.Plan, loads []stocklist.Load, ticks ...string) {
	for _, load := range loads {
		if load.Cables > 0 {
			b.Skip(2 * b.Scale())
			b.Table(lotsTable{title: load.Name() + ": " + loadWords(load), ticks: ticks, total: "In it"}.table(stocklist.Lots(p, load.Pieces)))
		}
	}
}

// loadWords say how much is in a case.
func loadWords(load stocklist.Load) string {
	return words.Counted(load.Cables, "piece", "pieces") + ", " + load.Mass.String()
}

// loadsTable is one line a case, in the order of their names, and the sum.
func loadsTable(title string, loads []stocklist.Load, tick, empty string) paper.Table {
	table := paper.Table{
		Title: title,
		Columns: []paper.Column{
			{Head: tick, Align: paper.Centre},
			{Head: "Case", Width: paper.Fill(1), Lines: 3},
			{Head: "Pieces", Align: paper.Right, Width: paper.Fixed(17)},
			{Head: "kg", Align: paper.Right, Width: paper.Fixed(17)},
			{Head: "Without a weight", Align: paper.Right, Width: paper.Fixed(19)},
			{Head: "It takes", Width: paper.Fill(0.7)},
			{Head: "Too much", Width: paper.Fill(0.8)},
		},
		Empty: empty,
	}
	for _, load := range loads {
		over := load.Over()
		if over != "" {
			over = "OVER: " + over
		}
		row := paper.Texts("", load.Name(), fmt.Sprint(load.Cables), load.Mass.Figure(), fmt.Sprint(load.Mass.Unknown), load.Takes(), over)
		row.Cells[0].Tick, row.Cells[1].Bold, row.Cells[6].Bold = true, true, true
		table.Rows = append(table.Rows, row)
	}
	if len(loads) > 0 {
		cables, mass := stocklist.Total(loads)
		row := paper.Texts("", "All", fmt.Sprint(cables), mass.Figure(), fmt.Sprint(mass.Unknown), "", "")
		row.Kind = paper.Total
		table.Rows = append(table.Rows, row)
	}
	return table
}

// overfull says of which cases more is asked than they take.
func overfull(loads []stocklist.Load) (said []string) {
	for _, load := range loads {
		if over := load.Over(); over != "" {
			said = append(said, fmt.Sprintf("%s is over full: %s. It takes %s.", load.Name(), over, load.Takes()))
		}
	}
	return said
}

// unweighed says that a sum of kilograms is a least one, where it is.
func unweighed(loads []stocklist.Load) string {
	_, mass := stocklist.Total(loads)
	said := "A cable weighs what it says itself, else what its kind and length come to; a case adds its own weight."
	if mass.Unknown > 0 {
		said += fmt.Sprintf(" Kilograms are at least these: %s no weight.", words.Counted(mass.Unknown, "cable has", "cables have"))
	}
	return said
}
