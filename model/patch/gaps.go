package patch

import (
	"slices"

	"stageloom/model/plan"
)

// Cause is why a channel gets nothing of what it lists.
type Cause uint8

// The causes, from the channel back to the source.
const (
	NoChannel  Cause = iota + 1 // the console has not so many channels: Limit of them
	NoSocket                    // the device has not so many sockets: Limit of them
	NoLink                      // no link that carries slots leads from Device to the console
	NoSlot                      // the socket has no slot on Link
	SlotOver                    // its slot on Link is beyond the Limit that the link carries
	NoLeg                       // no way of the socket leads to a box of the console; Device's Port joins nothing
	FewWays                     // the input waits behind Link, which has Limit ways
	Unjoined                    // the input waits at Device, whose Port joins nothing
	Unfed                       // Device's Port joins nothing, and the input waits at one of several others, as that Beyond
	Unplugged                   // nothing is plugged in where it comes from
	NotPassed                   // Device is a console that stands between and passes nothing on
	RatesApart                  // Link joins Device and Beyond, or leads on from one to the other, which run at two sample rates
)

// Spot is where a signal is lost on its way to a channel. What a cause does not name is blank.
type Spot struct {
	Cause  Cause
	Device plan.DeviceID
	Port   string
	Link   plan.LinkID
	Limit  int
	// Rate is the sample rate in hertz at which Link carries no more than the Limit.
	Rate int
	// Direction is that along Link whose slots are too few.
	Direction string
	// Beyond is the device at the other side of what is missing, whose BeyondPort joins nothing either.
	Beyond     plan.DeviceID
	BeyondPort string
}

// Gap is a channel of a console that lists a source in one act and gets nothing, with the place where it is lost.
type Gap struct {
	Console plan.DeviceID
	Channel int
	// Named is the socket that the patch gives to the channel, Socket that of the box which the console would get it from.
	Named, Socket Socket
	Spot
	// Inputs are those that are lost here: plugged in, and nowhere else on this console.
	Inputs []plan.InputID
}

// Arrivals says of every channel of every act whether what it lists comes in.
type Arrivals struct {
	view  *View
	house map[place][]hit
	own   []map[place][]hit
	// heard are the channels that get something in any act.
	heard map[place]bool
	gaps  [][]Gap
	parts map[Socket]*part
}

// hit is an input on a channel.
type hit struct {
	line    *Line
	channel Channel
}

// Arrivals follows every channel that lists a source, in the house and in every act, back to that source. What an act
// has from the house is followed once.
func (v *View) Arrivals() *Arrivals {
	a := &Arrivals{view: v, house: hits(v.House().Lines), heard: map[place]bool{}, parts: map[Socket]*part{}}
	for _, act := range v.Acts {
		var own []*Line
		for _, line := range act.Lines {
			if v.Differs(act, line) {
				own = append(own, line)
			}
		}
		a.own = append(a.own, hits(own))
		for at := range a.own[len(a.own)-1] {
			a.heard[at] = true
		}
	}
	for at := range a.house {
		a.heard[at] = true
	}
	var house map[place]Gap
	for i, act := range v.Acts {
		t := trace{Arrivals: a, act: act, number: i, house: house, silent: map[place]Gap{}}
		a.gaps = append(a.gaps, t.gaps())
		if i == 0 {
			house = t.silent
		}
	}
	return a
}

func hits(lines []*Line) map[place][]hit {
	all := map[place][]hit{}
	for _, line := range lines {
		for _, channel := range line.Channels() {
			at := place{channel.Console, channel.Number}
			all[at] = append(all[at], hit{line, channel})
		}
	}
	return all
}

// OutputLost is where an output is lost on its way from its console in an act: blank where nothing is in its way but slots.
func (a *Act) OutputLost(l *OutputLine) Spot {
	if l.Reached || l.Lost.Cause != 0 || !l.Patched() {
		return l.Lost
	}
	return a.over.net.obstacle(l.Console, l.Socket.Device, a.over.plugged)
}

// Gaps lists the channels that list a source in an act and get nothing, by console and number. A channel whose input is
// struck in the act is silent by intent and not told; nor is one of the house that only an act plugs something in for.
func (a *Arrivals) Gaps(act *Act) []Gap { return a.gaps[a.index(act)] }

func (a *Arrivals) index(act *Act) int { return slices.Index(a.view.Acts, act) }

// Silent reports whether nothing comes in on a channel in an act.
func (a *Arrivals) Silent(act *Act, console plan.DeviceID, channel int) bool {
	return !slices.ContainsFunc(a.on(a.index(act), place{console, channel}), func(h hit) bool { return h.channel.Reached })
}

// on are the inputs on a channel in an act.
func (a *Arrivals) on(act int, at place) []hit {
	all := slices.Clone(a.own[act][at])
	for _, h := range a.house[at] {
		if line, found := a.view.Acts[act].Line(h.line.Input.ID); found && line == h.line {
			all = append(all, h)
		}
	}
	return all
}

// candidates are the channels of an act that may stand otherwise than in the house.
func (t *trace) candidates() []place {
	o, found := t.act.over, map[place]bool{}
	if t.act.House() {
		return slices.Collect(o.all())
	}
	for at := range o.channels {
		found[at] = true
	}
	for at := range t.own[t.number] {
		found[at] = true
	}
	for _, line := range t.act.Lines {
		if !t.view.Differs(t.act, line) || line.Input.Act != "" {
			continue
		}
		above, _ := t.view.House().Line(line.Input.ID)
		for _, channel := range above.Channels() {
			found[place{channel.Console, channel.Number}] = true
		}
	}
	for at := range t.house {
		found[at] = true
	}
	for at := range o.house.channels {
		if o.present[at.console] {
			found[at] = true
		}
	}
	all := make([]place, 0, len(found))
	for at := range found {
		all = append(all, at)
	}
	slices.SortFunc(all, o.net.byPlace)
	return all
}
