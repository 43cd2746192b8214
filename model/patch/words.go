package patch

import (
	"fmt"
	"strings"

	"stageloom/model/plan"
)

// arrow leads from each place on the way of a signal to the next.
const arrow = " → "

// SocketWords names a socket as a crew says it: "SL in 3", "SR out 4"; blank for none.
func (v *View) SocketWords(s Socket) string { return v.nets.socketWords(s) }

func (n *network) socketWords(s Socket) string {
	if s.None() {
		return ""
	}
	direction := "in"
	if s.Output {
		direction = "out"
	}
	return fmt.Sprintf("%s %s %d", n.name(s.Device), direction, s.Number)
}

// Words is the line a crew reads aloud: "Kick in → SL in 3 → FOH 1, Mon 1". A sub-snake stands before the box it leads
// to; legs of a splitter are parted by semicolons; a channel that the signal does not reach is marked "not reached",
// or why it is not carried there. What only lies parallel on the same multicore is no place that the input comes to.
func (v *View) Words(l *Line) string {
	said := l.Input.Name
	switch {
	case l.Struck:
		return said + " → not used"
	case l.At.None():
		return said + " → not patched"
	}
	if !l.Snake.None() {
		said += " → " + v.SocketWords(l.Snake)
	}
	if l.At != l.Snake && (len(l.Legs) != 1 || l.Legs[0].Socket != l.At) {
		said += " → " + v.SocketWords(l.At)
	}
	var legs []string
	for i := range l.Legs {
		if leg := &l.Legs[i]; !v.Parallel(l, leg) {
			legs = append(legs, v.legWords(l, leg))
		}
	}
	return said + strings.Join(legs, ";")
}

func (v *View) legWords(l *Line, leg *Leg) string {
	said := ""
	if leg.Socket != l.Snake {
		said = " → " + v.SocketWords(leg.Socket)
	}
	if len(leg.Channels) == 0 {
		return said
	}
	var channels []string
	for _, c := range leg.Channels {
		words := fmt.Sprintf("%s %d", v.nets.name(c.Console), c.Number)
		if !c.Reached {
			words += " " + v.Unreached(c.Lost)
		} else if resent := v.resentWords(c.Hops); resent != "" {
			words += " (" + resent + ")"
		}
		channels = append(channels, words)
	}
	return said + " → " + strings.Join(channels, ", ")
}

// OutputWords is the line of an output: "Monitor 1 → Mon → SL out 4".
func (v *View) OutputWords(l *OutputLine) string {
	switch {
	case l.Struck:
		return l.Output.Name + " → not used"
	case !l.Patched():
		return l.Output.Name + " → not patched"
	}
	said := fmt.Sprintf("%s → %s → %s", l.Output.Name, v.nets.name(l.Console), v.SocketWords(l.Socket))
	if !l.Reached {
		said += " " + v.Unreached(l.Lost)
	} else if resent := v.resentWords(l.Hops); resent != "" {
		said += " (" + resent + ")"
	}
	return said
}

// Unreached says that a signal does not arrive: "not reached", and why where its channels lead towards the place, as "not carried
// at 96 kHz".
func (v *View) Unreached(lost Spot) string {
	switch lost.Cause {
	case SlotOver:
		return "not carried at " + KHz(lost.Rate)
	case RatesApart:
		return fmt.Sprintf("not carried from %s to %s", KHz(v.Rate(lost.Device)), KHz(v.Rate(lost.Beyond)))
	case NotPassed:
		return "not reached, " + v.Name(lost.Device) + " passes nothing on"
	}
	return "not reached"
}

// KHz is a sample rate as it is said: "48 kHz", "44.1 kHz".
func KHz(hertz int) string { return fmt.Sprintf("%v kHz", float64(hertz)/1000) }

// resentWords names the consoles that send a signal on: "FOH re-sends".
func (v *View) resentWords(hops []Hop) string {
	var said []string
	for _, hop := range hops {
		if hop.Resent != "" {
			said = append(said, v.Name(hop.Resent)+" re-sends")
		}
	}
	return strings.Join(said, ", ")
}

// SlotWords names the channels on the links of a way, and the consoles that send the signal on: "L01 3, L04 7", "L01 3, FOH re-sends, L04 7".
func (v *View) SlotWords(hops []Hop) string {
	var said []string
	for _, hop := range hops {
		if hop.Resent != "" {
			said = append(said, v.Name(hop.Resent)+" re-sends")
		}
		link, _ := v.Plan.Link(hop.Link)
		words := fmt.Sprintf("%s %d", link.Name, hop.Slot)
		if hop.Direction == Return && v.bothWays(hop.Link) {
			words += " back"
		}
		said = append(said, words)
	}
	return strings.Join(said, ", ")
}

// bothWays reports whether a link carries slots against its own direction at all.
func (v *View) bothWays(id plan.LinkID) bool {
	number, found := v.nets.spanOf[id]
	return found && !v.nets.spans[number].oneWay
}
