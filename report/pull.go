package report

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stageloom/model/plan"
	"stageloom/model/stocklist"
	"stageloom/model/words"
	"stageloom/report/paper"
)

// drawPull prints what the show takes from the truck: cables by case, cables without a reel, what is hired, couplers,
// ramps, and what stays in the cases as spare.
func (p *printout) drawPull(b *paper.Book) {
	b.Title("Pull list")
	b.Paragraph("Tick Out when a cable leaves its case and Back when it returns; a cable that is bad goes to Faulty with a knot of tape in it.")
	b.Table(p.reelsTable())
	p.tables(b, p.looseTable(), p.missingTable(), p.hiredTable(), p.couplersTable(), p.adaptersTable(), p.rampsTable(), p.spareTable(), p.notThereTable())
}

// tables draws those that hold rows.
func (p *printout) tables(b *paper.Book, tables ...paper.Table) {
	for _, table := range tables {
		if len(table.Rows) > 0 {
			b.Skip(3 * b.Scale())
			b.Table(table)
		}
	}
}

// pulled is how many of a reel row the links to print use, and which links those are.
type pulled struct {
	reel  plan.Reel
	count int
	links []string
}

// pulls returns the reels in use: by case, then kind, length and tag.
func (p *printout) pulls() []pulled {
	found := map[plan.ReelID]*pulled{}
	for _, link := range p.Links() {
		for _, segment := range p.Plan.SegmentsOf(link.ID) {
			reel, stands := p.Plan.Reels.Get(plan.Key(segment.Reel))
			if segment.Reel == "" || !stands {
				continue
			}
			if found[reel.ID] == nil {
				found[reel.ID] = &pulled{reel: reel}
			}
			found[reel.ID].count++
			found[reel.ID].links = appendNew(found[reel.ID].links, link.Name)
		}
	}
	var list []pulled
	for _, one := range found {
		list = append(list, *one)
	}
	slices.SortFunc(list, func(a, b pulled) int {
		return cmp.Or(words.Natural(p.caseName(a.reel), p.caseName(b.reel)), cmp.Compare(a.reel.Kind, b.reel.Kind),
			words.Natural(a.reel.Tag, b.reel.Tag), cmp.Compare(a.reel.Length, b.reel.Length), cmp.Compare(a.reel.ID, b.reel.ID))
	})
	return list
}

func appendNew(names []string, name string) []string {
	if slices.Contains(names, name) {
		return names
	}
	return append(names, name)
}

// caseName is the case a reel lives in.
func (p *printout) caseName(reel plan.Reel) string {
	box, found := p.Plan.Cases.Get(plan.Key(reel.Case))
	if !found || reel.Case == "" {
		return "No case"
	}
	return box.Name
}

func (p *printout) reelsTable() paper.Table {
	table := paper.Table{
		Columns: []paper.Column{
			{Head: "Out", Align: paper.Centre},
			{Head: "Tag", Face: paper.Mono, Lines: 2, Width: paper.Fit(34)},
			{Head: "Cable", Width: paper.Fill(1.5), Lines: 3},
			{Head: "m", Align: paper.Right},
			{Head: "Number", Align: paper.Right},
			{Head: "For", Width: paper.Fill(1), Lines: 4},
			{Head: "Back", Align: paper.Centre},
			{Head: "Faulty", Align: paper.Centre},
		},
		BlankRows: 2,
		Empty:     "No link is made of a reel of the stock yet.",
	}
	last, whole, pulls := "", map[string]bool{}, p.pulls()
	for _, one := range pulls {
		key := wholeKey(one.reel)
		if name := p.caseName(one.reel); name != last && !whole[key] {
			table.Rows, last = append(table.Rows, paper.GroupRow(name)), name
		}
		if key == "" {
			table.Rows = append(table.Rows, p.reelRow(one))
		} else if !whole[key] {
			whole[key] = true
			table.Rows = append(table.Rows, p.wholeRows(key, pulls)...)
		}
	}
	return table
}

// lot is equal cables that are wanted, and the links that want them.
type lot struct {
	kind   plan.CableKindID
	metres float64
	count  int
	links  []string
}

// lots gathers cables by kind and length.
type lots struct{ list []*lot }

func (l *lots) add(kind plan.CableKindID, metres float64, link string) {
	for _, one := range l.list {
		if one.kind == kind && one.metres == metres {
			one.count++
			one.links = appendNew(one.links, link)
			return
		}
	}
	l.list = append(l.list, &lot{kind, metres, 1, []string{link}})
}

func (l *lots) sorted() []*lot {
	slices.SortStableFunc(l.list, func(a, b *lot) int {
		return cmp.Or(cmp.Compare(a.kind, b.kind), cmp.Compare(b.metres, a.metres))
	})
	return l.list
}

