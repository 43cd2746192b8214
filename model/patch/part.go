package patch

import "stageloom/model/plan"

// part is all that hangs together with a socket over multicores, were they wide enough.
type part struct {
	nodes []reach
	free  []loose
	has   map[plan.DeviceID]bool
}

// reach is a socket of a part, and the first multicore on the way there that has too few ways.
type reach struct {
	socket  Socket
	blocked joint
}

// loose is a port at a socket of a part that joins nothing, with the number of the way that lies there.
type loose struct {
	port    end
	number  int
	blocked joint
}

// widen goes on beyond too narrow multicores where all that is reached without them is visited, and returns those left.
func (p *part) widen(visited int, narrow []reach, seen map[Socket]bool) []reach {
	for visited == len(p.nodes) && len(narrow) > 0 {
		if next := narrow[0]; !seen[next.socket] {
			seen[next.socket] = true
			p.nodes = append(p.nodes, next)
		}
		narrow = narrow[1:]
	}
	return narrow
}

// part walks from a socket over all multicores, each socket once.
func (a *Arrivals) part(from Socket) *part {
	if known := a.parts[from]; known != nil {
		return known
	}
	n := a.view.nets
	p := &part{nodes: []reach{{socket: from}}, has: map[plan.DeviceID]bool{from.Device: true}}
	seen := map[Socket]bool{from: true}
	var narrow []reach // beyond a multicore of too few ways: visited after all that is reached without
	for i := 0; ; i++ {
		narrow = p.widen(i, narrow, seen)
		if i == len(p.nodes) {
			a.parts[from] = p
			return p
		}
		at := p.nodes[i]
		p.has[at.socket.Device] = true
		if i > 0 && !n.passes(at.socket) {
			continue
		}
		n.steps(at.socket, func(row plan.KindWay, number int, over joint, to Socket) {
			next := reach{to, at.blocked}
			switch {
			case to.None():
				p.free = append(p.free, loose{end{at.socket.Device, row.Port}, number, at.blocked})
			case seen[to]:
			case over.ways > 0 && number > over.ways && at.blocked.ways == 0:
				next.blocked = over
				narrow = append(narrow, next)
			default:
				seen[to] = true
				p.nodes = append(p.nodes, next)
			}
		})
	}
}

// leads reports whether what is plugged in at a socket goes on over multicores: at an inlet whose ways map through, or at an
// outlet.
func (n *network) leads(s Socket) bool { return s.Output || n.passes(s) }
