package revision

import (
	"fmt"
	"math"
	"strings"

	"stageloom/model/budget"
	"stageloom/model/cabling"
	"stageloom/model/plan"
	"stageloom/model/quantity"
)

func (d *difference) links() []Change {
	var l list
	for link := range d.before.Plan.Links.All() {
		if !d.after.Plan.Links.Has(link.Key()) {
			l.add(plan.RefOf(link), link.Name, "gone: take it up")
		}
	}
	for link := range d.after.Plan.Links.All() {
		old, stood := d.before.Plan.Link(link.ID)
		if !stood {
			l.add(plan.RefOf(link), link.Name, "new: "+ends(d.after.Plan, link))
			continue
		}
		said := told(renamed(old.Name, link.Name), d.plugged(old, link), d.recabled(link.ID), d.longer(link.ID), d.rerouted(link.ID),
			retaped(old, link), d.graded(link.ID))
		l.add(plan.RefOf(link), link.Name, orDetails(said, bareLink(old) != bareLink(link))...)
	}
	return l.changes
}

// ends says from where to where a link goes.
func ends(p *plan.Plan, link plan.Link) string {
	from, _ := p.Device(link.From)
	to, _ := p.Device(link.To)
	return fmt.Sprintf("%s port %s to %s port %s", from.Name, link.FromPort, to.Name, link.ToPort)
}

// plugged says where a link is plugged now when it was plugged elsewhere.
func (d *difference) plugged(old, link plan.Link) string {
	if old.From == link.From && old.FromPort == link.FromPort && old.To == link.To && old.ToPort == link.ToPort {
		return ""
	}
	return "now " + ends(d.after.Plan, link)
}

// cables reports whether a link is made of other cables or in another order.
func (d *difference) cables(id plan.LinkID) bool {
	old, now := d.before.Plan.SegmentsOf(id), d.after.Plan.SegmentsOf(id)
	if len(old) != len(now) {
		return true
	}
	for i := range old {
		if bareSegment(old[i]) != bareSegment(now[i]) {
			return true
		}
	}
	return false
}

func (d *difference) recabled(id plan.LinkID) string {
	if !d.cables(id) {
		return ""
	}
	now := d.after.Plan.SegmentsOf(id)
	if len(now) == 0 {
		return "no cables any more"
	}
	return "cables now " + cabling.Words(d.after.Plan, now)
}

// longer says the new run of a link that stretches otherwise.
func (d *difference) longer(id plan.LinkID) string {
	old, _ := d.before.Budget(id)
	now, _ := d.after.Budget(id)
	if math.Abs(old.Run-now.Run) < 0.5 {
		return ""
	}
	return fmt.Sprintf("run %s (%s), was %s", d.run(now.Run), now.Measured.Words(), d.run(old.Run))
}

// run prints a run in tenths, rounded upwards.
func (d *difference) run(metres float64) string {
	if d.system != quantity.Imperial {
		return budget.Metres(metres)
	}
	const forgiven = 1e-6
	return quantity.PrintLength(math.Ceil(metres/quantity.Foot*10-forgiven)/10*quantity.Foot, d.system, 1)
}

// rerouted says that a link goes through other points than before; points that all moved alike moved with its ends.
func (d *difference) rerouted(id plan.LinkID) string {
	old, now := d.before.Plan.PointsOf(id), d.after.Plan.PointsOf(id)
	if len(old) != len(now) {
		return "goes another way"
	}
	for i := range old {
		by, first := now[i].At().Sub(old[i].At()), now[0].At().Sub(old[0].At())
		if by.Sub(first).Length() >= least || old[i].Level != now[i].Level {
			return "goes another way"
		}
	}
	return ""
}

// retaped says the tape and the role of a link that has others than before.
func retaped(old, link plan.Link) string {
	var said []string
	if old.Colour != link.Colour {
		said = append(said, fmt.Sprintf("tape now %s, was %s", orNone(link.Colour), orNone(old.Colour)))
	}
	if old.Role != link.Role {
		said = append(said, fmt.Sprintf("role now %s, was %s", orNone(link.Role), orNone(old.Role)))
	}
	return strings.Join(said, ", ")
}

// graded says a grade that is another than before.
func (d *difference) graded(id plan.LinkID) string {
	old, _ := d.before.Budget(id)
	now, _ := d.after.Budget(id)
	if old.Grade == now.Grade || now.Grade == budget.Ungraded {
		return ""
	}
	if now.Grade == budget.Over {
		return "now over limit: do not use"
	}
	return "now " + string(now.Grade)
}
