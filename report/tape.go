package report

import (
	"cmp"
	"fmt"
	"strings"

	"stageloom/model/plan"
	"stageloom/report/paper"
)

// tapeRoom is how many letters fit on a piece of tape written by hand.
const tapeRoom = 14

// tapeText is what to write on tape at an end: id, end and where it goes, cut to tapeRoom.
func (p *printout) tapeText(link plan.Link, end string) string {
	far := link.To
	if end == "B" {
		far = link.From
	}
	device, _ := p.Plan.Device(far)
	return shortened(fmt.Sprintf("%s%s %s", link.Name, end, device.Name), tapeRoom)
}

// leastPart is how many letters of a cut word still say something.
const leastPart = 3

// shortened cuts a text to so many letters, and leaves no scrap of a word behind.
func shortened(text string, most int) string {
	runes := []rune(text)
	if len(runes) <= most {
		return text
	}
	cut := string(runes[:most])
	if blank := strings.LastIndex(cut, " "); blank > 0 && runes[most] != ' ' && len([]rune(cut[blank+1:])) < leastPart {
		cut = cut[:blank]
	}
	return strings.TrimSpace(cut)
}

// drawTape prints what to write on tape by hand, for who has no printer on site.
func (p *printout) drawTape(b *paper.Book) {
	b.Title("Tape list")
	b.Paragraph(fmt.Sprintf("At most %d letters for each end, to write by hand. A is the From end, B the To end.", tapeRoom))
	table := paper.Table{
		Columns: []paper.Column{
			{Head: "Link", Face: paper.Mono, Lines: 2, Width: paper.Fit(30)},
			{Head: "Tape", Lines: 2, Width: paper.Fit(30)},
			{Head: "At the From end", Face: paper.Mono, Width: paper.Fill(1)},
			{Head: "Done", Align: paper.Centre},
			{Head: "At the To end", Face: paper.Mono, Width: paper.Fill(1)},
			{Head: "Done", Align: paper.Centre},
		},
		BlankRows: 2, Empty: "This plan has no link.",
	}
	for _, link := range p.Links() {
		row := paper.Texts(link.Name, cmp.Or(tapeOf(link), "–"), p.tapeText(link, "A"), "", p.tapeText(link, "B"), "")
		row.Cells[3].Tick, row.Cells[5].Tick = true, true
		table.Rows = append(table.Rows, row)
	}
	b.Table(table)
}
