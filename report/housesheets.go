package report

import (
	"cmp"
	"fmt"
	"path/filepath"

	"stageloom/model/house"
	"stageloom/model/stocklist"
	"stageloom/model/words"
	"stageloom/report/paper"
)

// drawWho prints which show has what of the house: those overdue first, marked by a triangle and in words.
func (p *housePrint) drawWho(b *paper.Book) {
	b.Title("Who has what on " + p.day)
	holders := stocklist.Who(p.Stock, p.day)
	if len(holders) == 0 {
		b.Paragraph("Nothing is out: no show has anything of the house.")
		return
	}
	cables := 0
	for _, holder := range holders {
		cables += stocklist.Count(holder.Pieces)
	}
	b.Paragraph(fmt.Sprintf("%s of the house %s with %s. Tick Back as each returns.", words.Counted(cables, "cable", "cables"),
		words.Plural(cables, "is", "are"), words.Counted(len(holders), "show", "shows")))
	for _, holder := range holders {
		b.Heading(holder.Name())
		if holder.Place == house.Overdue {
			b.Cautions([]string{"OVERDUE: " + lateWords(holder.Show.Until, p.day)})
		}
		b.Paragraph(holderWords(holder))
		b.Table(lotsTable{ticks: []string{"Back", "Faulty"}, total: "With the show"}.table(stocklist.Lots(p.Plan, holder.Pieces)))
	}
}

// lateWords say since when a show is overdue.
func lateWords(until, day string) string {
	said := "was due on " + until
	if days, known := stocklist.DaysBetween(until, day); known {
		said += ", " + words.Counted(days, "day", "days") + " ago"
	}
	return said + "."
}

// holderWords say when a show has what it has, and where its plan lies.
func holderWords(h stocklist.Holder) string {
	said := "Stock out since " + cmp.Or(h.Since, "a day that nobody said")
	if h.Place == house.Promised {
		said = "Stock leaves on " + cmp.Or(h.Show.From, "a day that nobody said")
	}
	said += ", back on " + cmp.Or(h.Show.Until, "a day that nobody said") + "."
	if h.Show.File != "" {
		said += " Plan: " + filepath.Base(h.Show.File) + "."
	}
	return said
}

// drawStates prints what is missing, in repair and written off.
func (p *housePrint) drawStates(b *paper.Book) {
	b.Title("Missing, in repair, written off on " + p.day)
	absents := stocklist.Absents(p.Stock, p.day)
	for _, part := range []struct {
		place       house.Place
		name, empty string
	}{
		{house.IsMissing, "Missing", "Nothing is missing."},
		{house.InWorkshop, "In repair", "Nothing is in repair."},
		{house.IsGone, "Written off", "Nothing is written off."},
	} {
		b.Skip(2 * b.Scale())
		b.Table(p.absentTable(part.place, part.name, part.empty, absents))
	}
}

func (p *housePrint) absentTable(place house.Place, name, empty string, absents []stocklist.Absent) paper.Table {
	table := paper.Table{
		Title: name, Empty: empty,
		Columns: []paper.Column{
			{Head: "Tag", Face: paper.Mono, Lines: 3, Width: paper.Fixed(30)},
			{Head: "Cable", Width: paper.Fill(1), Lines: 3},
			{Head: "Number", Align: paper.Right, Width: paper.Fixed(17)},
			{Head: "Since", Width: paper.Fixed(25)},
			{Head: "Days", Align: paper.Right, Width: paper.Fixed(14)},
			{Head: "What is known", Width: paper.Fill(1.6)},
		},
	}
	sum := 0
	for _, one := range absents {
		if one.Place != place {
			continue
		}
		days := ""
		if n, known := stocklist.DaysBetween(one.Since, p.day); known {
			days = fmt.Sprint(n)
		}
		table.Rows = append(table.Rows, paper.Texts(one.Reel.Tag, pieceLength(one.Reel.Length)+" "+stocklist.KindName(p.Plan, one.Reel.Kind),
			fmt.Sprint(one.Count), one.Since, days, one.Words()))
		sum += one.Count
	}
	if sum > 0 {
		row := paper.Texts("", "All", fmt.Sprint(sum))
		row.Kind = paper.Total
		table.Rows = append(table.Rows, row)
	}
	return table
}

