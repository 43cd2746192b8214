package checks

import (
	"fmt"
	"slices"

	"stageloom/model/budget"
	"stageloom/model/plan"
)

// wallThickness is how much of a way may lie between two buildings that touch, or in a wall, in metres.
const wallThickness = 1.0

// runsOutside tells whether a link between two places indoors leaves the buildings on its way. Where no building is drawn,
// the site's own exposure is that of the ground between.
func (s *Subject) runsOutside(ground budget.Ground, link plan.Link) bool {
	drawn := false
	for area := range s.Plan.Areas.All() {
		drawn = drawn || area.Use == "building"
	}
	if !drawn {
		return s.Plan.Settings.Exposure != "indoors"
	}
	way := s.Reckoner.Way(link)
	inside, upTo := 0.0, 0.0
	for _, span := range ground.Spans(way) {
		if span.Area.Use == "building" && span.To > upTo {
			inside += span.To - max(span.From, upTo)
			upTo = span.To
		}
	}
	return inside < way.Length()-wallThickness
}

// buildings finds the buildings that links enter or leave, through an opening that somebody has to name.
func buildings(s *Subject) (found []Finding) {
	if s.Plan.Areas.Len() == 0 {
		return nil
	}
	ground, through := s.Reckoner.Ground(), map[plan.AreaID][]*plan.Link{}
	s.each(func(link *plan.Link, _ *budget.Budget, _ *view) {
		way := s.Reckoner.Way(*link)
		inside := map[plan.AreaID]float64{}
		for _, span := range ground.Spans(way) {
			if span.Area.Use == "building" {
				inside[span.Area.ID] += span.To - span.From
			}
		}
		for id, metres := range inside {
			if metres > 0 && metres < way.Length()-wallThickness {
				through[id] = append(through[id], link)
			}
		}
	})
	for area := range s.Plan.Areas.All() {
		links := through[area.ID]
		if len(links) == 0 {
			continue
		}
		finding := Finding{
			Severity: Note, Where: []Place{{"areas", area.Key()}}, Short: "goes through the wall of " + area.Name,
			Remedy: "Ask the venue for the opening: no fire door is held open by cable, what is opened in a fire wall is closed again, and nothing hangs on an edge.",
		}
		slices.SortFunc(links, func(a, b *plan.Link) int { return Natural(a.Name, b.Name) })
		var names []string
		for _, link := range links {
			names = append(names, link.Name)
			finding.Where = and(finding.Where, "links", link.Key())
		}
		finding.What = fmt.Sprintf("%s is entered or left by %s", area.Name, listed(names))
		found = append(found, finding)
	}
	return found
}
