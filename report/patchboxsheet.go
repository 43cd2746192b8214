package report

import (
	"fmt"
	"slices"
	"strings"

	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/report/paper"
)

// mostConsoles is how many consoles have a column of their own on a sheet of a box.
const mostConsoles = 4

// boxTable is the sheet of a box: on one page where that goes.
func (p *printout) boxTable(title string, act *patch.Act, rows []boxRow) paper.Table {
	sheet := boxSheet{printout: p, act: act, phantoms: p.Patch.PhantomSheet(act)}
	for _, row := range rows {
		sheet.look(row)
	}
	table := paper.Table{Title: title, Columns: sheet.columns(), BlankRows: 2, OnePage: true}
	for i := 0; i < len(rows); i++ {
		last := i
		for last+1 < len(rows) && rows[last+1].free() && rows[last+1].socket.Output == rows[i].socket.Output {
			last++
		}
		if rows[i].free() && last-i >= fewFree {
			table.Rows = append(table.Rows, sheet.freeRow(rows[i].socket, rows[last].socket))
			i = last
			continue
		}
		table.Rows = append(table.Rows, sheet.row(rows[i]))
	}
	return table
}

// phantomColumn is how wide the cautions of 48 V may be, in mm.
const phantomColumn = 26

// boxSheet knows which columns a sheet of a box needs.
type boxSheet struct {
	*printout
	act      *patch.Act
	phantoms *patch.PhantomSheet
	consoles []plan.DeviceID
	theirs   bool     // the other party has names for sockets
	powers   []string // what is said of 48 V, each once
}

// look takes in what a row needs.
func (s *boxSheet) look(row boxRow) {
	s.theirs = s.theirs || s.Patch.TheirName(row.socket) != ""
	channels := []patch.Channel{}
	for _, console := range s.consoles {
		channels = append(channels, patch.Channel{Console: console})
	}
	for _, in := range row.inputs {
		channels = append(channels, channelsAt(in, row.socket)...)
		if power := s.powerAt(s.act, s.phantoms, in, row.socket); power != "" && !slices.Contains(s.powers, power) {
			s.powers = append(s.powers, power)
		}
	}
	s.consoles = s.consolesOf(channels)
}

func (s *boxSheet) columns() []paper.Column {
	columns := []paper.Column{{Head: "Socket", Face: paper.Mono, Width: paper.Fit(18)}}
	if s.theirs {
		columns = append(columns, paper.Column{Head: "Their name", Width: paper.Fit(24), Lines: 3})
	}
	columns = append(columns,
		paper.Column{Head: "Plug", Align: paper.Centre},
		paper.Column{Head: "Input", Width: paper.Fill(1), Lines: 3},
		paper.Column{Head: "What is plugged in", Width: paper.Fill(1.5), Lines: 6},
	)
	if len(s.powers) > 0 {
		columns = append(columns, paper.Column{Head: s.powerHead(), Width: paper.Fit(phantomColumn), Lines: 4})
	}
	if len(s.consoles) > mostConsoles {
		return append(columns, paper.Column{Head: "Arrives at", Width: paper.Fill(1.1), Lines: 8})
	}
	for _, console := range s.consoles {
		columns = append(columns, paper.Column{Head: s.Patch.Name(console), Align: paper.Centre, Width: paper.Fit(20), Lines: 4})
	}
	return columns
}

// oneSwitch tells that all 48 V of the sheet is switched by one, who is named in the head.
func (s *boxSheet) oneSwitch() bool {
	return len(s.powers) == 1 && strings.HasPrefix(s.powers[0], wants48) && !strings.Contains(s.powers[0], ";")
}

func (s *boxSheet) powerHead() string {
	if s.oneSwitch() && s.powers[0] != wants48 {
		return wants48 + " by" + strings.TrimPrefix(s.powers[0], wants48)
	}
	return wants48
}

func (s *boxSheet) freeRow(first, last patch.Socket) paper.Row {
	row := paper.Texts(fmt.Sprintf("%d–%d", first.Number, last.Number))
	if s.theirs {
		row.Cells = append(row.Cells, paper.Cell{})
	}
	row.Cells = append(row.Cells, paper.Cell{}, paper.Cell{Text: "free"})
	return row
}

