package patch

import (
	"slices"

	"stageloom/model/plan"
)

// SetChannel puts an input on a channel of a console in one act, as a number typed into "who gets what" does; 0 takes it
// off that console. A channel it had there is left empty. Slots are given out where they lack. It refuses a channel that
// another input of the act has.
func SetChannel(e *plan.Edit, act plan.ActID, input plan.InputID, console plan.DeviceID, number int) error {
	return SetChannels(e, act, console, []Wanted{{input, number}})
}

// FillChannels puts inputs on the channels of a console in order from one on, and takes them off those they had there.
func FillChannels(e *plan.Edit, act plan.ActID, console plan.DeviceID, inputs []plan.InputID, first int) error {
	wanted := make([]Wanted, len(inputs))
	for i, id := range inputs {
		wanted[i] = Wanted{id, first + i}
	}
	return SetChannels(e, act, console, wanted)
}

// Wanted is an input and the channel of a console that it is wanted on; 0 takes it off that console.
type Wanted struct {
	Input   plan.InputID
	Channel int
}

// SetChannels is SetChannel of several inputs at once, so that they may take each other's channels.
func SetChannels(e *plan.Edit, act plan.ActID, console plan.DeviceID, wanted []Wanted) error {
	w, err := newWork(e, act)
	if err != nil {
		return err
	}
	tuned, own, claimed := map[place]Socket{}, map[Socket]bool{}, map[int]bool{}
	lines := make([]*Line, len(wanted))
	for i, one := range wanted {
		if lines[i], err = w.lineFor(one, console); err != nil {
			return err
		}
		if one.Channel > 0 && claimed[one.Channel] {
			return refuse("%s %d would have two inputs", w.net.name(console), one.Channel)
		}
		claimed[one.Channel] = true
		for at, none := range w.leaving(lines[i], console) {
			tuned[at], own[w.heard(at)] = none, true
		}
	}
	holders := w.holders()
	for i, line := range lines {
		at := place{console, wanted[i].Channel}
		if at.number == 0 {
			continue
		}
		if heard := w.heard(at); !heard.None() && !own[heard] {
			if holder := holders[heard]; holder != "" {
				return refuse("%s %d has %s already", w.net.name(console), at.number, holder)
			}
		}
		tuned[at] = w.bestFor(line.At, console)
	}
	w.tune(tuned)
	return nil
}

// lineFor is the line of an input that is to go on a channel, or why it can't.
func (w *work) lineFor(one Wanted, console plan.DeviceID) (*Line, error) {
	input, err := w.input(one.Input)
	if err != nil {
		return nil, err
	}
	line := w.over.line(input)
	if one.Channel == 0 {
		return line, nil
	}
	if err := w.console(console, one.Channel, one.Channel); err != nil {
		return nil, err
	}
	if !line.Patched() {
		return nil, refuse("%s is not patched here; plug it into a socket first", input.Name)
	}
	return line, nil
}

// SwapChannels exchanges what two channels of a console listen to; one may be empty.
func SwapChannels(e *plan.Edit, act plan.ActID, console plan.DeviceID, a, b int) error {
	w, err := newWork(e, act)
	if err != nil {
		return err
	}
	if err := w.console(console, min(a, b), max(a, b)); err != nil {
		return err
	}
	one, other := place{console, a}, place{console, b}
	w.tune(map[place]Socket{one: w.heard(other), other: w.heard(one)})
	return nil
}

// ShiftChannels moves what channels listen to by so many channels. It refuses where that falls on others that are in use.
func ShiftChannels(e *plan.Edit, act plan.ActID, console plan.DeviceID, numbers []int, by int) error {
	w, err := newWork(e, act)
	if err != nil || len(numbers) == 0 {
		return err
	}
	if err := w.console(console, slices.Min(numbers)+by, slices.Max(numbers)+by); err != nil {
		return err
	}
	tuned := map[place]Socket{}
	for _, number := range numbers {
		tuned[place{console, number}] = Socket{}
	}
	for _, number := range numbers {
		heard := w.heard(place{console, number})
		to := place{console, number + by}
		if !heard.None() && !slices.Contains(numbers, to.number) && !w.heard(to).None() {
			return refuse("%s %d is in use: it listens to %s", w.net.name(console), to.number, w.net.socketWords(w.heard(to)))
		}
		if !heard.None() {
			tuned[to] = heard
		}
	}
	w.tune(tuned)
	return nil
}

