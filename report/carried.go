package report

import (
	"cmp"
	"fmt"
	"slices"

	"stageloom/model/cabling"
	"stageloom/model/plan"
	"stageloom/model/stocklist"
	"stageloom/model/words"
	"stageloom/report/paper"
)

// partly tells that the choice leaves out some links, so that what is on none of them is not to be printed either.
func (p *printout) partly() bool {
	return p.choice.Position != "" || p.choice.Device != "" || p.choice.Changed
}

// held are the reels that the print is of: all that the show has, or where only some links are printed what these use.
func (p *printout) held() (pieces []stocklist.Pieces) {
	if !p.partly() {
		return stocklist.Held(p.Plan)
	}
	for _, one := range p.pulls() {
		pieces = append(pieces, stocklist.Pieces{Reel: one.reel, Count: min(one.count, one.reel.There())})
	}
	return pieces
}

// carried is what the truck carries: the reels, and cables by kind and length alone, which live in no case.
func (p *printout) carried() []stocklist.Pieces {
	pieces := p.held()
	for _, one := range p.loose() {
		pieces = append(pieces, stocklist.Pieces{Reel: plan.Reel{Kind: one.kind, Length: one.metres}, Count: one.count})
	}
	return pieces
}

// drawTruck prints the cases in the order of loading, what each weighs, and what is in each.
func (p *printout) drawTruck(b *paper.Book) {
	loads := stocklist.Loads(p.Plan, p.carried(), false)
	b.Title("Truck list")
	b.Cautions(overfull(loads))
	b.Paragraph("Cases by name, in the order of loading; what lives in none comes last, with cables that are planned by kind and length alone. " + unweighed(loads))
	b.Table(loadsTable("", loads, "In", "The show has no case and no cable."))
	drawLoads(b, p.Plan, loads, "In")
}

// order is reels of one lender under one reference, to be returned on one day.
type order struct {
	by, reference, back string
	pieces              []stocklist.Pieces
}

// name is the order in words.
func (o order) name() string {
	name := cmp.Or(o.by, "Owner not named")
	if o.reference != "" {
		name += ", reference " + o.reference
	}
	return name + ", back by " + cmp.Or(o.back, "a day that nobody said")
}

// orders are the hired reels by owner, reference and day of return, and what is left: the house's.
func orders(pieces []stocklist.Pieces) (hired []order, house []stocklist.Pieces) {
	for _, one := range pieces {
		by, lent := one.Reel.Lender()
		if !lent {
			house = append(house, one)
			continue
		}
		at := slices.IndexFunc(hired, func(o order) bool {
			return o.by == by && o.reference == one.Reel.Hire && o.back == one.Reel.Return
		})
		if at < 0 {
			at, hired = len(hired), append(hired, order{by: by, reference: one.Reel.Hire, back: one.Reel.Return})
		}
		hired[at].pieces = append(hired[at].pieces, one)
	}
	slices.SortStableFunc(hired, func(a, b order) int {
		return cmp.Or(cmp.Compare(cmp.Or(a.back, "~"), cmp.Or(b.back, "~")), words.Natural(a.by, b.by), words.Natural(a.reference, b.reference))
	})
	return hired, house
}

// drawHire prints what is to be hired in, owner by owner, and what no cable reaches yet.
func (p *printout) drawHire(b *paper.Book) {
	b.Title("Hire order")
	hired, _ := orders(p.held())
	if len(hired) == 0 {
		b.Paragraph("Nothing of this plan's stock is hired or borrowed.")
	}
	shorter := cabling.Shorter(p.Plan)
	for _, one := range hired {
		b.Skip(2 * b.Scale())
		b.Table(lotsTable{
			title: one.name(), ticks: []string{"Ordered", "In"}, total: "To be hired",
			more: "May be shorter by m", figure: func(lot stocklist.Lot) string { return shorterWords(lot, shorter) },
		}.table(stocklist.Lots(p.Plan, one.pieces)))
	}
	p.tables(b, p.missingTable())
	if len(p.missingTable().Rows) > 0 {
		b.Paragraph("What is still missing is the least length that does; anything longer does too, up to the limit of its link.")
	}
}

// shorterWords say by how much every piece of a lot that is laid may be shorter.
func shorterWords(lot stocklist.Lot, may map[plan.ReelID]int) string {
	least, laid := 0, false
	for _, id := range lot.Reels {
		if metres, found := may[id]; found && (!laid || metres < least) {
			least, laid = metres, true
		}
	}
	switch {
	case !laid:
		return "on no link"
	case least == 0:
		return "–"
	}
	return fmt.Sprint(least)
}

// drawReturn prints what goes back to whom: what is hired by owner and day, and the house's by case.
func (p *printout) drawReturn(b *paper.Book) {
	b.Title("Return list")
	pieces := p.held()
	hired, house := orders(pieces)
	said := "Tick Back as each piece is given back; write down every fault found, so that who gets it knows."
	if absent := p.absent(); absent > 0 {
		said += fmt.Sprintf(" Not among these: %s missing, in repair or written off.", words.Counted(absent, "cable that is", "cables that are"))
	}
	b.Paragraph(said)
	for _, one := range hired {
		b.Skip(2 * b.Scale())
		b.Table(returnTable("To "+one.name(), stocklist.Lots(p.Plan, one.pieces)))
	}
	for _, load := range stocklist.Loads(p.Plan, house, false) {
		b.Skip(2 * b.Scale())
		name := "To the house, into " + load.Name()
		if load.Case.ID == "" {
			name = "To the house, in no case"
		}
		b.Table(returnTable(name, stocklist.Lots(p.Plan, load.Pieces)))
	}
	sum := stocklist.Count(pieces)
	b.Skip(2 * b.Scale())
	b.Paragraph(fmt.Sprintf("To be given back in all: %s, %d of them hired.", words.Counted(sum, "cable", "cables"), sum-stocklist.Count(house)))
}

func returnTable(title string, lots []stocklist.Lot) paper.Table {
	return lotsTable{title: title, ticks: []string{"Back"}, pens: []string{"Faults found"}, total: "To be given back"}.table(lots)
}

// absent counts cables that the show has and that are not there.
func (p *printout) absent() (sum int) {
	for reel := range p.Plan.Reels.All() {
		if reel.State != "" {
			sum += reel.Count() - reel.Lacking
		}
	}
	return max(0, sum)
}

// stockless tells that the show has no cable of a stock.
func (p *printout) stockless() bool { return len(p.held()) == 0 }

// hireless tells that nothing is hired and nothing is missing.
func (p *printout) hireless() bool {
	hired, _ := orders(p.held())
	return len(hired) == 0
}
