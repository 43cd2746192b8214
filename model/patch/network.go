package patch

import (
	"cmp"
	"slices"
	"strings"

	"stageloom/model/plan"
	"stageloom/model/standards"
)

// network is what a patch rests on: the links that carry slots, gathered into spans, and where the ways of passive
// devices lead. It is immutable once built.
type network struct {
	rest  rest
	kinds map[plan.KindID]*kind
	// passing tells that some console passes signals on, rates that not all devices run at one rate.
	passing, rates bool
	devices        map[plan.DeviceID]*device
	spans          []span
	groups         []group
	spanOf         map[plan.LinkID]int
	joints         map[end]joint
	// through says where the ways of a socket lead; a socket that is not in it leads nowhere but to itself.
	through map[Socket][]far
}

// kind is a kind of device with its parts.
type kind struct {
	plan.Kind
	ports   []plan.KindPort
	sockets []plan.KindSocket
	ways    []plan.KindWay
	// converter tells that it has two ports and no socket, and passes on what comes in: a media converter, a drop.
	converter bool
}

type device struct {
	id     plan.DeviceID
	name   string
	folded string // without regard to case, to sort by
	kind   *kind
	// passesOn tells of a console that it sends on what it receives.
	passesOn bool
	// rate is the sample rate in hertz of its audio; 0 where it only hands on what others send, at their rate.
	rate     int
	converts bool
}

// end is a port of a device.
type end struct {
	device plan.DeviceID
	port   string
}

// rest is all that a network is built of, comparable, so that moving things about the site builds no new patch.
type rest struct {
	devices []plan.Device
	links   []plan.Link
	ways    []int
	plan    string // sample rate of the plan, in its own word
	rate    int    // the same in hertz
	tables  [4]any
}

func restOf(p *plan.Plan) rest {
	r := rest{plan: p.Settings.SampleRate, rate: p.Settings.SampleRateHz(), tables: [4]any{p.Kinds, p.KindPorts, p.KindSockets, p.KindWays}}
	for d := range p.Devices.All() {
		r.devices = append(r.devices, resting(d))
	}
	for l := range p.Links.All() {
		if l.IsSpare() { // carries nothing until it takes over
			continue
		}
		r.links = append(r.links, l.Plug())
		r.ways = append(r.ways, waysOf(p, l))
	}
	return r
}

// resting is what a network asks of a device.
func resting(d plan.Device) plan.Device {
	return plan.Device{ID: d.ID, Name: d.Name, Kind: d.Kind, PassesOn: d.PassesOn, Rate: d.Rate, Converts: d.Converts}
}

func (r rest) same(other rest) bool {
	return r.rate == other.rate && r.tables == other.tables && slices.Equal(r.devices, other.devices) &&
		slices.Equal(r.links, other.links) && slices.Equal(r.ways, other.ways)
}

// sameRest tells, without gathering it, that a network is built of the same in two plans. It asks no more than the rows
// that differ, and says no where cables differ.
func sameRest(a, b *plan.Plan) bool {
	same := a.Settings.SampleRateHz() == b.Settings.SampleRateHz()
	for _, name := range []string{plan.KindsTable, plan.KindPortsTable, plan.KindSocketsTable, plan.KindWaysTable, plan.CableKindsTable, plan.ReelsTable, plan.HouseLinesTable, plan.SegmentsTable} {
		table, _ := plan.TableNamed(name)
		same = same && table.Same(a, b)
	}
	if !same {
		return false
	}
	plan.Differ(a.Devices, b.Devices, func(was, is *plan.Device) {
		same = same && was != nil && is != nil && resting(*was) == resting(*is)
	})
	plan.Differ(a.Links, b.Links, func(was, is *plan.Link) {
		same = same && was != nil && is != nil && was.Plug() == is.Plug() && was.FillKind == is.FillKind
	})
	return same
}

