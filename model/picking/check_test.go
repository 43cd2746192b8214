package picking_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/picking"
)

// usable finds a line among those of a link.
func usable(link *picking.Link, line int) (picking.Usable, bool) {
	for _, u := range link.Usable {
		if u.Line == line {
			return u, true
		}
	}
	return picking.Usable{}, false
}

// chained adds up a pattern in the order given and reports whether it fits and is within every limit.
func chained(p *picking.Problem, link *picking.Link, lines []int) (loss []int, stands bool) {
	loss = make([]int, len(link.Limit))
	length := 0
	for i, line := range lines {
		u, ok := usable(link, line)
		if !ok {
			return nil, false
		}
		length += p.Lines[line].Length
		parts := [][]int{u.Loss}
		if i == 0 {
			if u.First == nil {
				return nil, false
			}
			parts = append(parts, u.First)
		} else {
			before, _ := usable(link, lines[i-1])
			joint := p.Joints[before.Class][u.Class]
			if !joint.Fits {
				return nil, false
			}
			parts = append(parts, joint.Loss)
		}
		if i == len(lines)-1 {
			if u.Last == nil {
				return nil, false
			}
			parts = append(parts, u.Last)
		}
		for f := range loss {
			for _, part := range parts {
				if f < len(part) {
					loss[f] += part[f]
				}
			}
			if link.Limit[f] > 0 && loss[f] > link.Limit[f] {
				return nil, false
			}
		}
	}
	return loss, length >= link.Need
}

// under reports whether a served link has less margin than wanted.
func under(link *picking.Link, loss []int) bool {
	for f, limit := range link.Limit {
		if limit > 0 && limit-loss[f] < link.Wanted {
			return true
		}
	}
	return false
}

// joined counts the joins that a pattern adds.
func joined(link *picking.Link, lines []int) int {
	if len(lines) > 0 && link.Attached {
		return len(lines)
	}
	return max(0, len(lines)-1)
}

// tally is the objectives of one link's pattern, nil for none, reckoned from the statement of the problem alone.
func tally(p *picking.Problem, link *picking.Link, lines []int, loss []int, anything bool) (sums [11]int) {
	count := map[int]int{}
	length := 0
	for _, line := range lines {
		count[line]++
		length += p.Lines[line].Length
	}
	if anything {
		before := map[int]int{}
		for _, use := range link.Before {
			before[use.Line] += use.Count
		}
		for line := range p.Lines {
			sums[picking.Changes] += max(count[line]-before[line], before[line]-count[line])
		}
		if link.Lies && sums[picking.Changes] > 0 && (lines != nil || couldLie(p, link)) {
			sums[picking.TakenApart] = 1
		}
	}
	switch {
	case lines == nil && link.Need > 0:
		sums[picking.Unserved] = link.Priority
	case len(lines) > 0:
		sums[picking.Joins], sums[picking.Excess] = joined(link, lines), length-link.Need
		if under(link, loss) {
			sums[picking.UnderMargin] = 1
		}
	}
	return sums
}

// couldLie reports whether what a link had serves it still, in any order.
func couldLie(p *picking.Problem, link *picking.Link) bool {
	var had []int
	for _, use := range link.Before {
		had = append(had, slices.Repeat([]int{use.Line}, use.Count)...)
	}
	count := map[int]int{}
	for _, line := range had {
		if count[line]++; count[line] > p.Lines[line].Count {
			return false
		}
	}
	return len(had) <= picking.MaxReels && joined(link, had) <= link.MaxJoins && anyOrder(p, link, nil, had)
}

func anyOrder(p *picking.Problem, link *picking.Link, lines, rest []int) bool {
	if len(rest) == 0 {
		_, stands := chained(p, link, lines)
		return stands
	}
	for i := range rest {
		if anyOrder(p, link, append(slices.Clone(lines), rest[i]), slices.Delete(slices.Clone(rest), i, i+1)) {
			return true
		}
	}
	return false
}

func hadAnything(p *picking.Problem) bool {
	for i := range p.Links {
		if len(p.Links[i].Before) > 0 {
			return true
		}
	}
	return false
}

// requireFeasible reckons anew, apart from the code under test, that the picks may be made and what they sum to.
func requireFeasible(t testing.TB, p *picking.Problem, a *picking.Answer) {
	t.Helper()
	require.Len(t, a.Picks, len(p.Links))
	used := make([]int, len(p.Lines))
	kinds := make([]map[int]bool, len(p.Links))
	var sums [11]int
	losses := make([]int, len(p.Links))
	for i := range p.Links {
		link, lines := &p.Links[i], a.Picks[i]
		kinds[i] = map[int]bool{}
		for _, line := range lines {
			used[line]++
			kinds[i][p.Lines[line].Kind] = true
		}
		var loss []int
		if len(lines) > 0 {
			var stands bool
			loss, stands = chained(p, link, lines)
			require.True(t, stands, "link %d does not stand with %v", i, lines)
			require.LessOrEqual(t, joined(link, lines), link.MaxJoins)
			require.LessOrEqual(t, len(lines), picking.MaxReels)
			losses[i] = loss[0]
		}
		for o, n := range tally(p, link, lines, loss, hadAnything(p)) {
			sums[o] += n
		}
	}
	for _, whole := range p.Wholes {
		left := whole.Limit
		for _, link := range whole.Links {
			left -= losses[link]
		}
		require.GreaterOrEqual(t, left, 0, "a whole is over")
		if left < whole.Wanted {
			sums[picking.UnderMargin]++
		}
	}
	for line, n := range used {
		require.LessOrEqual(t, n, p.Lines[line].Count, "line %d is picked more often than it is there", line)
	}
	for _, pair := range p.Apart {
		for kind := range kinds[pair.Main] {
			require.False(t, kinds[pair.Backup][kind], "kind %d is on main and backup", kind)
		}
	}
	for _, o := range []picking.Objective{picking.Unserved, picking.UnderMargin, picking.Joins, picking.Changes, picking.Excess} {
		require.Equal(t, sums[o], a.Sums[o], o.String())
		require.LessOrEqual(t, a.Bounds[o], a.Sums[o], o.String())
	}
}
