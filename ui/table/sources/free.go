package sources

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

// wanting are the cells in which the first free socket was typed, with the device that each names.
type wanting struct {
	cells   []int
	inputs  []plan.InputID
	devices []string
}

// asked notes a cell in which "free" was typed, and reports whether it was.
func (w *wanting) asked(cell int, input plan.InputID, typed string) bool {
	device, asked := patch.ReadFree(typed)
	if asked {
		w.cells, w.inputs, w.devices = append(w.cells, cell), append(w.inputs, input), append(w.devices, device)
	}
	return asked
}

// freeMoves are the first free sockets for these inputs, device by device; a device that is not found, or has not enough, is
// an error of the cell.
func (s *patching) freeMoves(free wanting, errs []error) (moves []patch.Move) {
	on := map[plan.DeviceID][]int{} // places in free
	for i, cell := range free.cells {
		device, err := s.freeOn(free.inputs[i], free.devices[i])
		if errs[cell] = err; err == nil {
			on[device] = append(on[device], i)
		}
	}
	for device, places := range on {
		var inputs []plan.InputID
		for _, i := range places {
			inputs = append(inputs, free.inputs[i])
		}
		sockets, err := s.view.FreeSockets(s.act, device, inputs)
		if err != nil {
			errs[free.cells[places[0]]] = err
			continue
		}
		for i, input := range inputs {
			moves = append(moves, patch.Move{Input: input, To: sockets[i]})
		}
	}
	slices.SortFunc(moves, func(a, b patch.Move) int { return cmp.Compare(a.Input, b.Input) })
	return moves
}

// freeOn is the device that "free" means: the one that is named before it, else the one that a number alone is meant of.
func (s *patching) freeOn(input plan.InputID, named string) (plan.DeviceID, error) {
	if named != "" {
		socket, err := s.view.ReadSocket(named+" 1", "", false)
		return socket.Device, err
	}
	if device := s.usual(input); device != "" {
		return device, nil
	}
	return "", fmt.Errorf("free on which device? Write for instance SL %s", patch.FreeWord)
}

// freeChannels are the first free channels of a console for the inputs in whose cells that was typed. A name before it is that
// of the console.
func (s *patching) freeChannels(console plan.DeviceID, free wanting) ([]int, error) {
	for _, name := range free.devices {
		if called := s.view.Name(console); !strings.HasPrefix(strings.ToLower(called), strings.ToLower(name)) {
			return nil, fmt.Errorf("this is the column of %s; write %s here, or go to the column of %s", called, patch.FreeWord, plan.Clipped(name))
		}
	}
	if len(free.cells) == 0 {
		return nil, nil
	}
	return s.view.FreeChannels(s.act, console, free.inputs)
}

// readOutput reads the socket that an output leaves by, or "free".
func (s *patching) readOutput(id plan.OutputID, typed string, usual plan.DeviceID) (patch.Socket, error) {
	name, asked := patch.ReadFree(typed)
	if !asked {
		return s.view.ReadSocket(typed, usual, true)
	}
	if name != "" {
		socket, err := s.view.ReadSocket(name+" 1", "", true)
		if err != nil {
			return socket, err
		}
		usual = socket.Device
	}
	if usual == "" {
		return patch.Socket{}, fmt.Errorf("free on which device? Write for instance SL %s", patch.FreeWord)
	}
	return s.view.FreeOutput(s.act, usual, id)
}
