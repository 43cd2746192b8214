package report

import (
	"cmp"
	"fmt"
	"slices"

	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/report/paper"
)

// boxes are the devices with a socket in use in an act, in the natural order of their names.
func (p *printout) boxes(act *patch.Act) []plan.Device {
	used := map[plan.DeviceID]bool{}
	for _, line := range act.Lines {
		for socket := range line.Sockets() {
			used[socket.Device] = true
		}
	}
	for _, output := range act.Outputs {
		if output.Patched() {
			used[output.Socket.Device] = true
		}
	}
	var list []plan.Device
	for _, device := range p.Devices() {
		if used[device.ID] && p.wantsDevice(device) {
			list = append(list, device)
		}
	}
	return list
}

// wantsDevice reports whether the choice takes the patch of a device.
func (p *printout) wantsDevice(device plan.Device) bool {
	return (p.choice.Position == "" || device.Position == p.choice.Position) && (p.choice.Device == "" || device.ID == p.choice.Device)
}

// drawBoxes prints a sheet for each box and act: every socket with what is plugged into it and where it arrives. A box
// that an act patches as the house does is told in a line.
func (p *printout) drawBoxes(b *paper.Book) {
	b.Title("Patch by box")
	if p.patchless() {
		b.Paragraph("This plan has no input and no output.")
		return
	}
	sheets := p.sheets(b)
	for _, act := range p.acts() {
		var differ []plan.Device
		for _, device := range p.boxes(act) {
			if in, out := p.boxTables(act, device); sheets.likeHouse(act, in, p.houseBox(device, false)) && sheets.likeHouse(act, out, p.houseBox(device, true)) {
				sheets.same(device.Name + p.ofAct(act))
				continue
			}
			differ = append(differ, device)
		}
		for _, device := range differ {
			p.addBox(&sheets, act, device)
		}
	}
	sheets.finish("Nothing is plugged into a box here.")
}

// boxTables are the inputs and the outputs of a box in an act.
func (p *printout) boxTables(act *patch.Act, device plan.Device) (in, out paper.Table) {
	rows, title := p.boxRows(act, device.ID), device.Name+p.ofAct(act)
	return p.boxTable(title, act, sideOf(rows, false)), p.boxTable(title+": outputs", act, sideOf(rows, true))
}

// houseBox are the inputs, or the outputs, of a box in the house.
func (p *printout) houseBox(device plan.Device, output bool) paper.Table {
	house := p.Patch.House()
	return p.boxTable("", house, sideOf(p.boxRows(house, device.ID), output))
}

// addBox prints the sheet of a box in an act: its inputs, and its outputs below them or on a page of their own. A side that is as
// in the house is told in the title of the other.
func (p *printout) addBox(sheets *actSheets, act *patch.Act, device plan.Device) {
	in, out := p.boxTables(act, device)
	sameIn, sameOut := sheets.likeHouse(act, in, p.houseBox(device, false)), sheets.likeHouse(act, out, p.houseBox(device, true))
	if sameIn && len(in.Rows) > 0 {
		out.Title += " (inputs as in the house patch)"
	}
	if sameOut && len(out.Rows) > 0 {
		in.Title += " (outputs as in the house patch)"
	}
	below := false
	if !sameIn && len(in.Rows) > 0 {
		sheets.sheet(in, false)
		below = true
	}
	if !sameOut && len(out.Rows) > 0 {
		sheets.sheet(out, below)
	}
}

// sideOf are the inputs, or the outputs, among the sockets of a box.
func sideOf(rows []boxRow, output bool) (list []boxRow) {
	for _, row := range rows {
		if row.socket.Output == output {
			list = append(list, row)
		}
	}
	return list
}

// boxRow is one socket of a box in one act: the inputs and outputs on it.
type boxRow struct {
	socket  patch.Socket
	inputs  []plugged
	outputs []*patch.OutputLine
}

func (r boxRow) free() bool { return len(r.inputs) == 0 && len(r.outputs) == 0 }

// boxRows lists every socket of a device in an act with all that lies on it, inputs first.
func (p *printout) boxRows(act *patch.Act, device plan.DeviceID) (rows []boxRow) {
	on, listed := p.onSockets(act), map[patch.Socket]bool{}
	for _, row := range p.Patch.Box(act, device) {
		listed[row.Socket] = true
		rows = append(rows, boxRow{row.Socket, on[row.Socket], row.Outputs})
	}
	for socket, inputs := range on {
		if socket.Device == device && !listed[socket] {
			rows = append(rows, boxRow{socket: socket, inputs: inputs})
		}
	}
	slices.SortFunc(rows, func(a, b boxRow) int {
		return cmp.Or(words.Natural(side(a.socket), side(b.socket)), cmp.Compare(a.socket.Number, b.socket.Number))
	})
	return used(rows)
}

// used leaves out the outputs, or the inputs, of a device when nothing is on any of them.
func used(rows []boxRow) []boxRow {
	busy := map[bool]bool{}
	for _, row := range rows {
		busy[row.socket.Output] = busy[row.socket.Output] || !row.free()
	}
	return slices.DeleteFunc(rows, func(row boxRow) bool { return !busy[row.socket.Output] })
}

// fewFree is how many free sockets more are still told one by one, with room to write.
const fewFree = 3

func side(s patch.Socket) string {
	if s.Output {
		return "out "
	}
	return "in "
}

// socketIn is a socket on the sheet of its own box: "in 3".
func socketIn(s patch.Socket) string { return side(s) + fmt.Sprint(s.Number) }