// ClearChannels forgets what an act says of channels: in an act they listen as in the house again, in the house to nothing.
func ClearChannels(e *plan.Edit, act plan.ActID, console plan.DeviceID, numbers ...int) {
	for _, number := range numbers {
		plan.Drop[plan.ConsolePatch](e, plan.ConsolePatch{Act: act, Console: console, Channel: number}.Key())
	}
}

// StrikeChannels leaves channels empty in an act, whatever the house says.
func StrikeChannels(e *plan.Edit, act plan.ActID, console plan.DeviceID, numbers ...int) {
	for _, number := range numbers {
		plan.Put(e, plan.ConsolePatch{Act: act, Console: console, Channel: number, Strike: true})
	}
}

// SetOutput takes an output from a console to an output socket in one act, and gives out the slots it needs.
func SetOutput(e *plan.Edit, act plan.ActID, output plan.OutputID, console plan.DeviceID, to Socket) error {
	w, err := newWork(e, act)
	if err != nil {
		return err
	}
	if to.Output = true; !e.Now().Outputs.Has(plan.Key(output)) {
		return refuse("there is no such output any more")
	}
	if err := w.exists(to); err != nil {
		return err
	}
	for _, other := range allOutputs(e.Now(), w.over) {
		if other.Patched() && other.Socket == to && other.Output.ID != output {
			return refuse("%s is fed by %s already", w.net.socketWords(to), other.Output.Name)
		}
	}
	plan.Put(e, plan.OutputPatch{Act: act, Output: output, Console: console, Device: to.Device, Socket: to.Number})
	w.connect([]wish{{to, console}})
	return nil
}

// Own says who sets the gain of a socket and who switches its 48 V in one act; blank names nobody of its own.
func Own(e *plan.Edit, act plan.ActID, socket Socket, gain, phantom plan.DeviceID) {
	row := plan.SocketOwner{Act: act, Device: socket.Device, Socket: socket.Number, Gain: gain, Phantom: phantom}
	if gain == "" && phantom == "" {
		plan.Drop[plan.SocketOwner](e, row.Key())
		return
	}
	plan.Put(e, row)
}

// leaving are the channels of a console that a line has, to be left empty.
func (w *work) leaving(line *Line, console plan.DeviceID) map[place]Socket {
	left := map[place]Socket{}
	for _, channel := range line.Channels() {
		if channel.Console == console {
			left[place{console, channel.Number}] = Socket{}
		}
	}
	return left
}

// console refuses a console that is not there, and channels that it has not.
func (w *work) console(id plan.DeviceID, first, last int) error {
	d := w.net.devices[id]
	switch {
	case d == nil:
		return refuse("there is no such console any more")
	case !w.over.here(id):
		return refuse("%s is a guest of other acts; bring it into this one first", d.name)
	case first < 1 || d.kind.Channels > 0 && last > d.kind.Channels:
		return refuse("%s has channels 1 to %d", d.name, d.kind.Channels)
	}
	return nil
}

// holders says which input of the act each socket has, also the sockets behind splitters.
func (w *work) holders() map[Socket]string {
	holders := map[Socket]string{}
	for _, input := range inputsOf(w.edit.Now(), w.act) {
		at := w.at(input)
		if at.None() {
			continue
		}
		holders[at] = input.Name
		all, live := w.over.ways(at)
		for _, i := range live {
			holders[all[i].socket] = input.Name
		}
	}
	return holders
}
