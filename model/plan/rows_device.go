package plan

import (
	"fmt"

	"stageloom/model/geom"
)

// Kind is a kind of device, "n in, m out": a row of the catalogue copied into the plan, or the user's own. One with
// channels is a console, or another device whose channels are patched like a console's. A passive one has ways that map
// through; its hardware is what its connectors are made of. A splitter passes 48 V (direct), blocks it (isolated), supplies 48 V and gain itself (active), or is a preamp
// whose digital outputs several consoles share.
type Kind struct {
	ID        KindID     `json:"id" slug:"true"`
	Name      string     `json:"name"`
	Group     string     `json:"group"`
	Inputs    int        `json:"inputs,omitzero" range:"0 1024"`
	Outputs   int        `json:"outputs,omitzero" range:"0 1024"`
	Channels  int        `json:"channels,omitzero" range:"0 1024"`
	Passive   bool       `json:"passive,omitzero"`
	Hardware  HardwareID `json:"hardware,omitzero" slug:"true"`
	Splitter  string     `json:"splitter,omitzero" oneof:"direct isolated active shared"`
	Own       bool       `json:"own,omitzero"`
	LatencyMS float64    `json:"latency_ms,omitzero" range:"0 1000"`
	Clock     string     `json:"clock,omitzero" oneof:"own follows"`
	PowerW    float64    `json:"power_W,omitzero" range:"0 100000"`
	Note      string     `json:"note,omitzero" long:"true"`
}

// Key is the kind's slug.
func (r Kind) Key() Key { return Key(r.ID) }

// Mixes reports whether devices of this kind are consoles, in which a signal ends unless the device passes it on: kinds
// with channels, and mixing kinds with inputs. A stage box or a shared preamp with channels is none.
func (r Kind) Mixes() bool {
	return (r.Channels > 0 || r.Group == "Mixing" && r.Inputs > 0) && r.Splitter == "" && r.Group != "Stage"
}

// KindPort is a port of a kind: it takes one link. Channels is how many it carries each way where its transport does not
// say; splitter is what this port of a splitter does to 48 V where it differs from the kind; fibre is the sort that the optics
// of a fibre port are made for. Through names the port of a passive device that this one is joined to, conductor by
// conductor; two that are left of a transport need no word.
type KindPort struct {
	Kind       KindID      `json:"kind" ref:"kinds"`
	Name       string      `json:"port"`
	Transport  TransportID `json:"transport" slug:"true"`
	Connector  string      `json:"connector,omitzero"`
	Lockable   bool        `json:"lockable,omitzero"`
	MetalShell bool        `json:"metal_shell,omitzero"`
	Power      string      `json:"power,omitzero" slug:"true"`
	Channels   int         `json:"channels,omitzero" range:"0 1024"`
	Splitter   string      `json:"splitter,omitzero" oneof:"direct isolated"`
	Through    string      `json:"through,omitzero"`
	Fibre      string      `json:"fibre,omitzero" oneof:"multimode singlemode"`
}

// Key is kind and port name.
func (r KindPort) Key() Key { return PortKey(r.Kind, r.Name) }

// PortKey is the key of a kind's port.
func PortKey(kind KindID, port string) Key { return Key(string(kind) + "/" + port) }

// KindSocket is a row of equal sockets of a kind: each takes one audio channel.
type KindSocket struct {
	Kind      KindID `json:"kind" ref:"kinds"`
	Direction string `json:"direction" oneof:"in out"`
	First     int    `json:"first" range:"1 1024"`
	Count     int    `json:"count" range:"1 1024"`
	Use       string `json:"use" oneof:"mic line digital speaker"`
	Connector string `json:"connector,omitzero"`
	Phantom   bool   `json:"phantom_48V,omitzero"`
}

// Key is kind, direction and first socket.
func (r KindSocket) Key() Key {
	return Key(fmt.Sprintf("%s/%s/%04d", r.Kind, r.Direction, r.First))
}

// KindWay says which sockets of a kind the ways of a multicore port lie parallel to: the ways from First on, Count of
// them, and as many sockets from Socket on.
type KindWay struct {
	Kind      KindID `json:"kind" ref:"kinds"`
	Port      string `json:"port"`
	First     int    `json:"first" range:"1 1024"`
	Count     int    `json:"count" range:"1 1024"`
	Direction string `json:"direction" oneof:"in out"`
	Socket    int    `json:"socket" range:"1 1024"`
}

// Key is kind, port and first way.
func (r KindWay) Key() Key { return Key(fmt.Sprintf("%s/%s/%04d", r.Kind, r.Port, r.First)) }

// Device is one piece of kit on the site. Its coordinates are absolute; moving its position moves it along.
// Blank exposure, supply and structure are those of its position. An unplaced one was added to a list: its coordinates
// are only where the picture draws it, and no way is measured to it. A console passes no signal on to others unless it says so.
// A blank sample rate is the plan's; one that converts takes each link at the rate of its other end.
type Device struct {
	ID        DeviceID   `json:"id"`
	Name      string     `json:"name"`
	Kind      KindID     `json:"kind" ref:"kinds"`
	Position  PositionID `json:"position,omitzero" ref:"positions"`
	X         float64    `json:"x_m" range:"-20000 20000"`
	Y         float64    `json:"y_m" range:"-20000 20000"`
	Level     LevelID    `json:"level,omitzero" ref:"levels"`
	Exposure  string     `json:"exposure,omitzero" oneof:"indoors shade sun"`
	Supply    string     `json:"supply,omitzero"`
	Structure string     `json:"structure,omitzero"`
	Unplaced  bool       `json:"unplaced,omitzero"`
	PassesOn  bool       `json:"passes_on,omitzero"`
	Rate      string     `json:"sample_rate_kHz,omitzero" oneof:"44.1 48 88.2 96"`
	Converts  bool       `json:"converts_sample_rate,omitzero"`
	Note      string     `json:"note,omitzero" long:"true"`
}

// SampleRateHz is the sample rate of the device's audio in hertz: its own, or the plan's.
func (r Device) SampleRateHz(s Settings) int {
	if r.Rate != "" {
		s.SampleRate = r.Rate
	}
	return s.SampleRateHz()
}

// Key is the device's id.
func (r Device) Key() Key { return Key(r.ID) }

// At is where the device stands.
func (r Device) At() geom.Point { return geom.Point{X: r.X, Y: r.Y} }