// loose are the cables given by kind and length alone.
func (p *printout) loose() []*lot {
	var wanted lots
	for _, link := range p.Links() {
		for _, segment := range p.Plan.SegmentsOf(link.ID) {
			if segment.Reel == "" && segment.HouseLine == "" {
				wanted.add(segment.Kind, segment.Length, link.Name)
			}
		}
	}
	return wanted.sorted()
}

// looseTable lists cables that are given by kind and length alone.
func (p *printout) looseTable() paper.Table {
	table := paper.Table{
		Title: "Cables by kind and length: any that fits",
		Columns: []paper.Column{
			{Head: "Out", Align: paper.Centre},
			{Head: "Cable", Width: paper.Fill(1.5), Lines: 3},
			{Head: "m", Align: paper.Right},
			{Head: "Number", Align: paper.Right},
			{Head: "For", Width: paper.Fill(1), Lines: 4},
			{Head: "Back", Align: paper.Centre},
		},
	}
	for _, one := range p.loose() {
		row := p.lotRow(*one)
		row.Cells = append(append([]paper.Cell{{Tick: true}}, row.Cells...), paper.Cell{Tick: true})
		table.Rows = append(table.Rows, row)
	}
	return table
}

func (p *printout) lotRow(one lot) paper.Row {
	kind, _ := p.Plan.CableKinds.Get(plan.Key(one.kind))
	row := paper.Texts(kind.Name, stocklist.Bare(one.metres), fmt.Sprint(one.count), strings.Join(one.links, ", "))
	row.Cells[1].Bold = true
	return row
}

// missingTable lists the metres that no cable reaches: to be picked from the stock or hired in.
func (p *printout) missingTable() paper.Table {
	table := paper.Table{
		Title: "Still missing: pick from stock or hire in",
		Columns: []paper.Column{
			{Head: "For", Face: paper.Mono, Lines: 2, Width: paper.Fit(34)},
			{Head: "At least m", Align: paper.Right},
			{Head: "Wanted", Width: paper.Fill(1), Lines: 3},
			{Head: "Found: tag, or hired from", Width: paper.Fill(1)},
			{Head: "Out", Align: paper.Centre},
		},
	}
	for _, link := range p.Links() {
		figures, _ := p.Budget(link.ID)
		if figures.Missing <= crumb {
			continue
		}
		wanted := "any that fits " + figures.TransportName
		if kind, found := p.Plan.CableKinds.Get(plan.Key(figures.Fill)); found && figures.Fill != "" {
			wanted = kind.Name
		}
		row := paper.Texts(link.Name, metres(figures.Printed(1).Missing), wanted, "", "")
		row.Cells[1].Bold, row.Cells[4].Tick = true, true
		table.Rows = append(table.Rows, row)
	}
	return table
}

// hiredTable lists the reels in use that belong to somebody else.
func (p *printout) hiredTable() paper.Table {
	table := paper.Table{
		Title: "Hired in or borrowed",
		Columns: []paper.Column{
			{Head: "Tag", Face: paper.Mono, Lines: 2, Width: paper.Fit(34)},
			{Head: "Cable", Width: paper.Fill(1), Lines: 3},
			{Head: "Number", Align: paper.Right},
			{Head: "Owner", Width: paper.Fill(0.8)},
			{Head: "Reference", Width: paper.Fill(0.7)},
			{Head: "Return by"},
			{Head: "In", Align: paper.Centre},
		},
	}
	for _, one := range p.pulls() {
		by, hired := one.reel.Lender()
		if !hired {
			continue
		}
		kind, _ := p.Plan.CableKinds.Get(plan.Key(one.reel.Kind))
		row := paper.Texts(one.reel.Tag, pieceLength(one.reel.Length)+" "+kind.Name, fmt.Sprint(one.count), by, one.reel.Hire, one.reel.Return, "")
		row.Cells[6].Tick = true
		table.Rows = append(table.Rows, row)
	}
	return table
}

// couplersTable counts the couplers between the cables of the links to print.
func (p *printout) couplersTable() paper.Table {
	table := paper.Table{
		Title: "Couplers",
		Columns: []paper.Column{
			{Head: "Out", Align: paper.Centre},
			{Head: "For connector", Width: paper.Fill(1)},
			{Head: "At least", Width: paper.Fill(1)},
			{Head: "Needed", Align: paper.Right},
			{Head: "Taken, with spares", Width: paper.Fill(0.6)},
			{Head: "Back", Align: paper.Centre},
		},
	}
	for _, t := range p.sums.Couplers {
		at := "–"
		if t.Hardware != "" {
			at = hardwareName(t.Hardware)
		}
		row := paper.Texts("", cmp.Or(t.Connector, "not stated"), at, fmt.Sprint(t.Count), "", "")
		row.Cells[0].Tick, row.Cells[3].Bold, row.Cells[5].Tick = true, true, true
		table.Rows = append(table.Rows, row)
	}
	return table
}
