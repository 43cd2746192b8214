package picking

import "slices"

// MaxReels is the most reels a link is picked.
const MaxReels = 4

// Problem is what to pick for, and from what. It is not changed by picking.
type Problem struct {
	Lines []Line
	Links []Link
	// Joints say what it costs to join a cable behind another by their classes: Joints[before][behind].
	Joints [][]Joint
	// Apart are the links of redundant pairs whose kinds must differ. That their reels differ needs no word: no reel is
	// picked twice.
	Apart []Pair
	// Spares are pieces to hold back.
	Spares []Spare
	// Wholes are links that together are one electrical line with one limit.
	Wholes []Whole
	// Order is that of the objectives.
	Order Order
	// Nodes bounds the search of each objective, so that the same problem has the same answer on every machine; 0 is
	// DefaultNodes.
	Nodes int
}

// DefaultNodes is how many nodes each objective may search.
const DefaultNodes = 20000

// Line is equal reels of the stock.
type Line struct {
	Kind   int // kinds are told apart by number alone
	Length int // of one reel
	Count  int // how many there are
	// Case is the case they live in, from 1; 0 is none. As the last of all objectives as few cases as possible are opened.
	Case int
	// Shelf is how many more there are elsewhere, to be had before any is hired. Picks take none of them.
	Shelf int
}

// Link is one link to pick for, with what stays on it taken off Need and Limit.
type Link struct {
	Need int // length to reach
	// Limit is the loss left at each frequency; 0 is no limit there. A link without a limit may leave it empty.
	Limit []int
	// Wanted is the margin that should be left at every frequency with a limit.
	Wanted int
	// MaxJoins bounds the joins that picking adds, those to what stays included.
	MaxJoins int
	// Attached tells that cables stay on the link, so that the first reel is joined to them and counts as a join.
	Attached bool
	// Priority is what it costs to leave the link unserved, at least 1.
	Priority int
	// Usable are the lines that may be on it.
	Usable []Usable
	// Before is what the link had: its reels by line. It may name lines that are not usable any more.
	Before []Use
	// Lies tells that what the link had lies on site already: it is taken apart only where that serves a link which else
	// stays unserved.
	Lies bool
}

// bare reports whether no link had any reel before.
func (p *Problem) bare() bool {
	for i := range p.Links {
		if len(p.Links[i].Before) > 0 {
			return false
		}
	}
	return true
}

// Usable is a line as one link would use it.
type Usable struct {
	Line int
	// Loss of one reel on this link, at each frequency.
	Loss []int
	// Class says in Joints which ends it has, as it lies on this link.
	Class int
	// First and Last are the losses where it meets what stays at the near and the far end, at each frequency, and nil where
	// it can't be the first or the last. A port costs nothing and is an empty slice.
	First, Last []int
}

// Joint is the loss of a joint at each frequency, or that two ends do not meet.
type Joint struct {
	Fits bool
	Loss []int
}

// Use is how many reels of a line.
type Use struct{ Line, Count int }

// Pair is a main link and its backup, by their places in Links.
type Pair struct{ Main, Backup int }

// Whole is some links, by their places in Links, that together have this limit and wanted margin at the first frequency. No
// link is in two wholes, and each has a Limit of its own, which may be as high as that of the whole, and no Wanted.
type Whole struct {
	Links         []int
	Limit, Wanted int
}

// wholeOf is the whole that a link is a piece of, nil for none.
func (p *Problem) wholeOf(link int) *Whole {
	for i := range p.Wholes {
		if slices.Contains(p.Wholes[i].Links, link) {
			return &p.Wholes[i]
		}
	}
	return nil
}

// Spare is a piece to hold back: one reel of any of these lines, left in the stock.
type Spare struct{ Lines []int }

// Order says which objective goes before which.
type Order int

// The orders.
const (
	// NewPlan takes joins before changes.
	NewPlan Order = iota
	// OnTheDay takes changes before joins: what lies is left lying.
	OnTheDay
)

// Objective is one of the sums that are made small.
type Objective int

// The objectives.
const (
	Unserved    Objective = iota // priorities of links without a pattern
	TakenApart                   // links whose reels lie on site and do not stay as they lie; only where there are any
	NotHeld                      // spares that could not be held back
	UnderMargin                  // served links, and wholes, with less than the wanted margin
	Joins                        // joins that picking adds
	Changes                      // Σ |reels of a line now − before| over links and lines; nothing where no link had any
	Excess                       // length picked beyond need
	Cases                        // cases opened
	Hired                        // reels hired in; only where hiring is asked for, as are the next
	HiredLength                  // length of the reels hired in
	FromShelf                    // reels had from the shelf
	objectives
)

// String names the objective.
func (o Objective) String() string {
	return [...]string{"unserved", "taken apart", "not held back", "under margin", "joins", "changes", "metres coiled", "cases opened", "hired", "metres hired", "from the shelf"}[o]
}

// Objectives lists the objectives of a problem in its order, the weightiest first.
func (p *Problem) Objectives() []Objective {
	order := p.Order.Objectives()
	if slices.ContainsFunc(p.Links, func(l Link) bool { return l.Lies }) {
		return slices.Insert(order, 1, TakenApart)
	}
	return order
}

// Objectives lists the objectives of an order, the weightiest first.
func (o Order) Objectives() []Objective {
	if o == OnTheDay {
		return []Objective{Unserved, NotHeld, UnderMargin, Changes, Joins, Excess, Cases}
	}
	return []Objective{Unserved, NotHeld, UnderMargin, Joins, Changes, Excess, Cases}
}

// Answer is what was picked.
type Answer struct {
	// Picks are the reels of each link in the order in which they fit, by line; nil leaves a link unserved.
	Picks [][]int
	// Sums are the objectives of the picks, by Objective.
	Sums [objectives]int
	// Bounds say that no picks are better: as small as an objective can be once those before it are as they are. An
	// objective is proved where its bound equals its sum.
	Bounds [objectives]int
	// Proved tells that all objectives are.
	Proved bool
	// Stopped tells that the search was called off or ran into its bound on nodes; the picks are the best so far.
	Stopped bool
	// Patterns and Searched count the patterns looked at and the nodes searched.
	Patterns, Searched int
}

// Progress is told while picking goes on: the objective that is worked on, its sum so far and its bound.
type Progress func(objective Objective, sum, bound int)
