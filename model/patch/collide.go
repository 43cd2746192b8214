package patch

import (
	"fmt"
	"slices"

	"stageloom/model/plan"
)

// collides refuses two inputs of an act on one socket, directly or over multicores, that did not share one before.
func (w *work) collides(o *overlay, after *tally) error {
	for _, id := range w.order {
		at, plugged := after.at[id]
		if !plugged || at == w.before[o.act].at[id] {
			continue
		}
		for s := range o.spots(at) {
			for _, other := range after.on[s] {
				if other != id && !w.shared(o, id, other) {
					return refuse("%s%s: unplug that first or choose %s", w.meeting(s, at, after.at[other], other), w.inAct(o), w.nextFree(o, after, id))
				}
			}
		}
	}
	return nil
}

// shared reports whether two inputs lay on one socket before.
func (w *work) shared(o *overlay, a, b plan.InputID) bool {
	before := w.before[o.act]
	at, plugged := before.at[a]
	if !plugged {
		return false
	}
	for s := range o.spots(at) {
		if slices.Contains(before.on[s], b) {
			return true
		}
	}
	return false
}

// meeting says how what is plugged in at a socket meets another input.
func (w *work) meeting(where, at, there Socket, other plan.InputID) string {
	words, name := w.net.socketWords, w.inputs[other].Name
	switch {
	case at == there:
		return fmt.Sprintf("%s holds %s already", words(at), name)
	case where == there || where == at && w.net.subSnake(at):
		return fmt.Sprintf("%s leads to %s, which holds %s already", words(at), words(there), name)
	case where == at:
		return fmt.Sprintf("%s is fed by %s, %s", words(at), words(there), name)
	}
	return fmt.Sprintf("%s leads to %s, which is fed by %s, %s", words(at), words(where), words(there), name)
}

// subSnake reports whether a socket is an inlet of a sub-snake: passive, and no splitter.
func (n *network) subSnake(s Socket) bool {
	d := n.devices[s.Device]
	return d != nil && !s.Output && d.kind.Passive && d.kind.Splitter == ""
}

// inAct names the act of a collision where it is not the one that is edited.
func (w *work) inAct(o *overlay) string {
	if o.act == w.act {
		return ""
	}
	act, _ := w.edit.Now().Acts.Get(plan.Key(o.act))
	return " in " + act.Name
}

// nextFree is the number of the next socket of a device that nothing else lies on, above the one that was wanted or else
// below it.
func (w *work) nextFree(o *overlay, after *tally, id plan.InputID) string {
	at := after.at[id]
	free := func(number int) bool {
		for s := range o.spots(Socket{at.Device, number, at.Output}) {
			if slices.ContainsFunc(after.on[s], func(other plan.InputID) bool { return other != id }) {
				return false
			}
		}
		return true
	}
	for number := at.Number + 1; number <= w.net.sockets(at.Device, at.Output); number++ {
		if free(number) {
			return fmt.Sprint(number)
		}
	}
	for number := at.Number - 1; number > 0; number-- {
		if free(number) {
			return fmt.Sprint(number)
		}
	}
	return "another device; " + w.net.name(at.Device) + " has none free"
}
