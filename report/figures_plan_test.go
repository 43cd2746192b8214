package report_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/geom"
	"stageloom/model/plan"
)

// draw draws one plan from a seed: devices on positions, links of several transports, lines through passive panels, cables
// from reels, by length and of the house, some too short and some missing. Names hold no figure but links and tags.
type draw struct {
	*plan.Edit
	t      testing.TB
	random *rand.Rand
	boxes  []plan.DeviceID
	used   map[plan.DeviceID]map[plan.TransportID]int
	links  []plan.LinkID
	// left is how many cables of each reel row are free.
	reels []plan.Reel
	left  map[plan.ReelID]int
	house []plan.HouseLineID
}

// Kinds of cable by transport.
var drawnKinds = map[plan.TransportID][]plan.CableKindID{
	"aes50": {"kind-a", "kind-b", "kind-c"}, "1000base-t": {"kind-a", "kind-b", "kind-c"},
	"fibre": {"kind-glass"}, "analogue-multicore": {"kind-snake"},
}

var drawnPorts = map[plan.TransportID]string{"aes50": "A", "1000base-t": "N", "fibre": "F", "analogue-multicore": "M"}

// anyPlan draws the plan of a seed.
func anyPlan(t testing.TB, seed uint64) *plan.Plan {
	t.Helper()
	p, err := plan.Do(plan.New("Any plan"), plan.NewIDSource(seed, 17), func(e *plan.Edit) error {
		d := &draw{Edit: e, t: t, random: rand.New(rand.NewPCG(seed, 0xF16)), used: map[plan.DeviceID]map[plan.TransportID]int{}, left: map[plan.ReelID]int{}}
		settings := e.Now().Settings
		settings.PrintPaper, settings.Site = "A3", "Anywhere"
		e.SetSettings(settings)
		d.kinds()
		d.stock()
		d.ground()
		for range 3 + d.random.IntN(5) {
			d.anyLink()
		}
		for range d.random.IntN(3) {
			d.throughPanels(1 + d.random.IntN(2))
		}
		d.pairs()
		return nil
	})
	require.NoError(t, err)
	return doneOnSite(t, p, seed)
}

// doneOnSite notes on some links what is done on site, once they lie.
func doneOnSite(t testing.TB, p *plan.Plan, seed uint64) *plan.Plan {
	random := rand.New(rand.NewPCG(seed, 0xD0))
	p, err := plan.Do(p, nil, func(e *plan.Edit) error {
		for link := range p.Links.All() {
			if done := []string{"", "", plan.Laid, plan.Joined, plan.Tested}[random.IntN(5)]; len(p.SegmentsOf(link.ID)) > 0 {
				require.NoError(t, plan.Update(e, link.Key(), func(l *plan.Link) { l.Done = done }))
			}
		}
		return nil
	})
	require.NoError(t, err)
	return p
}

func (d *draw) kinds() {
	pair := plan.CableKind{Media: "balanced-pair", Gauge: 24, Pairs: 4, Connector: "8P8C", Screened: true, Lockable: true, MetalShell: true}
	for i, category := range []string{"cat6a", "cat5e", "cat7"} {
		kind := pair
		kind.ID, kind.Name, kind.Category, kind.Hardware = drawnKinds["aes50"][i], "Cat"+string(rune('A'+i)), category, []plan.HardwareID{"cat6a", "cat5e", "cat6a"}[i]
		if i == 2 {
			kind.OwnFigure = plan.Some(18.37)
		}
		plan.Put(d.Edit, kind)
	}
	plan.Put(d.Edit, plan.CableKind{ID: "kind-glass", Name: "Glass", Media: "fibre-multimode", Ways: 2, Connector: "LC duplex", Form: "drum"})
	plan.Put(d.Edit, plan.CableKind{ID: "kind-snake", Name: "Snake", Media: "analogue-multicore", Ways: 16, Pairs: 16, Screened: true, Connector: "multi-pin"})
	plan.Put(d.Edit, plan.Kind{ID: "box", Name: "Box", Group: "Stage"})
	for transport, letter := range drawnPorts {
		for n := range 30 {
			plan.Put(d.Edit, plan.KindPort{Kind: "box", Name: fmt.Sprint(letter, n+1), Transport: transport})
		}
	}
	plan.Put(d.Edit, plan.Kind{ID: "drop", Name: "Drop", Group: "Stage", Passive: true, Hardware: "cat6a"})
	for _, port := range []string{"BACK", "GUEST"} {
		plan.Put(d.Edit, plan.KindPort{Kind: "drop", Name: port, Transport: "aes50"})
	}
}

