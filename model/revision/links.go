package revision

import (
	"fmt"
	"math"

	"stageloom/model/budget"
	"stageloom/model/cabling"
	"stageloom/model/plan"
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
		l.add(plan.RefOf(link), link.Name, renamed(old.Name, link.Name), d.plugged(old, link), d.recabled(link.ID), d.longer(link.ID), d.graded(link.ID))
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

// cables tells whether a link is made of other cables or in another order.
func (d *difference) cables(id plan.LinkID) bool {
	old, now := d.before.Plan.SegmentsOf(id), d.after.Plan.SegmentsOf(id)
	if len(old) != len(now) {
		return true
	}
	for i := range old {
		a, b := old[i], now[i]
		a.Kept, b.Kept = false, false // who chose a cable is nothing the crew sees
		if a != b {
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
	return fmt.Sprintf("run %s (%s), was %s", budget.Metres(now.Run), now.Measured.Words(), budget.Metres(old.Run))
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
