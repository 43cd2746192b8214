package cabling

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"sort"
	"strings"

	"stageloom/model/picking"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// explain says of every unserved run why it is, by what all links of the plan hold after the pick.
func (z *question) explain(outcomes []outcome) (unserved []Unserved) {
	whole, answer, holders := z.wholeStock(outcomes)
	over := z.overAlone(whole, answer)
	for i := range outcomes {
		if r := outcomes[i].run; !outcomes[i].served && r.settled() {
			unserved = append(unserved, r.explainKept())
		}
	}
	for _, verdict := range picking.Explain(whole, answer) {
		r := z.survey.runs[z.runIndex[verdict.Link]]
		if by, is := over[verdict.Link]; is && verdict.Reason == picking.CrowdedOut {
			verdict.Reason, verdict.Over = picking.OverLimit, by
		}
		if !outcomes[z.runIndex[verdict.Link]].served {
			unserved = append(unserved, r.explained(verdict, holders))
		}
	}
	slices.SortStableFunc(unserved, func(a, b Unserved) int {
		return cmp.Or(cmp.Compare(b.Priority, a.Priority), words.Natural(a.Name, b.Name), cmp.Compare(a.Link, b.Link))
	})
	return unserved
}

// wholeStock is the problem over the whole stock, with all links of the plan that hold any of it, and who holds what. Behind
// the links of the problem come those that hold cables which were not picked.
func (z *question) wholeStock(outcomes []outcome) (*picking.Problem, *picking.Answer, []linkAfter) {
	whole, s := z.problem, z.survey
	whole.Lines = slices.Clone(whole.Lines)
	for i := range whole.Lines {
		whole.Lines[i].Count = s.lines[i].all
	}
	whole.Links = slices.Clone(whole.Links)
	answer := &picking.Answer{Picks: make([][]int, len(whole.Links))}
	holders := make([]linkAfter, len(whole.Links))
	place := map[plan.LinkID]int{}
	for i, at := range z.runIndex {
		holders[i] = linkAfter{outcomes[at].run.link, true}
		place[outcomes[at].run.link.ID] = i
		if outcomes[at].served {
			answer.Picks[i] = []int{}
		}
	}
	for link, chain := range s.after(outcomes) {
		lines := s.linesOf(chain)
		if at, is := place[link.link.ID]; is && answer.Picks[at] != nil {
			answer.Picks[at] = lines
		} else if len(lines) > 0 {
			whole.Links = append(whole.Links, picking.Link{Need: 1, Priority: link.link.Priority})
			answer.Picks, holders = append(answer.Picks, lines), append(holders, link)
		}
	}
	return &whole, answer, holders
}

// overAlone tells by how much links about kept cables would be over if they had the whole stock, and takes their limits off
// the problem: the optimiser's own word on that counts each line once, and about kept cables it lies in several gaps.
func (z *question) overAlone(whole *picking.Problem, answer *picking.Answer) map[int]int {
	over := map[int]int{}
	for i := range z.problem.Links {
		if answer.Picks[i] != nil || !whole.Links[i].Attached || whole.Links[i].Limit[0] == 0 || stands(whole, i, 0) {
			continue
		}
		most := 1
		for most < 1<<20 && !stands(whole, i, most) {
			most *= 2
		}
		over[i] = most/2 + sort.Search(most-most/2, func(by int) bool { return stands(whole, i, most/2+by) })
		whole.Links[i].Limit = []int{0}
	}
	return over
}

// stands reports whether a link could be served alone if its limit were higher by so much.
func stands(whole *picking.Problem, at, by int) bool {
	alone := picking.Problem{Lines: whole.Lines, Links: []picking.Link{whole.Links[at]}, Joints: whole.Joints, Nodes: 1}
	alone.Links[0].Limit = []int{whole.Links[at].Limit[0] + by}
	return picking.Pick(context.Background(), &alone, nil).Picks[0] != nil
}

// linesOf lists the lines of the stock that a chain's reels belong to.
func (s *survey) linesOf(chain []plan.Segment) (lines []int) {
	for _, segment := range chain {
		reel, is := s.plan.Reels.Get(plan.Key(segment.Reel))
		if at, known := s.lineOf[keyOf(reel)]; is && known && s.pickable(reel) {
			lines = append(lines, at)
		}
	}
	return lines
}