// metresOf draws a length to the centimetre, now and then a whole one.
func (d *draw) metresOf(least, most float64) float64 {
	length := least + d.random.Float64()*(most-least)
	if d.random.IntN(3) == 0 {
		return math.Round(length)
	}
	return math.Round(length*100) / 100
}

func (d *draw) stock() {
	for i := range 3 {
		plan.Put(d.Edit, plan.Case{ID: plan.CaseID(fmt.Sprintf("c-2222%d", i+2)), Name: "Case" + string(rune('a'+i))})
	}
	kinds := []plan.CableKindID{"kind-a", "kind-a", "kind-b", "kind-c", "kind-glass", "kind-snake"}
	for i := range 24 {
		reel := plan.Reel{ID: plan.ReelID(fmt.Sprintf("r-222%c%c", plan.Signs[i/20], plan.Signs[i%20])), Kind: kinds[i%len(kinds)], Length: d.metresOf(5, 90)}
		if i%4 == 3 {
			reel.Quantity = 2 + d.random.IntN(4)
		} else {
			reel.Tag = fmt.Sprintf("T%02d", i+1)
		}
		if box := d.random.IntN(4); box < 3 {
			reel.Case = plan.CaseID(fmt.Sprintf("c-2222%d", box+2))
		}
		switch d.random.IntN(10) {
		case 0:
			reel.Condition, reel.Reason = plan.Faulty, "bent plug"
		case 1:
			reel.Condition = plan.Suspect
		case 2:
			reel.Hire, reel.Owner = "order", "Lender"
		}
		plan.Put(d.Edit, reel)
		d.reels, d.left[reel.ID] = append(d.reels, reel), reel.Count()
	}
	for i, kind := range []plan.CableKindID{"kind-a", "kind-b"} {
		line := plan.HouseLine{ID: plan.HouseLineID(fmt.Sprintf("h-2222%d", i+2)), Name: "Tie" + string(rune('a'+i)), Kind: kind, Length: d.metresOf(10, 60)}
		plan.Put(d.Edit, line)
		d.house = append(d.house, line.ID)
	}
}

func (d *draw) at() (x, y float64) {
	return math.Round(d.random.Float64()*12000) / 100, math.Round(d.random.Float64()*8000) / 100
}

func (d *draw) ground() {
	plan.Put(d.Edit, plan.Loom{ID: "m-22222", Name: "Loom"})
	for i, corner := range []geom.Point{{X: 50, Y: -5}, {X: 55.5, Y: -5}, {X: 55.5, Y: 90}, {X: 50, Y: 90}} {
		if i == 0 {
			plan.Put(d.Edit, plan.Area{ID: "a-22222", Name: "Walk", Use: "walkway"})
		}
		plan.Put(d.Edit, plan.AreaPoint{Area: "a-22222", Order: i + 1, X: corner.X, Y: corner.Y})
	}
	var positions []plan.PositionID
	for i := range 2 {
		x, y := d.at()
		positions = append(positions, d.AddPosition(plan.Position{Name: "Place" + string(rune('a'+i)), X: x, Y: y, Width: 10, Depth: 10}))
	}
	for i := range 3 + d.random.IntN(3) {
		x, y := d.at()
		d.boxes = append(d.boxes, d.AddDevice(plan.Device{Name: "Box" + string(rune('a'+i)), Kind: "box", Position: positions[i%2], X: x, Y: y}))
	}
}

// port is the next free port of a box for a transport.
func (d *draw) port(box plan.DeviceID, transport plan.TransportID) string {
	if d.used[box] == nil {
		d.used[box] = map[plan.TransportID]int{}
	}
	d.used[box][transport]++
	return fmt.Sprint(drawnPorts[transport], d.used[box][transport])
}

func (d *draw) anyLink() {
	transport := []plan.TransportID{"aes50", "aes50", "1000base-t", "1000base-t", "fibre", "analogue-multicore"}[d.random.IntN(6)]
	from := d.random.IntN(len(d.boxes))
	to := (from + 1 + d.random.IntN(len(d.boxes)-1)) % len(d.boxes)
	d.lay(ends(transport, d.boxes[from], d.port(d.boxes[from], transport), d.boxes[to], d.port(d.boxes[to], transport)))
}

