package house

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stageloom/model/plan"
	"stageloom/model/words"
)

// add means some of a row, all of it for nought; what is tied into one piece is meant whole.
func (r *reader) add(row plan.Reel, count int) {
	if strings.TrimSpace(row.TiedInto) == "" {
		r.addOne(row, count)
		return
	}
	piece := r.those(func(other plan.Reel) bool { return tiedAlike(other, row) })
	if r.side == ToTake {
		for _, part := range piece {
			if why := r.cannotTake(part, r.free(part)); why != "" {
				r.not(plan.Clipped(row.TiedInto) + " is taken whole, and " + why)
				return
			}
		}
	}
	for _, part := range piece {
		r.addOne(part, 0)
	}
}

func (r *reader) addOne(row plan.Reel, count int) {
	if r.done[row.ID] {
		return
	}
	r.done[row.ID] = true
	switch r.side {
	case ToTake:
		r.addWant(row, count)
	case ToGiveBack:
		r.out.Returns = append(r.out.Returns, Return{Reel: row.ID, Quantity: cmp.Or(count, row.Count())})
	case ToReceive:
		r.addCame(row, count)
	}
}

func (r *reader) named(row plan.Reel) string { return NamedIn(r.of(), row, r.typed.Units) }

func (r *reader) free(row plan.Reel) int { return r.Free(r.plan, row) }

func (r *reader) addWant(row plan.Reel, count int) {
	free := r.free(row)
	switch why := r.cannotTake(row, free); {
	case why != "":
		r.not(why)
	case count > free:
		r.not(fmt.Sprintf("Of %s there are %d in the house, not %d", r.named(row), free, count))
	default:
		r.out.Wants = append(r.out.Wants, Want{Reel: row.ID, Quantity: cmp.Or(count, free)})
	}
}

// cannotTake says why none of a row can be taken; blank where some can.
func (r *reader) cannotTake(row plan.Reel, free int) string {
	switch {
	case placeOf(row.State) != InHouse:
		return r.named(row) + " is " + r.placed(row)
	case row.Condition == plan.Faulty && row.Reason != "":
		return r.named(row) + " is faulty: " + plan.Clipped(row.Reason)
	case row.Condition == plan.Faulty:
		return r.named(row) + " is faulty"
	case free > 0:
		return ""
	case r.isWished(row):
		return r.named(row) + " is in this show already"
	}
	return r.named(row) + " is " + r.placed(row)
}

// isWished reports whether the plan says that its show has some of a row.
func (r *reader) isWished(row plan.Reel) bool {
	if r.wished == nil {
		r.wished = map[plan.ReelID]int{}
		for _, wish := range r.wishes(r.plan) {
			r.wished[wish.reel] += wish.quantity
		}
	}
	return r.wished[row.ID] > 0
}

// whereOf lists where the cables of a row of the house are.
func (r *reader) whereOf(row plan.Reel) []Whereabouts {
	if r.where == nil {
		r.where = map[plan.ReelID][]Whereabouts{}
		for _, w := range r.Whereabouts(r.typed.Day) {
			r.where[w.Reel.ID] = append(r.where[w.Reel.ID], w)
		}
	}
	return r.where[row.ID]
}

// placed says where a row of the house is, as the end of a sentence: of several cables how many are where.
func (r *reader) placed(row plan.Reel) string {
	var parts []string
	for _, w := range r.whereOf(row) {
		if row.Count() == 1 {
			parts = append(parts, w.Words(r.typed.Day))
			continue
		}
		parts = append(parts, fmt.Sprintf("%d %s", w.Quantity, w.Words(r.typed.Day)))
	}
	return words.And(parts, 3)
}

// addCame means some of a row that the house receives, of the shows that have it.
func (r *reader) addCame(row plan.Reel, count int) {
	out := r.outOf(row)
	switch {
	case len(out) == 0 && row.State != "":
		r.out.Found = append(r.out.Found, row.ID)
		return
	case len(out) == 0:
		r.not(r.named(row) + " is " + cmp.Or(r.placed(row), string(InHouse)) + ": there is nothing to receive")
		return
	}
	if row.State != "" {
		r.out.Found = append(r.out.Found, row.ID)
	}
	every := count == 0
	for _, w := range out {
		came := w.Quantity
		if !every {
			came = min(count, w.Quantity)
			count -= came
		}
		if came > 0 {
			r.out.Came = append(r.out.Came, Received{Taking: w.Taking.ID, Plan: w.Taking.Plan, Quantity: came})
		}
	}
}

// outOf lists which shows have cables of a row, of those that are meant.
func (r *reader) outOf(row plan.Reel) []Whereabouts {
	return slices.DeleteFunc(slices.Clone(r.whereOf(row)), func(w Whereabouts) bool {
		return w.Place != WithShow && w.Place != Overdue || r.shows != nil && !slices.Contains(r.shows, w.Taking.show())
	})
}
