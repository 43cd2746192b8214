package stock

import (
	"slices"
	"strings"

	"stageloom/model/exchange"
	"stageloom/model/plan"
)

// keptChoices are what the user said about lists as long as the program runs, so that a corrected file needs it no second
// time: columns, encoding and sheet by the file.
type keptChoices struct {
	files map[string]fileChoices
	// heads are what columns of stock lists mean by their own heads, for a corrected list with other columns beside them.
	heads map[string]string
}

// Columns keeps what the columns of lists mean, by their heads: tomorrow's list of the same band comes with the same choice.
type Columns interface {
	// ListColumns is what was last said of a list with these heads.
	ListColumns(heads string) (fields []string, found bool)
	// SetListColumns keeps the meaning of each column, blank for one that is not read.
	SetListColumns(heads string, fields []string)
}

// fileChoices are what was said about one file.
type fileChoices struct {
	// encoding is the one chosen, guessed the one that the file looked to be in then.
	encoding, guessed, sheet string
	layouts                  map[string]keptLayout
}

// keptLayout is what the columns of a sheet mean, and its head line.
type keptLayout struct {
	layout exchange.Layout
	head   string
}

// headLine is a row of a grid as two heads are compared, with what the list holds; blank for a row without words.
func headLine(holds string, grid exchange.Grid, row int) string {
	if row < 1 || row > len(grid.Rows) {
		return ""
	}
	cells := make([]string, len(grid.Rows[row-1]))
	for i, cell := range grid.Rows[row-1] {
		cells[i] = plan.Folded(cell)
	}
	words := strings.TrimRight(strings.Join(cells, "\x00"), "\x00")
	if words == "" {
		return ""
	}
	return holds + "\x01" + words
}

func (d *importDialog) keptFile() fileChoices {
	return d.kept.files[strings.TrimSpace(d.path.Text)]
}

// keepFile keeps something about the file at hand.
func (d *importDialog) keepFile(change func(*fileChoices)) {
	file := d.keptFile()
	if file.layouts == nil {
		file.layouts = map[string]keptLayout{}
	}
	change(&file)
	if d.kept.files == nil {
		d.kept.files = map[string]fileChoices{}
	}
	d.kept.files[strings.TrimSpace(d.path.Text)] = file
}

// keep keeps what the user said is the head, or what a column means.
func (d *importDialog) keep() {
	grid, found := d.grid()
	if !found {
		return
	}
	head := headLine(d.holds.Selected, grid, d.layout.Head)
	layout := exchange.Layout{Head: d.layout.Head, Fields: slices.Clone(d.layout.Fields)}
	if head != "" {
		d.Columns.SetListColumns(head, layout.Fields)
	}
	d.keepFile(func(file *fileChoices) { file.layouts[d.holds.Selected+"\x01"+grid.Name] = keptLayout{layout, head} })
}

// sheetChosen keeps which sheet is read.
func (d *importDialog) sheetChosen() {
	if grid, found := d.grid(); found && !d.filling {
		d.keepFile(func(file *fileChoices) { file.sheet = grid.Name })
	}
	d.guess()
}

// keptLayout is what the columns of a sheet mean: as was said of this file, or of another with the same head line, else as
// they look. relettered tells that the same file was read in another encoding, so that its heads read otherwise.
func (d *importDialog) keptLayout(grid exchange.Grid, relettered bool) exchange.Layout {
	holds := d.holds.Selected
	if kept, found := d.keptFile().layouts[holds+"\x01"+grid.Name]; found && len(kept.layout.Fields) == grid.Width() &&
		(relettered || headLine(holds, grid, kept.layout.Head) == kept.head) {
		return d.known(kept.layout, grid)
	}
	for row := 1; row <= min(len(grid.Rows), mostHeads); row++ {
		head := headLine(holds, grid, row)
		if fields, found := d.Columns.ListColumns(head); found && head != "" {
			return d.known(exchange.Layout{Head: row, Fields: fields}, grid)
		}
	}
	layout := exchange.Guess(grid, d.fields())
	if holds != holdsReels || layout.Head == 0 {
		return layout
	}
	for column := range grid.Width() {
		if means, found := d.columnMeans(headOf(grid, layout, column)); found && d.hasField(means) {
			layout = layout.Set(column, means)
		}
	}
	return layout
}

// headOf is the head of a column as heads are compared.
func headOf(grid exchange.Grid, layout exchange.Layout, column int) string {
	if layout.Head == 0 || column >= len(grid.Rows[layout.Head-1]) {
		return ""
	}
	return plan.Folded(grid.Rows[layout.Head-1][column])
}

// keepColumn keeps what a column of a stock list means by its own head.
func (d *importDialog) keepColumn(column int, means string) {
	grid, found := d.grid()
	head := ""
	if found {
		head = headOf(grid, d.layout, column)
	}
	if d.holds.Selected != holdsReels || head == "" {
		return
	}
	if d.kept.heads == nil {
		d.kept.heads = map[string]string{}
	}
	d.kept.heads[head] = means
}

// columnMeans is what a column of a head means: as was said since the program began, or as the house remembers.
func (d *importDialog) columnMeans(head string) (means string, found bool) {
	if means, found = d.kept.heads[head]; !found && head != "" {
		means, found = d.asked.remembered[exchange.SaidOf(ofColumn, head)]
	}
	return means, found
}

func (d *importDialog) hasField(name string) bool {
	return name == exchange.PassOver || slices.ContainsFunc(d.fields(), func(field exchange.Field) bool { return field.Name == name })
}

// known is a layout as wide as a grid, with meanings that the plan still has.
func (d *importDialog) known(layout exchange.Layout, grid exchange.Grid) exchange.Layout {
	layout.Fields = append(slices.Clone(layout.Fields), make([]string, max(0, grid.Width()-len(layout.Fields)))...)[:grid.Width()]
	for i, name := range layout.Fields {
		if !d.hasField(name) {
			layout.Fields[i] = ""
		}
	}
	return layout
}
