package picking_test

import (
	"cmp"
	"context"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/picking"
)

// had is what of each line is had beyond the stock, and what that comes to: hired, their length, from the shelf.
type had struct{ hired, length, shelf int }

func comes(p *picking.Problem, more []int) (h had) {
	for line, n := range more {
		hired := max(0, n-p.Lines[line].Shelf)
		h.hired += hired
		h.length += hired * p.Lines[line].Length
		h.shelf += n - hired
	}
	return h
}

func (h had) compare(o had) int {
	return cmp.Or(cmp.Compare(h.hired, o.hired), cmp.Compare(h.length, o.length), cmp.Compare(h.shelf, o.shelf))
}

// The shelf comes before any hire, the fewest pieces before the least length: all that can be had is tried.
func TestAHireCountsTheShelfAndThenTheLength(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 11))
	lent, long := 0, 0
	for range 250 {
		p := random(r)
		p.Spares = nil
		for i := range p.Lines {
			p.Lines[i].Case, p.Lines[i].Shelf = 0, max(0, r.IntN(4)-1)
		}
		hired, a := picking.Hire(context.Background(), p)
		require.True(t, a.Proved)
		uses := make([]int, len(p.Lines))
		for _, use := range hired {
			uses[use.Line] += use.Count
		}
		got := comes(p, uses)
		require.Equal(t, had{a.Sums[picking.Hired], a.Sums[picking.HiredLength], a.Sums[picking.FromShelf]}, got)
		require.Equal(t, a.Sums[picking.Unserved], bruteBest(with(p, uses))[picking.Unserved])
		tried := make([]int, len(p.Lines))
		best := got
		everyHire(p, tried, 0, &best, a.Sums[picking.Unserved])
		require.Equal(t, best, got, "%v of %+v", hired, p.Lines)
		lent += min(1, got.shelf)
		long += min(1, got.hired)
	}
	require.Greater(t, lent, 20)
	require.Greater(t, long, 20)
}

func with(p *picking.Problem, more []int) *picking.Problem {
	q := *p
	q.Lines = slices.Clone(p.Lines)
	for line, n := range more {
		q.Lines[line].Count += n
	}
	return &q
}

// everyHire tries all that is better than the best so far.
func everyHire(p *picking.Problem, more []int, line int, best *had, least int) {
	if line == len(more) {
		if comes(p, more).compare(*best) < 0 && bruteBest(with(p, more))[picking.Unserved] == least {
			*best = comes(p, more)
		}
		return
	}
	for n := 0; n <= picking.MaxReels*len(p.Links); n++ {
		more[line] = n
		if comes(p, more).compare(*best) >= 0 {
			break
		}
		everyHire(p, more, line+1, best, least)
	}
	more[line] = 0
}
