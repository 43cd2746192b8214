package strip

import (
	"fmt"
	"strings"

	"stageloom/model/budget"
	"stageloom/model/catalogue"
	"stageloom/model/plan"
	"stageloom/model/quantity"
)

// Doing is what a hand or a key does to the cables of a run.
type Doing uint8

// What can be done.
const (
	Nothing Doing = iota
	Move
	Remove
	Cut
	Join
	Insert
	Replace
)

// Change is one thing done to the cables of a run; the zero Change does nothing.
type Change struct {
	Doing Doing
	// Order is that of the cable it is done to; the cable that an Insert lays has none yet.
	Order int
	// Place is where a Move or an Insert puts the cable: how many of the other cables lie before it.
	Place int
	// Metres is where a Cut goes, from the near end of the cable.
	Metres float64
	// Cable is what an Insert or a Replace lays.
	Cable plan.Segment
}

// Name is what the history calls the change.
func (c Change) Name() string {
	return [...]string{"Nothing", "Reorder cables", "Take a cable off", "Cut a cable", "Join cables", "Lay a cable", "Replace a cable"}[c.Doing]
}

// Make makes the change in the chain of a link, or says why it cannot be made.
func (c Change) Make(e *plan.Edit, link plan.LinkID) error {
	switch c.Doing {
	case Move:
		return e.MoveSegment(link, c.Order, c.Place)
	case Remove:
		return e.RemoveSegment(link, c.Order)
	case Cut:
		return e.SplitSegment(link, c.Order, c.Metres)
	case Join:
		return e.JoinSegments(link, c.Order)
	case Insert:
		return catalogue.InsertCable(e, link, c.Place, c.Cable)
	case Replace:
		return catalogue.ReplaceCable(e, link, c.Order, c.Cable)
	}
	return nil
}

// Try reckons the link as it would be after the change; the plan stays as it is. An error says why it cannot be made.
func (c Change) Try(p *plan.Plan, link plan.LinkID) (budget.Budget, error) {
	next, err := plan.Do(p, nil, func(e *plan.Edit) error { return c.Make(e, link) })
	if err != nil {
		return budget.Budget{}, err
	}
	row, _ := next.Link(link)
	return budget.Of(next, row), nil
}

// Words say in few words what a link amounts to: "L04: +2 dB, 4 m left over".
func Words(b budget.Budget, system quantity.System) string {
	unit := 1.0
	if system == quantity.Imperial {
		unit = quantity.Foot
	}
	b = b.Printed(unit)
	var said []string
	switch {
	case b.HasMargin():
		said = append(said, b.Label()+" dB")
	case b.Graded:
		said = append(said, "no margin known")
	}
	length := func(metres float64) string {
		return strings.Replace(quantity.PrintLength(metres, system, 1), ".0 ", " ", 1)
	}
	switch {
	case b.Missing > 0:
		said = append(said, length(roundedUp(b.Missing, system))+" to reach")
	case b.Laid-b.Run < 0.05:
		said = append(said, "just reaches")
	default:
		said = append(said, length(b.Laid-b.Run)+" left over")
	}
	return fmt.Sprintf("%s: %s", b.Name, strings.Join(said, ", "))
}
