package report

import (
	"strings"

	"stageloom/model/picture"
	"stageloom/model/plan"
	"stageloom/report/paper"
)

// noPositions heads the list of the devices of a plan that has no positions on the ground.
const noPositions = "No positions on the ground: devices listed"

// drawNoScale says in the place of scale and north arrow that there is neither.
func drawNoScale(pen *paper.Pen, at paper.Point, k float64) {
	pen.Text(at, strings.ToUpper(picture.NotToScale[:1])+picture.NotToScale[1:], paper.Lettering{Face: paper.Bold, Size: 11 * k})
	pen.Text(paper.Point{X: at.X, Y: at.Y + 4.5*k}, "No positions on the ground: devices", paper.Lettering{Size: 7.5 * k})
	pen.Text(paper.Point{X: at.X, Y: at.Y + 8*k}, "are listed, lengths are those that were typed", paper.Lettering{Size: 7.5 * k})
}

// drawListed lists the devices that have no place on the ground: where they are drawn says nothing.
func (p *printout) drawListed(b *paper.Book) {
	table := paper.Table{
		Title: "Devices without a place on the ground, drawn in a frame, not to scale",
		Columns: []paper.Column{
			{Head: "Device", Width: paper.Fill(2), Lines: 3},
			{Head: "Kind", Width: paper.Fill(2), Lines: 3},
			{Head: "Position", Width: paper.Fill(1), Lines: 3},
			{Head: "Links", Width: paper.Fill(2), Lines: 4},
			{Head: "Note", Width: paper.Fill(2), Lines: 4},
		},
	}
	if p.Plan.Unplaced() {
		table.Title = noPositions
	}
	links := map[plan.DeviceID][]string{}
	for _, link := range p.Links() {
		links[link.From] = append(links[link.From], link.Name)
		links[link.To] = append(links[link.To], link.Name)
	}
	for _, device := range p.Devices() {
		if !device.Unplaced {
			continue
		}
		kind, _ := p.Plan.Kinds.Get(plan.Key(device.Kind))
		position, _ := p.Plan.Positions.Get(plan.Key(device.Position))
		table.Rows = append(table.Rows, paper.Texts(device.Name, kind.Name, position.Name, strings.Join(links[device.ID], ", "), device.Note))
	}
	if len(table.Rows) > 0 {
		b.NewPageOf(p.atlas.format)
		b.Table(table)
	}
}