// throughPanels is one line of AES50 in so many pieces and one more.
func (d *draw) throughPanels(panels int) {
	at, port := d.boxes[0], d.port(d.boxes[0], "aes50")
	for range panels {
		x, y := d.at()
		drop := d.AddDevice(plan.Device{Name: "Drop" + string(rune('a'+d.used[""]["drop"])), Kind: "drop", X: x, Y: y})
		if d.used[""] == nil {
			d.used[""] = map[plan.TransportID]int{}
		}
		d.used[""]["drop"]++
		d.lay(ends("aes50", at, port, drop, "BACK"))
		at, port = drop, "GUEST"
	}
	if d.random.IntN(4) > 0 {
		d.lay(ends("aes50", at, port, d.boxes[1], d.port(d.boxes[1], "aes50")))
	}
}

// lay adds a link with figures of its own here and there, and its cables.
func (d *draw) lay(link plan.Link) {
	kinds := drawnKinds[link.Transport]
	chance := func(one int) bool { return d.random.IntN(one) == 0 }
	if chance(3) {
		link.RiseFrom, link.RiseTo = d.metresOf(0, 6), d.metresOf(0, 6)
	}
	if chance(4) {
		link.SlackPercent, link.SlackEnd = plan.Some(d.metresOf(0, 12)), plan.Some(d.metresOf(0, 5))
	}
	if chance(3) {
		link.FillKind = kinds[d.random.IntN(len(kinds))]
	}
	if len(kinds) > 1 && chance(4) {
		link.Rule = []plan.RuleID{"channel-cat6a", "channel-cat6", "channel-cat5e", "ieee-link-segment"}[d.random.IntN(4)]
	}
	if len(kinds) > 1 && chance(6) {
		link.FromPanel, link.FromLeadKind, link.FromLead = "cat6a", "kind-a", d.metresOf(0, 3)
	}
	if chance(4) {
		link.Loom = "m-22222"
	}
	if chance(3) {
		link.Colour = "red"
	}
	link.LayPhase = d.random.IntN(3)
	id := d.AddLink(link)
	d.links = append(d.links, id)
	if chance(2) {
		x, y := d.at()
		require.NoError(d.t, d.Draw(id, []geom.Point{geom.Pt(x, y)}))
	}
	d.SetSegments(id, d.cables(kinds, d.random.IntN(200)))
}

// cables draws cables of these kinds until they reach about so far.
func (d *draw) cables(kinds []plan.CableKindID, far int) (segments []plan.Segment) {
	for reached := 0.0; reached < float64(far) && len(segments) < 4; {
		kind := kinds[d.random.IntN(len(kinds))]
		segment := plan.Segment{Kind: kind, Length: d.metresOf(2, 80)}
		if reel, found := d.free(kind); found && d.random.IntN(3) > 0 {
			d.left[reel.ID]--
			segment = plan.Segment{Reel: reel.ID, Length: reel.Length}
		} else if len(d.house) > 0 && len(kinds) > 1 && d.random.IntN(5) == 0 {
			line, _ := d.Now().HouseLines.Get(plan.Key(d.house[0]))
			segment, d.house = plan.Segment{HouseLine: line.ID, Length: line.Length}, d.house[1:]
		}
		reached += segment.Length
		if segment.Kind == "" {
			segment.Length = 0
		}
		if len(segments) > 0 && len(kinds) > 1 && d.random.IntN(4) == 0 {
			segment.Coupler = "cat5e"
		}
		segments = append(segments, segment)
	}
	return segments
}

// free is a reel of a kind that no link has taken yet.
func (d *draw) free(kind plan.CableKindID) (plan.Reel, bool) {
	for _, i := range d.random.Perm(len(d.reels)) {
		if reel := d.reels[i]; reel.Kind == kind && d.left[reel.ID] > 0 {
			return reel, true
		}
	}
	return plan.Reel{}, false
}

// pairs makes two links of one transport main and backup.
func (d *draw) pairs() {
	for i := 1; i < len(d.links); i++ {
		a, _ := d.Now().Link(d.links[i-1])
		b, _ := d.Now().Link(d.links[i])
		if a.Transport == b.Transport && a.From == b.From && a.To == b.To {
			require.NoError(d.t, d.Pair(a.ID, b.ID))
			return
		}
	}
}
