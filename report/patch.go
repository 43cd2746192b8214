package report

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/report/paper"
)

// acts are those to print: the one that is chosen, or all that a reader is shown.
func (p *printout) acts() []*patch.Act {
	shown := p.Patch.Shown()
	if p.choice.Act == "" {
		return shown
	}
	for _, act := range shown {
		if act.Act.ID == p.choice.Act {
			return []*patch.Act{act}
		}
	}
	return nil
}

// patchless tells that the plan has no input and no output.
func (p *printout) patchless() bool { return p.Plan.Inputs.Len() == 0 && p.Plan.Outputs.Len() == 0 }

// ofAct is an act's name behind something, blank where the plan has one act or none.
func (p *printout) ofAct(act *patch.Act) string {
	if name := p.Patch.ActName(act.Act.ID); name != "" {
		return ", " + name
	}
	return ""
}

// boxes are the devices with a socket in use in an act, in the natural order of their names.
func (p *printout) boxes(act *patch.Act) []plan.Device {
	used := map[plan.DeviceID]bool{}
	for _, line := range act.Lines {
		for socket := range line.Sockets() {
			used[socket.Device] = true
		}
	}
	for _, output := range act.Outputs {
		if output.Patched() {
			used[output.Socket.Device] = true
		}
	}
	var list []plan.Device
	for _, device := range p.Devices() {
		if used[device.ID] && (p.choice.Position == "" || device.Position == p.choice.Position) {
			list = append(list, device)
		}
	}
	return list
}

// drawBoxes prints a sheet for each box and act: every socket with what is plugged into it and where it arrives. A box
// that an act patches as the house does is told in a line.
func (p *printout) drawBoxes(b *paper.Book) {
	b.Title("Patch by box")
	if p.patchless() {
		b.Paragraph("This plan has no input and no output.")
		return
	}
	sheets := actSheets{book: b}
	for _, act := range p.acts() {
		for _, device := range p.boxes(act) {
			title := device.Name + p.ofAct(act)
			sheets.add(act, p.boxTable(title, act, device.ID), p.boxTable(title, p.Patch.House(), device.ID))
		}
	}
}

// actSheets prints a table of its own page for each thing and act; one that an act has as the house does is told in a line.
type actSheets struct {
	book    *paper.Book
	written bool // the page already holds something
}

func (s *actSheets) add(act *patch.Act, table, house paper.Table) {
	same := !act.House() && reflect.DeepEqual(table.Rows, house.Rows)
	if s.written && !same {
		s.book.NewPage()
	}
	s.written = true
	s.book.Bookmark(table.Title)
	if same {
		s.book.Paragraph(table.Title + ": as in the house patch.")
		return
	}
	s.book.Table(table)
}

func (p *printout) boxTable(title string, act *patch.Act, device plan.DeviceID) paper.Table {
	table := paper.Table{
		Title: title,
		Columns: []paper.Column{
			{Head: "Socket", Face: paper.Mono, Width: paper.Fit(34)},
			{Head: "What", Width: paper.Fill(1.2), Lines: 3},
			{Head: "Source or mic, stand", Width: paper.Fill(0.9), Lines: 3},
			{Head: "48 V", Align: paper.Centre, Width: paper.Fit(phantomColumn), Lines: 4},
			{Head: "Arrives at", Width: paper.Fill(1.1), Lines: 8},
			{Head: "Done", Align: paper.Centre},
		},
		BlankRows: 2,
	}
	rows, phantoms := used(p.Patch.Box(act, device)), p.Patch.PhantomSheet(act)
	for i := 0; i < len(rows); i++ {
		row := rows[i]
		last := i
		for last+1 < len(rows) && free(rows[last+1]) && rows[last+1].Socket.Output == row.Socket.Output {
			last++
		}
		words := side(row.Socket) + fmt.Sprint(row.Socket.Number)
		if free(row) && last-i >= fewFree {
			table.Rows = append(table.Rows, paper.Texts(fmt.Sprintf("%s–%d", words, rows[last].Socket.Number), "free", "", "", "", ""))
			i = last
			continue
		}
		cells := paper.Texts(words, p.onSocket(row), p.sources(row), phantomAt(phantoms, row), p.arrives(row), "")
		cells.Cells[1].Bold, cells.Cells[5].Tick = true, true
		table.Rows = append(table.Rows, cells)
	}
	return table
}

// used leaves out the outputs, or the inputs, of a device when nothing is on any of them.
func used(rows []patch.BoxRow) []patch.BoxRow {
	busy := map[bool]bool{}
	for _, row := range rows {
		busy[row.Socket.Output] = busy[row.Socket.Output] || !free(row)
	}
	return slices.DeleteFunc(slices.Clone(rows), func(row patch.BoxRow) bool { return !busy[row.Socket.Output] })
}

// fewFree is how many free sockets more are still told one by one, with room to write.
const fewFree = 3

func free(row patch.BoxRow) bool { return len(row.Lines) == 0 && len(row.Outputs) == 0 }

func side(s patch.Socket) string {
	if s.Output {
		return "out "
	}
	return "in "
}

// inputName is an input as a crew calls it.
func inputName(i plan.Input) string { return fmt.Sprintf("%d %s", i.Number, i.Name) }

// onSocket says what is plugged into a socket; more than one is a conflict and says so.
func (p *printout) onSocket(row patch.BoxRow) string {
	var said []string
	for _, line := range row.Lines {
		said = append(said, inputName(line.Input))
	}
	for _, output := range row.Outputs {
		said = append(said, fmt.Sprintf("out %d %s", output.Output.Number, output.Output.Name))
	}
	if len(said) > 1 {
		return "DOUBLE: " + strings.Join(said, " and ")
	}
	return strings.Join(said, "")
}

func (p *printout) sources(row patch.BoxRow) string {
	var said []string
	for _, line := range row.Lines {
		said = append(said, source(line.Input))
	}
	return strings.Join(said, "; ")
}

// source says what stands on stage for an input: what it is, how it is plugged, on what, and the riser.
func source(i plan.Input) string {
	said := i.Source
	if i.Use != "" && !strings.Contains(strings.ToLower(said), strings.ToLower(i.Use)) {
		said = strings.TrimSpace(said + " " + i.Use)
	}
	for _, more := range []string{i.Stand, i.Riser} {
		if more != "" {
			said = strings.TrimPrefix(said+", "+more, ", ")
		}
	}
	return said
}

// phantomColumn is how wide the cautions of 48 V may be.
const phantomColumn = 28

// phantomAt is what a box sheet says of 48 V at a socket.
func phantomAt(phantoms *patch.PhantomSheet, row patch.BoxRow) string {
	var said []string
	for _, line := range row.Lines {
		if words := phantoms.At(line, row.Socket); words != "" && !slices.Contains(said, words) {
			said = append(said, words)
		}
	}
	return strings.Join(said, "; ")
}

// arrives lists the channels that get what is on a socket, or where an output comes from.
func (p *printout) arrives(row patch.BoxRow) string {
	var said []string
	for _, line := range row.Lines {
		for _, leg := range line.Legs {
			if leg.Socket == row.Socket || len(line.Legs) == 1 || line.At == row.Socket {
				said = append(said, p.channels(leg.Channels)...)
			}
		}
	}
	for _, output := range row.Outputs {
		words := "from " + p.Patch.Name(output.Console)
		if !output.Reached {
			words += " (" + p.Patch.Unreached(output.Lost) + ")"
		}
		said = append(said, words)
	}
	return strings.Join(said, ", ")
}

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
