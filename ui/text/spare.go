package text

import (
	"fmt"
	"strings"

	"stageloom/model/budget"
	"stageloom/model/cabling"
	"stageloom/model/plan"
)

// Spare is a cable that can take the place of another, in words: what it is and where it lies, and what it gives.
type Spare struct{ Name, Gives string }

// SpareOf puts a candidate into words.
func SpareOf(p *plan.Plan, c cabling.Candidate) Spare {
	var names []string
	for _, reel := range c.Reels() {
		names = append(names, spareName(p, reel, c.Free()))
	}
	name := strings.Join(names, " + ")
	if c.Replaces > 1 {
		name += fmt.Sprintf(", for cables %d to %d", c.First, c.First+c.Replaces-1)
	}
	if !c.Free() {
		name += ", lies on " + c.FromName
		if from, _ := p.Link(c.From); from.Lies() {
			name += ", " + from.Done
		}
	}
	gives := "reaches"
	if c.Link.HasMargin() {
		gives = budget.TenthDB(c.Link.MarginDB) + " dB, " + string(c.Link.Grade)
	}
	if !c.Free() {
		gives += "; " + c.FromName + " is left " + leftAs(c.Left)
	}
	return Spare{Name: name, Gives: gives}
}

// spareName is one cable of a candidate: tag, length, kind and the case it comes from.
func spareName(p *plan.Plan, reel plan.Reel, free bool) string {
	kind, _ := p.CableKinds.Get(plan.Key(reel.Kind))
	name := fmt.Sprintf("%g m %s", reel.Length, kind.Name)
	if reel.Tag != "" {
		name = reel.Tag + ", " + name
	}
	if box, cased := p.Cases.Get(plan.Key(reel.Case)); free && cased && reel.Case != "" {
		name += ", " + box.Name
	}
	return name
}

func leftAs(b budget.Budget) string {
	switch {
	case b.TooShort():
		return "too short"
	case b.Bare():
		return "without cable"
	}
	return string(b.Grade)
}
