package picking_test

import (
	"context"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/picking"
)

// brute tries every way to serve every link, with no thought of which could be best.
type brute struct {
	p        *picking.Problem
	order    []picking.Objective
	anything bool
	ways     [][]way
	left     []int
	chosen   []int
	best     [11]int
	found    bool
}

// way is a pattern with its sums; reels in an order that stands with the least loss to be found.
type way struct {
	lines []int
	loss  []int
	sums  [11]int
}

func bruteBest(p *picking.Problem) [11]int {
	b := &brute{p: p, order: p.Objectives(), anything: hadAnything(p)}
	for i := range p.Links {
		link := &p.Links[i]
		ways := []way{{nil, nil, tally(p, link, nil, nil, b.anything)}}
		b.sequences(link, nil, func(lines []int) {
			if loss, stands := chained(p, link, lines); stands {
				ways = append(ways, way{append([]int{}, lines...), loss, tally(p, link, lines, loss, b.anything)})
			}
		})
		b.ways = append(b.ways, ways)
	}
	for _, line := range p.Lines {
		b.left = append(b.left, line.Count)
	}
	b.link(0, [11]int{})
	return b.best
}

// sequences gives every sequence of reels that the joins allow.
func (b *brute) sequences(link *picking.Link, lines []int, try func([]int)) {
	if len(lines) > 0 && joined(link, lines) <= link.MaxJoins {
		try(lines)
	}
	if len(lines) == picking.MaxReels || joined(link, append(lines, 0)) > link.MaxJoins {
		return
	}
	for _, u := range link.Usable {
		b.sequences(link, append(lines, u.Line), try)
	}
}

func (b *brute) less(a, c [11]int) bool {
	for _, o := range b.order {
		if a[o] != c[o] {
			return a[o] < c[o]
		}
	}
	return false
}

func (b *brute) link(n int, sums [11]int) {
	if n == len(b.p.Links) {
		for _, whole := range b.p.Wholes {
			loss := 0
			for _, link := range whole.Links {
				if w := b.ways[link][b.chosen[link]]; len(w.lines) > 0 {
					loss += w.loss[0]
				}
			}
			switch {
			case loss > whole.Limit:
				return
			case whole.Limit-loss < whole.Wanted:
				sums[picking.UnderMargin]++
			}
		}
		b.spare(0, sums)
		return
	}
	for i, w := range b.ways[n] {
		fits := true
		for _, line := range w.lines {
			b.left[line]--
			fits = fits && b.left[line] >= 0
		}
		b.chosen = append(b.chosen, i)
		if fits && b.apart(n) {
			next := sums
			for o := range next {
				next[o] += w.sums[o]
			}
			b.link(n+1, next)
		}
		b.chosen = b.chosen[:n]
		for _, line := range w.lines {
			b.left[line]++
		}
	}
}

// apart reports whether pairs that are both decided keep to different kinds.
func (b *brute) apart(n int) bool {
	for _, pair := range b.p.Apart {
		if pair.Main > n || pair.Backup > n {
			continue
		}
		for _, x := range b.ways[pair.Main][b.chosen[pair.Main]].lines {
			for _, y := range b.ways[pair.Backup][b.chosen[pair.Backup]].lines {
				if b.p.Lines[x].Kind == b.p.Lines[y].Kind {
					return false
				}
			}
		}
	}
	return true
}

func (b *brute) spare(n int, sums [11]int) {
	if n < len(b.p.Spares) {
		next := sums
		next[picking.NotHeld]++
		b.spare(n+1, next)
		for _, line := range b.p.Spares[n].Lines {
			if b.left[line] > 0 {
				b.left[line]--
				b.spare(n+1, sums)
				b.left[line]++
			}
		}
		return
	}
	boxes := map[int]bool{}
	for line := range b.p.Lines {
		if box := b.p.Lines[line].Case; box > 0 && b.left[line] < b.p.Lines[line].Count {
			boxes[box] = true
		}
	}
	all := map[int]bool{}
	for _, line := range b.p.Lines {
		if line.Case > 0 {
			all[line.Case] = true
		}
	}
	if len(all) > 1 {
		sums[picking.Cases] = len(boxes)
	}
	if !b.found || b.less(sums, b.best) {
		b.best, b.found = sums, true
	}
}

