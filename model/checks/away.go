package checks

import (
	"fmt"
	"slices"

	"stageloom/model/budget"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// notThere finds reels that the stock names and that cannot be laid: missing, in repair, written off, or not let to the show by
// the house. A link that lays one stops the show; where the house keeps some that no link lays, somebody counts on them.
func notThere(s *Subject) (found []Finding) {
	held := map[plan.ReelID][]plan.LinkID{}
	for segment := range s.Plan.Segments.All() {
		if segment.Reel != "" {
			held[segment.Reel] = append(held[segment.Reel], segment.Link)
		}
	}
	for reel := range s.Plan.Reels.All() {
		switch in := held[reel.ID]; {
		case reel.There() == reel.Count():
		case len(in) > reel.There():
			for _, id := range slices.Compact(in) { // segments lie by link
				found = append(found, s.laysAway(id, reel, len(in)))
			}
		case reel.Lacking > 0 && reel.State == "":
			found = append(found, Finding{
				Severity: Warn, Where: []Place{{plan.ReelsTable, reel.Key()}},
				What:   fmt.Sprintf("the house does not let this show have %s", lacking(reel)),
				Remedy: "Take others of the house's stock, or settle it with who has them; saving asks the house again. No link lays them yet.",
			})
		}
	}
	return found
}

// laysAway is the finding of a link that lays what is not there of a row, of which links lay so many.
func (s *Subject) laysAway(id plan.LinkID, reel plan.Reel, laid int) Finding {
	link, _ := s.Plan.Link(id)
	f := Finding{Severity: Stop, Where: and(at(&link), plan.ReelsTable, reel.Key()), Remedy: wayOut(reel)}
	if reel.Count() == 1 {
		f.What = fmt.Sprintf("%s lays %s, which %s", link.Name, reelName(reel), reel.AwayWords())
	} else {
		some := fmt.Sprintf("%s; links lay %d, and %d %s there: the rest %s",
			rowName(reel), laid, reel.There(), words.Plural(reel.There(), "is", "are"), reel.AwayWords())
		f.What = fmt.Sprintf("%s lays one of %s", link.Name, some)
		f.many, f.item = "lay some of "+some, link.Name
	}
	if link.IsSpare() {
		f.Severity, f.What, f.many, f.item = Warn, "the laid spare "+f.What, "", ""
	}
	return f
}

// rowName is a reel, or how many untagged ones of which length.
func rowName(reel plan.Reel) string {
	if reel.Count() == 1 {
		return reelName(reel)
	}
	return fmt.Sprintf("%d untagged reels of %s", reel.Count(), budget.Metres(reel.Length))
}

// lacking names those of a row that the show lacks, and says where they are.
func lacking(reel plan.Reel) string {
	if reel.Count() == 1 {
		return fmt.Sprintf("%s, which %s", rowName(reel), reel.AwayWords())
	}
	return fmt.Sprintf("%d of %s: what is lacking %s", reel.Lacking, rowName(reel), reel.AwayWords())
}

// wayOut says what to do where a link lays what is not there.
func wayOut(reel plan.Reel) string {
	switch reel.State {
	case plan.InRepair:
		return "Lay another in its place, or clear its state when it is back from repair."
	case plan.WrittenOff:
		return "Lay another in its place, and take this one out of the stock."
	case "":
		return "Lay another in its place, or settle it with who has it and save: saving asks the house again. What the house received is had again by taking it anew."
	}
	return "Lay another in its place; when it turns up, clear its state."
}
