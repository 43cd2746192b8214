package picking

import (
	"cmp"
	"math"
	"slices"
)

// Reason is why a link is unserved.
type Reason int

// The reasons. All but CrowdedOut hold for the whole stock, were the link alone.
const (
	NoKind     Reason = iota // no reel of a kind that may be on it
	TooShort                 // no reels with the joins allowed reach
	Unfit                    // reels reach, but their ends do not fit together and into both ends
	OverLimit                // reels reach and fit, but lose too much
	CrowdedOut               // reels would serve it, but other links hold them
)

// Verdict says why a link is unserved.
type Verdict struct {
	Link   int
	Reason Reason
	// Short is the length that is missing, where it is too short.
	Short int
	// Over is by how much the best reels are over the limit, and Frequency where.
	Over, Frequency int
	// By are the links that hold what would serve it, the least important first; its partner is among them where only the
	// partner's kind is left.
	By []int
}

// Explain says of every unserved link of an answer why it is.
func Explain(p *Problem, a *Answer) []Verdict {
	var verdicts []Verdict
	for link := range p.Links {
		if a.Picks[link] == nil && p.Links[link].Need > 0 {
			verdicts = append(verdicts, explain(p, a, link))
		}
	}
	return verdicts
}

func explain(p *Problem, a *Answer, link int) Verdict {
	v := Verdict{Link: link}
	if list, _ := patternsOf(p, link); len(list) > 0 {
		if over := p.wholeOver(link); over > 0 {
			v.Reason, v.Over = OverLimit, over
			return v
		}
		v.Reason, v.By = CrowdedOut, crowding(p, a, link, list)
		return v
	}
	e := newEnumerator(p, link)
	if len(e.usable) == 0 {
		v.Reason = NoKind
		return v
	}
	if longest := e.longest(); longest < e.link.Need {
		v.Reason, v.Short = TooShort, e.link.Need-longest
		return v
	}
	v.Reason = Unfit
	if over, frequency, fits := leastOver(p, link); fits {
		v.Reason, v.Over, v.Frequency = OverLimit, over, frequency
	}
	return v
}

// wholeOver is by how much the whole that a link is a piece of is over its limit even where each piece loses as little as
// it can; 0 where it is not, or a piece has no pattern at all.
func (p *Problem) wholeOver(link int) int {
	whole := p.wholeOf(link)
	if whole == nil {
		return 0
	}
	sum := 0
	for _, piece := range whole.Links {
		list, _ := patternsOf(p, piece)
		if len(list) == 0 {
			return 0
		}
		least := math.MaxInt
		for _, pattern := range list {
			if len(pattern.loss) > 0 {
				least = min(least, pattern.loss[0])
			} else {
				least = 0
			}
		}
		sum += least
	}
	return max(0, sum-whole.Limit)
}

// longest is how far the longest reels reach with the joins allowed.
func (e *enumerator) longest() (length int) {
	left := e.most
	for i := 0; i < len(e.usable) && left > 0; i++ {
		n := min(left, e.problem.Lines[e.usable[i].Line].Count)
		length, left = length+n*e.lengths[i], left-n
	}
	return length
}

// leastOver finds by how much all limits of a link would have to rise for a pattern to stand, and at which frequency the
// best pattern would then be at its limit. It reports false where ends do not fit whatever the limits.
func leastOver(p *Problem, link int) (over, frequency int, fits bool) {
	high := 1
	for _, u := range p.Links[link].Usable {
		for f := range u.Loss {
			high = max(high, MaxReels*u.Loss[f])
		}
	}
	high += mostJoints(p, link)
	if _, _, fits = raised(p, link, high); !fits {
		return 0, 0, false
	}
	low := 0 // the limits as they are let nothing stand
	for high-low > 1 {
		middle := low + (high-low)/2
		if _, _, stands := raised(p, link, middle); stands {
			high = middle
		} else {
			low = middle
		}
	}
	_, frequency, _ = raised(p, link, high)
	return high, frequency, true
}

// mostJoints is more than all joints and ends of a chain can lose.
func mostJoints(p *Problem, link int) (most int) {
	add := func(losses []int) {
		for _, loss := range losses {
			most = max(most, loss)
		}
	}
	for _, row := range p.Joints {
		for _, joint := range row {
			add(joint.Loss)
		}
	}
	for _, u := range p.Links[link].Usable {
		add(u.First)
		add(u.Last)
	}
	return (MaxReels + 1) * most
}

// raised lists the patterns of a link with its limits raised, and at which frequency the first of them has least in hand.
func raised(p *Problem, link, by int) (list []pattern, frequency int, stands bool) {
	free := *p
	free.Links = slices.Clone(p.Links)
	limits := slices.Clone(p.Links[link].Limit)
	for f := range limits {
		if limits[f] > 0 {
			limits[f] += by
		}
	}
	free.Links[link].Limit = limits
	list, _ = patternsOf(&free, link)
	if len(list) == 0 {
		return nil, 0, false
	}
	least := math.MaxInt
	for f, limit := range limits {
		if left := limit - list[0].loss[f]; limit > 0 && left < least {
			frequency, least = f, left
		}
	}
	return list, frequency, true
}

// crowding finds the links that hold what the link would need: of its patterns the one that fewest links would have to
// give something up for.
func crowding(p *Problem, a *Answer, link int, list []pattern) []int {
	left := make([]int, len(p.Lines))
	for i, line := range p.Lines {
		left[i] = line.Count
	}
	holders := make([][]int, len(p.Lines))
	for other, picks := range a.Picks {
		for _, line := range picks {
			left[line]--
			if !slices.Contains(holders[line], other) {
				holders[line] = append(holders[line], other)
			}
		}
	}
	var best []int
	for n, one := range list {
		by := inTheWay(p, a, link, one, left, holders)
		if n == 0 || len(by) > 0 && len(by) < len(best) {
			best = by
		}
	}
	if len(best) == 0 { // reels are left, but not with what the other pieces of its whole have
		best = others(p, a, link)
	}
	slices.SortStableFunc(best, func(x, y int) int {
		return cmp.Or(cmp.Compare(p.Links[x].Priority, p.Links[y].Priority), cmp.Compare(x, y))
	})
	return best
}

// others are the served links of the whole that a link is a piece of.
func others(p *Problem, a *Answer, link int) (by []int) {
	whole := p.wholeOf(link)
	if whole == nil {
		return nil
	}
	for _, piece := range whole.Links {
		if piece != link && len(a.Picks[piece]) > 0 {
			by = append(by, piece)
		}
	}
	return by
}

// inTheWay lists the links that hold reels of a pattern of which none is left, and the partner that uses one of its kinds.
func inTheWay(p *Problem, a *Answer, link int, one pattern, left []int, holders [][]int) (by []int) {
	want := map[int]int{}
	for _, line := range one.lines {
		want[line]++
	}
	for line, n := range want {
		if n > left[line] {
			for _, other := range holders[line] {
				if !slices.Contains(by, other) {
					by = append(by, other)
				}
			}
		}
	}
	for _, pair := range p.Apart {
		partner := pair.Backup
		if pair.Backup == link {
			partner = pair.Main
		} else if pair.Main != link {
			continue
		}
		for _, line := range a.Picks[partner] {
			for mine := range want {
				if p.Lines[mine].Kind == p.Lines[line].Kind && !slices.Contains(by, partner) {
					by = append(by, partner)
				}
			}
		}
	}
	slices.Sort(by)
	return by
}
