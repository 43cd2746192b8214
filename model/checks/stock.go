package checks

import (
	"fmt"

	"stageloom/model/budget"
	"stageloom/model/plan"
)

func badReel(s *Subject) (found []Finding) {
	for segment := range s.Plan.Segments.All() {
		if reel, is := s.Plan.Reels.Get(plan.Key(segment.Reel)); is && segment.Reel != "" {
			found = append(found, s.bad(segment, plan.ReelsTable, reelName(reel), plan.Mark{
				Condition: reel.Condition, Reason: reel.Reason, FoundAt: reel.FoundAt, FoundOn: reel.FoundOn,
			})...)
		}
	}
	return found
}

func badLine(s *Subject) (found []Finding) {
	for segment := range s.Plan.Segments.All() {
		if line, is := s.Plan.HouseLines.Get(plan.Key(segment.HouseLine)); is && segment.HouseLine != "" {
			found = append(found, s.bad(segment, plan.HouseLinesTable, "house line "+line.Name, plan.Mark{
				Condition: line.Condition, Reason: line.Reason, FoundAt: line.FoundAt, FoundOn: line.FoundOn,
			})...)
		}
	}
	return found
}

// bad finds a link on a cable that is marked suspect or faulty. A laid spare on one stops no show: it only replaces nothing.
func (s *Subject) bad(segment plan.Segment, table, name string, mark plan.Mark) []Finding {
	if mark.Condition != plan.Faulty && mark.Condition != plan.Suspect {
		return nil
	}
	link, _ := s.Plan.Link(segment.Link)
	key := plan.Key(segment.Reel)
	if segment.HouseLine != "" {
		key = plan.Key(segment.HouseLine)
	}
	finding := Finding{
		Severity: Warn, Where: and(at(&link), table, key),
		What:   fmt.Sprintf("%s uses %s, which is %s", link.Name, name, mark.Condition),
		Remedy: "Test it before the show, or take another.",
	}
	switch {
	case link.IsSpare():
		finding.What = fmt.Sprintf("the laid spare %s lies on %s, which is %s", link.Name, name, mark.Condition)
		finding.Remedy = "Let it take over nothing: mend it, or lay another spare."
	case mark.Condition == plan.Faulty && table == plan.HouseLinesTable:
		finding.Severity = Stop
		finding.Remedy = "Lay a cable of the stock, or several joined, in its place, and tell the venue."
	case mark.Condition == plan.Faulty:
		finding.Severity = Stop
		finding.Remedy = "Take another, mark this one and keep it out of the show."
	}
	finding.What += whatWasFound(mark)
	return []Finding{finding}
}

// whatWasFound says why a cable is marked, where that was found and on which day, as far as it is noted.
func whatWasFound(mark plan.Mark) (words string) {
	if mark.Reason != "" {
		words = ": " + mark.Reason
	}
	if mark.FoundAt != "" {
		words += ", found at " + mark.FoundAt
	}
	if mark.FoundOn != "" {
		words += ", " + mark.FoundOn
	}
	return words
}

// reelName is a reel's tag, or its length in words.
func reelName(reel plan.Reel) string {
	if reel.Tag != "" {
		return "reel " + reel.Tag
	}
	return fmt.Sprintf("an untagged reel of %s", budget.Metres(reel.Length))
}

// A measured loss outside this share of what its kind gives is doubted.
const leastShare, mostShare = 0.8, budget.WornShare

func measured(s *Subject) (found []Finding) {
	look := func(place Place, name string, kind plan.CableKindID, length float64, figure plan.Optional) {
		share := s.Reckoner.Share(kind, length, figure.Value)
		if !figure.Set || share == 0 && figure.Value > 0 || share >= leastShare && share <= mostShare {
			return
		}
		finding := Finding{
			Severity: Warn, Where: []Place{place},
			What:   fmt.Sprintf("%s was measured at %.1f dB, %.0f %% of what its kind gives", name, figure.Value, 100*share),
			Remedy: "Check the figure, its length and its kind. It counts as 80 % at best until then.",
		}
		if share > mostShare {
			finding.Remedy = "Look at its plugs and measure again; a cable that loses so much is on its way to faulty."
		}
		found = append(found, finding)
	}
	for reel := range s.Plan.Reels.All() {
		look(Place{plan.ReelsTable, reel.Key()}, reelName(reel), reel.Kind, reel.Length, reel.Measured)
	}
	for line := range s.Plan.HouseLines.All() {
		look(Place{plan.HouseLinesTable, line.Key()}, "house line "+line.Name, line.Kind, line.Length, line.Measured)
	}
	return found
}
