package day

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stageloom/model/assess"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// Round lists the links in the order in which they are laid: by phase, those of no phase last, then by name as a reader
// sorts names.
func Round(a *assess.Assessment) []plan.LinkID {
	links := slices.Clone(a.Links())
	slices.SortStableFunc(links, func(x, y plan.Link) int {
		return cmp.Or(cmp.Compare(phase(x), phase(y)), words.Natural(x.Name, y.Name))
	})
	ids := make([]plan.LinkID, len(links))
	for i, link := range links {
		ids[i] = link.ID
	}
	return ids
}

func phase(link plan.Link) int {
	if link.LayPhase == 0 {
		return 100 // behind the last phase that a plan knows
	}
	return link.LayPhase
}

// Tally counts the links and what is done of them.
type Tally struct{ Links, Laid, Joined, Tested int }

// TallyOf counts the links of a plan.
func TallyOf(p *plan.Plan) (t Tally) {
	for link := range p.Links.All() {
		t.Links++
		t.Laid += one(link.Is(plan.Laid))
		t.Joined += one(link.Is(plan.Joined))
		t.Tested += one(link.Is(plan.Tested))
	}
	return t
}

func one(yes bool) int {
	if yes {
		return 1
	}
	return 0
}

// String says it: "12 of 39 laid, 9 joined, 4 tested".
func (t Tally) String() string {
	return fmt.Sprintf("%d of %d laid, %d joined, %d tested", t.Laid, t.Links, t.Joined, t.Tested)
}

// left reports whether something is to be done of a link on site.
func left(link plan.Link) bool { return !link.Is(plan.Tested) || link.Moved }

// Found is a link that answers a search.
type Found struct {
	Link        plan.LinkID
	Name, Words string
}

// Find searches the links of a round by their name, by the devices at their ends and by the tags of their cables. Equal
// names come first, then those that begin with the text, then those that hold it, then the rest; a blank text finds all.
func Find(a *assess.Assessment, round []plan.LinkID, text string) []Found {
	text = strings.ToLower(strings.TrimSpace(text))
	ranked := [4][]Found{}
	for _, id := range round {
		link, _ := a.Plan.Link(id)
		name := strings.ToLower(link.Name)
		words := deviceName(a.Plan, link.From) + " → " + deviceName(a.Plan, link.To)
		rank := 0
		switch {
		case name == text:
		case strings.HasPrefix(name, text):
			rank = 1
		case strings.Contains(name, text):
			rank = 2
		case strings.Contains(strings.ToLower(words), text) || tagged(a.Plan, id, text):
			rank = 3
		default:
			continue
		}
		ranked[rank] = append(ranked[rank], Found{id, link.Name, words})
	}
	return slices.Concat(ranked[:]...)
}

func tagged(p *plan.Plan, id plan.LinkID, text string) bool {
	return slices.ContainsFunc(p.SegmentsOf(id), func(s plan.Segment) bool {
		reel, _ := p.Reels.Get(plan.Key(s.Reel))
		return strings.Contains(strings.ToLower(reel.Tag), text)
	})
}

func deviceName(p *plan.Plan, id plan.DeviceID) string {
	device, _ := p.Device(id)
	return device.Name
}
