package report

import (
	"reflect"

	"stageloom/model/patch"
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

// wantsLine reports whether the choice takes an input: where a box is chosen, what lies on one of its sockets.
func (p *printout) wantsLine(act *patch.Act, line *patch.Line) bool {
	if p.choice.Device == "" {
		return true
	}
	for socket := range p.Patch.Lies(act, line) {
		if socket.Device == p.choice.Device {
			return true
		}
	}
	return line.Number(p.choice.Device) > 0
}

// actSheets prints a table of its own page for each thing and act; what an act has as the house does is told in a line.
type actSheets struct {
	book    *paper.Book
	written bool // something stands already
	line    bool // and the last of it is a line that the next may stand below
}

func (s *actSheets) add(act *patch.Act, table, house paper.Table) {
	if !act.House() && reflect.DeepEqual(table.Rows, house.Rows) {
		s.same(table.Title)
		return
	}
	s.sheet(table, false)
}

// same tells in a line that something is as the house has it.
func (s *actSheets) same(title string) {
	s.written, s.line = true, true
	s.book.Bookmark(title)
	s.book.Paragraph(title + ": as in the house patch.")
}

// sheet prints a table on a page of its own, or below lines and what it belongs to where it fits there.
func (s *actSheets) sheet(table paper.Table, belongs bool) {
	if s.written && !((s.line || belongs) && s.book.Fits(table)) {
		s.book.NewPage()
	}
	s.written, s.line = true, false
	s.book.Bookmark(table.Title)
	s.book.Table(table)
}

// finish says so where nothing was printed.
func (s *actSheets) finish(nothing string) {
	if !s.written {
		s.book.Paragraph(nothing)
	}
}
