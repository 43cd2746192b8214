package patch

import (
	"fmt"
	"slices"
	"strings"

	"stageloom/model/plan"
)

// MultiWays are the ways of multicores that an input's signal takes, in their order, leg by leg: from its sub-snake to where it
// is patched, and from there to boxes.
func (v *View) MultiWays(line *Line) (all []Way) {
	if !line.Patched() {
		return nil
	}
	add := func(ways []Way) {
		for _, way := range ways {
			if !slices.Contains(all, way) {
				all = append(all, way)
			}
		}
	}
	if line.Snake != line.At {
		reached := v.nets.through[line.Snake]
		if at := slices.IndexFunc(reached, func(to far) bool { return to.socket == line.At }); at >= 0 {
			ways, _ := wayTo(reached, at)
			add(ways)
		}
	}
	for i := range line.Legs {
		add(line.Legs[i].Ways)
	}
	return all
}

// MultiOf says over which multicores an input comes: "L31 blue, way 5"; several are parted by semicolons. Blank where it takes
// none.
func (v *View) MultiOf(line *Line) string {
	var said []string
	for _, way := range v.MultiWays(line) {
		said = append(said, fmt.Sprintf("%s, way %d", v.MultiName(way.Link), way.Number))
	}
	return strings.Join(said, "; ")
}

// MultiName is what a multicore is called on stage: its name and the colour of its tape.
func (v *View) MultiName(id plan.LinkID) string {
	link, _ := v.Plan.Link(id)
	return strings.TrimSpace(link.Name + " " + v.Plan.TapeColour(link))
}

// MultiSocket is the socket of a sub-snake, or the output of a rack, that a way of a multicore begins at. The multicore is known
// by the name of its link, with the colour of its tape or without, by its number where one alone has it, or by the name of the
// sub-snake that it comes from.
func (v *View) MultiSocket(multi string, way int) (Socket, bool) {
	f := finding{words: plan.Folded(multi)}
	for _, prefix := range []string{"multicore ", "multi "} {
		f.words = strings.TrimPrefix(f.words, prefix)
	}
	for link := range v.Plan.Links.All() {
		for _, at := range []end{{link.From, link.FromPort}, {link.To, link.ToPort}} {
			if socket, begins := v.nets.begins(at, link.ID, way); begins {
				f.note(socket, link.Name, v.MultiName(link.ID), v.Name(at.device))
			}
		}
	}
	if len(f.named)+len(f.numbered) == 0 {
		for id := range v.ByName() {
			if k := v.nets.devices[id].kind; k.Passive && k.Splitter == "" && way > 0 && way <= k.Inputs {
				f.note(Socket{id, way, false}, v.Name(id))
			}
		}
	}
	switch {
	case len(f.named) == 1:
		return f.named[0], true
	case len(f.named) == 0 && len(f.numbered) == 1:
		return f.numbered[0], true
	}
	return Socket{}, false
}

// finding is what words mean: the sockets of those that bear them as a name, and as the number behind a name.
type finding struct {
	words           string
	named, numbered []Socket
}

// note takes a socket that some names stand for.
func (f *finding) note(socket Socket, names ...string) {
	for _, name := range names {
		if plan.Folded(name) == f.words && !slices.Contains(f.named, socket) {
			f.named = append(f.named, socket)
		}
		if f.words != "" && numberOf(name) == f.words && !slices.Contains(f.numbered, socket) {
			f.numbered = append(f.numbered, socket)
		}
	}
}

// numberOf is the number that a name ends in, without the noughts before it.
func numberOf(name string) string {
	return strings.TrimLeft(name[len(strings.TrimRight(name, "0123456789")):], "0")
}

// begins is the socket of a sub-snake or of a rack's output from which a way of a multicore begins at one of its ends.
func (n *network) begins(at end, link plan.LinkID, way int) (Socket, bool) {
	d := n.devices[at.device]
	if joined := n.joints[at]; d == nil || joined.link != link || d.kind.Splitter != "" {
		return Socket{}, false
	}
	for _, row := range d.kind.ways {
		output := row.Direction == "out"
		if row.Port == at.port && way >= row.First && way < row.First+row.Count && output != d.kind.Passive {
			socket := Socket{at.device, row.Socket + way - row.First, output}
			return socket, d.kind.Passive || n.source(socket)
		}
	}
	return Socket{}, false
}
