package patch

import "stageloom/model/plan"

// Point is one socket that an input lies on in an act, and how it comes there from where it is plugged in on stage.
type Point struct {
	Socket Socket
	// Ways are those of the multicores up to there; none where the input is plugged in, and where its sub-snake's tail is.
	Ways []Way
}

// Points lists the sockets that an input lies on in an act, each once, used or not. The first is the one place where it is
// plugged in on stage: the way of its sub-snake, or the socket itself. Nothing else is plugged into the others that have ways.
func (v *View) Points(act *Act, l *Line) (points []Point) {
	if !l.Patched() {
		return nil
	}
	seen := map[Socket]bool{}
	add := func(s Socket, ways []Way) {
		if !s.None() && !seen[s] {
			seen[s] = true
			points = append(points, Point{s, ways})
		}
	}
	from := func(start Socket) {
		add(start, nil)
		all := v.nets.through[start]
		for i := range all {
			ways, _ := wayTo(all, i)
			add(all[i].socket, ways)
			add(act.over.box(all[i]), ways)
		}
	}
	if !l.Snake.None() {
		from(l.Snake)
	}
	from(l.At)
	return points
}

// Parallel reports whether the socket of a leg merely lies on one multicore with the input and is no place that its signal comes
// to: an output of a rack, or a sub-snake's inlet that feeds the same splitter. Where a channel listens it is a place.
func (v *View) Parallel(l *Line, leg *Leg) bool {
	at := leg.Socket
	switch {
	case at == l.At || at == l.Snake || len(leg.Channels) > 0 || len(leg.Ways) == 0:
		return false
	case at.Output:
		return true
	}
	return v.nets.subSnake(at) && v.nets.feeds(leg.Ways[len(leg.Ways)-1].Link, at.Device)
}

// feeds reports whether a multicore leads from a device into an inlet of a splitter.
func (n *network) feeds(link plan.LinkID, from plan.DeviceID) bool {
	for at, to := range n.joints {
		if to.link == link && to.to.device == from {
			d := n.devices[at.device]
			return d != nil && d.kind.Splitter != "" && at.inlet()
		}
	}
	return false
}
