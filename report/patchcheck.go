package report

import (
	"cmp"
	"slices"
	"strings"
	"time"

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

// checkOrder is the line check of an act: by number, by area, which is the riser, in the order of the lowest number there, or by
// hand, where an input without a place takes that of its number. What the act does without is not called.
func checkOrder(act *patch.Act, lines []*patch.Line) []call {
	first := map[string]int{}
	for _, line := range lines {
		if number, known := first[line.Input.Riser]; !known || line.Input.Number < number {
			first[line.Input.Riser] = line.Input.Number
		}
	}
	place := func(line *patch.Line) int {
		switch act.Act.CheckBy {
		case "area":
			return first[line.Input.Riser]
		case "hand":
			return cmp.Or(line.Input.CheckOrder, line.Input.Number)
		}
		return line.Input.Number
	}
	lines = slices.Clone(lines)
	slices.SortStableFunc(lines, func(a, b *patch.Line) int {
		return cmp.Or(cmp.Compare(place(a), place(b)), cmp.Compare(a.Input.Number, b.Input.Number))
	})
	calls := make([]call, len(lines))
	start, err := time.Parse("15:04", act.Act.CheckStart)
	called := 0
	for i, line := range lines {
		calls[i].Line = line
		if err != nil || act.Act.CheckSeconds == 0 || line.Struck {
			continue
		}
		calls[i].at = start.Add(time.Duration(called*act.Act.CheckSeconds) * time.Second).Format("15:04:05")
		called++
	}
	return calls
}

// results are what a technician may hear of an input.
var results = []string{"OK", "Dead", "Noisy", "Wrong"}

func (p *printout) checkTable(title string, act *patch.Act) paper.Table {
	lines := p.linesOf(act)
	calls := checkOrder(act, lines)
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
