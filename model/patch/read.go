package patch

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"stageloom/model/plan"
)

// ReadSocket reads a socket as a person types it: "SL in 3", "sl 3", "Stage left3" or, where it is known which device is
// meant, "3" alone; "SL-3", "SL/3" and "SL way 3" are
// read too. A device is found by its name or the beginning of it. The error says what to write instead.
func (v *View) ReadSocket(typed string, usual plan.DeviceID, output bool) (Socket, error) {
	text := strings.Join(strings.Fields(typed), " ")
	name := strings.TrimRight(text, "0123456789")
	digits := text[len(name):]
	if id, exact := v.named(text, output); exact {
		return Socket{}, fmt.Errorf("which socket of %s? Write for instance %s 1", v.Name(id), v.Name(id))
	}
	if digits == "" {
		return Socket{}, fmt.Errorf("%q names no socket; write a device and a number, for instance %s", plan.Clipped(typed), v.exampleSocket(output))
	}
	number, err := strconv.Atoi(digits)
	if err != nil || number < 1 {
		return Socket{}, fmt.Errorf("%s is no number of a socket", plan.Clipped(digits))
	}
	device := usual
	if name = withoutDirection(name); name != "" {
		if device, err = v.deviceLike(name, output); err != nil {
			return Socket{}, err
		}
	}
	if device == "" {
		return Socket{}, fmt.Errorf("socket %d of which device? Write for instance %s", number, v.exampleSocket(output))
	}
	socket := Socket{Device: device, Number: number, Output: output}
	if !v.Exists(socket) {
		return Socket{}, fmt.Errorf("%s has %d sockets of this sort; there is no %s", v.Name(device), v.nets.sockets(device, output), v.SocketWords(socket))
	}
	return socket, nil
}

// ReadPlug reads where an input is plugged in, as ReadSocket does: an input socket, or the output that its source leaves by, as
// "RF rack out 1".
func (v *View) ReadPlug(typed string, usual plan.DeviceID) (Socket, error) {
	socket, err := v.ReadSocket(typed, usual, false)
	name := strings.TrimRight(strings.Join(strings.Fields(strings.ToLower(typed)), " "), "0123456789")
	if out := strings.HasSuffix(strings.TrimRight(name, between), " out"); err == nil && !out {
		return socket, nil
	}
	if leaves, wrong := v.ReadSocket(typed, usual, true); wrong == nil && (err == nil || v.Source(leaves)) {
		return leaves, nil
	}
	return socket, err
}

// Source reports whether a signal begins at an output: its device has no input, as a receiver rack, or it leads on over a
// multicore.
func (v *View) Source(s Socket) bool { return v.nets.source(s) }

// between are the signs that part a device from the number of its socket, as in SL-12, SL/12 or SL #12.
const between = " -–/:.,#"

// withoutDirection takes the word between a device and a number away: "SL in" is SL.
func withoutDirection(name string) string {
	bare := strings.TrimRight(name, between)
	lower := strings.ToLower(bare)
	for _, word := range []string{"in", "out", "input", "output", "socket", "way"} {
		if lower == word {
			return ""
		}
		if strings.HasSuffix(lower, " "+word) {
			return strings.TrimSpace(bare[:len(bare)-len(word)])
		}
	}
	if bare == "" {
		return ""
	}
	return strings.TrimSpace(name)
}

// named finds a device with such sockets by its whole name.
func (v *View) named(name string, output bool) (plan.DeviceID, bool) {
	for id := range v.ByName() {
		if v.nets.sockets(id, output) > 0 && strings.EqualFold(v.Name(id), name) {
			return id, true
		}
	}
	return "", false
}

// deviceLike finds the one device with such sockets whose name begins so.
func (v *View) deviceLike(name string, output bool) (plan.DeviceID, error) {
	bare := strings.TrimRight(name, between)
	for _, each := range []string{name, bare} {
		if id, exact := v.named(each, output); exact {
			return id, nil
		}
	}
	var like []plan.DeviceID
	for id := range v.ByName() {
		if v.nets.sockets(id, output) > 0 && strings.HasPrefix(strings.ToLower(v.Name(id)), strings.ToLower(bare)) {
			like = append(like, id)
		}
	}
	switch len(like) {
	case 1:
		return like[0], nil
	case 0:
		return "", fmt.Errorf("no device with such sockets is called %s; write for instance %s", plan.Clipped(name), v.exampleSocket(output))
	}
	return "", fmt.Errorf("%s may be %s; write more of the name", plan.Clipped(name), v.namesOf(like))
}

// mostNames is how many devices a message names.
const mostNames = 4

func (v *View) namesOf(ids []plan.DeviceID) string {
	var names []string
	for _, id := range ids[:min(len(ids), mostNames)] {
		names = append(names, v.Name(id))
	}
	if more := len(ids) - mostNames; more > 0 {
		return strings.Join(names, ", ") + fmt.Sprintf(" and %d more", more)
	}
	return strings.Join(names, " or ")
}

func (v *View) exampleSocket(output bool) string {
	for id := range v.ByName() {
		if d := v.nets.devices[id]; v.nets.sockets(id, output) > 0 && d.kind.Channels == 0 {
			return v.SocketWords(Socket{id, 1, output})
		}
	}
	return "Stage left 1"
}

// ReadInput reads an input of an act as a person types it: its number, its name, the beginning of it, or both: "12",
// "Kick in", "12 Kick in".
func (v *View) ReadInput(act *Act, typed string) (*Line, error) {
	text := strings.ToLower(strings.Join(strings.Fields(typed), " "))
	var like []*Line
	for _, line := range act.Lines {
		name := strings.ToLower(line.Input.Name)
		number := strconv.Itoa(line.Input.Number)
		if text == number || text == name || text == number+" "+name {
			return line, nil
		}
		if strings.HasPrefix(name, text) || strings.HasPrefix(number+" "+name, text) && strings.Contains(text, " ") {
			like = append(like, line)
		}
	}
	switch {
	case len(like) == 1:
		return like[0], nil
	case len(like) == 0 || text == "":
		return nil, fmt.Errorf("no input here is %q; write its number or its name", plan.Clipped(typed))
	}
	var names []string
	for _, line := range like[:min(len(like), mostNames)] {
		names = append(names, line.Input.Name)
	}
	return nil, fmt.Errorf("%q may be %s; write more of it, or the number", plan.Clipped(typed), strings.Join(names, " or "))
}

// WithSockets are the devices that have sockets of a sort, by name; boxes first, consoles after them.
func (v *View) WithSockets(output bool) []plan.DeviceID {
	var boxes, consoles []plan.DeviceID
	for id := range v.ByName() {
		switch {
		case v.nets.sockets(id, output) == 0:
		case slices.Contains(v.consoles, id):
			consoles = append(consoles, id)
		default:
			boxes = append(boxes, id)
		}
	}
	return append(boxes, consoles...)
}

// Sockets is how many sockets of a sort a device has.
func (v *View) Sockets(id plan.DeviceID, output bool) int { return v.nets.sockets(id, output) }

// Channels is how many channels a console has; 0 where nothing says.
func (v *View) Channels(console plan.DeviceID) int {
	limit, _ := v.nets.channels(console)
	return limit
}

// channels is how many channels a device has, and whether that is known: a mixing kind with inputs need not say.
func (n *network) channels(id plan.DeviceID) (limit int, known bool) {
	d := n.devices[id]
	switch {
	case d == nil:
		return 0, false
	case d.kind.Channels == 0 && d.kind.Group == "Mixing" && d.kind.Inputs > 0:
		return 0, false
	}
	return d.kind.Channels, true
}
