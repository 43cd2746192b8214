package plan

import (
	"fmt"
)

// structure checks what spans rows: ports, partners, orders, and that no cable is in two links.
func (c *checker) structure() {
	next, base := c.next, c.base
	if c.plugged() {
		c.ports()
		c.partners()
	}
	if next.Segments != base.Segments || next.Reels != base.Reels {
		c.segments()
	}
	c.orders()
}

// plugged reports whether a link joins or carries something else than before, or its ports may be others: a device that only
// stands elsewhere, and a link that only lies otherwise, are not looked at among all.
func (c *checker) plugged() bool {
	changed := c.next.KindPorts != c.base.KindPorts
	Differ(c.base.Devices, c.next.Devices, func(was, is *Device) {
		changed = changed || was == nil || is == nil || was.Kind != is.Kind
	})
	Differ(c.base.Links, c.next.Links, func(was, is *Link) {
		changed = changed || was == nil || is == nil || was.Plug() != is.Plug()
	})
	return changed
}

func (c *checker) ports() {
	type end struct {
		device DeviceID
		port   string
	}
	taken := make(map[end]string, 2*c.next.Links.Len())
	for link := range c.next.Links.All() {
		ends := [2]end{{link.From, link.FromPort}, {link.To, link.ToPort}}
		for i, at := range ends {
			field := [2]string{"from_port", "to_port"}[i]
			device, found := c.next.Device(at.device)
			if !found {
				continue
			}
			if !c.next.KindPorts.Has(PortKey(device.Kind, at.port)) {
				c.add(LinksTable, link.Key(), field, fmt.Sprintf("is %q, but %s has no such port", Clipped(at.port), Clipped(device.Name)))
				continue
			}
			if link.IsSpare() {
				continue
			}
			if other, found := taken[at]; found {
				c.add(LinksTable, link.Key(), field, fmt.Sprintf("is %q of %s, which link %s holds already", Clipped(at.port), Clipped(device.Name), Clipped(other)))
			}
			taken[at] = link.Name
		}
	}
}

func (c *checker) partners() {
	for link := range c.next.Links.All() {
		if link.Partner == "" {
			continue
		}
		partner, found := c.next.Link(link.Partner)
		if found && (partner.Partner != link.ID || partner.ID == link.ID) {
			c.add(LinksTable, link.Key(), "partner", fmt.Sprintf("is %s, which does not name %s in turn", Clipped(partner.Name), Clipped(link.Name)))
		}
	}
}

func (c *checker) segments() {
	reels := map[ReelID]int{}
	lines := map[HouseLineID]int{}
	for segment := range c.next.Segments.All() {
		given := 0
		if segment.Reel != "" {
			given++
			reels[segment.Reel]++
			reel, found := c.next.Reels.Get(Key(segment.Reel))
			if found && reels[segment.Reel] == reel.Count()+1 {
				c.add(SegmentsTable, segment.Key(), "reel", fmt.Sprintf("is in more links than there are: %d of them in the stock", reel.Count()))
			}
		}
		if segment.HouseLine != "" {
			given++
			lines[segment.HouseLine]++
			if lines[segment.HouseLine] == 2 {
				c.add(SegmentsTable, segment.Key(), "house_line", "is in another link already")
			}
		}
		if segment.Kind != "" {
			given++
		}
		c.segment(segment, given)
	}
}

func (c *checker) segment(segment Segment, given int) {
	if given != 1 {
		c.add(SegmentsTable, segment.Key(), "", "must name one of reel, house_line or kind")
	}
	if (segment.Kind != "") != (segment.Length > 0) {
		c.add(SegmentsTable, segment.Key(), "length_m", "must stand with kind, and with kind only")
	}
}

// orders checks that parts are numbered 1, 2, 3, … without a gap.
func (c *checker) orders() {
	next, base := c.next, c.base
	if next.Segments != base.Segments {
		checkOrders(c, SegmentsTable, next.Segments, func(r Segment) (string, int) { return string(r.Link), r.Order })
	}
	if next.LinkPoints != base.LinkPoints {
		checkOrders(c, LinkPointsTable, next.LinkPoints, func(r LinkPoint) (string, int) { return string(r.Link), r.Order })
	}
	if next.LoomPoints != base.LoomPoints {
		checkOrders(c, LoomPointsTable, next.LoomPoints, func(r LoomPoint) (string, int) { return string(r.Loom), r.Order })
	}
	if next.AreaPoints != base.AreaPoints {
		checkOrders(c, AreaPointsTable, next.AreaPoints, func(r AreaPoint) (string, int) { return string(r.Area), r.Order })
	}
	if next.RoutePoints != base.RoutePoints {
		checkOrders(c, RoutePointsTable, next.RoutePoints, func(r RoutePoint) (string, int) { return string(r.Route), r.Order })
	}
}

func checkOrders[R Row](c *checker, name string, table *Table[R], place func(R) (string, int)) {
	parent, want := "", 1
	for row := range table.All() {
		at, order := place(row)
		if at != parent {
			parent, want = at, 1
		}
		if order != want {
			c.add(name, row.Key(), "order", fmt.Sprintf("is %d, but %d comes next", order, want))
		}
		want = order + 1
	}
}
