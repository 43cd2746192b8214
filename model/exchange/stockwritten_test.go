package exchange_test

import (
	"bytes"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/exchange"
	"stageloom/model/plan"
	"stageloom/model/words"
)

var anyWord = rapid.StringMatching(`[A-Za-zäöü=+@']( ?[A-Za-z0-9;,"=-]){0,9}[A-Za-z0-9]`)

// anyReel draws a reel with every field that a list has.
func anyReel(t *rapid.T, i int, box plan.CaseID, kind plan.CableKindID) plan.Reel {
	maybe := func(name string) plan.Optional {
		if rapid.Bool().Draw(t, name) {
			return plan.Some(float64(rapid.IntRange(1, 999).Draw(t, name+" figure")) / 10)
		}
		return plan.Optional{}
	}
	day := rapid.SampledFrom([]string{"", "2031-06-22"})
	reel := plan.Reel{
		Kind: kind, Length: float64(1000*i+rapid.IntRange(1, 999).Draw(t, "decimetres")) / 10, Case: box, Owner: anyWord.Draw(t, "owner"),
		Reason: anyWord.Draw(t, "reason"), Condition: rapid.SampledFrom([]string{"", "good", "suspect", "faulty"}).Draw(t, "condition"),
		Return: day.Draw(t, "return"), Bought: day.Draw(t, "bought"), Measured: maybe("measured"), Weight: maybe("weight"),
		Nominal: maybe("nominal").Value, TiedInto: anyWord.Draw(t, "tied"), Hire: rapid.SampledFrom([]string{"", "H 12"}).Draw(t, "hire"),
		State:   rapid.SampledFrom([]string{"", plan.Missing, plan.InRepair, plan.WrittenOff}).Draw(t, "state"),
		StateOn: day.Draw(t, "state on"), FoundAt: anyWord.Draw(t, "found at"), FoundOn: day.Draw(t, "found on"), Note: anyWord.Draw(t, "note"),
	}
	if rapid.Bool().Draw(t, "tagged") {
		reel.Tag = fmt.Sprintf("T%02d", i)
	} else {
		reel.Quantity = rapid.IntRange(2, 50).Draw(t, "quantity")
	}
	return reel
}

// anyStock draws a stock of some reels, some of them with a history of one line.
func anyStock(t *rapid.T) *plan.Plan {
	ids := plan.NewIDSource(rapid.Uint64().Draw(t, "seed"), 1)
	p, err := plan.Do(plan.New("x"), ids, func(e *plan.Edit) error {
		box := e.AddCase(plan.Case{Name: anyWord.Draw(t, "case"), Note: anyWord.Draw(t, "note")})
		for i := range rapid.IntRange(1, 6).Draw(t, "reels") {
			kind := rapid.SampledFrom(kinds).Draw(t, "kind")
			plan.Put(e, kind)
			id := e.AddReel(anyReel(t, i, box, kind.ID))
			if rapid.Bool().Draw(t, "served") {
				e.AddService(plan.Service{Reel: id, Day: "2030-02-03", Work: anyWord.Draw(t, "work"), By: anyWord.Draw(t, "by")})
			}
		}
		return nil
	})
	require.NoError(t, err)
	return p
}

// ownersOf are all owners of a stock, which a list of the same need not ask about.
func ownersOf(p *plan.Plan) (owners []string) {
	for reel := range p.Reels.All() {
		owners = append(owners, reel.Owner)
	}
	return owners
}

// whole are the reels of a stock in order without their ids, each with its history.
func whole(p *plan.Plan) (all []string) {
	for _, reel := range exchange.InStockOrder(p) {
		id, box := reel.ID, reel.Case
		reel.ID, reel.Case = "", ""
		name, _ := p.Cases.Get(plan.Key(box))
		line := fmt.Sprintf("%+v in %s", reel, name.Name)
		for service := range p.Services.All() {
			if service.Reel == id {
				line += fmt.Sprintf(", %s %s by %s", service.Day, service.Work, service.By)
			}
		}
		all = append(all, line)
	}
	return all
}

func TestStockWrittenAndReadAgainIsTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyStock(t)
		book := exchange.Book{Sheets: []exchange.Sheet{exchange.StockSheet(p), exchange.CaseSheet(p)}}
		var xlsx, comma, semicolon bytes.Buffer
		require.NoError(t, exchange.WriteXLSX(&xlsx, book))
		require.NoError(t, exchange.WriteCSV(&comma, book.Sheets[0], exchange.Comma))
		require.NoError(t, exchange.WriteCSV(&semicolon, book.Sheets[0], exchange.Semicolon))
		for _, from := range []*bytes.Buffer{&xlsx, &comma, &semicolon} {
			d, err := exchange.Read("x", from)
			require.NoError(t, err)
			grid := d.Grids[0]
			layout := exchange.Guess(grid, exchange.StockFields())
			require.Empty(t, exchange.UnreadOf(grid, layout))
			s := exchange.ReadStock(grid, layout, exchange.Options{Kinds: kinds, Owners: ownersOf(p), Means: allOthers(p)})
			require.Empty(t, faults(s.Faults))
			again, err := plan.Do(plan.New("x"), plan.NewIDSource(3, 4), func(e *plan.Edit) error { return s.Add(e, use) })
			require.NoError(t, err)
			require.Equal(t, whole(p), whole(again))
			u := s.Against(p, words.Units{}, false)
			require.Empty(t, u.Changed, "the same list makes nothing new of the same stock")
			require.Empty(t, u.New.Rows)
		}
	})
}

// allOthers says of every owner of a stock that it is not the house, whatever it is called.
func allOthers(p *plan.Plan) map[exchange.Said]string {
	means := map[exchange.Said]string{}
	for _, owner := range ownersOf(p) {
		means[exchange.SaidOf(exchange.OfOwner, owner)] = exchange.AnotherOwner
	}
	return means
}
