package checks

import (
	"fmt"

	"stageloom/model/budget"
	"stageloom/model/plan"
)

func badReel(s *Subject) (found []Finding) {
	for segment := range s.Plan.Segments.All() {
		reel, found1 := s.Plan.Reels.Get(plan.Key(segment.Reel))
		if !found1 || reel.Condition != "faulty" && reel.Condition != "suspect" {
			continue
		}
		link, _ := s.Plan.Link(segment.Link)
		finding := Finding{
			Severity: Warn, Where: and(at(&link), "reels", reel.Key()),
			What:   fmt.Sprintf("%s uses %s, which is suspect", link.Name, reelName(reel)),
			Remedy: "Test it before the show, or take another.",
		}
		if reel.Condition == "faulty" {
			finding.Severity = Stop
			finding.What = fmt.Sprintf("%s uses %s, which is faulty", link.Name, reelName(reel))
			finding.Remedy = "Take another, mark this one and keep it out of the show."
		}
		finding.What += whatWasFound(reel)
		found = append(found, finding)
	}
	return found
}

// whatWasFound says why a reel is marked, where that was found and on which day, as far as it is noted.
func whatWasFound(reel plan.Reel) (words string) {
	if reel.Reason != "" {
		words = ": " + reel.Reason
	}
	if reel.FoundAt != "" {
		words += ", found at " + reel.FoundAt
	}
	if reel.FoundOn != "" {
		words += ", " + reel.FoundOn
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
		look(Place{"reels", reel.Key()}, reelName(reel), reel.Kind, reel.Length, reel.Measured)
	}
	for line := range s.Plan.HouseLines.All() {
		look(Place{"house_lines", line.Key()}, "house line "+line.Name, line.Kind, line.Length, line.Measured)
	}
	return found
}
