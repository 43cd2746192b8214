package report

import (
	"slices"
	"strings"

	"stageloom/model/exchange"
	"stageloom/model/patch"
	"stageloom/model/plan"
)

// patchSheet has a row for every input of every act, in the order of its line check.
func (p *printout) patchSheet() exchange.Sheet {
	consoles := p.Patch.Consoles()
	names := []string{
		"Act", "Time", "Number", "Input", "Side", "Source or mic", "Type", "Stand", "Riser", "48 V", "Socket", "Multi",
		"RF channel", "Frequency MHz", "Transmitter", "Call", "Note",
	}
	for _, console := range consoles {
		names = append(names, p.Patch.Name(console))
	}
	s := exchange.Sheet{Name: "Patch", Columns: heads(names...)}
	for _, act := range p.Patch.Shown() {
		phantoms := p.Patch.PhantomSheet(act)
		for _, one := range p.callsAndRest(act) {
			s.Rows = append(s.Rows, p.patchRow(act, one, phantoms.Beside(one.Line), consoles))
		}
	}
	return s
}

// callsAndRest are the turns of an act's line check, then what the act does without.
func (p *printout) callsAndRest(act *patch.Act) []call {
	calls := p.calls(act)
	for _, line := range act.Lines {
		if line.Struck {
			calls = append(calls, call{Line: line})
		}
	}
	return calls
}

func (p *printout) patchRow(act *patch.Act, one call, power string, consoles []plan.DeviceID) []exchange.Cell {
	input := one.Input
	row := []exchange.Cell{
		exchange.Text(p.Patch.ActName(act.Act.ID)), exchange.Text(one.at), exchange.Count(input.Number), exchange.Text(input.Name), exchange.Text(p.sideSign(input.Key())),
		exchange.Text(input.Source), exchange.Text(patch.UseWords(input.Use)), exchange.Text(input.Stand), exchange.Text(input.Riser), exchange.Text(power),
		exchange.Text(p.Patch.SocketWords(p.plugPlace(act, one.Line))), exchange.Text(p.multis(act, one.Line)),
		exchange.Text(input.RFChannel), exchange.Optional(input.Frequency, input.Frequency > 0), exchange.Text(input.Transmitter),
		exchange.Text(p.Patch.Words(one.Line)), exchange.Text(input.Note),
	}
	for _, console := range consoles {
		number := one.Number(console)
		row = append(row, exchange.Optional(float64(number), number > 0))
	}
	return row
}

// outputsSheet has a row for every output of every act.
func (p *printout) outputsSheet() exchange.Sheet {
	s := exchange.Sheet{Name: "Outputs", Columns: heads("Act", "Number", "Output", "Side", "Mix or bus", "Kind", "RF channel", "Frequency MHz", "Pack", "From", "To socket", "Note")}
	for _, act := range p.Patch.Shown() {
		for _, line := range act.Outputs {
			output, place := line.Output, "not used"
			if !line.Struck {
				place = p.outputPlace(line)
			}
			s.Rows = append(s.Rows, []exchange.Cell{
				exchange.Text(p.Patch.ActName(act.Act.ID)), exchange.Count(output.Number), exchange.Text(output.Name), exchange.Text(p.sideSign(output.Key())), exchange.Text(output.Mix), exchange.Text(patch.KindWords(output.Kind)),
				exchange.Text(output.RFChannel), exchange.Optional(output.Frequency, output.Frequency > 0), exchange.Text(output.Pack),
				exchange.Text(p.Patch.Name(line.Console)), exchange.Text(place), exchange.Text(output.Note),
			})
		}
	}
	return s
}

// socketsSheet has a row for every socket of every box in every act on which something is.
func (p *printout) socketsSheet() exchange.Sheet {
	s := exchange.Sheet{Name: "Sockets", Columns: heads("Act", "Box", "Socket", "Their name", "Plug", "Input", "What is plugged in", "48 V", "Arrives at")}
	for _, act := range p.Patch.Shown() {
		phantoms := p.Patch.PhantomSheet(act)
		for _, device := range p.boxes(act) {
			for _, row := range p.boxRows(act, device.ID) {
				if !row.free() {
					s.Rows = append(s.Rows, p.socketRow(act, phantoms, device, row))
				}
			}
		}
	}
	return s
}

func (p *printout) socketRow(act *patch.Act, phantoms *patch.PhantomSheet, device plan.Device, row boxRow) []exchange.Cell {
	var channels, powers []string
	for _, in := range row.inputs {
		channels = append(channels, p.channels(channelsAt(in, row.socket))...)
		if power := p.powerAt(act, phantoms, in, row.socket); power != "" && !slices.Contains(powers, power) {
			powers = append(powers, power)
		}
	}
	plug := "yes"
	if row.fed() {
		plug = "no"
	}
	return []exchange.Cell{
		exchange.Text(p.Patch.ActName(act.Act.ID)), exchange.Text(device.Name), exchange.Text(socketIn(row.socket)), exchange.Text(p.Patch.TheirName(row.socket)), exchange.Text(plug),
		exchange.Text(p.onSocket(row)), exchange.Text(p.pluggedIn(row)), exchange.Text(strings.Join(powers, "; ")), exchange.Text(strings.Join(channels, ", ")),
	}
}
