package day

import (
	"fmt"
	"strings"

	"stageloom/model/budget"
	"stageloom/model/cabling"
	"stageloom/model/plan"
	"stageloom/model/standards"
	"stageloom/model/words"
	"stageloom/ui/text"
)

// Cable is one cable of a link, in the words in which a crew reads it aloud.
type Cable struct {
	Order int
	// Tag is what is written on it, or says that nothing is; Place is the case it comes from.
	Tag, Length, Kind, Place string
	// Bad is "faulty" or "suspect", blank for a good one.
	Bad string
	// Then is what joins it to the next; blank behind the last.
	Then string
}

// String says it: "LL07, 60 m, Cat 6A drum, Case 3, FAULTY".
func (c Cable) String() string {
	said := []string{c.Tag, c.Length, c.Kind}
	if c.Place != "" {
		said = append(said, c.Place)
	}
	if c.Bad != "" {
		said = append(said, strings.ToUpper(c.Bad))
	}
	return strings.Join(said, ", ")
}

// cablesOf lists the cables of a link from its near end on, with what joins them.
func cablesOf(p *plan.Plan, b budget.Budget, units words.Units) (list []Cable) {
	for _, part := range b.Parts {
		switch {
		case part.Assumed:
			return list
		case part.What == budget.Cable:
			list = append(list, cableOf(p, part, units))
		case len(list) == 0:
		case part.What == budget.Coupler:
			list[len(list)-1].Then = strings.TrimSpace("then coupler " + hardwareName(part.Hardware))
		case part.What == budget.Connection:
			list[len(list)-1].Then = "then plug into socket"
		}
	}
	return list
}

func cableOf(p *plan.Plan, part budget.Part, units words.Units) Cable {
	kind, _ := p.CableKinds.Get(plan.Key(part.Kind))
	c := Cable{Order: part.Order, Length: units.Piece(part.Length), Kind: kind.Name, Tag: "by length"}
	if line, found := p.HouseLines.Get(plan.Key(part.HouseLine)); found && part.HouseLine != "" {
		c.Tag, c.Place = line.Name, "house line"
		if line.Condition != plan.Good {
			c.Bad = line.Condition
		}
	}
	if reel, found := p.Reels.Get(plan.Key(part.Reel)); found && part.Reel != "" {
		c.Tag = tagOf(reel)
		if box, cased := p.Cases.Get(plan.Key(reel.Case)); cased && reel.Case != "" {
			c.Place = box.Name
		}
		if reel.Condition != plan.Good {
			c.Bad = reel.Condition
		}
	}
	return c
}

func tagOf(reel plan.Reel) string {
	if reel.Tag == "" {
		return "no tag"
	}
	return reel.Tag
}

func hardwareName(id plan.HardwareID) string {
	hardware, err := standards.HardwareBySlug(standards.HardwareSlug(id))
	if err != nil {
		return string(id)
	}
	return strings.TrimSuffix(hardware.Name, " hardware")
}

// Spare is a cable of the stock that can take the place of another: what it is, and what it gives.
type Spare struct{ Name, Gives string }

// SpareOf puts a candidate into words, margins in whole dB.
func SpareOf(p *plan.Plan, c cabling.Candidate, units words.Units) Spare {
	var names []string
	for _, reel := range c.Reels() {
		kind, _ := p.CableKinds.Get(plan.Key(reel.Kind))
		said := []string{tagOf(reel), units.Piece(reel.Length), kind.Name}
		if box, cased := p.Cases.Get(plan.Key(reel.Case)); c.Free() && cased && reel.Case != "" {
			said = append(said, box.Name)
		}
		names = append(names, strings.Join(said, ", "))
	}
	s := Spare{Name: strings.Join(names, " + "), Gives: "reaches"}
	if c.Replaces > 1 {
		s.Name += fmt.Sprintf(", for cables %d to %d", c.First, c.First+c.Replaces-1)
	}
	if !c.Free() {
		s.Name += ", lies in " + c.FromName
		if from, _ := p.Link(c.From); from.Lies() {
			s.Name += ", " + strings.ToUpper(from.Done)
		}
	}
	if c.Link.HasMargin() {
		s.Gives = strings.ToUpper(text.GradeWord(c.Link.Grade)) + " " + c.Link.Label() + " dB"
	}
	if !c.Free() {
		s.Gives += ", but " + c.FromName + " is left " + leftAs(c.Left)
	}
	return s
}

func leftAs(b budget.Budget) string {
	switch {
	case b.Bare():
		return "without cable"
	case b.TooShort():
		return "too short"
	}
	return text.GradeWord(b.Grade)
}
