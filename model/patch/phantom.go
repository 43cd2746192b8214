package patch

import (
	"slices"
	"strings"

	"stageloom/model/plan"
)

// Types of inputs, as Input.Use has them.
const (
	MicType   = "mic"
	DIType    = "DI"
	LineType  = "line"
	Condenser = "condenser"
	Dynamic   = "dynamic"
	Ribbon    = "ribbon"
	ActiveDI  = "active_DI"
	PassiveDI = "passive_DI"
)

// Bearing is how a type of source bears 48 V. Common practice, no source; IEC 61938 has 48 V ± 4 V over two matched resistors
// of 6.8 kΩ, from memory.
type Bearing uint8

// The bearings.
const (
	// Untold: a microphone or DI box of which nobody told more.
	Untold Bearing = iota
	// Needs: condensers and active DI boxes, unless these run on a battery.
	Needs
	// Bears: dynamic microphones and passive DI boxes, which do without and are not hurt over a balanced lead in order.
	Bears
	// Suffers: ribbons, above all over a miswired or unbalanced lead or where they are plugged with 48 V on, and line outputs.
	Suffers
)

var bearings = map[string]Bearing{
	Condenser: Needs, ActiveDI: Needs, Dynamic: Bears, PassiveDI: Bears, Ribbon: Suffers, LineType: Suffers,
}

// TypeOf is what an input is: its type, or what the words of its source tell where the type says no more than mic or DI.
func TypeOf(input plan.Input) string {
	if bearings[input.Use] != Untold {
		return input.Use
	}
	if told, known := ReadSource(input.Source); known && (input.Use == "" || FamilyOf(told.Use) == input.Use) {
		return told.Use
	}
	return input.Use
}

// BearingOf is how an input bears 48 V.
func BearingOf(input plan.Input) Bearing { return bearings[TypeOf(input)] }

// UseWords say a type as people do: "active DI".
func UseWords(use string) string { return strings.ReplaceAll(use, "_", " ") }

// TypeWords say what an input is: "ribbon", "line output"; blank where nobody told.
func TypeWords(input plan.Input) string {
	if use := TypeOf(input); use != LineType {
		return UseWords(use)
	}
	return "line output"
}

// Feed is a preamp from which 48 V can come to an input.
type Feed struct {
	Socket Socket
	// Switch is who switches it there: the named owner, else who sets the gain, else the device itself where it is a console or a
	// splitter, else the only console that gets it. Blank where none of these is known.
	Switch plan.DeviceID
	// Named tells that the plan names the owner of 48 V.
	Named bool
	// Across are the passive devices between: a sub-snake, the direct side of a splitter.
	Across []plan.DeviceID
}

// Feeds are all preamps from which 48 V can come to an input in an act: where it is plugged in, and what lies parallel to that
// over no isolated output.
func (v *View) Feeds(act *Act, l *Line) (feeds []Feed) {
	if !l.Patched() {
		return nil
	}
	from := v.pluggedAt(l)
	if v.gives(from) {
		feeds = append(feeds, v.feed(act, from, nil))
	}
	all := v.nets.through[from]
	for i, way := range all {
		socket := act.over.box(way)
		if way.isolated || !v.gives(socket) {
			continue
		}
		across := []plan.DeviceID{from.Device}
		_, through := wayTo(all, i)
		for _, between := range through {
			across = append(across, between.Device)
		}
		feeds = append(feeds, v.feed(act, socket, across))
	}
	return feeds
}

// pluggedAt is where an input is plugged in on stage: its sub-snake where it has one.
func (v *View) pluggedAt(l *Line) Socket {
	if !l.Snake.None() && v.nets.leadsTo(l.Snake, l.At) {
		return l.Snake
	}
	return l.At
}

// gives reports whether a socket can put out 48 V.
func (v *View) gives(s Socket) bool { return v.Supplies(s.Device) && v.Phantom(s) }

func (v *View) feed(act *Act, socket Socket, across []plan.DeviceID) Feed {
	feed := Feed{Socket: socket, Across: across}
	gain, phantom := act.Owner(socket)
	switch {
	case phantom != "" && act.Here(phantom):
		feed.Switch, feed.Named = phantom, true
	case gain != "" && act.Here(gain):
		feed.Switch = gain
	case v.Mixes(socket.Device) || v.nets.devices[socket.Device].kind.Splitter != "":
		feed.Switch = socket.Device
	default:
		feed.Switch = v.onlyConsole(act, socket)
	}
	return feed
}

// onlyConsole is the console that gets a socket in an act where no other does.
func (v *View) onlyConsole(act *Act, socket Socket) (only plan.DeviceID) {
	for _, at := range act.over.channelsOf(socket) {
		switch {
		case !act.over.arrive(socket, at).Reached:
		case only != "" && only != at.console:
			return ""
		default:
			only = at.console
		}
	}
	return only
}

// Fed are the feeds that give an input its 48 V in an act: those that an owner of 48 V is named for, else all that can. None
// where it wants none.
func (v *View) Fed(act *Act, l *Line) []Feed {
	if !l.Input.Phantom {
		return nil
	}
	feeds := v.Feeds(act, l)
	if named := slices.DeleteFunc(slices.Clone(feeds), func(f Feed) bool { return !f.Named }); len(named) > 0 {
		return named
	}
	return feeds
}

// Powered are the sockets on which an input's 48 V stands in an act: where it is switched, there true, where the input is plugged
// in, and all that lies parallel over no isolated output. None where it has none.
func (v *View) Powered(act *Act, l *Line) map[Socket]bool {
	fed := v.Fed(act, l)
	if len(fed) == 0 {
		return nil
	}
	powered := v.direct(act, l)
	for _, feed := range fed {
		powered[feed.Socket] = true
	}
	return powered
}

// direct are the sockets that lie parallel to where an input is plugged in, itself among them, over no isolated output.
func (v *View) direct(act *Act, l *Line) map[Socket]bool {
	from := v.pluggedAt(l)
	all := map[Socket]bool{from: false}
	for _, way := range v.nets.through[from] {
		if !way.isolated {
			all[way.socket], all[act.over.box(way)] = false, false
		}
	}
	return all
}
