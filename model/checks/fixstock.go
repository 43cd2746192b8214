package checks

import (
	"cmp"
	"fmt"
	"slices"

	"stageloom/model/budget"
	"stageloom/model/plan"
)

// equalReel proposes free reels of the same kind that are no shorter, the nearest in length first.
func equalReel(s *Subject, f Finding) (fixes []Fix) {
	link, found := s.linkOf(f)
	if !found || len(f.Where) < 2 {
		return nil
	}
	bad, _ := s.Plan.Reels.Get(f.Where[1].Key)
	used, wanted := s.Plan.UsedReels(), 0
	for _, segment := range s.Plan.SegmentsOf(link.ID) {
		if segment.Reel == bad.ID {
			wanted++
		}
	}
	var reels []plan.Reel
	for reel := range s.Plan.Reels.All() {
		sound := reel.Condition == "" || reel.Condition == "good"
		if sound && reel.Kind == bad.Kind && reel.Length >= bad.Length && reel.There()-used[reel.ID] >= wanted {
			reels = append(reels, reel)
		}
	}
	slices.SortStableFunc(reels, func(a, b plan.Reel) int { return cmp.Compare(a.Length, b.Length) })
	for _, reel := range reels[:min(mostFixes, len(reels))] {
		fixes = append(fixes, Fix{
			Label: fmt.Sprintf("Take %s, %s, in its place", reelName(reel), budget.Metres(reel.Length)),
			Edit:  func(e *plan.Edit) error { return swapReel(e, link.ID, bad.ID, reel.ID) },
		})
		if reel.Tag == "" {
			fixes[len(fixes)-1].Label = fmt.Sprintf("Take %s in its place", reelName(reel))
		}
	}
	return fixes
}

// reelInstead proposes free reels of a kind that the link runs on and that are no shorter than the house line, the nearest in
// length first.
func reelInstead(s *Subject, f Finding) (fixes []Fix) {
	link, found := s.linkOf(f)
	if !found || len(f.Where) < 2 {
		return nil
	}
	bad, _ := s.Plan.HouseLines.Get(f.Where[1].Key)
	used, media := s.Plan.UsedReels(), s.Reckoner.Transport(link.Transport).Media
	var reels []plan.Reel
	for reel := range s.Plan.Reels.All() {
		kind, _ := s.Plan.CableKinds.Get(plan.Key(reel.Kind))
		sound := reel.Condition == "" || reel.Condition == plan.Good
		if sound && budget.Fits(kind, media) && reel.Length >= bad.Length && reel.There() > used[reel.ID] {
			reels = append(reels, reel)
		}
	}
	slices.SortStableFunc(reels, func(a, b plan.Reel) int { return cmp.Compare(a.Length, b.Length) })
	for _, reel := range reels[:min(mostFixes, len(reels))] {
		kind, _ := s.Plan.CableKinds.Get(plan.Key(reel.Kind))
		fixes = append(fixes, Fix{
			Label: fmt.Sprintf("Lay %s of %s in its place", reelName(reel), kind.Name),
			Edit:  func(e *plan.Edit) error { return layInstead(e, link.ID, bad.ID, reel.ID) },
		})
	}
	return fixes
}

// layInstead puts a reel in the place of a house line in a link.
func layInstead(e *plan.Edit, link plan.LinkID, line plan.HouseLineID, reel plan.ReelID) error {
	segments := slices.Clone(e.Now().SegmentsOf(link))
	for i := range segments {
		if segments[i].HouseLine == line {
			segments[i].HouseLine, segments[i].Reel = "", reel
		}
	}
	e.SetSegments(link, segments)
	return nil
}

// swapReel puts one reel in the place of another in a link.
func swapReel(e *plan.Edit, link plan.LinkID, from, to plan.ReelID) error {
	segments := slices.Clone(e.Now().SegmentsOf(link))
	for i := range segments {
		if segments[i].Reel == from {
			segments[i].Reel = to
		}
	}
	e.SetSegments(link, segments)
	return nil
}

// ownNames proposes a free name for each but the first of those that bear the same.
func ownNames(_ *Subject, f Finding) []Fix {
	rest := f.Where[1:]
	label := "Give the second its own name"
	if len(rest) > 1 {
		label = fmt.Sprintf("Give the other %d their own names", len(rest))
	}
	return []Fix{{Label: label, Edit: func(e *plan.Edit) error {
		for _, place := range rest {
			if err := rename(e, place); err != nil {
				return err
			}
		}
		return nil
	}}}
}

// freshName proposes a name that was never issued.
func freshName(s *Subject, f Finding) []Fix {
	name := s.Plan.FreeLinkName()
	return []Fix{{Label: "Call it " + name, Edit: func(e *plan.Edit) error { return rename(e, f.Where[0]) }}}
}

func rename(e *plan.Edit, place Place) error {
	if place.Table == plan.LinksTable {
		name := e.Now().FreeLinkName()
		return plan.Update(e, place.Key, func(r *plan.Link) { r.Name = name })
	}
	device, _ := e.Now().Devices.Get(place.Key)
	name := e.FreeDeviceName(device.Name)
	return plan.Update(e, place.Key, func(r *plan.Device) { r.Name = name })
}
