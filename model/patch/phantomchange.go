package patch

import (
	"cmp"
	"fmt"
	"iter"
	"maps"
	"slices"

	"stageloom/model/plan"
)

// PhantomChange is what happens to 48 V at one preamp where one act follows another.
type PhantomChange struct {
	Socket Socket
	// Before and After are the inputs there, nil for none: the one that has 48 V, else one that the preamp's 48 V could come to.
	Before, After *Line
	// Was and Now tell that 48 V is on in the act before and in the next.
	Was, Now bool
	// OffBy and OnBy are who switches it in the act before and in the next; blank where nobody is known.
	OffBy, OnBy plan.DeviceID
}

// Replugged tells that another input comes on the preamp, so that 48 V is off while it is plugged.
func (c *PhantomChange) Replugged() bool { return inputOf(c.Before) != inputOf(c.After) }

// Stays tells that nothing is done: the same input keeps its 48 V.
func (c *PhantomChange) Stays() bool { return c.Was && c.Now && !c.Replugged() }

// Hurts tells that 48 V was on and the next input suffers from it.
func (c *PhantomChange) Hurts() bool {
	return c.Was && c.After != nil && c.Replugged() && BearingOf(c.After.Input) == Suffers
}

func inputOf(l *Line) plan.InputID {
	if l == nil {
		return ""
	}
	return l.Input.ID
}

// at is what is at a preamp in an act.
type atPreamp struct {
	line *Line
	feed Feed
	on   bool
}

// preamps are all preamps whose 48 V can come to an input of an act.
func (v *View) preamps(act *Act) map[Socket]atPreamp {
	all := map[Socket]atPreamp{}
	if act == nil {
		return all
	}
	for _, line := range act.Lines {
		for _, feed := range v.Feeds(act, line) {
			if _, taken := all[feed.Socket]; !taken {
				all[feed.Socket] = atPreamp{line, feed, false}
			}
		}
		for _, feed := range v.Fed(act, line) {
			if !all[feed.Socket].on {
				all[feed.Socket] = atPreamp{line, feed, true}
			}
		}
	}
	return all
}

// PhantomChanges lists the preamps whose 48 V is on in an act or in the one that follows it, by device and socket. Without an act
// before, all of it goes on.
func PhantomChanges(v *View, before, after *Act) (changes []PhantomChange) {
	was, now := v.preamps(before), v.preamps(after)
	sockets := maps.Clone(was)
	maps.Copy(sockets, now)
	for socket := range sockets {
		one, other := was[socket], now[socket]
		if !one.on && !other.on {
			continue
		}
		changes = append(changes, PhantomChange{
			Socket: socket, Before: one.line, After: other.line, Was: one.on, Now: other.on,
			OffBy: one.feed.Switch, OnBy: other.feed.Switch,
		})
	}
	slices.SortFunc(changes, func(a, b PhantomChange) int {
		return cmp.Or(v.nets.byName(a.Socket.Device, b.Socket.Device), cmp.Compare(a.Socket.Number, b.Socket.Number))
	})
	return changes
}

// Previous is the act before one on the same stage; nil where it is the first there, or the house.
func (v *View) Previous(act *Act) (before *Act) {
	for _, other := range v.Acts {
		switch {
		case other == act:
			return before
		case !other.House() && other.Act.Stage == act.Act.Stage:
			before = other
		}
	}
	return nil
}

// The order of working at a changeover. Common practice, no source; makers' papers come before it.
const PhantomOrder = "Mute, switch 48 V off, wait some seconds until it has gone, replug, switch 48 V on where it is wanted, unmute."

// PhantomWords say what is done to 48 V at a preamp at a changeover, as a sentence without the socket: "off (FOH), then plug
// Room: NO 48 V, ribbon".
func (v *View) PhantomWords(c PhantomChange) string {
	off, on := "off"+v.by(c.OffBy), "on"+v.by(c.OnBy)
	switch {
	case c.Stays():
		return "stays on"
	case !c.Replugged() && c.Was:
		return off
	case c.Now && c.Was:
		return fmt.Sprintf("%s, plug %s, then %s", off, c.After.Input.Name, on)
	case c.Now && c.Replugged():
		return fmt.Sprintf("plug %s, then %s", c.After.Input.Name, on)
	case c.Now:
		return on
	case c.After == nil:
		return fmt.Sprintf("%s, before %s is unplugged", off, c.Before.Input.Name)
	}
	said := fmt.Sprintf("%s, then plug %s", off, c.After.Input.Name)
	if c.Hurts() {
		said += ": NO 48 V, " + TypeWords(c.After.Input)
	}
	return said
}

// by names who switches, in brackets.
func (v *View) by(id plan.DeviceID) string {
	if id == "" {
		return ""
	}
	return " (" + v.Name(id) + ")"
}

// PhantomLeft is a preamp whose 48 V was left on: for a line of an act.
type PhantomLeft struct {
	Line *Line
	Act  *Act
}

// Leavings yields the acts in running order with the preamps whose 48 V the acts before on the same stage left on, as far as nobody
// is told to switch it off: until something that wants none is plugged in there. The map is good until the next act.
func (v *View) Leavings() iter.Seq2[*Act, map[Socket]PhantomLeft] {
	return func(yield func(*Act, map[Socket]PhantomLeft) bool) {
		stages := map[string]map[Socket]PhantomLeft{}
		for _, act := range v.Acts[1:] {
			left := stages[act.Act.Stage]
			if left == nil {
				left = map[Socket]PhantomLeft{}
				stages[act.Act.Stage] = left
			}
			if !yield(act, left) {
				return
			}
			for socket, at := range v.preamps(act) {
				delete(left, socket)
				if at.on {
					left[socket] = PhantomLeft{at.line, act}
				}
			}
		}
	}
}

// LeftOn are the preamps whose 48 V was left on when an act begins.
func (v *View) LeftOn(act *Act) map[Socket]PhantomLeft {
	for at, left := range v.Leavings() {
		if at == act {
			return left
		}
	}
	return nil
}
