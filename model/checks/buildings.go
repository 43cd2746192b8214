package checks

import (
	"fmt"
	"maps"
	"slices"

	"stageloom/model/budget"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// wallThickness is how much of a way may lie between two buildings that touch, or in a wall, in metres.
const wallThickness = 1.0

// runsOutside reports whether a link between two places indoors leaves the buildings on its way. Where no building is drawn,
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

// entersBuilding says of each link which buildings it enters or leaves.
func entersBuilding(s *Subject) (found []Finding) {
	if s.Plan.Areas.Len() == 0 {
		return nil
	}
	ground := s.Reckoner.Ground()
	s.each(func(link *plan.Link, _ *budget.Budget, _ *view) {
		way := s.Reckoner.Way(*link)
		inside := map[plan.AreaID]float64{}
		for _, span := range ground.Spans(way) {
			if span.Area.Use == "building" {
				inside[span.Area.ID] += span.To - span.From
			}
		}
		for _, id := range slices.Sorted(maps.Keys(inside)) {
			if metres := inside[id]; metres > 0 && metres < way.Length()-wallThickness {
				found = append(found, Finding{Where: and(at(link), plan.AreasTable, plan.Key(id)), item: link.Name})
			}
		}
	})
	return found
}

// buildings tells of each building which links enter or leave it, through an opening that somebody has to name.
func buildings(s *Subject, said []Finding) (found []Finding) {
	through := map[plan.AreaID][]Finding{}
	for _, one := range said {
		id := plan.AreaID(one.Where[1].Key)
		through[id] = append(through[id], one)
	}
	for area := range s.Plan.Areas.All() {
		links := through[area.ID]
		if len(links) == 0 {
			continue
		}
		finding := Finding{
			Severity: Note, Where: []Place{{plan.AreasTable, area.Key()}}, Short: "goes through the wall of " + area.Name,
			Remedy: "Ask the venue for the opening: no fire door is held open by cable, what is opened in a fire wall is closed again, and nothing hangs on an edge.",
		}
		names, places := namesOf(links)
		finding.Where = append(finding.Where, places...)
		finding.What = fmt.Sprintf("%s is entered or left by %s", area.Name, words.Listed(names))
		found = append(found, finding)
	}
	return found
}