// random is a small plan; every part of the problem comes up in some.
func random(r *rand.Rand) *picking.Problem {
	const classes = 3
	p := &picking.Problem{Order: picking.Order(r.IntN(2))}
	frequencies := 1 + r.IntN(2)
	losses := func(most int) []int {
		l := make([]int, frequencies)
		for f := range l {
			l[f] = r.IntN(most)
		}
		return l
	}
	plainEnds := r.IntN(2) == 0
	for range classes {
		row := make([]picking.Joint, classes)
		for i := range row {
			row[i] = picking.Joint{Fits: plainEnds || r.IntN(4) > 0, Loss: losses(600)}
		}
		p.Joints = append(p.Joints, row)
	}
	boxes := r.IntN(4)
	for range 2 + r.IntN(4) {
		line := picking.Line{Kind: r.IntN(3), Length: 10 * (1 + r.IntN(8)), Count: r.IntN(4)}
		if boxes > 0 {
			line.Case = r.IntN(boxes + 1)
		}
		p.Lines = append(p.Lines, line)
	}
	before := r.IntN(2) == 0
	for range 1 + r.IntN(4) {
		p.Links = append(p.Links, randomLink(r, p, losses, plainEnds, before))
	}
	if len(p.Links) > 1 && frequencies == 1 && r.IntN(2) == 0 {
		whole := picking.Whole{Links: []int{0, 1}, Limit: 1 + r.IntN(16000), Wanted: r.IntN(3000)}
		for _, link := range whole.Links {
			p.Links[link].Limit, p.Links[link].Wanted = []int{whole.Limit}, 0
		}
		p.Wholes = []picking.Whole{whole}
	}
	if len(p.Links) > 1 && r.IntN(3) == 0 {
		p.Apart = []picking.Pair{{Main: 0, Backup: 1}}
	}
	if r.IntN(3) == 0 {
		p.Spares = []picking.Spare{{Lines: []int{r.IntN(len(p.Lines))}}}
	}
	return p
}

func randomLink(r *rand.Rand, p *picking.Problem, losses func(int) []int, plainEnds, before bool) picking.Link {
	link := picking.Link{
		Need: 1 + r.IntN(150), Priority: 1 + r.IntN(5), MaxJoins: r.IntN(3), Wanted: r.IntN(3000), Attached: r.IntN(4) == 0, Limit: losses(16000),
	}
	for line := range p.Lines {
		if r.IntN(5) == 0 {
			continue
		}
		u := picking.Usable{Line: line, Loss: losses(3000), First: []int{}, Last: []int{}}
		if !plainEnds {
			u.Class = r.IntN(len(p.Joints))
			if r.IntN(4) == 0 {
				u.First = nil
			}
			if r.IntN(4) == 0 {
				u.Last = losses(300)
			}
		}
		link.Usable = append(link.Usable, u)
	}
	if before {
		for range r.IntN(3) {
			link.Before = append(link.Before, picking.Use{Line: r.IntN(len(p.Lines)), Count: 1})
		}
		link.Lies = len(link.Before) > 0 && r.IntN(3) == 0
	}
	return link
}

func TestSmallPlansAgreeWithTryingEverything(t *testing.T) {
	plans := 10000
	if testing.Short() {
		plans = 1000
	}
	r := rand.New(rand.NewPCG(2026, 11))
	served, proved := 0, 0
	for n := range plans {
		p := random(r)
		a := picking.Pick(context.Background(), p, nil)
		requireFeasible(t, p, a)
		best := bruteBest(p)
		require.True(t, a.Proved, "plan %d: bounds %v of sums %v", n, a.Bounds, a.Sums)
		require.Equal(t, best, a.Sums, "plan %d of %d: %+v", n, plans, p)
		proved++
		for _, picks := range a.Picks {
			if len(picks) > 0 {
				served++
			}
		}
	}
	t.Logf("%d plans proved, %d links served", proved, served)
	require.Greater(t, served, plans/2, "the plans are no trifles")
}
