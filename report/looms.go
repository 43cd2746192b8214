package report

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"stageloom/model/budget"
	"stageloom/model/geom"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/report/paper"
)

// loomed are the looms with a link to print, in the natural order of their names.
func (p *printout) loomed() []plan.Loom {
	var looms []plan.Loom
	for loom := range p.Plan.Looms.All() {
		if slices.ContainsFunc(p.links, func(link plan.Link) bool { return link.Loom == loom.ID }) {
			looms = append(looms, loom)
		}
	}
	slices.SortStableFunc(looms, func(a, b plan.Loom) int { return words.Natural(a.Name, b.Name) })
	return looms
}

// loomless tells that no link to print lies in a loom.
func (p *printout) loomless() bool { return len(p.loomed()) == 0 }

// drawLooms prints a sheet for each loom: what happens along its route, in order, and what lies in it.
func (p *printout) drawLooms(b *paper.Book) {
	looms := p.loomed()
	if len(looms) == 0 {
		b.Title("Looms")
		b.Paragraph("No link of this plan lies in a loom.")
		return
	}
	for _, loom := range looms {
		b.NewPage()
		b.Title(strings.TrimSuffix("Loom "+loom.Name+", "+loom.Colour, ", "))
		b.Bookmark(loom.Name)
		if loom.Stock {
			b.Paragraph("A loom of the stock: it is pulled and laid whole.")
		}
		if loom.Note != "" {
			b.Paragraph(loom.Note)
		}
		b.Table(p.routeTable(loom))
		b.Table(p.membersTable(loom))
	}
}

// event is what happens at a place along a loom's route.
type event struct {
	at   float64 // metres along the route
	what string
}

// route is the line a loom lies along: its own points, or the way of its first link where it has none.
func (p *printout) route(loom plan.Loom) geom.Polyline {
	var route geom.Polyline
	for _, point := range p.Plan.LoomPoints.Under(loom.Key()) {
		route = append(route, geom.Pt(point.X, point.Y))
	}
	if len(route) > 1 {
		return route
	}
	for _, link := range p.links {
		if link.Loom == loom.ID {
			return p.Reckoner().Way(link)
		}
	}
	return nil
}

// events lists what happens along a loom's route: links that join and drop off, and what it crosses.
func (p *printout) events(loom plan.Loom, route geom.Polyline) []event {
	var list []event
	joins, drops := map[string][]string{}, map[string][]string{}
	where := map[string]float64{}
	note := func(to map[string][]string, device plan.DeviceID, link plan.Link) {
		row, _ := p.Plan.Device(device)
		_, along, _ := route.Nearest(row.At())
		to[row.Name] = append(to[row.Name], link.Name)
		where[row.Name] = along
	}
	for _, link := range p.links {
		if link.Loom != loom.ID {
			continue
		}
		first, last := link.From, link.To
		if p.alongRoute(route, first) > p.alongRoute(route, last) {
			first, last = last, first
		}
		note(joins, first, link)
		note(drops, last, link)
	}
	for device, links := range joins {
		list = append(list, event{where[device], fmt.Sprintf("%s: %s join", device, strings.Join(links, ", "))})
	}
	for device, links := range drops {
		list = append(list, event{where[device], fmt.Sprintf("%s: %s drop off", device, strings.Join(links, ", "))})
	}
	for _, span := range p.Reckoner().Ground().Spans(route) {
		if slices.Contains(covered, span.Area.Use) {
			list = append(list, event{span.From, fmt.Sprintf("%s (%s) up to %.0f%sm: %s", span.Area.Name, span.Area.Use, math.Ceil(span.To), space, lowered(protects[span.Area.Use]))})
		}
	}
	slices.SortFunc(list, func(a, b event) int { return cmp.Or(cmp.Compare(a.at, b.at), strings.Compare(a.what, b.what)) })
	return list
}

func lowered(text string) string {
	if text == "" {
		return ""
	}
	return strings.ToLower(text[:1]) + text[1:]
}

// alongRoute is how far along a route a device stands.
func (p *printout) alongRoute(route geom.Polyline, id plan.DeviceID) float64 {
	device, _ := p.Plan.Device(id)
	_, along, _ := route.Nearest(device.At())
	return along
}

func (p *printout) routeTable(loom plan.Loom) paper.Table {
	route := p.route(loom)
	table := paper.Table{
		Title: fmt.Sprintf("Along the route, %s from its beginning to its end", wholeMetres(route.Length())),
		Columns: []paper.Column{
			{Head: "At about m", Align: paper.Right}, {Head: "What happens", Width: paper.Fill(1)}, {Head: "Done", Align: paper.Centre},
		},
	}
	for _, e := range p.events(loom, route) {
		row := paper.Texts(fmt.Sprintf("%.0f", e.at), e.what, "")
		row.Cells[0].Bold, row.Cells[2].Tick = true, true
		table.Rows = append(table.Rows, row)
	}
	return table
}

func (p *printout) membersTable(loom plan.Loom) paper.Table {
	table := paper.Table{
		Title: "What lies in it",
		Columns: []paper.Column{
			{Head: "Link", Face: paper.Mono, Lines: 2, Width: paper.Fit(30)},
			{Head: "Tape", Lines: 2, Width: paper.Fit(24)},
			{Head: "From", Lines: 4, Width: paper.Fill(1)},
			{Head: "To", Lines: 4, Width: paper.Fill(1)},
			{Head: "Pieces", Width: paper.Fill(1.4)},
			{Head: "Joins at m", Width: paper.Fit(24)},
			{Head: "Laid", Align: paper.Centre},
		},
		BlankRows: 2,
	}
	for _, link := range p.links {
		if link.Loom != loom.ID {
			continue
		}
		figures, _ := p.Budget(link.ID)
		row := paper.Texts(link.Name, tapeOf(link), endOf(p.Plan, link.From, link.FromPort), endOf(p.Plan, link.To, link.ToPort),
			pieces(p.Plan, figures.Parts), p.joinMetres(figures), "")
		row.Cells[6].Tick = true
		table.Rows = append(table.Rows, row)
	}
	return table
}

// joinMetres lists at which metres of its cable a link is joined.
func (p *printout) joinMetres(figures budget.Budget) string {
	var said []string
	for _, j := range p.joins(figures) {
		said = append(said, bare(j.at))
	}
	return strings.Join(said, ", ")
}
