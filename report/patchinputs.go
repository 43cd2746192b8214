package report

import (
	"fmt"
	"slices"
	"strings"

	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/report/paper"
)

// drawLists prints the inputs and the outputs of each act: what each is, where it is plugged in, by which multicore it runs and
// where it arrives.
func (p *printout) drawLists(b *paper.Book) {
	b.Title("Input and output lists")
	sheets := p.sheets(b)
	house := p.Patch.House()
	for _, act := range p.acts() {
		title := p.Patch.ActName(act.Act.ID)
		if title == "" {
			title = act.Act.Name
		}
		if len(act.Lines) > 0 {
			sheets.add(act, p.inputTable(listedWords("Inputs", title), act), p.inputTable("", house), false)
		}
		if len(act.Outputs) > 0 {
			sheets.add(act, p.outputTable(listedWords("Outputs", title), act), p.outputTable("", house), len(act.Lines) > 0)
		}
	}
	sheets.finish("This plan has no input and no output.")
}

// consolesIn are the consoles that an act's inputs arrive at.
func (p *printout) consolesIn(act *patch.Act) []plan.DeviceID {
	var channels []patch.Channel
	for _, line := range act.Lines {
		channels = append(channels, line.Channels()...)
	}
	return p.consolesOf(channels)
}

// anyInput reports whether something is said of any input of an act.
func anyInput(act *patch.Act, said func(plan.Input) string) bool {
	return slices.ContainsFunc(act.Lines, func(line *patch.Line) bool { return said(line.Input) != "" })
}

// field is a column of a list with what stands in it.
type field[R any] struct {
	column paper.Column
	cell   func(R) paper.Cell
}

func textOf[R any](words func(R) string) func(R) paper.Cell {
	return func(row R) paper.Cell { return paper.Cell{Text: words(row)} }
}

// listTable lays rows out by their fields.
func listTable[R any](title string, fields []field[R], rows []R) paper.Table {
	table := paper.Table{Title: title, BlankRows: 2}
	for _, one := range fields {
		table.Columns = append(table.Columns, one.column)
	}
	for _, row := range rows {
		var cells []paper.Cell
		for _, one := range fields {
			cells = append(cells, one.cell(row))
		}
		table.Rows = append(table.Rows, paper.Row{Cells: cells})
	}
	return table
}

func (p *printout) inputTable(title string, act *patch.Act) paper.Table {
	fields := p.inputFields(act)
	if anyInput(act, inputRadio) {
		fields = append(fields, field[*patch.Line]{paper.Column{Head: "Radio", Width: paper.Fill(0.7), Lines: 4}, textOf(func(line *patch.Line) string { return inputRadio(line.Input) })})
	}
	fields = append(fields, field[*patch.Line]{paper.Column{Head: "Plugged in at", Width: paper.Fill(0.8), Lines: 3}, textOf(func(line *patch.Line) string { return p.placeWords(act, line) })})
	if p.usesMultis(act) {
		fields = append(fields, field[*patch.Line]{paper.Column{Head: "Multi", Width: paper.Fill(0.8), Lines: 6}, textOf(func(line *patch.Line) string { return p.multis(act, line) })})
	}
	fields = append(fields, p.channelFields(act)...)
	return listTable(title, fields, p.linesOf(act))
}

// linesOf are the inputs of an act that the choice takes.
func (p *printout) linesOf(act *patch.Act) (lines []*patch.Line) {
	for _, line := range act.Lines {
		if !line.Struck && p.wantsLine(act, line) {
			lines = append(lines, line)
		}
	}
	return lines
}