// waysOf is how many ways the cables of a link have, the fewest of them; 0 where none says.
func waysOf(p *plan.Plan, link plan.Link) int {
	if sortOf(link.Transport) != inWays {
		return 0
	}
	fewest := 0
	count := func(id plan.CableKindID) {
		if cable, found := p.CableKinds.Get(plan.Key(id)); found && cable.Ways > 0 && (fewest == 0 || cable.Ways < fewest) {
			fewest = cable.Ways
		}
	}
	segments := p.SegmentsOf(link.ID)
	for _, segment := range segments {
		reel, _ := p.Reels.Get(plan.Key(segment.Reel))
		line, _ := p.HouseLines.Get(plan.Key(segment.HouseLine))
		for _, id := range []plan.CableKindID{segment.Kind, reel.Kind, line.Kind} {
			count(id)
		}
	}
	if len(segments) == 0 {
		count(link.FillKind)
	}
	return fewest
}

// sort is how a link carries audio.
type sort uint8

const (
	nothing sort = iota
	inWays       // analogue, pair by pair
	inSlots      // digital, channel by channel
)

// sortOf says how a transport carries audio. Fibre carries what its ends put on it; a network, streams.
func sortOf(id plan.TransportID) sort {
	transport, err := standards.TransportBySlug(standards.TransportSlug(id))
	switch {
	case err != nil:
		return nothing
	case transport.Media == standards.AnalogueMulticore || transport.Slug == "analogue-line":
		return inWays
	case len(transport.Channels) > 0 || transport.Media == standards.Fibre || transport.Media == standards.BalancedPair:
		return inSlots
	}
	return nothing
}

func newNetwork(p *plan.Plan, r rest) *network {
	n := &network{
		rest: r, kinds: map[plan.KindID]*kind{}, devices: map[plan.DeviceID]*device{}, spanOf: map[plan.LinkID]int{},
		joints: map[end]joint{}, through: map[Socket][]far{},
	}
	for row := range p.Kinds.All() {
		k := &kind{Kind: row, ports: p.Ports(row.ID), sockets: p.KindSockets.Under(row.Key()), ways: p.KindWays.Under(row.Key())}
		k.converter = len(k.ports) == 2 && len(k.sockets) == 0 && row.Inputs == 0 && row.Outputs == 0 && row.Channels == 0
		k.ways = k.parallel()
		n.kinds[row.ID] = k
	}
	for _, d := range r.devices {
		if k := n.kinds[d.Kind]; k != nil {
			n.device(d, k)
		}
	}
	n.join()
	n.pair()
	n.follow()
	return n
}

func (n *network) device(row plan.Device, k *kind) {
	d := &device{id: row.ID, name: row.Name, folded: strings.ToLower(row.Name), kind: k, passesOn: row.PassesOn, converts: row.Converts}
	if k.Passive { // copper has no clock, whatever its card says
		d.converts = false
	} else if row.Rate != "" || row.Converts || !k.handsOn() {
		d.rate = row.SampleRateHz(plan.Settings{SampleRate: n.rest.plan})
	}
	n.devices[row.ID] = d
	n.passing = n.passing || k.Mixes() && row.PassesOn
	n.rates = n.rates || d.rate != 0 && d.rate != n.rest.rate
}

// name is a device's name.
func (n *network) name(id plan.DeviceID) string {
	if d := n.devices[id]; d != nil {
		return d.name
	}
	return ""
}

// byName orders devices as a reader does, roughly: by name without regard to case, then by id.
func (n *network) byName(a, b plan.DeviceID) int {
	if a == b {
		return 0
	}
	if c := strings.Compare(n.folded(a), n.folded(b)); c != 0 {
		return c
	}
	return strings.Compare(string(a), string(b))
}

func (n *network) folded(id plan.DeviceID) string {
	if d := n.devices[id]; d != nil {
		return d.folded
	}
	return ""
}

// byPlace orders channels by the name of their console, then by number.
func (n *network) byPlace(a, b place) int {
	return cmp.Or(n.byName(a.console, b.console), cmp.Compare(a.number, b.number))
}

func (n *network) passive(id plan.DeviceID) bool {
	d := n.devices[id]
	return d != nil && d.kind.Passive
}

// snake is where an input plugs in on stage: an inlet of a passive sub-snake, an outlet of a rack.
func (n *network) snake(input plan.Input) Socket {
	if input.Snake == "" {
		return Socket{}
	}
	return Socket{input.Snake, input.SnakeWay, !n.passive(input.Snake)}
}
