package report

import (
	"strings"

	"stageloom/model/revision"
	"stageloom/report/paper"
)

// Room in the margin of a sheet of labels for the line that says what they were printed from, in millimetres.
const (
	markRoom = 8.0 // margin that the line needs
	markGap  = 2.5 // between the line and the labels
	markLeft = 8.0 // least distance to the edge, which printers leave blank
)

// markPlace is where a sheet of labels says what it was printed from: over the labels, or below them. It tells false where
// labels fill the sheet.
func markPlace(sheet LabelSheet, format paper.Format) (paper.Point, bool) {
	_, height, err := format.Size()
	if err != nil {
		return paper.Point{}, false
	}
	x := max(markLeft, sheet.Left)
	if sheet.Top >= markRoom {
		return paper.Point{X: x, Y: sheet.Top - markGap}, true
	}
	foot := sheet.Top + float64(sheet.Rows)*sheet.Height + float64(sheet.Rows-1)*sheet.GapY
	return paper.Point{X: x, Y: foot + markGap + 2}, height-foot >= markRoom
}

// markSheet says in the margin of a sheet of labels which plan and which revision they are of.
func (p *printout) markSheet(b *paper.Book, sheet LabelSheet, format paper.Format) {
	standing := revision.StandingOf(p.Plan)
	words := append([]string{p.Plan.Settings.Name, standing.String()}, datesOf(p.Plan, standing)...)
	words = append(words, "printed "+p.choice.Date.Format("2006-01-02"))
	face := paper.Regular
	if !standing.AsIssued() {
		face = paper.Bold
	}
	labelRun{sheet: sheet, format: format}.mark(b, strings.Join(words, " · "), face)
}

// mark says in the margin of a sheet of labels what they are of, where it has room.
func (r labelRun) mark(b *paper.Book, words string, face paper.Face) {
	at, roomy := markPlace(r.sheet, r.format)
	if !roomy {
		return
	}
	area := b.Area()
	pen := b.Pen(paper.Box{W: area.W, H: area.H})
	small := paper.Lettering{Face: face, Size: 8}
	pen.Text(at, fitted(pen, words, small, area.W-at.X-markLeft), small)
}

// markFace says on a label that it is of a plan that was not issued, between its id and where it goes.
func markFace(pen *paper.Pen, in paper.Box, words string) {
	if words == "" {
		return
	}
	small := paper.Lettering{Face: paper.Bold, Size: 6.5, Align: paper.Right}
	pen.Text(paper.Point{X: in.Right(), Y: in.Y + 6.9}, fitted(pen, words, small, in.W), small)
}
