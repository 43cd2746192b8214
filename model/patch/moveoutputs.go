package patch

import (
	"cmp"
	"slices"

	"stageloom/model/plan"
)

// outlet is an output that one act lets leave by a socket, and all acts that have it so.
type outlet struct {
	row  plan.OutputPatch
	acts []*overlay
}

// outputs moves those that leave by the device to the first free outputs elsewhere.
func (m *movingOff) outputs() {
	var all []outlet
	for _, o := range m.acts {
		for _, row := range o.outputs {
			if row.Device != m.dead || row.Strike {
				continue
			}
			one := outlet{row, []*overlay{o}}
			for _, other := range m.acts {
				if _, says := other.outputs[row.Output]; o.house == nil && other != o && !says {
					one.acts = append(one.acts, other)
				}
			}
			all = append(all, one)
		}
	}
	slices.SortFunc(all, func(a, b outlet) int {
		return cmp.Or(cmp.Compare(a.row.Socket, b.row.Socket), cmp.Compare(a.row.Act, b.row.Act), cmp.Compare(a.row.Output, b.row.Output))
	})
	for _, one := range all {
		to, why := m.outletFor(one)
		if to.None() {
			output, _ := m.edit.Now().Outputs.Get(plan.Key(one.row.Output))
			m.left = append(m.left, Left{one.row.Act, plan.RefOf(output), output.Name + " stays on " + m.net.socketWords(Socket{m.dead, one.row.Socket, true}) + ": " + why})
			continue
		}
		m.leaveBy(one, to)
	}
}

// leaveBy lets an output leave by a socket.
func (m *movingOff) leaveBy(one outlet, to Socket) {
	row := one.row
	row.Device, row.Socket = to.Device, to.Number
	m.also = append(m.also, func() { plan.Put(m.edit, row) })
	m.moved++
	for _, o := range one.acts {
		m.taken[o.act][to] = true
		if row.Console != "" {
			m.wishes[o.act] = append(m.wishes[o.act], wish{to, row.Console})
		}
	}
}

// outletFor is the first free output of the best device that the output's console gets to, of the sort that it had.
func (m *movingOff) outletFor(one outlet) (best Socket, why string) {
	why = "no output is free"
	least := worth{}
	for _, id := range m.output {
		s := m.freeOutlet(id, one)
		if s.None() {
			continue
		}
		value := worth{0, m.elsewhere(id), m.metres(id), 0}
		for _, o := range one.acts {
			way := 0
			if one.row.Console != "" {
				way = m.way(o, one.row.Console, id)
			}
			value[0], value[3] = value[0]+min(0, way), value[3]+max(0, way)
		}
		if value[0] < 0 {
			why = "its console gets to no free output"
			continue
		}
		if best.None() || value.compare(least) < 0 {
			best, least = s, value
		}
	}
	return best, why
}

func (m *movingOff) freeOutlet(id plan.DeviceID, one outlet) Socket {
	use := m.net.useOf(Socket{m.dead, one.row.Socket, true})
	for number := 1; number <= m.net.sockets(id, true); number++ {
		s := Socket{id, number, true}
		if len(m.net.through[s]) > 0 || m.fed[s] {
			continue
		}
		free := func(o *overlay) bool { return !m.taken[o.act][s] && o.here(id) }
		if has := m.net.useOf(s); (has == use || has == "" || use == "") && !slices.ContainsFunc(one.acts, func(o *overlay) bool { return !free(o) }) {
			return s
		}
	}
	return Socket{}
}

// useOf is what a socket is for, blank where its kind does not say.
func (n *network) useOf(s Socket) string {
	d := n.devices[s.Device]
	if d == nil {
		return ""
	}
	for _, row := range d.kind.sockets {
		if (row.Direction == "out") == s.Output && s.Number >= row.First && s.Number < row.First+row.Count {
			return row.Use
		}
	}
	return ""
}
