package panel

import (
	"fmt"

	"stageloom/model/budget"
	"stageloom/model/cabling"
	"stageloom/model/plan"
)

// Spare is a cable that can take the place of another, in words: what it is and where it lies, and what it gives.
type Spare struct{ Name, Gives string }

// SpareOf puts a candidate into words.
func SpareOf(p *plan.Plan, c cabling.Candidate) Spare {
	kind, _ := p.CableKinds.Get(plan.Key(c.Reel.Kind))
	name := fmt.Sprintf("%g m %s", c.Reel.Length, kind.Name)
	if c.Reel.Tag != "" {
		name = c.Reel.Tag + ", " + name
	}
	box, cased := p.Cases.Get(plan.Key(c.Reel.Case))
	switch {
	case !c.Free():
		name += ", lies on " + c.FromName
	case cased && c.Reel.Case != "":
		name += ", " + box.Name
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

func leftAs(b budget.Budget) string {
	switch {
	case b.TooShort():
		return "too short"
	case b.Bare():
		return "without cable"
	}
	return string(b.Grade)
}
