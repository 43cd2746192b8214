package patch

import (
	"slices"

	"stageloom/model/plan"
)

// lead finds all sockets that one leads to, in the order of the ports: each once, by a way that lets 48 V back where
// there is one, and over few multicores.
func (n *network) lead(from Socket) []far {
	w := walk{net: n, seen: map[Socket]bool{from: true}, nodes: []node{{far: far{socket: from}}}}
	w.spread(0)
	for i := 0; i < len(w.later); i++ {
		if next := w.later[i]; !w.seen[next.socket] {
			first := len(w.nodes)
			w.visit(next)
			w.spread(first)
		}
	}
	list := make([]far, 0, len(w.nodes)-1)
	return w.list(list, 0, -1)
}

// walk follows ways from device to device. Each socket is visited once: what was seen is never walked again.
type walk struct {
	net   *network
	seen  map[Socket]bool
	nodes []node
	// later are the steps over isolated ports, taken when all is found that lets 48 V back.
	later []node
}

// node is a socket that a walk found, with those found from there.
type node struct {
	far
	from   int
	order  int // of the step among those of the socket before
	beyond []int
}

// spread visits what can be reached from the nodes from a first one on.
func (w *walk) spread(first int) {
	for i := first; i < len(w.nodes); i++ {
		at := w.nodes[i].far
		if i > 0 && !at.passive {
			continue
		}
		kind, order := w.net.devices[at.socket.Device].kind, 0
		w.net.steps(at.socket, func(row plan.KindWay, number int, over joint, to Socket) {
			order++
			if to.None() || w.seen[to] || over.ways > 0 && number > over.ways {
				return
			}
			next := node{far: far{way: Way{over.link, number}, socket: to, passive: w.net.passes(to)}, from: i, order: order}
			next.isolated = at.isolated || kind.isolates(row.Port) || w.net.devices[to.Device].kind.blocks(over.to.port)
			if next.isolated && !at.isolated {
				w.later = append(w.later, next)
				return
			}
			w.visit(next)
		})
	}
}

func (w *walk) visit(next node) {
	w.seen[next.socket] = true
	w.nodes[next.from].beyond = append(w.nodes[next.from].beyond, len(w.nodes))
	w.nodes = append(w.nodes, next)
}

// list puts what lies beyond a node in the order of ports, each before what it leads to.
func (w *walk) list(all []far, at, before int) []far {
	beyond := w.nodes[at].beyond
	slices.SortStableFunc(beyond, func(a, b int) int { return w.nodes[a].order - w.nodes[b].order })
	for _, next := range beyond {
		one := w.nodes[next].far
		one.before, one.last = before, len(w.nodes[next].beyond) == 0
		all = append(all, one)
		all = w.list(all, next, len(all)-1)
	}
	return all
}
