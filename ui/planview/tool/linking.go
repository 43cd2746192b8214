package tool

import (
	"stageloom/model/budget"
	"stageloom/model/catalogue"
	"stageloom/model/geom"
	"stageloom/model/plan"
)

// Sketch is a link while it is drawn from a port: where the pointer is, what lies there, and what would come of it.
type Sketch struct {
	From plan.DeviceID
	Port string
	// At is the pointer in points of the view.
	At geom.Point
	// To and ToPort are what a release would plug into; blank over nothing that fits.
	To     plan.DeviceID
	ToPort string
	// Reason is why what lies under the pointer does not fit.
	Reason string
	// Budget is that of the link as it would be, up to the pointer.
	Budget budget.Budget
}

// Sketching returns the link being drawn, or nil.
func (h *Hand) Sketching() *Sketch {
	if g, drawing := h.gesture.(*linking); drawing && g.started {
		return &g.sketch
	}
	return nil
}

// linking draws a link from a free port to another device.
type linking struct {
	from    geom.Point
	started bool
	link    plan.Link
	sketch  Sketch
}

func newLinking(h *Hand, at geom.Point, device plan.DeviceID, port string) *linking {
	link, _ := catalogue.NewLink(h.desk.Plan(), plan.Link{From: device, FromPort: port, Way: "straight"})
	return &linking{from: at, link: link, sketch: Sketch{From: device, Port: port}}
}

func (g *linking) move(h *Hand, at geom.Point) {
	g.started = g.started || at.Distance(g.from) > threshold
	if !g.started {
		return
	}
	g.sketch.At = at
	g.aim(h, at)
	metres := h.board.View().Metres(at)
	link := g.link
	link.To, link.ToPort = g.sketch.To, g.sketch.ToPort
	sketch := budget.Sketch{Link: link}
	if link.To == "" {
		sketch.LooseTo = &metres
	}
	g.sketch.Budget = h.desk.Assessment().Reckoner().Sketch(sketch)
}

// aim finds what a release would plug into: the port under the pointer, or the first that fits of the device there.
func (g *linking) aim(h *Hand, at geom.Point) {
	g.sketch.To, g.sketch.ToPort, g.sketch.Reason = "", "", ""
	device, port, found := h.board.DeviceAt(at)
	if !found || device == g.sketch.From && port == "" {
		return
	}
	if device == "" {
		g.sketch.Reason = "several devices are here: zoom in until the one you mean has its name"
		return
	}
	p := h.desk.Plan()
	ports := []string{port}
	if port == "" {
		ports = ports[:0]
		row, _ := p.Device(device)
		for _, each := range p.Ports(row.Kind) {
			ports = append(ports, each.Name)
		}
	}
	for _, each := range ports {
		link, reason := catalogue.NewLink(p, plan.Link{From: g.sketch.From, FromPort: g.sketch.Port, To: device, ToPort: each, Way: "straight"})
		if reason == "" {
			g.link, g.sketch.To, g.sketch.ToPort, g.sketch.Reason = link, device, each, ""
			return
		}
		g.sketch.Reason = reason
	}
}

func (g *linking) release(h *Hand, at geom.Point) error {
	g.move(h, at)
	switch {
	case !g.started:
		return nil
	case g.sketch.To == "" && g.sketch.Reason != "":
		return &NotLinked{g.sketch.Reason}
	case g.sketch.To == "":
		return nil
	}
	link := g.link
	link.To, link.ToPort = g.sketch.To, g.sketch.ToPort
	return h.AddLink(link)
}

// AddLink adds a link as one step and selects it.
func (h *Hand) AddLink(link plan.Link) error {
	link.Name = h.desk.Plan().FreeLinkName()
	var id plan.LinkID
	err := h.desk.Do("Link "+link.Name, func(e *plan.Edit) error {
		if link.FillKind != "" {
			if err := catalogue.UseCable(e, link.FillKind); err != nil {
				return err
			}
		}
		id = e.AddLink(link)
		return nil
	})
	if err == nil {
		h.desk.Select(plan.Ref{Table: plan.LinksTable, Key: plan.Key(id)})
	}
	return err
}

func (g *linking) cancel(*Hand) {}

// NotLinked is why two ports were not linked.
type NotLinked struct{ Reason string }

// Error says why.
func (n *NotLinked) Error() string { return "not linked: " + n.Reason }