// linkAfter is a link of the plan; picked tells that it was picked for.
type linkAfter struct {
	link   plan.Link
	picked bool
}

// after yields all links of the plan with their cables after the pick.
func (s *survey) after(outcomes []outcome) func(func(linkAfter, []plan.Segment) bool) {
	picked := map[plan.LinkID]int{}
	for i := range outcomes {
		picked[outcomes[i].run.link.ID] = i
	}
	return func(yield func(linkAfter, []plan.Segment) bool) {
		for link := range s.plan.Links.All() {
			chain := s.plan.SegmentsOf(link.ID)
			i, is := picked[link.ID]
			if is {
				chain = outcomes[i].laid.segments()
			}
			if !yield(linkAfter{link, is}, chain) {
				return
			}
		}
	}
}

func (r *run) unservedFor(why Why) Unserved {
	return Unserved{Link: r.link.ID, Name: r.link.Name, Priority: r.link.Priority, Why: why, Lies: r.survey.lies[r.link.ID], reference: r.fixed.Reference()}
}

// explainKept says why a run is not served by its kept cables, beside which there is nothing to pick.
func (r *run) explainKept() Unserved {
	if r.wanting() {
		return r.unservedFor(NoMetres)
	}
	if over := rounded(&r.fixed) - r.limit; r.sound && r.fixed.Graded && over > 0 {
		u := r.unservedFor(Over)
		u.OverDB = float64(over) / 1000
		return u
	}
	u := r.unservedFor(NoFit)
	u.detail = "its kept cables do not carry " + r.fixed.TransportName
	return u
}

// explained puts a verdict in words of the trade.
func (r *run) explained(v picking.Verdict, holders []linkAfter) Unserved {
	switch v.Reason {
	case picking.NoKind:
		u := r.unservedFor(NoKind)
		u.detail = "it holds no kind of cable that is allowed for it"
		return u
	case picking.TooShort:
		u := r.unservedFor(TooShort)
		u.Short = float64(v.Short+unnoticed) / 1000
		return u
	case picking.OverLimit:
		u := r.unservedFor(Over)
		u.OverDB = float64(v.Over) / 1000
		return u
	case picking.Unfit:
		u := r.unservedFor(NoFit)
		u.detail = fmt.Sprintf("no cables that reach fit port %s at one end and port %s at the other", r.link.FromPort, r.link.ToPort)
		return u
	}
	return r.crowded(v.By, holders)
}

// crowded says which links hold what a run could be served with, and which of them lie on site.
func (r *run) crowded(by []int, holders []linkAfter) Unserved {
	u := r.unservedFor(Crowded)
	var links []plan.Link
	for _, at := range by {
		if link := holders[at].link; link.ID != r.link.ID && !slices.Contains(u.By, link.ID) {
			links = append(links, link)
			u.By = append(u.By, link.ID)
			u.Held = u.Held || !holders[at].picked
		}
	}
	slices.SortStableFunc(links, func(a, b plan.Link) int {
		return cmp.Or(cmp.Compare(a.Priority, b.Priority), words.Natural(a.Name, b.Name))
	})
	var lying []string
	for i, link := range links {
		u.By[i] = link.ID
		if r.survey.lies[link.ID] || link.Lies() && !r.survey.picks(link.ID) {
			u.Lying = append(u.Lying, link.ID)
			lying = append(lying, link.Name+" is "+link.Done)
		}
	}
	u.by, u.lying = holdersInWords(links), words.And(lying, fewNamed)
	return u
}

// picks reports whether a link is picked for.
func (s *survey) picks(id plan.LinkID) bool {
	return slices.ContainsFunc(s.runs, func(r *run) bool { return r.link.ID == id })
}

// holdersInWords names links with their priorities: "L02 and L05 (priority 1)".
func holdersInWords(links []plan.Link) string {
	var parts []string
	for i := 0; i < len(links); {
		var names []string
		from := i
		for ; i < len(links) && links[i].Priority == links[from].Priority; i++ {
			names = append(names, links[i].Name)
		}
		said := words.And(names, fewNamed)
		if p := links[from].Priority; p > 0 {
			said += fmt.Sprintf(" (priority %d)", p)
		}
		parts = append(parts, said)
	}
	return strings.Join(parts, ", ")
}
