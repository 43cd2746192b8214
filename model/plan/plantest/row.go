package plantest

import (
	"fmt"
	"reflect"

	"pgregory.net/rapid"

	"stageloom/model/plan"
)

// Row draws a new row of a table that fits the plan; false when the plan holds nothing for it to stand on, such
// as a free port for a link.
func Row(t *rapid.T, p *plan.Plan, ids *plan.IDSource, table *plan.TableInfo) (any, bool) {
	v := reflect.New(table.RowType).Elem()
	for _, c := range columns[table.RowType] {
		field := v.Field(c.index)
		switch {
		case c.name == "id" && table.Letter != "":
			field.SetString(ids.Next(table.Letter, func(id string) bool { return table.Has(p, plan.Key(id)) }))
		case c.name == "id":
			field.SetString(fmt.Sprintf("kind-%d", rapid.IntRange(1, 15).Draw(t, "kind")))
		case c.name == "partner":
			// pairs come of Edit.Pair, which sets both sides
		case !c.draw(t, p, field):
			return nil, false
		}
	}
	return fitted(t, p, v.Interface())
}

// fitted makes a row fit the rules that span rows.
func fitted(t *rapid.T, p *plan.Plan, row any) (any, bool) {
	switch r := row.(type) {
	case plan.AreaPoint:
		r.Order = len(p.AreaPoints.Under(plan.Key(r.Area))) + 1
		return r, true
	case plan.RoutePoint:
		r.Order = len(p.RoutePoints.Under(plan.Key(r.Route))) + 1
		return r, true
	case plan.LoomPoint:
		r.Order = len(p.LoomPoints.Under(plan.Key(r.Loom))) + 1
		return r, true
	case plan.LinkPoint:
		r.Order = len(p.PointsOf(r.Link)) + 1
		return r, true
	case plan.Link:
		r.Moved = r.Moved && r.Done != "" // of what is not done nothing can have moved
		return plugged(t, p, r)
	case plan.Segment:
		return segment(t, p, r)
	}
	return row, true
}

// end is a port of a device.
type end struct {
	device plan.DeviceID
	port   string
}

func freeEnds(p *plan.Plan) []end {
	taken := map[end]bool{}
	for link := range p.Links.All() {
		taken[end{link.From, link.FromPort}], taken[end{link.To, link.ToPort}] = true, true
	}
	var free []end
	for device := range p.Devices.All() {
		for _, port := range p.Ports(device.Kind) {
			if at := (end{device.ID, port.Name}); !taken[at] {
				free = append(free, at)
			}
		}
	}
	return free
}

func plugged(t *rapid.T, p *plan.Plan, link plan.Link) (any, bool) {
	free := freeEnds(p)
	if len(free) < 2 {
		return nil, false
	}
	from := rapid.IntRange(0, len(free)-1).Draw(t, "from")
	to := rapid.IntRange(0, len(free)-2).Draw(t, "to")
	if to >= from {
		to++
	}
	link.From, link.FromPort = free[from].device, free[from].port
	link.To, link.ToPort = free[to].device, free[to].port
	return link, true
}

// segment gives a segment one cable: a reel or house line that is in no link yet, or a kind and a length.
func segment(t *rapid.T, p *plan.Plan, s plan.Segment) (any, bool) {
	s.Order = len(p.SegmentsOf(s.Link)) + 1
	s.Reel, s.HouseLine, s.Kind, s.Length = "", "", "", 0
	switch rapid.IntRange(0, 2).Draw(t, "sort of segment") {
	case 0:
		key, _ := anyKey(t, p, plan.ReelsTable)
		s.Reel = plan.ReelID(key)
	case 1:
		key, _ := anyKey(t, p, plan.HouseLinesTable)
		s.HouseLine = plan.HouseLineID(key)
	default:
		key, _ := anyKey(t, p, plan.CableKindsTable)
		s.Kind = plan.CableKindID(key)
		s.Length = float64(rapid.IntRange(1, 1200).Draw(t, "length")) / 8
	}
	for other := range p.Segments.All() {
		if other.HouseLine != "" && other.HouseLine == s.HouseLine || other.Reel != "" && other.Reel == s.Reel {
			return nil, false
		}
	}
	return s, s.Order <= plan.MaxSegments && (s.Reel != "" || s.HouseLine != "" || s.Kind != "")
}