// drawPromised prints what shows to come are promised, by the day on which it leaves; what cannot be kept comes first.
func (p *housePrint) drawPromised(b *paper.Book) {
	b.Title("Promised after " + p.day)
	if conflicts := stocklist.Conflicts(p.Stock, p.day); len(conflicts) > 0 {
		b.Heading("Promised twice, or not back in time")
		b.Cautions(conflicts)
	}
	holders := stocklist.Promised(p.Stock, p.day)
	if len(holders) == 0 {
		b.Paragraph("Nothing is promised: no show that leaves later has taken anything.")
		return
	}
	b.Paragraph("By the day on which it leaves. Until then a promised cable may be in the house or with another show.")
	for _, holder := range holders {
		b.Heading(cmp.Or(holder.Show.From, "No day") + ": " + holder.Name())
		b.Paragraph(holderWords(holder))
		b.Table(lotsTable{ticks: []string{"Packed"}, total: "Promised"}.table(stocklist.Lots(p.Plan, holder.Pieces)))
	}
}

// drawStanding prints all of the stock by kind and length, and where it is.
func (p *housePrint) drawStanding(b *paper.Book) {
	rows, sum := stocklist.Standings(p.Stock, p.day)
	b.Title("All of the stock on " + p.day)
	b.Paragraph("The columns from House to Written off add up to All. What is promised is somewhere else yet, so it is counted beside them.")
	table := paper.Table{Columns: []paper.Column{{Head: "Cable", Width: paper.Fill(1), Lines: 3}, {Head: "m", Align: paper.Right, Width: paper.Fixed(16)}}, Empty: "The house has no stock."}
	for _, head := range []string{"House", "With shows", "Over-due", "Miss-ing", "In repair", "Written off", "All", "Pro-mised"} {
		table.Columns = append(table.Columns, paper.Column{Head: head, Align: paper.Right, Width: paper.Fixed(14.5)})
	}
	table.Columns[7].Width = paper.Fixed(17.5)
	for _, row := range rows {
		table.Rows = append(table.Rows, standingRow(row.Kind, stocklist.Bare(row.Length), row))
	}
	if len(rows) > 0 {
		total := standingRow("All of the stock", "", sum)
		total.Kind = paper.Total
		table.Rows = append(table.Rows, total)
	}
	b.Table(table)
}

func standingRow(name, length string, s stocklist.Standing) paper.Row {
	row := paper.Texts(name, length)
	for _, n := range []int{s.InHouse, s.WithShows, s.Overdue, s.Missing, s.InRepair, s.WrittenOff, s.All(), s.Promised} {
		text := fmt.Sprint(n)
		if n == 0 {
			text = "–"
		}
		row.Cells = append(row.Cells, paper.Cell{Text: text})
	}
	row.Cells[8].Bold = true
	return row
}

// drawCases prints what lives in each case of the house, and what each takes.
func (p *housePrint) drawCases(b *paper.Book) {
	loads, here := stocklist.InCases(p.Stock, p.day)
	b.Title("Cases on " + p.day)
	b.Cautions(overfull(loads))
	b.Paragraph("What lives in each case, with what is out with shows. " + unweighed(loads))
	table := loadsTable("", loads, "Seen", "The house has no case and no cable.")
	table.Columns[2].Head = "Lives in it"
	table.Columns = append(table.Columns[:3:3], append([]paper.Column{{Head: "Here now", Align: paper.Right, Width: paper.Fixed(17)}}, table.Columns[3:]...)...)
	now := 0
	for i := range table.Rows {
		count := now
		if i < len(loads) {
			count = here[loads[i].Case.ID]
			now += count
		}
		cells := table.Rows[i].Cells
		table.Rows[i].Cells = append(cells[:3:3], append([]paper.Cell{{Text: fmt.Sprint(count)}}, cells[3:]...)...)
	}
	b.Table(table)
	drawLoads(b, p.Plan, loads)
}

// drawTrucks prints by show what its truck carries of the house, case by case.
func (p *housePrint) drawTrucks(b *paper.Book) {
	trucks := stocklist.Trucks(p.Stock, p.day)
	if len(trucks) == 0 {
		b.Title("Truck lists")
		b.Paragraph("No show has anything of the house, and none is promised anything.")
		return
	}
	for _, truck := range trucks {
		b.NewPage()
		b.Title("Truck: " + truck.Name())
		b.Bookmark(truck.Name())
		b.Cautions(overfull(truck.Loads))
		b.Paragraph(holderWords(truck.Holder) + " " + unweighed(truck.Loads))
		b.Table(loadsTable("Cases in the order of loading", truck.Loads, "In", ""))
		drawLoads(b, p.Plan, truck.Loads, "In")
	}
}
