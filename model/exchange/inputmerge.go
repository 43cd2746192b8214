package exchange

import (
	"fmt"
	"slices"
	"strings"

	"stageloom/model/fields"
	"stageloom/model/patch"
	"stageloom/model/plan"
)

// merged is a row as an input of the plan: what the columns of the list say, and what they do not say as its base has it.
func (m *match) merged(row *matched) plan.Input {
	want, said := row.base, row.Input
	want.Act, want.Number, want.Name = m.act, said.Number, said.Name
	if !row.own {
		want.ID = ""
	}
	m.mergeWords(&want, said)
	m.mergeKind(&want, row)
	if m.has(Frequency) {
		want.Frequency = said.Frequency
	}
	if m.saysSnake(row) {
		want.Snake, want.SnakeWay = said.Snake, said.SnakeWay
	}
	want.Note = m.room(row, m.note(row))
	return want
}

// mergeWords takes the cells that are text from the columns that the list has.
func (m *match) mergeWords(want *plan.Input, said plan.Input) {
	for _, each := range []struct {
		field string
		to    *string
		now   string
	}{{Source, &want.Source, said.Source}, {Stand, &want.Stand, said.Stand}, {Riser, &want.Riser, said.Riser}, {RFChannel, &want.RFChannel, said.RFChannel}, {Transmitter, &want.Transmitter, said.Transmitter}} {
		if m.has(each.field) {
			*each.to = each.now
		}
	}
}

// mergeKind takes the type and 48 V: from their columns, or as read from the words of a source that is new or another.
func (m *match) mergeKind(want *plan.Input, row *matched) {
	said := row.Input
	other := row.isNew() || m.has(Source) && said.Source != "" && plan.Folded(said.Source) != plan.Folded(row.base.Source)
	if row.UseRead && other || !row.UseRead && m.has(Use) {
		want.Use = said.Use
	}
	other = other || m.has(Use) && said.Use != row.base.Use
	if row.PhantomRead && other || m.has(Phantom) {
		want.Phantom = said.Phantom
	}
}

func (m *match) has(field string) bool { return m.in.sheet.layout.column(field) >= 0 }

// note is the note of a row, with what the plan has no field for.
func (m *match) note(row *matched) string {
	note := row.Input.Note
	if !m.has(Note) {
		note = row.base.Note
		for line := range strings.SplitSeq(row.Input.Note, "\n") {
			if line != "" {
				note = noted(note, Snake+" ", line)
			}
		}
	}
	sheet := m.in.sheet
	sheet.at = row.Row - 1
	var extras []string
	for _, field := range []string{Multi, Line} {
		text := tidy(sheet.text(field), false)
		if field == Multi && m.has(Multi) {
			text = tidy(m.multis[sheet.at], false)
		}
		if text, _ = halfOf(text, row.Half); !saysNone(text) {
			extras = append(extras, strings.ToLower(field)+" "+text)
		}
	}
	if row.byMulti {
		return noteWithout(note, noteOfMulti)
	}
	if len(extras) == 0 {
		return note
	}
	return noted(note, noteOfMulti, noteOfMulti+strings.Join(extras, ", "))
}

// room is a note for which the plan has room. With a longer one the note before stays, and that is told.
func (m *match) room(row *matched, note string) string {
	if _, err := fields.Of(plan.InputsTable, "note").Words(note); err != nil {
		fault := sheetRows{grid: m.in.sheet.grid, layout: m.in.sheet.layout, at: row.Row - 1}
		fault.fail(Note, fmt.Errorf("the note with what else the list says: %w; shorten it, the note before stays", err))
		m.told = append(m.told, fault.faults...)
		return row.base.Note
	}
	return note
}

// noteOfMulti begins the line of a note that says which line of which multicore the list gives an input.
const noteOfMulti = "List: "

// noted is a note with a line, in the place of one that begins alike.
func noted(note, begins, line string) string {
	if kept := noteWithout(note, begins); kept != "" {
		return kept + "\n" + line
	}
	return line
}

// noteWithout is a note without the lines that begin so.
func noteWithout(note, begins string) string {
	lines := strings.Split(note, "\n")
	return strings.Join(slices.DeleteFunc(lines, func(old string) bool { return strings.HasPrefix(old, begins) || old == "" }), "\n")
}

// Difference is one field of an input that a list has otherwise than the plan.
type Difference struct{ Field, Now, Was string }

// String is "48 V yes, was no".
func (d Difference) String() string {
	return fmt.Sprintf("%s %s, was %s", d.Field, said(d.Now), said(d.Was))
}

func said(text string) string {
	if text == "" {
		return "blank"
	}
	return plan.Clipped(strings.ReplaceAll(text, "\n", " / "))
}

// differences are the fields that a row has otherwise than its base. A cell that is blank, or differs in capitals or blanks
// alone, does not make an act's own input of one of the house: blanks tells whether it counts.
func (m *match) differences(row *matched, blanks bool) (all []Difference) {
	was, now := row.base, row.want
	add := func(field, now, was string) {
		if now != was && (blanks || now != "" && plan.Folded(now) != plan.Folded(was)) {
			all = append(all, Difference{field, now, was})
		}
	}
	if now.Number != was.Number {
		add(Number, fmt.Sprint(now.Number), fmt.Sprint(was.Number))
	}
	add(Name, now.Name, was.Name)
	add(Source, now.Source, was.Source)
	add(Use, patch.UseWords(now.Use), patch.UseWords(was.Use))
	add(Phantom, yesOrNo(now.Phantom), yesOrNo(was.Phantom))
	add(Stand, now.Stand, was.Stand)
	add(Riser, now.Riser, was.Riser)
	add(Snake, m.snakeWords(now), m.snakeWords(was))
	add(RFChannel, now.RFChannel, was.RFChannel)
	add(Frequency, frequencyWords(now.Frequency), frequencyWords(was.Frequency))
	add(Transmitter, now.Transmitter, was.Transmitter)
	if is, had := m.rightWords(row); is != had {
		all = append(all, Difference{RightSide, is, had})
	}
	add(Note, now.Note, was.Note)
	return all
}

func yesOrNo(is bool) string {
	if is {
		return "yes"
	}
	return "no"
}

func (m *match) snakeWords(input plan.Input) string {
	if input.Snake == "" {
		return ""
	}
	return m.view.SocketWords(m.view.Snake(input))
}
