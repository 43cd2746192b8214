package panel

import (
	"stageloom/model/assess"
	"stageloom/model/catalogue"
	"stageloom/model/plan"
)

// segmentForm is the form of one cable of a link or of several.
func segmentForm(a *assess.Assessment, keys []plan.Key, units Units) Form {
	b := newForm(a.Plan.Segments, keys, units, "cables", func(r plan.Segment) string { return segmentName(a.Plan, r) })
	b.group("")
	if b.one() {
		row := b.rows[0]
		b.chosen("cable", "Cable", segmentChoices(a.Plan, row, units), func(plan.Segment) string { return "" }, func(e *plan.Edit, r plan.Segment, value string) error {
			for _, choice := range CablesInstead(a.Plan, r.Link, r.Order, units) {
				if cableValue(choice) == value {
					return catalogue.ReplaceCable(e, r.Link, r.Order, choice.Segment)
				}
			}
			return nil
		})
	}
	byLength := true
	for _, row := range b.rows {
		byLength = byLength && row.Reel == "" && row.HouseLine == ""
	}
	if byLength {
		b.figure("length", "Length", units.length(0.1, 10000), func(r *plan.Segment) *float64 { return &r.Length })
	}
	b.chosen("coupler", "Coupler before it", hardwareChoices("the plan's"), func(r plan.Segment) string { return string(r.Coupler) }, func(e *plan.Edit, r plan.Segment, hardware string) error {
		return plan.Update(e, r.Key(), func(r *plan.Segment) { r.Coupler = plan.HardwareID(hardware) })
	})
	b.yesOrNo("kept", "Stays when picking", func(r *plan.Segment) *bool { return &r.Kept })
	return b.form
}

// cableValue tells the cables of a list apart.
func cableValue(c CableChoice) string {
	return string(c.Segment.Reel) + string(c.Segment.HouseLine) + string(c.Segment.Kind)
}

// segmentChoices are the cables that could lie in a segment's place, itself first.
func segmentChoices(p *plan.Plan, row plan.Segment, units Units) []Choice {
	choices := []Choice{{"", cableWords(p, row, units)}}
	for _, choice := range CablesInstead(p, row.Link, row.Order, units) {
		choices = append(choices, Choice{cableValue(choice), choice.Words})
	}
	return choices
}

// cableWords says which cable a segment is.
func cableWords(p *plan.Plan, row plan.Segment, units Units) string {
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

// conditionChoices are how a reel or a house line is.
var conditionChoices = []Choice{{"", "not stated"}, {"good", "good"}, {"suspect", "suspect"}, {"faulty", "faulty"}}

// reelForm is the form of one reel of the stock or of several.
func reelForm(a *assess.Assessment, keys []plan.Key, units Units) Form {
	p := a.Plan
	b := newForm(p.Reels, keys, units, "reels", func(r plan.Reel) string { return reelTitle(r, units) })
	b.group("")
	if b.one() {
		b.words("tag", "Tag", func(r *plan.Reel) *string { return &r.Tag }).blank("none")
	}
	var kinds []Choice
	for kind := range p.CableKinds.All() {
		kinds = append(kinds, Choice{string(kind.ID), kind.Name})
	}
	b.chosen("kind", "Kind", kinds, func(r plan.Reel) string { return string(r.Kind) }, func(e *plan.Edit, r plan.Reel, kind string) error {
		return plan.Update(e, r.Key(), func(r *plan.Reel) { r.Kind = plan.CableKindID(kind) })
	})
	b.figure("length", "Length", units.length(0.1, 10000), func(r *plan.Reel) *float64 { return &r.Length })
	b.fromNought("nominal", "Sold as", units.length(0, 10000), func(r *plan.Reel) *float64 { return &r.Nominal }).blank("its length")
	b.whole("quantity", "How many", "1", 1, 10000, func(r *plan.Reel) *int { return &r.Quantity })
	cases := []Choice{{"", "none"}}
	for box := range p.Cases.All() {
		cases = append(cases, Choice{string(box.ID), box.Name})
	}
	b.chosen("case", "Case", cases, func(r plan.Reel) string { return string(r.Case) }, func(e *plan.Edit, r plan.Reel, box string) error {
		return plan.Update(e, r.Key(), func(r *plan.Reel) { r.Case = plan.CaseID(box) })
	})
	b.group("Condition")
	b.choice("condition", "It is", conditionChoices, func(r *plan.Reel) *string { return &r.Condition })
	b.words("reason", "Because", func(r *plan.Reel) *string { return &r.Reason })
	b.words("found_at", "Found at", func(r *plan.Reel) *string { return &r.FoundAt })
	b.dated("found_on", "Found on", func(r *plan.Reel) *string { return &r.FoundOn })
	b.optional("measured", "Measured loss", decibels(0, 200), func(plan.Reel) string { return "as its kind" }, func(r *plan.Reel) *plan.Optional { return &r.Measured })
	b.group("Whose it is")
	b.words("owner", "Owner", func(r *plan.Reel) *string { return &r.Owner }).blank("the house")
	b.words("hire", "Hire reference", func(r *plan.Reel) *string { return &r.Hire })
	b.dated("return", "Back by", func(r *plan.Reel) *string { return &r.Return })
	b.note("note", "Note", func(r *plan.Reel) *string { return &r.Note })
	b.foldUnless(func(r plan.Reel) bool { return r.Owner != "" || r.Hire != "" || r.Return != "" || r.Note != "" })
	return b.form
}

// reelTitle is what a reel is called.
func reelTitle(reel plan.Reel, units Units) string {
	if reel.Tag != "" {
		return "reel " + reel.Tag
	}
	return "reels of " + units.Metres(reel.Length)
}
