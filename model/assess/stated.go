package assess

import (
	"cmp"
	"maps"
	"slices"
	"strings"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

// Supply is what the devices on one supply draw, as far as their kinds state it. Passive devices draw nothing and are left out.
type Supply struct {
	// Name is as it was first typed; blank for devices of which nothing says what feeds them.
	Name string
	// Devices state what they draw, Watts in all; Silent do not.
	Devices, Silent int
	Watts           float64
}

// Supplies sums up what devices draw: by the device's own supply, else that of its position, names compared as folded. The
// nameless one comes last.
func (a *Assessment) Supplies() []Supply {
	sums := map[string]*Supply{}
	for device := range a.Plan.Devices.All() {
		kind, found := a.Plan.Kinds.Get(plan.Key(device.Kind))
		if !found || kind.Passive {
			continue
		}
		position, _ := a.Plan.Positions.Get(plan.Key(device.Position))
		name := cmp.Or(strings.TrimSpace(device.Supply), strings.TrimSpace(position.Supply))
		sum := sums[plan.Folded(name)]
		if sum == nil {
			sum = &Supply{Name: name}
			sums[plan.Folded(name)] = sum
		}
		if kind.PowerW == 0 {
			sum.Silent++
			continue
		}
		sum.Devices++
		sum.Watts += kind.PowerW
	}
	var list []Supply
	for _, name := range slices.Sorted(maps.Keys(sums)) {
		list = append(list, *sums[name])
	}
	slices.SortStableFunc(list, func(a, b Supply) int { return cmp.Compare(last(a.Name), last(b.Name)) })
	return list
}

func last(name string) int {
	if name == "" {
		return 1
	}
	return 0
}

// Latency is the longest way of a signal to a console, by what the kinds of its devices state.
type Latency struct {
	Console plan.DeviceID
	// MS is the sum along the way, in milliseconds, the console's own included.
	MS float64
	// Channel is where the way ends, Act in which act; Devices stand on it in the signal's order.
	Channel int
	Act     plan.ActID
	Devices []plan.DeviceID
	// Silent are the kinds on that way that state none: the latency is that much longer. Passive devices have none.
	Silent []plan.KindID
}

// along adds the devices at both ends of a hop, as the signal passes them.
func (l *Latency) along(p *plan.Plan, hop patch.Hop) {
	link, _ := p.Link(hop.Link)
	if hop.Direction == patch.Return {
		link.From, link.To = link.To, link.From
	}
	l.over(p, link.From, link.To)
}

// Latencies returns the longest way to each console that any channel arrives at, in the order of the consoles.
func (a *Assessment) Latencies() []Latency {
	longest := map[plan.DeviceID]Latency{}
	for _, act := range a.Patch.Acts {
		for _, line := range act.Lines {
			for i := range line.Legs {
				for _, channel := range line.Legs[i].Channels {
					if !channel.Reached {
						continue
					}
					way := a.latency(line.Legs[i].Socket.Device, channel)
					way.Act = act.Act.ID
					if old, found := longest[way.Console]; !found || way.longer(old) {
						longest[way.Console] = way
					}
				}
			}
		}
	}
	var list []Latency
	for _, console := range a.Patch.Consoles() {
		if way, found := longest[console]; found {
			list = append(list, way)
		}
	}
	return list
}

// latency is that of the way from a box to a channel.
func (a *Assessment) latency(box plan.DeviceID, channel patch.Channel) Latency {
	way := Latency{Console: channel.Console, Channel: channel.Number}
	way.over(a.Plan, box)
	for _, hop := range channel.Hops {
		way.along(a.Plan, hop)
	}
	way.over(a.Plan, channel.Console)
	return way
}

// longer prefers the longer of two ways, and of like ones that with more kinds that state nothing.
func (l Latency) longer(other Latency) bool {
	return l.MS > other.MS || l.MS == other.MS && len(l.Silent) > len(other.Silent)
}

// over adds devices that the way leads through, each once.
func (l *Latency) over(p *plan.Plan, ids ...plan.DeviceID) {
	for _, id := range ids {
		device, found := p.Device(id)
		kind, known := p.Kinds.Get(plan.Key(device.Kind))
		if !found || !known || kind.Passive || slices.Contains(l.Devices, id) {
			continue
		}
		l.Devices = append(l.Devices, id)
		if l.MS += kind.LatencyMS; kind.LatencyMS == 0 && !slices.Contains(l.Silent, kind.ID) {
			l.Silent = append(l.Silent, kind.ID)
		}
	}
}
