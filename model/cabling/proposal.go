package cabling

import (
	"fmt"
	"math"
	"slices"

	"stageloom/model/budget"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// Proposal is what a pick comes to: how links stand now and would stand, why some stay unserved, and what to hire in.
// It changes nothing until its Edit is done. Read its slices, never write them.
type Proposal struct {
	Request Request
	// Links are the links asked for, in the natural order of their names.
	Links []Change
	// Now and Proposed sum them up.
	Now, Proposed Totals
	// Changes counts cables that links have more and fewer, over all of them.
	Changes int
	// Come and Go tell them apart.
	Come, Go int
	// Unserved says of each link without cables that serve it why, the most important first.
	Unserved []Unserved
	// HireIn is the fewest cables, and of those the fewest metres, that would serve every link that any cable can; empty where
	// nothing is to be hired. FromShelf is what of it the house has, where its stock was offered for that: it is not hired.
	// Beyond lists the links with metres that no hire of such cables serves either, and HireProved tells that no less would do.
	HireIn     []Hire
	FromShelf  []Hire
	Beyond     []plan.LinkID
	HireProved bool
	// Proved tells that no picks are better by any of the objectives, which are listed in their order.
	Proved     bool
	Objectives []Objective
	// OnSite names each link that is laid, joined or tested and that this would change.
	OnSite []OnSite
	// Left tells that some links were left as they lie on site.
	Left bool
	// Whole are the looms and trunk pieces that are laid whole, and Tried says in how far all ways of that were tried; blank where
	// there is none to lay.
	Whole []Whole
	Tried string
	// Held lists what is held back at each position, where it was asked for.
	Held []Held

	base *plan.Plan
}

// Change is one link now and as proposed.
type Change struct {
	Link plan.LinkID
	Name string
	// Served reports whether the link has cables of the stock that fit, reach, and are inside its limit; ServedNow whether it
	// has them now.
	ServedNow, Served bool
	Now, Proposed     budget.Budget
	Before, After     []plan.Segment
	// Changes counts cables that it has more and fewer.
	Changes int
	// Come and Go tell them apart.
	Come, Go int
	// PickedDB is the loss that was picked by, each part rounded up to thousandths of a dB; the budget's is at most one
	// thousandth a part less.
	PickedDB float64
	// BlockedJoins lie inside a road, water or a crowd, and JoinsAloft out of reach, where no other order avoids it.
	BlockedJoins, JoinsAloft int
}

// Same reports whether nothing changes for the link.
func (c Change) Same() bool { return c.Changes == 0 && sameChain(c.Before, c.After) }

func sameChain(a, b []plan.Segment) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		x, y := a[i], b[i]
		x.Link, y.Link = "", ""
		if x != y {
			return false
		}
	}
	return true
}

// Moves says how many cables come and go: "4 cables come, 2 go".
func (p *Proposal) Moves() string {
	verb := func(n int, one, many string) string {
		if n == 1 {
			return one
		}
		return many
	}
	come := words.Counted(p.Come, "cable ", "cables ") + verb(p.Come, "comes", "come")
	switch {
	case p.Go == 0:
		return come
	case p.Come == 0:
		return words.Counted(p.Go, "cable ", "cables ") + verb(p.Go, "goes", "go")
	}
	return fmt.Sprintf("%s, %d %s", come, p.Go, verb(p.Go, "goes", "go"))
}

// Remarks says what is to be known of where the joins lie, and what changes where no cable does.
func (c Change) Remarks() (remarks []string) {
	if !c.Served {
		return nil
	}
	if c.BlockedJoins > 0 {
		remarks = append(remarks, "a join lies in a road, in water or in a crowd, whatever the order: lift it clear, cover it, or lay one cable")
	}
	if c.JoinsAloft > 0 {
		remarks = append(remarks, "a join lies out of reach, whatever the order")
	}
	if c.Changes == 0 && !c.Same() {
		remarks = append(remarks, "the same cables, in the order of laying and with the plan's own couplers")
	}
	return remarks
}

// Totals sums up links as they stand.
type Totals struct {
	Links, Served int
	// Under counts served links with less than their wanted margin.
	Under, Joins int
	// Metres of cable, and those of them that stay coiled on served links.
	Metres, Coiled float64
	// LeastDB is the least margin of a served link that carries a grade; it is set where there is one.
	LeastDB plan.Optional
}

func (t *Totals) add(b *budget.Budget, served bool) {
	t.Links++
	t.Joins += b.Joins
	t.Metres += b.Laid
	if !served {
		return
	}
	t.Served++
	t.Coiled += max(0, b.Laid-b.Run)
	if b.Graded {
		if b.MarginDB < b.WantedDB {
			t.Under++
		}
		t.LeastDB = plan.Some(min(b.MarginDB, t.LeastDB.Or(math.Inf(1))))
	}
}

// Objective is one of the aims of a pick: what it came to, and the least that is possible as far as is proved.
type Objective struct {
	Name         string
	Value, Bound int
}

// Edit does what is proposed: one edit of the plan that the proposal was made from. It refuses where that plan's links,
// ways or stock have changed since.
func (p *Proposal) Edit(e *plan.Edit) error {
	if !budget.Same(p.base, e.Now()) {
		return fmt.Errorf("%w: the plan has changed since these cables were picked; pick again", plan.ErrRefused)
	}
	for _, change := range p.Links {
		if !change.Same() {
			e.SetSegments(change.Link, change.After)
		}
	}
	return nil
}

// change compares a run now with its outcome.
func (o *outcome) change() Change {
	r := o.run
	c := Change{
		Link: r.link.ID, Name: r.link.Name, ServedNow: r.servesNow(), Served: o.served, Now: r.now, Proposed: o.laid.budget,
		Before: r.chain, After: o.laid.segments(), BlockedJoins: o.laid.blocked, JoinsAloft: o.laid.aloft,
	}
	if o.served && r.fixed.Graded {
		c.PickedDB = float64(rounded(&o.laid.budget)) / 1000
		before, behind := o.laid.budget.Around()
		for _, step := range slices.Concat(before, behind) {
			c.PickedDB += float64(up(step.LossDB)) / 1000
		}
	}
	come, gone := changes(c.Before, c.After)
	c.Come, c.Go, c.Changes = come, gone, come+gone
	return c
}

// servesNow reports whether a run's cables as the plan has them serve it, by the word of its budget. One that is given by kind
// and length alone is a wish, unless it is kept or lies on site: the stock need not hold it.
func (r *run) servesNow() bool {
	chain := r.survey.pieces(r.chain)
	for _, p := range chain {
		wish := p.segment.Kind != "" && !p.segment.Kept && !r.link.Lies()
		if wish || r.survey.unfit(p.segment) || !r.carries(p.kind) {
			return false
		}
	}
	b := &r.now
	return r.fits(chain) && !r.wanting() && b.Missing == 0 && !b.Unknown() && b.Grade != budget.Over
}

// changes counts the cables of each of two chains that the other has not.
func changes(before, after []plan.Segment) (come, gone int) {
	count := map[plan.Segment]int{}
	for _, segment := range before {
		count[segment.Cable()]--
	}
	for _, segment := range after {
		count[segment.Cable()]++
	}
	for _, n := range count {
		come += max(0, n)
		gone += max(0, -n)
	}
	return come, gone
}
