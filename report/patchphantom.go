package report

import (
	"fmt"

	"stageloom/model/patch"
	"stageloom/report/paper"
)

// drawPhantomChanges prints, socket by socket, what is done to 48 V at the changeover to an act from the one before on its stage.
// What stays on is left out.
func (p *printout) drawPhantomChanges(b *paper.Book, act *patch.Act) {
	before := p.Patch.Previous(act)
	if before == nil {
		return
	}
	table := paper.Table{
		Title: fmt.Sprintf("48 V at this changeover, by socket: %s after %s", p.Patch.ActName(act.Act.ID), p.Patch.ActName(before.Act.ID)),
		Columns: []paper.Column{
			{Head: "Socket", Face: paper.Mono, Width: paper.Fit(44)},
			{Head: "Was", Width: paper.Fill(0.8), Lines: 3},
			{Head: "Now", Width: paper.Fill(0.8), Lines: 3},
			{Head: "48 V", Width: paper.Fill(1.4), Lines: longCall},
			{Head: "Done", Align: paper.Centre},
		},
	}
	for _, change := range patch.PhantomChanges(p.Patch, before, act) {
		if change.Stays() {
			continue
		}
		row := paper.Texts(p.Patch.SocketWords(change.Socket), p.inputOn(change.Before), p.inputOn(change.After), p.Patch.PhantomWords(change), "")
		row.Cells[3].Bold, row.Cells[4].Tick = change.Hurts(), true
		table.Rows = append(table.Rows, row)
	}
	if len(table.Rows) == 0 {
		return
	}
	b.Skip(2 * b.Scale())
	b.Table(table)
	b.Paragraph(patch.PhantomOrder + " Follow the makers' papers.")
}

// inputOn names the input on a preamp with what it is.
func (p *printout) inputOn(line *patch.Line) string {
	if line == nil {
		return "nothing"
	}
	said := p.inputName(line.Input)
	if of := patch.TypeWords(line.Input); of != "" {
		said += ", " + of
	}
	return said
}