func (s *boxSheet) row(row boxRow) paper.Row {
	cells := paper.Texts(socketIn(row.socket))
	if s.theirs {
		cells.Cells = append(cells.Cells, paper.Cell{Text: s.Patch.TheirName(row.socket)})
	}
	var channels []patch.Channel
	var powers []string
	for _, in := range row.inputs {
		channels = append(channels, channelsAt(in, row.socket)...)
		if power := s.powerAt(s.act, s.phantoms, in, row.socket); power != "" && !slices.Contains(powers, power) {
			powers = append(powers, power)
		}
	}
	if s.oneSwitch() && len(powers) == 1 {
		powers[0] = wants48
	}
	cells.Cells = append(cells.Cells,
		plugCell(row),
		paper.Cell{Text: s.onSocket(row), Bold: true},
		paper.Cell{Text: s.pluggedIn(row)},
	)
	if len(s.powers) > 0 {
		cells.Cells = append(cells.Cells, paper.Cell{Text: strings.Join(powers, "; ")})
	}
	if len(s.consoles) > mostConsoles {
		cells.Cells = append(cells.Cells, paper.Cell{Text: strings.Join(s.channels(channels), ", ")})
		return cells
	}
	for _, console := range s.consoles {
		cells.Cells = append(cells.Cells, paper.Cell{Text: numbersOn(channels, console)})
	}
	return cells
}

// fed tells that all that is on a socket comes there by multicore, so that nobody plugs anything in.
func (r boxRow) fed() bool {
	return len(r.inputs) > 0 && len(r.outputs) == 0 && !slices.ContainsFunc(r.inputs, func(in plugged) bool { return len(in.ways) == 0 })
}

// plugCell is a box to tick, no where nothing is to be plugged in, and blank where the pen may still put something.
func plugCell(row boxRow) paper.Cell {
	if row.fed() {
		return paper.Cell{Text: "no"}
	}
	return paper.Cell{Tick: !row.free()}
}

// onSocket says what is on a socket; more than one is a conflict and says so.
func (p *printout) onSocket(row boxRow) string {
	var said []string
	for _, in := range row.inputs {
		said = append(said, p.inputName(in.line.Input))
	}
	for _, output := range row.outputs {
		said = append(said, p.outputName(output.Output))
	}
	if len(said) > 1 {
		return "DOUBLE: " + strings.Join(said, " and ")
	}
	return strings.Join(said, "")
}

// pluggedIn says what really stands in a socket: a source, the tail of a sub-snake, a multicore, or what an output feeds.
func (p *printout) pluggedIn(row boxRow) string {
	var said []string
	for _, in := range row.inputs {
		words := p.inSocket(in, row.socket)
		if !slices.Contains(said, words) {
			said = append(said, words)
		}
	}
	for _, output := range row.outputs {
		words := "from " + p.Patch.Name(output.Console)
		if !output.Reached {
			words += " (" + p.Patch.Unreached(output.Lost) + ")"
		}
		said = append(said, listedWords(words, outputWords(output.Output)))
	}
	return strings.Join(said, "; ")
}

func (p *printout) inSocket(in plugged, at patch.Socket) string {
	switch {
	case in.tail():
		return fmt.Sprintf("tail %d of %s", in.line.Snake.Number, p.Patch.Name(in.line.Snake.Device))
	case !in.here:
		return "by multi " + p.multiWay(in.ways[len(in.ways)-1]) + ": do not plug"
	}
	words := listedWords(source(in.line.Input), inputRadio(in.line.Input))
	if in.line.Snake == at {
		if on := p.onward(in.line, at); on != "" {
			words = listedWords(words, "on by multi "+on)
		}
	}
	return words
}

// onward names the way of the multicore by which an input leaves its sub-snake; blank where there is none.
func (p *printout) onward(line *patch.Line, at patch.Socket) string {
	for i := range line.Legs {
		if ways := line.Legs[i].Ways; line.At == at && len(ways) > 0 {
			return p.multiWay(ways[0])
		}
	}
	return ""
}

// channels names channels with their consoles.
func (p *printout) channels(list []patch.Channel) []string {
	said := make([]string, len(list))
	for i, channel := range list {
		said[i] = fmt.Sprintf("%s%s%d", p.Patch.Name(channel.Console), space, channel.Number)
		if !channel.Reached {
			said[i] += " (" + p.Patch.Unreached(channel.Lost) + ")"
		}
	}
	return said
}
