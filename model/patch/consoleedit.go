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

// SetChannels is SetChannel of several inputs at once, so that they may take each other's channels. An input that is named
// more than once gets all channels that are said of it.
// The right side of a stereo pair goes to the channel behind its left one's, where that is free.
func SetChannels(e *plan.Edit, act plan.ActID, console plan.DeviceID, wanted []Wanted) error {
	w, err := newWork(e, act)
	if err != nil {
		return err
	}
	return together(w, wanted, w.rightChannels(console, wanted), func(w *work, wanted []Wanted) error { return w.tune(console, wanted) })
}

// ChannelsOnly is SetChannels without the right sides of stereo pairs that are not named themselves.
func ChannelsOnly(e *plan.Edit, act plan.ActID, console plan.DeviceID, wanted []Wanted) error {
	w, err := newWork(e, act)
	if err == nil {
		err = w.tune(console, wanted)
	}
	if err != nil {
		return err
	}
	return w.settle()
}

// tune says which channels of a console inputs are to have.
func (w *work) tune(console plan.DeviceID, wanted []Wanted) (err error) {
	w.anew = true
	claimed := map[int]bool{}
	for _, one := range wanted {
		if err = w.canHave(one, console); err != nil {
			return err
		}
		if one.Channel > 0 && claimed[one.Channel] {
			return refuse("%s %d would have two inputs", w.net.name(console), one.Channel)
		}
		claimed[one.Channel] = true
	}
	for _, o := range w.acts {
		if err := w.claim(o, console, wanted); err != nil {
			return err
		}
	}
	return nil
}

// claim says of an act which channels inputs are to have. One that inherits from the house goes along, unless it says itself
// which channels an input has.
func (w *work) claim(o *overlay, console plan.DeviceID, wanted []Wanted) error {
	before := w.before[o.act]
	var goes []Wanted
	for _, one := range wanted {
		mine, said := w.channelsHad(o, console, one.Input)
		if _, plugged := before.at[one.Input]; o != w.over && (said || !plugged) {
			continue
		}
		goes = append(goes, one)
		for _, at := range mine {
			w.want(o.act, at, "")
		}
	}
	for _, one := range goes {
		at := place{console, one.Channel}
		if at.number == 0 {
			continue
		}
		for _, holder := range before.has[at] {
			if _, leaves := w.wants[o.act][at]; !leaves && holder != one.Input {
				return refuse("%s %d has %s already%s", w.net.name(console), at.number, w.inputs[holder].Name, w.inAct(o))
			}
		}
	}
	for _, one := range goes {
		if one.Channel > 0 {
			w.want(o.act, place{console, one.Channel}, one.Input)
		}
	}
	return nil
}

// channelsHad are the channels of a console that an input has in an act, and whether the act itself says so of any.
func (w *work) channelsHad(o *overlay, console plan.DeviceID, id plan.InputID) (all []place, said bool) {
	for at, on := range w.before[o.act].has {
		if at.console == console && slices.Contains(on, id) {
			_, own := o.channels[at]
			all, said = append(all, at), said || own
		}
	}
	return all, said
}

// canHave refuses an input that cannot go on a channel.
func (w *work) canHave(one Wanted, console plan.DeviceID) error {
	input, err := w.input(one.Input)
	if err != nil || one.Channel == 0 {
		return err
	}
	if err := w.console(console, one.Channel, one.Channel); err != nil {
		return err
	}
	if w.at(w.over, input).None() {
		return refuse("%s is not patched here; plug it into a socket first", input.Name)
	}
	return nil
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
	from := map[place]place{{console, a}: {console, b}, {console, b}: {console, a}}
	if w.bothBehind(console, a, b) {
		from[place{console, a + 1}], from[place{console, b + 1}] = place{console, b + 1}, place{console, a + 1}
	}
	return w.rotate(from)
}

// ShiftChannels moves what channels listen to by so many channels. It refuses where that falls on others that are in use.
// The right side of a stereo pair goes along from the channel behind, where that goes.
func ShiftChannels(e *plan.Edit, act plan.ActID, console plan.DeviceID, numbers []int, by int) error {
	w, err := newWork(e, act)
	if err != nil || len(numbers) == 0 || by == 0 {
		return err
	}
	if all := w.withBehind(console, numbers); len(all) > len(numbers) && w.shift(console, all, by) == nil {
		return nil
	}
	if w, err = newWork(e, act); err != nil {
		return err
	}
	return w.shift(console, numbers, by)
}

func (w *work) shift(console plan.DeviceID, numbers []int, by int) error {
	if err := w.console(console, slices.Min(numbers)+by, slices.Max(numbers)+by); err != nil {
		return err
	}
	from := map[place]place{}
	for _, number := range numbers {
		from[place{console, number}] = place{}
	}
	for _, number := range numbers {
		was, to := place{console, number}, place{console, number + by}
		if w.over.heard(was).None() {
			continue
		}
		if heard := w.over.heard(to); !slices.Contains(numbers, to.number) && !heard.None() {
			return refuse("%s %d is in use: it listens to %s", w.net.name(console), to.number, w.net.socketWords(heard))
		}
		from[to] = was
	}
	return w.rotate(from)
}

// rotate lets channels listen to what others listened to. An act that says itself what one of them listens to stays as it was;
// others go along.
func (w *work) rotate(from map[place]place) error {
	heard := map[place]Socket{}
	for at, was := range from {
		heard[at] = w.over.heard(was)
	}
	for _, o := range w.acts {
		before, own := w.before[o.act], false
		for at := range from {
			_, said := o.channels[at]
			own = own || said
		}
		if o != w.over && own {
			continue
		}
		for at, was := range from {
			if on := before.has[was]; len(on) > 0 {
				w.want(o.act, at, on[0])
			} else {
				w.want(o.act, at, "")
			}
		}
	}
	for at, to := range heard {
		w.listen(w.over, at, to)
	}
	return w.settle()
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
// The right side of a stereo pair goes to the socket behind its left one's, where that is free.
func SetOutput(e *plan.Edit, act plan.ActID, output plan.OutputID, console plan.DeviceID, to Socket) error {
	before, _ := e.Now().OutputPatches.Get(plan.OutputPatch{Act: act, Output: output}.Key())
	if err := setOutput(e, act, output, console, to); err != nil {
		return err
	}
	row, _ := e.Now().Outputs.Get(plan.Key(output))
	if row.Right == "" || row.Right == output || before.Device == to.Device && before.Socket == to.Number && before.Console == console {
		return nil
	}
	if there, found := e.Now().OutputPatches.Get(plan.OutputPatch{Act: act, Output: row.Right}.Key()); found && there.Strike {
		return nil
	}
	_ = setOutput(e, act, row.Right, console, to.next()) // where that is refused the right side stays
	return nil
}

func setOutput(e *plan.Edit, act plan.ActID, output plan.OutputID, console plan.DeviceID, to Socket) error {
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
	w.wishes[act] = append(w.wishes[act], wish{to, console})
	w.write()
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
