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

// sheets begins a chapter of such sheets.
func (p *printout) sheets(b *paper.Book) actSheets {
	return actSheets{book: b, whole: p.choice.Act != ""}
}

// actSheets prints a table of its own page for each thing and act; what an act has as the house does is told in a line, where a
// page has room for it.
type actSheets struct {
	book    *paper.Book
	whole   bool // one act alone is printed, where the house is not at hand
	written bool // something stands already
	likes   []string
}

func (s *actSheets) add(act *patch.Act, table, house paper.Table, belongs bool) {
	if s.likeHouse(act, table, house) {
		s.same(table.Title)
		return
	}
	s.sheet(table, belongs)
}

// likeHouse reports whether a table of an act may be told in a line.
func (s *actSheets) likeHouse(act *patch.Act, table, house paper.Table) bool {
	return !s.whole && !act.House() && reflect.DeepEqual(table.Rows, house.Rows)
}

// same keeps what is as the house has it, to be told in a line.
func (s *actSheets) same(title string) { s.likes = append(s.likes, title) }

// sheet prints a table on a page of its own, or below what it belongs to where it fits there.
func (s *actSheets) sheet(table paper.Table, belongs bool) {
	if s.written && !(belongs && s.book.Fits(table)) {
		s.book.NewPage()
	}
	s.written = true
	s.book.Bookmark(table.Title)
	s.book.Table(table)
	if len(s.likes) > 0 && s.book.Rest().H > float64(len(s.likes))*likeRoom*s.book.Scale() {
		s.tellLikes()
	}
}

// likeRoom is what a line about a thing as in the house may take, in mm on A4: two lines of a long name.
const likeRoom = 14.0

func (s *actSheets) tellLikes() {
	for _, title := range s.likes {
		s.book.Bookmark(title)
		s.book.Paragraph(title + ": as in the house patch.")
	}
	s.written, s.likes = s.written || len(s.likes) > 0, nil
}

// finish tells what no page had room for, and says so where nothing was printed.
func (s *actSheets) finish(nothing string) {
	s.tellLikes()
	if !s.written {
		s.book.Paragraph(nothing)
	}
}
