package patch

import (
	"slices"

	"stageloom/model/plan"
)

// Socket is one socket of a device: an input, or an output. The zero Socket is none.
type Socket struct {
	Device plan.DeviceID
	Number int
	Output bool
}

// None reports whether it is no socket at all.
func (s Socket) None() bool { return s.Device == "" }

// Way is one way of a multicore that a signal takes, counted from 1.
type Way struct {
	Link   plan.LinkID
	Number int
}

// Hop is one slot of a link that a signal takes. Forward runs from the link's near end to its far end.
type Hop struct {
	Link      plan.LinkID
	Direction string
	Slot      int
	// Resent is the console that sends the signal on over this link; blank where none stands before it.
	Resent plan.DeviceID
}

// Directions of a slot.
const (
	Forward = "forward"
	Return  = "return"
)

// Channel is a channel of a console where a signal is to arrive.
type Channel struct {
	Console plan.DeviceID
	Number  int
	// Reached tells that the signal gets there: over Hops, or without any where the socket is the console's own.
	Reached bool
	Hops    []Hop
	// Backup are the same slots on the links that stand by; empty where no link of the way has a partner.
	Backup []Hop
	// Lost is where slots lead towards it and end: SlotOver, NotPassed or RatesApart; blank where they do not lead there.
	Lost Spot
}

// Leg is one way of an input to a preamp. A splitter gives an input several.
type Leg struct {
	// Ways are those of multicores between where the input is plugged and the box.
	Ways []Way
	// Through are the sockets of passive devices on the way that these ways lie parallel to: a splitter behind a sub-snake.
	Through []Socket
	// Socket is that of the box whose preamp this is.
	Socket Socket
	// Isolated tells that 48 V from this socket does not come to the input.
	Isolated bool
	// Gain and Phantom say who sets the gain and who switches 48 V; blank where nobody is named.
	Gain, Phantom plan.DeviceID
	Channels      []Channel
}

// Reached reports whether any channel gets the signal over this leg.
func (l *Leg) Reached() bool {
	return slices.ContainsFunc(l.Channels, func(c Channel) bool { return c.Reached })
}

// Line is one input in one act: where it is plugged and where it arrives. Lines are shared between acts: read them, never
// write them.
type Line struct {
	Input plan.Input
	// Struck tells that the act does without it.
	Struck bool
	// Snake is the way of the sub-snake that it is plugged into on stage; none where it has no sub-snake.
	Snake Socket
	// At is what the patch plugs it into: a box, a splitter, or the sub-snake itself where its ways map through. None
	// where it is not patched.
	At Socket
	// Legs lead from there to preamps; one where there is no splitter.
	Legs []Leg
}

// Patched reports whether the input is there in the act and plugged in.
func (l *Line) Patched() bool { return !l.Struck && !l.At.None() }

// Reached reports whether the input arrives at any console.
func (l *Line) Reached() bool {
	return slices.ContainsFunc(l.Legs, func(leg Leg) bool { return leg.Reached() })
}

// Channels are those of all legs.
func (l *Line) Channels() (all []Channel) {
	for i := range l.Legs {
		all = append(all, l.Legs[i].Channels...)
	}
	return all
}

// Number is the channel of a console that the input arrives at, the lowest where there are several; 0 where there is none.
func (l *Line) Number(console plan.DeviceID) int {
	number := 0
	for i := range l.Legs {
		for _, channel := range l.Legs[i].Channels {
			if channel.Console == console && (number == 0 || channel.Number < number) {
				number = channel.Number
			}
		}
	}
	return number
}

// OutputLine is one output in one act: from which console to which socket. Lines are shared between acts.
type OutputLine struct {
	Output  plan.Output
	Struck  bool
	Console plan.DeviceID
	Socket  Socket
	Reached bool
	Hops    []Hop
	Backup  []Hop
	// Lost is as that of a channel.
	Lost Spot
}

// Patched reports whether the output leaves a console for a socket in this act.
func (l *OutputLine) Patched() bool { return !l.Struck && l.Console != "" && !l.Socket.None() }

// Act is the patch of one act. Its slices are shared: read them, never write them.
type Act struct {
	// Act is its row; that of the house has a blank id.
	Act plan.Act
	// Lines are the inputs of the act's list, by number.
	Lines []*Line
	// Outputs are by number.
	Outputs []*OutputLine
	// Guests are the consoles that this act brings.
	Guests []plan.DeviceID

	over *overlay
}

// House reports whether it is act 0.
func (a *Act) House() bool { return a.Act.ID == "" }

// Line returns the line of an input.
func (a *Act) Line(id plan.InputID) (*Line, bool) {
	line, found := a.over.lines[id]
	if !found && a.over.house != nil {
		line, found = a.over.house.lines[id]
	}
	return line, found
}

// View is the whole patch of one plan, immutable.
type View struct {
	Plan *plan.Plan
	// Acts begin with the house; the others follow in the order of the running list.
	Acts []*Act

	nets     *network
	consoles []plan.DeviceID
}

// House is act 0.
func (v *View) House() *Act { return v.Acts[0] }

// Act returns the patch of an act; blank is the house.
func (v *View) Act(id plan.ActID) (*Act, bool) {
	for _, act := range v.Acts {
		if act.Act.ID == id {
			return act, true
		}
	}
	return nil, false
}

// Shown are the acts that a reader is shown: the house alone where the plan has no act, the act alone where it has one,
// else all of them.
func (v *View) Shown() []*Act {
	if len(v.Acts) == 2 {
		return v.Acts[1:]
	}
	return v.Acts
}

// ActName is how an act is called: blank where the plan has one act or none, so that no reader meets the word.
func (v *View) ActName(id plan.ActID) string {
	act, found := v.Act(id)
	switch {
	case !found || len(v.Acts) <= 2:
		return ""
	case act.House():
		return "House"
	}
	return act.Act.Name
}

// Differs reports whether an input stands otherwise in an act than in the house.
func (v *View) Differs(act *Act, line *Line) bool {
	if act.House() {
		return false
	}
	house, found := v.House().over.lines[line.Input.ID]
	return !found || house != line
}

// Consoles are the devices whose channels are patched, by name: kinds with channels or mixing kinds with inputs, and
// devices whose channels a row of the plan patches.
func (v *View) Consoles() []plan.DeviceID { return v.consoles }
