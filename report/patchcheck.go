package report

import (
	"strings"

	"stageloom/model/patch"
	"stageloom/report/paper"
)

// drawLineCheck prints the inputs of an act in the order of the line check, as they are called out.
func (p *printout) drawLineCheck(b *paper.Book) {
	b.Title("Line check")
	drawn := 0
	for _, act := range p.acts() {
		if len(p.linesOf(act)) == 0 {
			continue
		}
		if drawn > 0 {
			b.NewPage()
		}
		drawn++
		title := strings.TrimPrefix(p.ofAct(act)+times(act.Act), ", ")
		b.Bookmark(title)
		b.Table(p.checkTable(title, act))
	}
	if drawn == 0 {
		b.Paragraph("This plan has no input.")
	}
}

// call is an input in the line check, with when it is called out; blank where the act has no times.
type call struct {
	*patch.Line
	at string
}

// calls are the turns of an act's line check among the inputs that the choice takes.
func (p *printout) calls(act *patch.Act) (calls []call) {
	for _, turn := range p.Patch.LineCheck(act) {
		if p.wantsLine(act, turn.Line) {
			calls = append(calls, call{turn.Line, turn.Planned})
		}
	}
	return calls
}

// results are what a technician may hear of an input.
var results = []string{"OK", "Dead", "Noisy", "Wrong"}

func (p *printout) checkTable(title string, act *patch.Act) paper.Table {
	calls := p.calls(act)
	var fields []field[call]
	if calls[0].at != "" {
		fields = append(fields, field[call]{paper.Column{Head: "Time"}, textOf(func(c call) string { return c.at })})
	}
	for _, one := range p.inputFields(act) {
		fields = append(fields, ofCall(one))
	}
	fields = append(fields, ofCall(field[*patch.Line]{
		paper.Column{Head: "Plugged in at", Width: paper.Fill(0.8), Lines: 3}, textOf(func(line *patch.Line) string { return p.placeWords(act, line) }),
	}))
	for _, one := range p.channelFields(act) {
		fields = append(fields, ofCall(one))
	}
	for _, result := range results {
		fields = append(fields, field[call]{paper.Column{Head: result, Align: paper.Centre, Width: paper.Fixed(14)}, func(call) paper.Cell { return paper.Cell{Tick: true} }})
	}
	fields = append(fields, field[call]{paper.Column{Head: "Note", Width: paper.Fixed(28), Lines: 4}, textOf(func(c call) string { return c.Input.Note })})
	return listTable(title, fields, calls)
}

// ofCall makes a column of inputs one of calls.
func ofCall(one field[*patch.Line]) field[call] {
	return field[call]{one.column, func(c call) paper.Cell { return one.cell(c.Line) }}
}
