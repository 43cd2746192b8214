package text

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stageloom/model/plan"
	"stageloom/model/words"
)

// Hit is a row whose name or tag answers a search.
type Hit struct {
	// Row is what to show: the row itself, or for a reel the link that holds it.
	Row   plan.Ref
	Words string
	rank  int
}

// Find searches names of devices, links, positions, areas and looms, tags of reels, and what the other party calls sockets and
// ends of links: equal names first, then those that begin with the text, then those that hold it.
func Find(p *plan.Plan, text string) []Hit {
	text = strings.ToLower(strings.TrimSpace(text))
	if text == "" {
		return nil
	}
	var hits []Hit
	add := func(row plan.Ref, name, words string) {
		if rank := rankOf(strings.ToLower(name), text); rank >= 0 {
			hits = append(hits, Hit{row, words, rank})
		}
	}
	for device := range p.Devices.All() {
		kind, _ := p.Kinds.Get(plan.Key(device.Kind))
		add(plan.RefOf(device), device.Name, device.Name+" · "+kind.Name)
	}
	for link := range p.Links.All() {
		add(plan.RefOf(link), link.Name, link.Name+" · "+deviceName(p, link.From)+" → "+deviceName(p, link.To))
	}
	for position := range p.Positions.All() {
		add(plan.RefOf(position), position.Name, position.Name+" · position")
	}
	for area := range p.Areas.All() {
		add(plan.RefOf(area), area.Name, area.Name+" · area")
	}
	for loom := range p.Looms.All() {
		add(plan.RefOf(loom), loom.Name, loom.Name+" · loom of "+words.Counted(len(p.LoomLinks(loom.ID)), "link", "links"))
	}
	for segment := range p.Segments.All() {
		if reel, found := p.Reels.Get(plan.Key(segment.Reel)); found && reel.Tag != "" {
			link, _ := p.Link(segment.Link)
			add(plan.RefOf(link), reel.Tag, reel.Tag+" · cable in "+link.Name)
		}
	}
	their(p, add)
	slices.SortStableFunc(hits, func(a, b Hit) int { return cmp.Or(cmp.Compare(a.rank, b.rank), strings.Compare(a.Words, b.Words)) })
	return hits
}

// their adds what the other party calls sockets and the ends of links.
func their(p *plan.Plan, add func(row plan.Ref, name, words string)) {
	for row := range p.SocketNames.All() {
		if device, found := p.Device(row.Device); found {
			add(plan.RefOf(device), row.Name, fmt.Sprintf("%s · their name of %s %s %d", row.Name, device.Name, row.Direction, row.Socket))
		}
	}
	for link := range p.Links.All() {
		for _, end := range []struct{ name, of string }{{link.FromTheirs, "near"}, {link.ToTheirs, "far"}} {
			if end.name != "" {
				add(plan.RefOf(link), end.name, fmt.Sprintf("%s · their name of the %s end of %s", end.name, end.of, link.Name))
			}
		}
	}
}

// rankOf is 0 for an equal name, 1 for one that begins with the text, 2 for one that holds it, −1 for none of them.
func rankOf(name, text string) int {
	switch {
	case name == text:
		return 0
	case strings.HasPrefix(name, text):
		return 1
	case strings.Contains(name, text):
		return 2
	}
	return -1
}
