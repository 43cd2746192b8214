package text

import (
	"fmt"

	"stageloom/model/assess"
	"stageloom/model/budget"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// segmentCard tells of one cable of a link.
func segmentCard(a *assess.Assessment, key plan.Key, units words.Units) Card {
	row, _ := a.Plan.Segments.Get(key)
	link, _ := a.Plan.Link(row.Link)
	b, _ := a.Budget(row.Link)
	c := Card{
		Title: fmt.Sprintf("Cable %d of %s", row.Order, link.Name), Kind: "cable", Link: link.ID, Grade: b.Grade,
		Subtitle: cableWords(a.Plan, row, units), Findings: a.FindingsAt(plan.LinksTable, link.Key()),
	}
	for _, part := range b.Parts {
		if part.What != budget.Cable || part.Order != row.Order || part.Assumed {
			continue
		}
		c.add("length", units.Piece(part.Length), fmt.Sprintf("from %s to %s of the run", units.Metres(part.Start), units.Metres(part.End())))
		if b.Graded && !part.Unknown {
			c.add("loss", budget.LossTenths(part.LossDB)+" dB", "of this cable, computed "+b.Reference()+"; the link has "+b.Printed(units.Unit()).WhyIn(units.Needed))
		}
	}
	return c
}

// reelCard tells of a reel of the stock.
func reelCard(a *assess.Assessment, key plan.Key, units words.Units) Card {
	reel, _ := a.Plan.Reels.Get(key)
	title := "Reels of " + units.Piece(reel.Length)
	if reel.Tag != "" {
		title = "Reel " + reel.Tag
	}
	c := Card{Title: title, Kind: "stock", Subtitle: cableKindName(a.Plan, reel.Kind), Findings: a.FindingsAt(plan.ReelsTable, key)}
	used := a.Plan.UsedReels()[reel.ID]
	c.add("there are", fmt.Sprint(reel.Count()), fmt.Sprintf("%d in links, %d left", used, max(0, reel.There()-used)))
	if away := reel.AwayWords(); away != "" && reel.Lacking == 0 {
		c.add("not there", fmt.Sprint(reel.Count()-reel.There()), away)
	}
	c.add("length", units.Piece(reel.Length), "each")
	switch {
	case reel.Lacking > 0:
		c.add("the house's", lackingWords(reel), "right click in the stock list asks the house again")
	case reel.Taking != "":
		c.add("the house's", "with this show", "from the house's stock")
	}
	for segment := range a.Plan.Segments.All() {
		if segment.Reel == reel.ID {
			link, _ := a.Plan.Link(segment.Link)
			c.add("in "+link.Name, fmt.Sprintf("cable %d", segment.Order), "")
		}
	}
	return c
}

// loomCard tells of a loom.
func loomCard(a *assess.Assessment, key plan.Key, units words.Units) Card {
	loom, _ := a.Plan.Looms.Get(key)
	c := Card{Title: loom.Name, Kind: "loom", Findings: a.FindingsAt(plan.LoomsTable, key)}
	for _, link := range a.Plan.LoomLinks(loom.ID) {
		b, _ := a.Budget(link.ID)
		c.add(link.Name, units.Needed(b.Printed(units.Unit()).Run)+", "+b.Measured.Words(), EndOf(a.Plan, link.From, link.FromPort)+" → "+EndOf(a.Plan, link.To, link.ToPort))
	}
	return c
}

// cableWords says which cable a segment is.
func cableWords(p *plan.Plan, row plan.Segment, units words.Units) string {
	if reel, found := p.Reels.Get(plan.Key(row.Reel)); found {
		return reelTitle(reel, units) + " · " + cableKindName(p, reel.Kind)
	}
	if line, found := p.HouseLines.Get(plan.Key(row.HouseLine)); found {
		return "house line " + line.Name + " · " + cableKindName(p, line.Kind)
	}
	return cableKindName(p, row.Kind) + ", by length"
}

func cableKindName(p *plan.Plan, id plan.CableKindID) string {
	kind, _ := p.CableKinds.Get(plan.Key(id))
	return kind.Name
}

// reelTitle is what a reel is called.
func reelTitle(reel plan.Reel, units words.Units) string {
	if reel.Tag != "" {
		return "reel " + reel.Tag
	}
	return "reels of " + units.Piece(reel.Length)
}

func deviceName(p *plan.Plan, id plan.DeviceID) string {
	device, _ := p.Device(id)
	return device.Name
}
