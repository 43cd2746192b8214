package checks

import (
	"fmt"
	"maps"
	"slices"

	"stageloom/model/budget"
	"stageloom/model/plan"
	"stageloom/model/words"
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

// crossing tells of each area what crosses it.
func crossing(s *Subject, said []Finding) (found []Finding) {
	crossed := map[across][]Finding{}
	for _, one := range said {
		at := across{plan.AreaID(one.Where[1].Key), one.Short}
		crossed[at] = append(crossed[at], one)
	}
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
			finding := Finding{Severity: lie.severity, Where: []Place{{plan.AreasTable, area.Key()}}, Remedy: lie.remedy}
			if lie.lie == budget.OnGround || lie.lie == budget.InRamp && slices.Contains(stillInTheWay, area.Use) {
				finding.Severity, finding.Remedy = usual.severity, usual.remedy
			}
			names, places := namesOf(links)
			finding.Where = append(finding.Where, places...)
			finding.What = fmt.Sprintf("%s %s %s", area.Name, lie.how, words.Listed(names))
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

// namesOf are the names of the links that something was said of, in their natural order, and their places.
func namesOf(said []Finding) (names []string, places []Place) {
	sortItems(said)
	for i := range said {
		names, places = append(names, said[i].item), append(places, said[i].Where[0])
	}
	return names, places
}

// crosses says of each link which areas it crosses, and how it lies there; one that lies in more than one way lies as the
// first of them says. Within one position nobody walks: the crowd about it is not crossed.
func crosses(s *Subject) (found []Finding) {
	if s.Plan.Areas.Len() == 0 {
		return nil
	}
	ground := s.Reckoner.Ground()
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
		for _, area := range slices.Sorted(maps.Keys(lying)) {
			found = append(found, Finding{Where: and(at(link), plan.AreasTable, plan.Key(area)), Short: lying[area], item: link.Name})
		}
	})
	return found
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
