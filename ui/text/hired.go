package text

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"stageloom/model/cabling"
	"stageloom/model/catalogue"
	"stageloom/model/exchange"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// Hired is the form by which what a pick asks to hire in comes into the stock, with what all of it shares.
type Hired struct {
	What                []cabling.Hire
	Owner, Hire, Return string
}

// Read makes a stock list of the form, with the reason in words where it is none.
func (h Hired) Read(p *plan.Plan, units words.Units) (exchange.Stock, string) {
	if strings.TrimSpace(h.Owner) == "" || exchange.SaysOurs(h.Owner) {
		return exchange.Stock{}, "Write who hires them out, so that they are known not to be the house's."
	}
	fields := []string{exchange.Length, exchange.Quantity, exchange.Kind, exchange.Owner, exchange.Hire, exchange.Return}
	grid := exchange.Grid{}
	for _, hire := range h.What {
		length := strconv.FormatFloat(hire.Length, 'f', -1, 64) + " m"
		grid.Rows = append(grid.Rows, []string{length, strconv.Itoa(hire.Count), string(hire.Kind), h.Owner, h.Hire, h.Return})
	}
	list := exchange.ReadStock(grid, exchange.Layout{Fields: fields}, exchange.Options{
		Bare: units.Length, Kinds: catalogue.CableKindsFor(p),
		Means: map[exchange.Said]string{exchange.SaidOf(exchange.OfOwner, h.Owner): exchange.AnotherOwner},
	})
	if len(list.Faults) > 0 {
		return list, begun(strings.TrimRight(list.Faults[0].Words, ".")) + "."
	}
	return list, ""
}

// HiredTold lists what is to be hired, a line each, the longest last of each kind.
func HiredTold(what []cabling.Hire, units words.Units) string {
	what = slices.Clone(what)
	slices.SortStableFunc(what, func(a, b cabling.Hire) int { return words.Natural(a.KindName, b.KindName) })
	lines := make([]string, len(what))
	for i, hire := range what {
		lines[i] = fmt.Sprintf("%d × %s %s", hire.Count, units.Piece(hire.Length), hire.KindName)
	}
	return strings.Join(lines, "\n")
}
