package patching

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"

	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/ui/table/sources"
)

// Moved moves what was dragged from one row of a table of the patch to another, in a column. What was there takes its
// place.
func (p *Dialogs) Moved(column string, from, to plan.Ref) {
	act, view := p.actNow(), p.Desk().Assessment().Patch
	follow := p.ChannelsFollow()
	if socket, found := sources.SocketAt(from); found {
		goal, _ := sources.SocketAt(to)
		p.carrySocket(act, socket, goal, follow)
		return
	}
	a, found := act.Line(plan.InputID(from.Key))
	b, known := act.Line(plan.InputID(to.Key))
	if !found || !known {
		return
	}
	console, isChannel := sources.ConsoleOf(p.Desk().Assessment(), act.Act.ID, column)
	switch {
	case isChannel && a.Number(console) > 0 && b.Number(console) > 0:
		p.move("Swap channels of "+a.Input.Name+" and "+b.Input.Name, func(e *plan.Edit) error {
			return patch.SetChannels(e, act.Act.ID, console, []patch.Wanted{
				{Input: a.Input.ID, Channel: b.Number(console)}, {Input: b.Input.ID, Channel: a.Number(console)},
			})
		})
	case isChannel:
		p.move(fmt.Sprintf("%s %d to %s", view.Name(console), a.Number(console), b.Input.Name), func(e *plan.Edit) error {
			return patch.SetChannels(e, act.Act.ID, console, []patch.Wanted{
				{Input: a.Input.ID}, {Input: b.Input.ID, Channel: a.Number(console)},
			})
		})
	case b.Patched() && a.Patched():
		p.move("Swap "+a.Input.Name+" and "+b.Input.Name, func(e *plan.Edit) error {
			return patch.Swap(e, act.Act.ID, a.Input.ID, b.Input.ID, follow)
		})
	case a.Patched():
		p.move(view.SocketWords(a.At)+" to "+b.Input.Name, func(e *plan.Edit) error {
			if err := patch.Unplug(e, act.Act.ID, a.Input.ID); err != nil {
				return err
			}
			return patch.Plug(e, act.Act.ID, b.Input.ID, a.At, follow)
		})
	}
}

// carrySocket moves what is plugged in at one socket to another; what is there comes back in exchange.
func (p *Dialogs) carrySocket(act *patch.Act, from, to patch.Socket, follow bool) {
	var moves []patch.Move
	for _, line := range act.Lines {
		switch {
		case line.Struck:
		case line.At == from:
			moves = append(moves, patch.Move{Input: line.Input.ID, To: to})
		case line.At == to:
			moves = append(moves, patch.Move{Input: line.Input.ID, To: from})
		}
	}
	if len(moves) == 0 {
		p.Say("Only inputs are dragged from socket to socket; an output is patched in the table of outputs.")
		return
	}
	view := p.Desk().Assessment().Patch
	p.move(fmt.Sprintf("%s to %s", view.SocketWords(from), view.SocketWords(to)), func(e *plan.Edit) error {
		return patch.PlugAll(e, act.Act.ID, moves, follow)
	})
}

// firstFree is the first socket of a device from which on so many are free in the act.
func firstFree(view *patch.View, act *patch.Act, device plan.DeviceID, wanted int, moving []plan.InputID) (patch.Socket, bool) {
	free := 0
	for _, row := range view.Box(act, device) {
		if row.Socket.Output {
			break
		}
		free++
		for _, line := range row.Lines {
			if !slices.Contains(moving, line.Input.ID) {
				free = 0
			}
		}
		if free == wanted {
			return patch.Socket{Device: device, Number: row.Socket.Number - wanted + 1}, true
		}
	}
	return patch.Socket{}, false
}

// boxAt is the device with sockets at a place of the window, and where inputs dropped there would go.
func (p *Dialogs) boxAt(at fyne.Position, inputs []plan.InputID) (words string, first patch.Socket, room bool) {
	ref, found := p.RowAt(at)
	view := p.Desk().Assessment().Patch
	device := plan.DeviceID(ref.Key)
	if !found || ref.Table != plan.DevicesTable || view.Sockets(device, false) == 0 {
		return "", patch.Socket{}, false
	}
	first, room = firstFree(view, p.actNow(), device, len(inputs), inputs)
	switch {
	case !room:
		return fmt.Sprintf("%s has not %d free sockets in a row", view.Name(device), len(inputs)), first, false
	case len(inputs) == 1:
		return "to " + view.SocketWords(first), first, true
	}
	return fmt.Sprintf("to %s and on", view.SocketWords(first)), first, true
}

// Dragging shows under the pointer what is dragged out of a table of the patch, and where it would go.
func (p *Dialogs) Dragging(inputs []plan.InputID, at fyne.Position, outside bool) {
	if !outside || len(inputs) == 0 {
		p.Hide()
		return
	}
	words, _, _ := p.boxAt(at, inputs)
	p.Carry(p.inputsNamed(inputs)+"   "+words, at)
}

// Dropped plugs what was dragged onto a device of the plan into its first free sockets, in the order of the table.
func (p *Dialogs) Dropped(inputs []plan.InputID, at fyne.Position) {
	p.Hide()
	words, first, room := p.boxAt(at, inputs)
	switch {
	case len(inputs) == 0:
	case words == "":
		p.Say("Drop inputs on a device of the plan that has sockets, or on a row of the table.")
	case !room:
		p.Warn(words + ".")
	default:
		p.move("Plug "+p.inputsNamed(inputs)+" into "+p.Desk().Assessment().Patch.Name(first.Device), func(e *plan.Edit) error {
			return patch.Fill(e, p.ActShown(), inputs, first, p.ChannelsFollow())
		})
	}
}