// inputFields are the columns of an input itself: number, name, source, type and stand, and 48 V.
func (p *printout) inputFields(act *patch.Act) []field[*patch.Line] {
	fields := []field[*patch.Line]{
		{paper.Column{Head: "No.", Face: paper.Mono}, textOf(func(line *patch.Line) string { return fmt.Sprint(line.Input.Number) })},
		{paper.Column{Head: "Input", Width: paper.Fill(1), Lines: 3}, func(line *patch.Line) paper.Cell {
			return paper.Cell{Text: p.withSide(line.Input.Name, line.Input.Key()), Bold: true}
		}},
		{paper.Column{Head: "Source or mic, type, stand", Width: paper.Fill(1.2), Lines: 4}, textOf(func(line *patch.Line) string { return source(line.Input) })},
	}
	phantoms := p.Patch.PhantomSheet(act)
	if slices.ContainsFunc(act.Lines, func(line *patch.Line) bool { return phantoms.Beside(line) != "" }) {
		fields = append(fields, field[*patch.Line]{paper.Column{Head: "48 V", Align: paper.Centre, Width: paper.Fit(phantomColumn), Lines: 4}, textOf(phantoms.Beside)})
	}
	return fields
}

// placeWords is where an input is plugged in on stage.
func (p *printout) placeWords(act *patch.Act, line *patch.Line) string {
	if at := p.plugPlace(act, line); !at.None() {
		return p.Patch.SocketWords(at)
	}
	return "not plugged"
}

// channelFields are columns for the channels of an act's inputs: one for each console, where they are few.
func (p *printout) channelFields(act *patch.Act) (fields []field[*patch.Line]) {
	consoles := p.consolesIn(act)
	if len(consoles) > mostConsoles {
		return []field[*patch.Line]{{paper.Column{Head: "Arrives at", Width: paper.Fill(1), Lines: 8}, textOf(func(line *patch.Line) string {
			return strings.Join(p.channels(line.Channels()), ", ")
		})}}
	}
	for _, console := range consoles {
		fields = append(fields, field[*patch.Line]{
			paper.Column{Head: p.Patch.Name(console), Align: paper.Centre, Width: paper.Fit(20), Lines: 4},
			textOf(func(line *patch.Line) string { return numbersOn(line.Channels(), console) }),
		})
	}
	return fields
}

// outputTable lists the outputs of an act with mix, kind, radio and pack where any of them has one.
func (p *printout) outputTable(title string, act *patch.Act) paper.Table {
	type line = *patch.OutputLine
	var rows []line
	for _, row := range act.Outputs {
		if !row.Struck && (p.choice.Device == "" || row.Console == p.choice.Device || row.Socket.Device == p.choice.Device) {
			rows = append(rows, row)
		}
	}
	fields := []field[line]{
		{paper.Column{Head: "No.", Face: paper.Mono}, textOf(func(row line) string { return fmt.Sprint(row.Output.Number) })},
		{paper.Column{Head: "Output", Width: paper.Fill(1), Lines: 3}, func(row line) paper.Cell {
			return paper.Cell{Text: p.withSide(row.Output.Name, row.Output.Key()), Bold: true}
		}},
	}
	optional := func(head string, said func(plan.Output) string) {
		if slices.ContainsFunc(rows, func(row line) bool { return said(row.Output) != "" }) {
			fields = append(fields, field[line]{paper.Column{Head: head, Width: paper.Fill(0.7), Lines: 3}, textOf(func(row line) string { return said(row.Output) })})
		}
	}
	optional("Mix or bus", func(o plan.Output) string { return o.Mix })
	optional("Kind", func(o plan.Output) string { return patch.KindWords(o.Kind) })
	optional("Radio, pack", func(o plan.Output) string { return patch.Radio(o.RFChannel, o.Frequency, o.Pack) })
	fields = append(
		fields,
		field[line]{paper.Column{Head: "From", Width: paper.Fill(0.9), Lines: 3}, textOf(func(row line) string { return p.Patch.Name(row.Console) })},
		field[line]{paper.Column{Head: "To socket", Width: paper.Fill(1), Lines: 3}, textOf(p.outputPlace)},
	)
	return listTable(title, fields, rows)
}

// outputPlace is the socket that an output comes out of.
func (p *printout) outputPlace(row *patch.OutputLine) string {
	switch {
	case !row.Patched():
		return "not patched"
	case !row.Reached:
		return p.Patch.SocketWords(row.Socket) + " (" + p.Patch.Unreached(row.Lost) + ")"
	}
	return p.Patch.SocketWords(row.Socket)
}
