package exchange

import (
	"slices"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

// homes are the devices on which an act has inputs by rows of its own, the one with the most first.
func (m *match) homes() []plan.DeviceID {
	if m.act == "" {
		return nil
	}
	counts := map[plan.DeviceID]int{}
	for row := range m.plan.StagePatches.All() {
		if input, _ := m.plan.Inputs.Get(plan.Key(row.Input)); row.Act == m.act && row.Device != "" && input.Act == m.act {
			counts[row.Device]++
		}
	}
	var homes []plan.DeviceID
	for id := range m.view.ByName() {
		if counts[id] > 0 {
			homes = append(homes, id)
		}
	}
	slices.SortStableFunc(homes, func(a, b plan.DeviceID) int { return counts[b] - counts[a] })
	return homes
}

// place gives the new inputs of an act their sockets. One of the house that became the act's own keeps the house's place. A
// new one stands where the house has its number, as long as the act has inputs on that device or none of its own anywhere;
// else on the first free socket of the devices on which the act has its own. Where nothing is free it waits.
func (m *match) place(e *plan.Edit, ids []plan.InputID, homes []plan.DeviceID) {
	p := placing{match: m, edit: e, homes: homes}
	for i := range m.rows {
		if row := &m.rows[i]; !row.isNew() && !row.own && !row.same {
			p.keep(row, ids[i])
		}
	}
	p.look()
	var later []int
	for i := range m.rows {
		row := &m.rows[i]
		if !row.isNew() || m.saysSnake(row) && row.want.Snake != "" || m.saysSocket(row) {
			continue
		}
		if !p.asHouse(row, ids[i]) {
			later = append(later, i)
		}
	}
	for _, i := range later {
		p.free(ids[i])
	}
}

// saysSocket reports whether the list itself names the socket of a row.
func (m *match) saysSocket(row *matched) bool {
	sheet := m.in.sheet
	sheet.at = row.Row - 1
	return !saysNone(sheet.text(Box)) && !m.has(Socket) || !saysNone(sheet.text(Socket))
}

// placing finds places for inputs of an act.
type placing struct {
	*match
	edit  *plan.Edit
	homes []plan.DeviceID
	// held are the sockets that inputs of the act touch, wired those that ways of sub-snakes and racks lead into.
	held, wired map[patch.Socket]bool
}

// look learns what the act holds by now.
func (p *placing) look() {
	p.held = map[patch.Socket]bool{}
	act, _ := patch.Of(p.edit.Now()).Act(p.act)
	for _, line := range act.Lines {
		for socket := range line.Sockets() {
			p.held[socket] = true
		}
	}
}

// keep leaves an input that was the house's where the act had it.
func (p *placing) keep(row *matched, id plan.InputID) {
	if p.saysSnake(row) && row.want.Snake != "" && row.want.Snake != row.base.Snake {
		return
	}
	for _, act := range []plan.ActID{p.act, ""} {
		if at := p.stage[plan.StagePatch{Act: act, Input: row.base.ID}.Key()]; at.Device != "" {
			plan.Put(p.edit, plan.StagePatch{Act: p.act, Input: id, Device: at.Device, Socket: at.Socket})
			return
		}
	}
}

// asHouse plugs a new input in where the house has its number. Ways of a rack, as of radio receivers, are for another of the
// same source alone.
func (p *placing) asHouse(row *matched, id plan.InputID) bool {
	house, found := p.house[row.Input.Number]
	if !found || house.Snake != "" && p.view.Supplies(house.Snake) && plan.Folded(house.Source) != plan.Folded(row.want.Source) {
		return false
	}
	at := p.stage[plan.StagePatch{Input: house.ID}.Key()]
	socket := patch.Socket{Device: at.Device, Number: at.Socket}
	if at.Device == "" {
		socket = p.view.Snake(house)
	}
	if socket.None() {
		return false
	}
	if len(p.homes) > 0 && !slices.Contains(p.homes, socket.Device) {
		return false
	}
	if p.held[socket] {
		return false
	}
	if house.Snake != "" {
		want := row.want
		want.ID, want.Snake, want.SnakeWay = id, house.Snake, house.SnakeWay
		plan.Put(p.edit, want)
	}
	if at.Device != "" {
		plan.Put(p.edit, plan.StagePatch{Act: p.act, Input: id, Device: at.Device, Socket: at.Socket})
	}
	p.held[socket] = true
	return true
}

// free plugs an input into the first socket of the act's own devices that no input holds and no way leads into.
func (p *placing) free(id plan.InputID) {
	if p.wired == nil && len(p.homes) > 0 {
		p.wired = p.ways()
	}
	for _, device := range p.homes {
		for number := 1; number <= p.view.Sockets(device, false); number++ {
			socket := patch.Socket{Device: device, Number: number}
			if !p.held[socket] && !p.wired[socket] {
				p.held[socket] = true
				plan.Put(p.edit, plan.StagePatch{Act: p.act, Input: id, Device: device, Socket: number})
				return
			}
		}
	}
}

// ways are the sockets that ways of sub-snakes and racks lead into, found by an input on each way that is taken away again.
func (p *placing) ways() map[patch.Socket]bool {
	var probes []plan.InputID
	for id := range p.view.ByName() {
		for way := 1; way <= p.view.Sockets(id, p.view.Supplies(id)); way++ {
			probes = append(probes, p.edit.AddInput(plan.Input{Number: 1, Name: "way", Snake: id, SnakeWay: way}))
		}
	}
	wired, house := map[patch.Socket]bool{}, patch.Of(p.edit.Now()).House()
	for _, id := range probes {
		if line, found := house.Line(id); found {
			for socket := range line.Sockets() {
				if socket.Device != line.Input.Snake {
					wired[socket] = true
				}
			}
		}
		p.edit.RemoveInput(id)
	}
	return wired
}
