package main

import (
	"cmp"
	"fmt"
	"strings"

	"stageloom/model/house"
	"stageloom/model/stocklist"
	"stageloom/model/words"
	"stageloom/report"
)

// houseBook prints lists of the house's stock as text.
type houseBook struct {
	*page
	house.Stock
	day    string
	indent string // in front of all lines
}

// housePages prints the lists that are asked for.
func housePages(p *page, folder string, s house.Stock, day string, lists []report.HouseSheet) {
	b := houseBook{p, s, day, ""}
	p.hang("", printable(fmt.Sprintf("House stock in %s on %s", folder, day)))
	for _, list := range lists {
		p.blank()
		p.line("%s", list.Name())
		map[report.HouseSheet]func(){
			report.HouseWho: b.who, report.HouseStates: b.states, report.HousePromised: b.promised,
			report.HouseStock: b.standing, report.HouseCases: b.cases, report.HouseTruck: b.trucks,
		}[list]()
	}
}

// item prints one line of a list, broken under its text.
func (b houseBook) item(lead, text string) { b.hang(b.indent+lead, printable(text)) }

func (b houseBook) who() {
	holders := stocklist.Who(b.Stock, b.day)
	if len(holders) == 0 {
		b.item("  ", "Nothing is out.")
	}
	for _, h := range holders {
		name := h.Name()
		if h.Place == house.Overdue {
			name = "OVERDUE: " + name
		}
		b.item("  ", fmt.Sprintf("%s, %s, %s", name, words.Counted(stocklist.Count(h.Pieces), "cable", "cables"), daysOf(h)))
		if days, known := stocklist.DaysBetween(h.Show.Until, b.day); known && h.Place == house.Overdue {
			b.item("    ", words.Counted(days, "day", "days")+" too late")
		}
		if h.Show.File != "" {
			b.item("    ", "plan "+h.Show.File)
		}
		b.lots(h.Pieces)
	}
}

// daysOf says from when until when a show has the stock.
func daysOf(h stocklist.Holder) string {
	const nobody = "a day that nobody said"
	from := "out since " + cmp.Or(h.Since, nobody)
	if h.Place == house.Promised {
		from = "leaves on " + cmp.Or(h.Show.From, nobody)
	}
	return from + ", back on " + cmp.Or(h.Show.Until, nobody)
}

// lots prints cables by kind and length.
func (b houseBook) lots(pieces []stocklist.Pieces) {
	lots, whole := stocklist.Lots(b.Plan, pieces), ""
	for _, lot := range lots {
		if lot.Whole != whole {
			whole = lot.Whole
			b.item("    ", fmt.Sprintf("%s, one piece, tied of %s", whole, words.Counted(stocklist.InWhole(lots, whole), "cable", "cables")))
		}
		lead := "    "
		if whole != "" {
			lead += "  "
		}
		said := fmt.Sprintf("%s m %s", stocklist.Bare(lot.Length), lot.Kind)
		if len(lot.Tags) > 0 {
			said += ": " + strings.Join(lot.Tags, ", ")
		}
		b.item(fmt.Sprintf("%s%4d × ", lead, lot.Count), said)
	}
}

func (b houseBook) states() {
	absents := stocklist.Absents(b.Stock, b.day)
	if len(absents) == 0 {
		b.item("  ", "Nothing is missing, in repair or written off.")
	}
	for _, one := range absents {
		said := fmt.Sprintf("%s: %d × %s m %s", one.Place, one.Count, stocklist.Bare(one.Reel.Length), stocklist.KindName(b.Plan, one.Reel.Kind))
		if one.Reel.Tag != "" {
			said = fmt.Sprintf("%s: %s, %s m %s", one.Place, one.Reel.Tag, stocklist.Bare(one.Reel.Length), stocklist.KindName(b.Plan, one.Reel.Kind))
		}
		if one.Since != "" {
			said += ", since " + one.Since
		}
		if days, known := stocklist.DaysBetween(one.Since, b.day); known {
			said += ", " + words.Counted(days, "day", "days")
		}
		b.item("  ", said)
		if known := one.Words(); known != "" {
			b.item("    ", known)
		}
	}
}

func (b houseBook) promised() {
	for _, conflict := range stocklist.Conflicts(b.Stock, b.day) {
		b.item("  ! ", conflict)
	}
	holders := stocklist.Promised(b.Stock, b.day)
	if len(holders) == 0 {
		b.item("  ", "Nothing is promised.")
	}
	for _, h := range holders {
		b.item("  ", fmt.Sprintf("%s, %s, %s", h.Name(), words.Counted(stocklist.Count(h.Pieces), "cable", "cables"), daysOf(h)))
		b.lots(h.Pieces)
	}
}

func (b houseBook) standing() {
	rows, sum := stocklist.Standings(b.Stock, b.day)
	b.line("  house  shows  overdue  missing  repair  written off   all  promised")
	figures := func(s stocklist.Standing) string {
		return fmt.Sprintf("  %5d  %5d  %7d  %7d  %6d  %11d  %4d  %8d", s.InHouse, s.WithShows, s.Overdue, s.Missing, s.InRepair, s.WrittenOff, s.All(), s.Promised)
	}
	for _, row := range rows {
		b.item("  ", stocklist.Bare(row.Length)+" m "+row.Kind)
		b.line("%s", figures(row))
	}
	b.item("  ", "All of the stock; what is promised is somewhere else yet")
	b.line("%s", figures(sum))
}

func (b houseBook) cases() {
	loads, here := stocklist.InCases(b.Stock, b.day)
	for _, load := range loads {
		b.load(load, fmt.Sprintf(", %d of them in the house", here[load.Case.ID]))
	}
	b.sum(loads)
}

// load prints a case and what is in it.
func (b houseBook) load(load stocklist.Load, more string) {
	said := load.Name() + ": " + words.Counted(load.Cables, "piece", "pieces") + more + ", " + load.Mass.String()
	if takes := load.Takes(); takes != "" {
		said += "; it takes " + takes
	}
	b.item("  ", said)
	if over := load.Over(); over != "" {
		b.item("    ! ", "over full: "+over)
	}
	b.lots(load.Pieces)
}

func (b houseBook) sum(loads []stocklist.Load) {
	cables, mass := stocklist.Total(loads)
	b.item("  ", fmt.Sprintf("In all: %s, %s", words.Counted(cables, "piece", "pieces"), mass))
}

func (b houseBook) trucks() {
	trucks := stocklist.Trucks(b.Stock, b.day)
	if len(trucks) == 0 {
		b.item("  ", "No show has anything of the house, and none is promised anything.")
	}
	for _, truck := range trucks {
		b.item("  ", truck.Name()+", "+daysOf(truck.Holder))
		in := b
		in.indent = "  "
		for _, load := range truck.Loads {
			in.load(load, "")
		}
		in.sum(truck.Loads)
	}
}
