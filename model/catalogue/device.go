package catalogue

import (
	"fmt"
	"slices"

	"stageloom/model/plan"
)

// Groups of device kinds, in the order in which they are offered.
const (
	Stage        = "Stage"
	Mixing       = "Mixing"
	Network      = "Network"
	Loudspeakers = "Loudspeakers"
	Radio        = "Radio"
	Intercom     = "Intercom"
	Broadcast    = "Broadcast"
)

// Groups lists the groups in the order in which they are offered.
func Groups() []string {
	return []string{Stage, Mixing, Network, Loudspeakers, Radio, Intercom, Broadcast}
}

// DeviceKind is a kind of device with its ports, its rows of sockets, and the ways that lie parallel to them. Sockets are counted from 1 in each direction, and
// the counts of the kind are their sums.
type DeviceKind struct {
	Kind    plan.Kind
	Ports   []plan.KindPort
	Sockets []plan.KindSocket
	Ways    []plan.KindWay
}

// Connectors, by the words of the trade or of their open standards.
const (
	modular    = "8P8C"      // IEC 60603-7
	fibrePair  = "LC duplex" // IEC 61754-20
	audioRound = "XLR"       // IEC 61076-2-103
	coaxial    = "BNC"       // IEC 61169-8
	multiPin   = "multi-pin"
)

// Transports, by the slugs of the standards room.
const (
	aes50     plan.TransportID = "aes50"
	ethernet  plan.TransportID = "1000base-t"
	fast      plan.TransportID = "100base-tx"
	aes3      plan.TransportID = "aes3"
	multicore plan.TransportID = "analogue-multicore"
	fibre     plan.TransportID = "fibre"
	video     plan.TransportID = "coax-video"
	talk      plan.TransportID = "intercom"
	aerial    plan.TransportID = "antenna"
)

func device(id plan.KindID, group, name string, parts ...func(*DeviceKind)) DeviceKind {
	d := DeviceKind{Kind: plan.Kind{ID: id, Name: name, Group: group}}
	for _, part := range parts {
		part(&d)
	}
	return d
}

func passive(d *DeviceKind) { d.Kind.Passive = true }

// hardware says what connecting hardware the ports of a passive device are made of.
func hardware(id plan.HardwareID) func(*DeviceKind) {
	return func(d *DeviceKind) { d.Kind.Hardware = id }
}

// clocked says whether the device can be master of the audio clock or always follows.
func clocked(how string) func(*DeviceKind) { return func(d *DeviceKind) { d.Kind.Clock = how } }

func note(text string) func(*DeviceKind) { return func(d *DeviceKind) { d.Kind.Note = text } }

// sockets adds a row of equal sockets after those there are.
func sockets(direction string, count int, use, connector string) func(*DeviceKind) {
	return func(d *DeviceKind) {
		total := &d.Kind.Inputs
		if direction == "out" {
			total = &d.Kind.Outputs
		}
		d.Sockets = append(d.Sockets, plan.KindSocket{
			Kind: d.Kind.ID, Direction: direction, First: *total + 1, Count: count, Use: use, Connector: connector,
			Phantom: use == "mic",
		})
		*total += count
	}
}

func micIn(count int) func(*DeviceKind)      { return sockets("in", count, "mic", audioRound) }
func lineIn(count int) func(*DeviceKind)     { return sockets("in", count, "line", audioRound) }
func lineOut(count int) func(*DeviceKind)    { return sockets("out", count, "line", audioRound) }
func speakerOut(count int) func(*DeviceKind) { return sockets("out", count, "speaker", "") }

// channels makes a kind a console, or a device whose channels are patched like a console's.
func channels(count int) func(*DeviceKind) { return func(d *DeviceKind) { d.Kind.Channels = count } }

// splitter says what a kind that splits does to 48 V.
func splitter(how string) func(*DeviceKind) { return func(d *DeviceKind) { d.Kind.Splitter = how } }

// ways lays the ways of a port parallel to count sockets from first on, after the ways the port has already.
func ways(port, direction string, first, count int) func(*DeviceKind) {
	return func(d *DeviceKind) {
		way := 1
		for _, row := range d.Ways {
			if row.Port == port {
				way = row.First + row.Count
			}
		}
		d.Ways = append(d.Ways, plan.KindWay{Kind: d.Kind.ID, Port: port, First: way, Count: count, Direction: direction, Socket: first})
	}
}

// sixteens lays three ports of sixteen ways parallel to inputs 1–16, 17–32 and 33–48.
func sixteens(ports ...string) func(*DeviceKind) {
	return func(d *DeviceKind) {
		for i, port := range ports {
			ways(port, "in", 16*i+1, 16)(d)
		}
	}
}

// isolated makes ports of a splitter block 48 V.
func isolated(ports ...string) func(*DeviceKind) {
	return func(d *DeviceKind) {
		for i := range d.Ports {
			if slices.Contains(ports, d.Ports[i].Name) {
				d.Ports[i].Splitter = "isolated"
			}
		}
	}
}

// port describes ports by transport; touring kit has lockable metal shells on its pair ports.
func ports(form plan.KindPort, names ...string) func(*DeviceKind) {
	return func(d *DeviceKind) {
		for _, name := range names {
			form.Kind, form.Name = d.Kind.ID, name
			d.Ports = append(d.Ports, form)
		}
	}
}

// aes50Ports are AES50 ports by number.
func aes50Ports(count int) func(*DeviceKind) {
	return ports(aes50Port, numbered("AES50 ", 1, count)...)
}

var (
	aes50Port    = plan.KindPort{Transport: aes50, Connector: modular, Lockable: true, MetalShell: true}
	ethernetPort = plan.KindPort{Transport: ethernet, Connector: modular, Lockable: true, MetalShell: true}
	fastPort     = plan.KindPort{Transport: fast, Connector: modular, Lockable: true, MetalShell: true}
	barePort     = plan.KindPort{Transport: ethernet, Connector: modular}
	aes3Port     = plan.KindPort{Transport: aes3, Connector: audioRound}
	multiPort    = plan.KindPort{Transport: multicore, Connector: multiPin, Lockable: true, MetalShell: true}
	fibrePort    = plan.KindPort{Transport: fibre, Connector: fibrePair}
	videoPort    = plan.KindPort{Transport: video, Connector: coaxial}
	aerialPort   = plan.KindPort{Transport: aerial, Connector: coaxial}
	poweredPort  = plan.KindPort{Transport: ethernet, Connector: modular, Lockable: true, MetalShell: true, Power: "type2"}
	talkPort     = plan.KindPort{Transport: talk, Connector: audioRound}
)

// numbered gives the names prefix + first … prefix + last, with two digits where the last has two, so that they sort.
func numbered(prefix string, first, last int) []string {
	width := len(fmt.Sprint(last))
	names := make([]string, 0, last-first+1)
	for n := first; n <= last; n++ {
		names = append(names, fmt.Sprintf("%s%0*d", prefix, width, n))
	}
	return names
}
