package supply

import (
	"cmp"
	"context"
	"fmt"
	"maps"
	"slices"
	"strconv"

	"stageloom/model/budget"
	"stageloom/model/cabling"
	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// Picked is what a pick came to, and what it takes of the house.
type Picked struct {
	// Proposal is about Plan, the copy of the plan with what the house could lend.
	Proposal *cabling.Proposal
	Plan     *plan.Plan
	From     Source
	// Takings are the rows of the house's stock that it takes, and how many of each, in their order there.
	Takings []Taking

	supply *Supply
}

// Taking is how many of a row of the house's stock a pick takes.
type Taking struct {
	Row      plan.Reel
	Kind     plan.CableKind
	Quantity int
}

// Pick picks cables for the links of a request from a source, as cabling does. Of equal cables the show's own come before those
// of the house; where they are not equal the aims decide, and cables that a link has already count among the changes.
func Pick(ctx context.Context, p *plan.Plan, stock house.Stock, from Source, request cabling.Request, progress cabling.Progress) (*Picked, error) {
	s, err := Gather(p, stock, from, request.Links)
	if err != nil {
		return nil, err
	}
	return s.Pick(ctx, request, progress)
}

// Pick picks from what was gathered.
func (s *Supply) Pick(ctx context.Context, request cabling.Request, progress cabling.Progress) (*Picked, error) {
	request = s.known(request)
	request.ForHire, request.OfTheHouse = s.from == Show, s.from == House
	request.Offered = map[plan.ReelID]bool{}
	for id := range s.offered {
		request.Offered[id] = true
	}
	proposal, err := cabling.Pick(ctx, s.Plan, request, progress)
	if err != nil {
		return nil, err
	}
	k := &Picked{Proposal: proposal, Plan: s.Plan, From: s.from, supply: s}
	k.takings()
	return k, nil
}

// known leaves out kinds that are in no stock here: to bar them says nothing, and to want them alone bars all others.
func (s *Supply) known(request cabling.Request) cabling.Request {
	unknown := func(id plan.CableKindID) bool { return !s.Plan.CableKinds.Has(plan.Key(id)) }
	wanted := slices.DeleteFunc(slices.Clone(request.Wanted), unknown)
	request.Barred = slices.DeleteFunc(slices.Clone(request.Barred), unknown)
	if len(wanted) == 0 && len(request.Wanted) > 0 {
		for kind := range s.Plan.CableKinds.All() {
			request.Barred = append(request.Barred, kind.ID)
		}
	}
	request.Wanted = wanted
	return request
}

// OfHouse is the row of the house's stock that a reel of the copy would be taken of; false where the show has it already.
func (k *Picked) OfHouse(id plan.ReelID) (plan.ReelID, bool) {
	want, offered := k.supply.offered[id]
	return want.Reel, offered
}

// takings counts what the links and the pieces held back have of the house that the show has not yet; of a loom or a trunk piece
// all of it.
func (k *Picked) takings() {
	count, tied := map[plan.ReelID]int{}, map[string]bool{}
	take := func(id plan.ReelID) {
		want, offered := k.supply.offered[id]
		if !offered {
			return
		}
		count[want.Reel]++
		if reel, _ := k.Plan.Reels.Get(plan.Key(id)); reel.TiedInto != "" {
			tied[reel.TiedInto] = true
		}
	}
	for _, change := range k.Proposal.Links {
		for _, segment := range change.After {
			take(segment.Reel)
		}
	}
	for _, held := range k.Proposal.Held {
		take(held.Reel)
	}
	for _, want := range k.supply.offered {
		if row, _ := k.supply.stock.Plan.Reels.Get(plan.Key(want.Reel)); row.TiedInto != "" && tied[row.TiedInto] {
			count[want.Reel] = want.Quantity
		}
	}
	for _, row := range k.supply.rows() {
		if count[row.ID] > 0 {
			kind, _ := k.supply.stock.Plan.CableKinds.Get(plan.Key(row.Kind))
			k.Takings = append(k.Takings, Taking{Row: row, Kind: kind, Quantity: count[row.ID]})
		}
	}
}

// Edit takes of the house, as it is known now, what was picked and lays it: one edit of the plan that was picked for. It
// refuses where that plan has changed since, or the house has not what was picked any more.
func (k *Picked) Edit(stock house.Stock) func(*plan.Edit) error {
	return func(e *plan.Edit) error {
		if !budget.Same(k.supply.base, e.Now()) {
			return fmt.Errorf("%w: the plan has changed since these cables were picked; pick again", plan.ErrRefused)
		}
		laid, err := k.take(e, stock)
		if err != nil {
			return err
		}
		for _, change := range k.Proposal.Links {
			if change.Same() {
				continue
			}
			chain := slices.Clone(change.After)
			for i := range chain {
				if want, offered := k.supply.offered[chain[i].Reel]; offered {
					chain[i].Reel = laid[want.Reel]
				}
			}
			e.SetSegments(change.Link, chain)
		}
		return nil
	}
}

// take takes what was picked and returns the plan's row of each of the house's.
func (k *Picked) take(e *plan.Edit, stock house.Stock) (map[plan.ReelID]plan.ReelID, error) {
	if len(k.Takings) == 0 {
		return nil, nil
	}
	before := maps.Collect(reelsOf(e.Now()))
	var wants []house.Want
	for _, taking := range k.Takings {
		wants = append(wants, house.Want{Reel: taking.Row.ID, Quantity: taking.Quantity})
	}
	if err := stock.Take(e, wants...); err != nil {
		return nil, err
	}
	laid := map[plan.ReelID]plan.ReelID{}
	for id, row := range reelsOf(e.Now()) {
		if _, was := before[id]; !was {
			laid[plan.ReelID(row.HouseReel)] = id
		}
	}
	return laid, nil
}

func reelsOf(p *plan.Plan) func(func(plan.ReelID, plan.Reel) bool) {
	return func(yield func(plan.ReelID, plan.Reel) bool) {
		for row := range p.Reels.All() {
			if !yield(row.ID, row) {
				return
			}
		}
	}
}

// Words lists what is taken of the house, each loom or trunk piece on one line and equal cables on one: "2 × 50 m of Cat 6A: H1,
// H2".
func (k *Picked) Words() (rows []string) {
	type lot struct {
		tied   string
		kind   string
		length float64
	}
	count, tags := map[lot]int{}, map[lot][]string{}
	for _, taking := range k.Takings {
		of := lot{kind: taking.Kind.Name, length: taking.Row.Length}
		if taking.Row.TiedInto != "" {
			of = lot{tied: taking.Row.TiedInto}
		}
		count[of] += taking.Quantity
		if taking.Row.Tag != "" {
			tags[of] = append(tags[of], taking.Row.Tag)
		}
	}
	for _, of := range slices.SortedFunc(maps.Keys(count), func(a, b lot) int {
		return cmp.Or(words.Natural(a.tied, b.tied), words.Natural(a.kind, b.kind), cmp.Compare(b.length, a.length))
	}) {
		if of.tied != "" {
			rows = append(rows, of.tied+", whole: "+words.Counted(count[of], "cable", "cables"))
			continue
		}
		row := fmt.Sprintf("%d × %s m of %s", count[of], strconv.FormatFloat(of.length, 'f', -1, 64), of.kind)
		if named := tags[of]; len(named) > 0 {
			slices.SortFunc(named, words.Natural)
			row += ": " + words.Listed(named)
			if more := count[of] - len(named); more > 0 {
				row += fmt.Sprintf(" and %d without a tag", more)
			}
		}
		rows = append(rows, row)
	}
	return rows
}
