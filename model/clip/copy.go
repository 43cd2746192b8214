package clip

import (
	"errors"

	"stageloom/model/plan"
	"stageloom/model/planfile"
)

// head begins every clip; what begins otherwise is somebody else's text.
const head = "stageloom clip 1\n"

// ErrNothing is the error of a copy of rows that cannot be copied by themselves, such as links without their devices.
var ErrNothing = errors.New("nothing to copy: select devices or positions; links between them come along")

// Copy returns the selected devices, and those of selected positions, with the links that have both ends among them.
func Copy(p *plan.Plan, selection []plan.Ref) (string, error) {
	var devices []plan.DeviceID
	var positions []plan.PositionID
	for _, ref := range selection {
		switch ref.Table {
		case plan.DevicesTable:
			devices = append(devices, plan.DeviceID(ref.Key))
		case plan.PositionsTable:
			positions = append(positions, plan.PositionID(ref.Key))
		}
	}
	moving := plan.MovingWith(p, devices, positions)
	if moving.Empty() {
		return "", ErrNothing
	}
	c := &copier{plan: p, moving: moving, delta: &plan.Delta{}, kinds: map[plan.KindID]bool{}, cables: map[plan.CableKindID]bool{}}
	c.gather()
	text, err := planfile.EncodeDelta(c.delta)
	return head + string(text), err
}

type copier struct {
	plan   *plan.Plan
	moving plan.Moving
	delta  *plan.Delta
	kinds  map[plan.KindID]bool
	cables map[plan.CableKindID]bool
}

func (c *copier) gather() {
	for position := range c.plan.Positions.All() {
		if c.moving.Positions[position.ID] {
			position.Level = ""
			c.delta.Positions.Set = append(c.delta.Positions.Set, position)
		}
	}
	for device := range c.plan.Devices.All() {
		if !c.moving.Devices[device.ID] {
			continue
		}
		device.Level = ""
		if !c.moving.Positions[device.Position] {
			device.Position = ""
		}
		c.delta.Devices.Set = append(c.delta.Devices.Set, device)
		c.kinds[device.Kind] = true
	}
	for link := range c.plan.Links.All() {
		if c.moving.MovedWhole[link.ID] {
			c.link(link)
		}
	}
	c.gatherKinds()
}

// link takes one link along with its way and its cables.
func (c *copier) link(link plan.Link) {
	link.Loom = ""
	if !c.moving.MovedWhole[link.Partner] {
		link.Partner = ""
		if !link.IsSpare() {
			link.Role = ""
		}
	}
	if !c.moving.MovedWhole[link.StandsFor] {
		link.StandsFor = ""
	}
	c.cables[link.FillKind], c.cables[link.FromLeadKind], c.cables[link.ToLeadKind] = true, true, true
	c.delta.Links.Set = append(c.delta.Links.Set, link)
	for _, point := range c.plan.PointsOf(link.ID) {
		point.Level = ""
		c.delta.LinkPoints.Set = append(c.delta.LinkPoints.Set, point)
	}
	for _, segment := range c.plan.SegmentsOf(link.ID) {
		if reel, found := c.plan.Reels.Get(plan.Key(segment.Reel)); found {
			segment.Reel, segment.Kind, segment.Length = "", reel.Kind, reel.Length
		}
		if line, found := c.plan.HouseLines.Get(plan.Key(segment.HouseLine)); found {
			segment.HouseLine, segment.Kind, segment.Length = "", line.Kind, line.Length
		}
		c.cables[segment.Kind] = true
		c.delta.Segments.Set = append(c.delta.Segments.Set, segment)
	}
}

func (c *copier) gatherKinds() {
	for kind := range c.plan.Kinds.All() {
		if c.kinds[kind.ID] {
			c.delta.Kinds.Set = append(c.delta.Kinds.Set, kind)
			c.delta.KindPorts.Set = append(c.delta.KindPorts.Set, c.plan.Ports(kind.ID)...)
			c.delta.KindSockets.Set = append(c.delta.KindSockets.Set, c.plan.KindSockets.Under(kind.Key())...)
			c.delta.KindWays.Set = append(c.delta.KindWays.Set, c.plan.KindWays.Under(kind.Key())...)
		}
	}
	for kind := range c.plan.CableKinds.All() {
		if c.cables[kind.ID] {
			c.delta.CableKinds.Set = append(c.delta.CableKinds.Set, kind)
		}
	}
}
