package table

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"stageloom/model/exchange"
	"stageloom/model/plan"
)

// Copy is the marked block as text for a spreadsheet: tabs between columns, a line a row.
func (s *Sheet) Copy() string {
	first, last := s.stretch()
	return s.copy(first, last, false)
}

// CopyWithHeadings is the selected rows with all columns shown and a line of headings. Pasted back, rows are found by
// name and columns by heading, whatever their order then.
func (s *Sheet) CopyWithHeadings() string { return s.copy(0, len(s.shown)-1, true) }

func (s *Sheet) copy(first, last int, headings bool) string {
	line := func(text func(column int) string) (cells []exchange.Cell) {
		for column := first; column <= last; column++ {
			cells = append(cells, exchange.Text(text(column)))
		}
		return cells
	}
	var rows [][]exchange.Cell
	if headings {
		rows = append(rows, line(func(column int) string { return s.columns[s.shown[column]].Title }))
	}
	for _, row := range s.block() {
		rows = append(rows, line(func(column int) string { return s.Cell(row, column).Text }))
	}
	return strings.TrimSuffix(strings.ReplaceAll(exchange.CopyTable(nil, rows), "\r\n", "\n"), "\n")
}

// ErrNothingToPaste is given for a clipboard without text.
var ErrNothingToPaste = errors.New("there is no text on the clipboard")

// Paste sets cells from the text of a spreadsheet, as one undo step: all of them or none. One cell fills the whole marked
// block; several go from the cursor's cell on, to the right and down; with a line of headings rows are found by name and
// columns by heading. Where rows can be added, those that are not there are. A cell of a reckoned column passes when it reads as it stands. It returns how many cells changed.
func (s *Sheet) Paste(text string) (changed int, err error) {
	if strings.Trim(text, "\r\n\t ") == "" {
		return 0, ErrNothingToPaste
	}
	lines, err := exchange.PasteTable(text)
	if err != nil {
		return 0, err
	}
	var cells []typing
	switch columns := s.headings(lines[0]); {
	case columns != nil:
		cells, err = s.pasteNamed(lines[1:], columns)
	case len(lines) == 1 && len(lines[0]) == 1:
		cells = s.pasteFill(lines[0][0])
	default:
		cells, err = s.pasteBlock(lines)
	}
	if err != nil {
		return 0, err
	}
	return len(cells), s.apply(cells, false)
}

// headings are the columns, of all, that a first line names; nil when it is no line of headings.
func (s *Sheet) headings(line []string) []int {
	var columns []int
	named := false
	for _, text := range line {
		column := slices.IndexFunc(s.columns, func(c Column) bool { return c.headed(text) })
		if column < 0 || slices.Contains(columns, column) {
			return nil
		}
		named = named || s.columns[column].Names
		columns = append(columns, column)
	}
	if !named || len(columns) < 2 {
		return nil
	}
	return columns
}

func (s *Sheet) pasteFill(text string) (cells []typing) {
	first, last := s.stretch()
	for _, row := range s.block() {
		for column := first; column <= last; column++ {
			if !s.same(row, column, text) {
				cells = append(cells, s.typing(row, column, text))
			}
		}
	}
	return cells
}

func (s *Sheet) pasteBlock(lines [][]string) (cells []typing, err error) {
	top, left := s.corner()
	wide := 0
	for _, line := range lines {
		wide = max(wide, len(line))
	}
	adds, _ := s.Grows()
	if over := top + len(lines) - len(s.rows); over > 0 && (!adds || s.filter != "") {
		return nil, fmt.Errorf("%d rows are pasted, but from here on there are only %d: nothing was changed", len(lines), len(lines)-over)
	}
	if over := left + wide - len(s.shown); over > 0 {
		return nil, fmt.Errorf("%d columns are pasted, but from here on there are only %d: nothing was changed", wide, wide-over)
	}
	for i, line := range lines {
		fresh := top + i - len(s.rows) + 1
		for j, text := range line {
			if fresh > 0 {
				if cell, sets := s.freshCell(fresh, s.shown[left+j], text, fmt.Sprintf("line %d", i+1)); sets {
					cells = append(cells, cell)
				}
			} else if !s.same(top+i, left+j, text) {
				cells = append(cells, s.typing(top+i, left+j, text))
			}
		}
	}
	return cells, nil
}

// corner is the cell where a pasted block begins: the first of the marked block.
func (s *Sheet) corner() (row, column int) {
	column, _ = s.stretch()
	if rows := s.block(); len(rows) > 0 {
		return rows[0], column
	}
	return 0, column
}

// pasteNamed finds rows by the words of the naming column, among all rows, shown or not.
func (s *Sheet) pasteNamed(lines [][]string, columns []int) (cells []typing, err error) {
	naming := slices.IndexFunc(columns, func(column int) bool { return s.columns[column].Names })
	rows := map[string][]int{}
	for row := range s.source.Len() {
		name := s.source.Cell(row, columns[naming]).Text
		rows[name] = append(rows[name], row)
	}
	one, many := s.source.Words()
	adds, _ := s.Grows()
	fresh := 0
	for i, line := range lines {
		if len(line) <= naming || len(line) > len(columns) {
			return nil, fmt.Errorf("line %d has %d cells under %d headings: nothing was changed", i+2, len(line), len(columns))
		}
		name := strings.TrimSpace(line[naming])
		switch found := rows[name]; len(found) {
		case 0:
			if adds && name != "" {
				fresh++
				for j, text := range line {
					if cell, sets := s.freshCell(fresh, columns[j], text, name); sets {
						cells = append(cells, cell)
					}
				}
				continue
			}
			return nil, fmt.Errorf("line %d: no %s is called %q: nothing was changed", i+2, one, plan.Clipped(name))
		case 1:
			for j, text := range line {
				if cell := s.source.Cell(found[0], columns[j]); strings.TrimSpace(cell.Text) != strings.TrimSpace(text) {
					cells = append(cells, typing{ref: s.source.Ref(found[0]), column: columns[j], typed: text, name: name, heading: s.columns[columns[j]].Title})
				}
			}
		default:
			return nil, fmt.Errorf("line %d: %d %s are called %q: nothing was changed", i+2, len(found), many, plan.Clipped(name))
		}
	}
	return cells, nil
}
