package day

import (
	"fmt"
	"strings"

	"stageloom/model/assess"
	"stageloom/model/plan"
)

// TakenBack says of which links an edit of something else makes untrue what was done on site, and which it moves; blank for
// none. What a person takes back by hand is not told.
func TakenBack(before *plan.Plan, after *assess.Assessment) string {
	if before.Links == after.Plan.Links {
		return ""
	}
	var again, moved []string
	for _, link := range after.Links() {
		old, stood := before.Link(link.ID)
		switch {
		case !stood || !caused(before, after.Plan, old, link):
		case old.Is(plan.Laid) && !link.Is(old.Done):
			again = append(again, link.Name+" "+missing(old, link))
		case link.Moved && !old.Moved:
			moved = append(moved, link.Name+", "+link.Done)
		}
	}
	var said []string
	if len(again) > 0 {
		said = append(said, "On site again: "+some(again)+".")
	}
	if len(moved) > 0 {
		said = append(said, "Moved on the plan, look at it on site: "+some(moved)+".")
	}
	return strings.Join(said, " ")
}

// caused reports whether more than the mark itself was changed.
func caused(before, after *plan.Plan, old, link plan.Link) bool {
	link.Done, link.Moved = old.Done, old.Moved
	return link != old || before.Segments != after.Segments || before.Devices != after.Devices ||
		before.LinkPoints != after.LinkPoints || before.Reels != after.Reels || before.HouseLines != after.HouseLines
}

// missing lists the steps that were done and are not any more: "is to be joined and tested".
func missing(old, link plan.Link) string {
	var steps []string
	for _, step := range plan.Steps() {
		if old.Is(step) && !link.Is(step) {
			steps = append(steps, step)
		}
	}
	last := len(steps) - 1
	if last == 0 {
		return "is to be " + steps[0]
	}
	return "is to be " + strings.Join(steps[:last], ", ") + " and " + steps[last]
}

// mostNamed is how many links a sentence names.
const mostNamed = 4

func some(names []string) string {
	if len(names) > mostNamed {
		return strings.Join(names[:mostNamed], "; ") + fmt.Sprintf("; and %d more", len(names)-mostNamed)
	}
	return strings.Join(names, "; ")
}
