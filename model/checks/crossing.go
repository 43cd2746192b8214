package checks

import (
	"fmt"
	"slices"

	"stageloom/model/budget"
	"stageloom/model/plan"
)

// crossings says what a cable on the ground across an area means; other uses need no word.
var crossings = map[string]struct {
	severity Severity
	remedy   string
}{
	"road":      {Note, "Lay them in ramps rated for the traffic, or fly them from rated fixings by a competent rigger; mark the place."},
	"walkway":   {Note, "Cover them with ramps that wheels and feet pass, light the place, leave no loop to trip on."},
	"exit":      {Warn, "Keep exits clear: lead them round, or over the head from rated fixings by a competent rigger. The venue decides."},
	"fire-lane": {Warn, "Keep fire lanes clear: lead them round. The venue and the fire service decide."},
	"water":     {Warn, "Lead them round, or over it from rated fixings by a competent rigger; no join and no power lies in water or where it may rise."},
	"crowd":     {Warn, "Lead them round the crowd, or beneath a covered trench: feet and poles go through cable."},
}

// lies says how cables that are not simply on the ground cross an area, and what that asks for. On exits and fire lanes a
// cover or a ramp is an obstacle still.
var lies = []struct {
	lie, how string
	severity Severity
	remedy   string
}{
	{budget.OnGround, "is crossed by", Note, ""},
	{budget.Overhead, "is crossed overhead by", Note, "Hang them from rated fixings alone, put up by a competent rigger, with nothing loose above people and the height that vehicles need; the venue decides."},
	{budget.InTrench, "is crossed in a trench by", Note, "See that the trench is covered, closed and dry before the public comes in."},
	{budget.InRamp, "is crossed in a ramp by", Note, "Ramps rated for what goes over them, closed, marked and lit; wheelchair ways stay passable."},
}

// stillInTheWay are the uses that no ramp makes passable.
var stillInTheWay = []string{"exit", "fire-lane"}

func crossing(s *Subject) (found []Finding) {
	if s.Plan.Areas.Len() == 0 {
		return nil
	}
	crossed := s.crossed()
	for area := range s.Plan.Areas.All() {
		usual, tells := crossings[area.Use]
		if !tells {
			continue
		}
		for _, lie := range lies {
			links := crossed[across{area.ID, lie.lie}]
			if len(links) == 0 {
				continue
			}
			finding := Finding{Severity: lie.severity, Where: []Place{{"areas", area.Key()}}, Remedy: lie.remedy}
			if lie.lie == budget.OnGround || lie.lie == budget.InRamp && slices.Contains(stillInTheWay, area.Use) {
				finding.Severity, finding.Remedy = usual.severity, usual.remedy
			}
			slices.SortFunc(links, func(a, b *plan.Link) int { return Natural(a.Name, b.Name) })
			var names []string
			for _, link := range links {
				names = append(names, link.Name)
				finding.Where = and(finding.Where, "links", link.Key())
			}
			finding.What = fmt.Sprintf("%s %s %s", area.Name, lie.how, listed(names))
			found = append(found, finding)
		}
	}
	return found
}

// across is an area with how cables lie across it.
type across struct {
	area plan.AreaID
	lie  string
}

// crossed gathers the links that cross each area, by how they lie there; one that lies in more than one way lies as the
// first of them says. Within one position nobody walks: the crowd about it is not crossed.
func (s *Subject) crossed() map[across][]*plan.Link {
	ground, links := s.Reckoner.Ground(), map[across][]*plan.Link{}
	s.each(func(link *plan.Link, b *budget.Budget, _ *view) {
		if b.Measured.Source == budget.Unknown || b.Measured.Unplaced {
			return
		}
		lying := map[plan.AreaID]string{}
		for _, span := range ground.Spans(s.Reckoner.Way(*link)) {
			if b.Measured.Within && span.Area.Use == "crowd" {
				continue
			}
			lie, had := s.Reckoner.LieIn(*link, span), lying[span.Area.ID]
			if had == "" || rankOf(lie) < rankOf(had) {
				lying[span.Area.ID] = lie
			}
		}
		for area, lie := range lying {
			links[across{area, lie}] = append(links[across{area, lie}], link)
		}
	})
	return links
}

// rankOf is the place of a lie in the list.
func rankOf(lie string) int {
	for i := range lies {
		if lies[i].lie == lie {
			return i
		}
	}
	return len(lies)
}
