package patch

import (
	"fmt"
	"slices"
	"strings"

	"stageloom/model/plan"
)

// FreeWord is what is typed for the first free socket or channel: "free", or with a device "SL free".
const FreeWord = "free"

// ReadFree reads "free" with or without a device before it; asked is false where something else is typed.
func ReadFree(typed string) (device string, asked bool) {
	text := strings.Join(strings.Fields(typed), " ")
	if strings.EqualFold(text, FreeWord) {
		return "", true
	}
	if cut := len(text) - len(FreeWord) - 1; cut > 0 && strings.EqualFold(text[cut:], " "+FreeWord) {
		return text[:cut], true
	}
	return "", false
}

// FreeSockets are the first sockets of a device that are free for inputs, one each, in the order of the inputs: nothing else
// lies there in the act, or, where the house is asked, in any act that has the input from it; no multicore is plugged in
// there; and its sort fits, where any does. What the inputs leave is free for them.
func (v *View) FreeSockets(act *Act, device plan.DeviceID, inputs []plan.InputID) ([]Socket, error) {
	taken := v.taken(act, inputs)
	var found []Socket
	for _, id := range inputs {
		line, known := act.Line(id)
		if !known {
			return nil, fmt.Errorf("there is no such input any more")
		}
		s, free := v.freeSocket(act, device, line.Input, taken)
		if !free {
			return nil, fmt.Errorf("%s has no free socket left for %s", v.Name(device), line.Input.Name)
		}
		for at := range act.over.spots(s) {
			taken[at] = true
		}
		found = append(found, s)
	}
	return found, nil
}

// taken are the sockets that other inputs lie on, and those that multicores are plugged into.
func (v *View) taken(act *Act, without []plan.InputID) map[Socket]bool {
	taken := v.nets.fed()
	for _, one := range v.concerned(act) {
		for _, line := range one.Lines {
			if !line.Patched() || slices.Contains(without, line.Input.ID) {
				continue
			}
			for s := range v.Lies(one, line) {
				taken[s] = true
			}
		}
	}
	return taken
}

// concerned are the acts in which something is to be free: of the house, all.
func (v *View) concerned(act *Act) []*Act {
	if act.House() {
		return v.Acts
	}
	return []*Act{act}
}

func (v *View) freeSocket(act *Act, device plan.DeviceID, input plan.Input, taken map[Socket]bool) (found Socket, free bool) {
	for number := 1; number <= v.Sockets(device, false); number++ {
		s := Socket{Device: device, Number: number}
		if inUse(act, s, taken) {
			continue
		}
		if !slices.ContainsFunc(act.over.boxes(s), func(box Socket) bool { return !v.nets.takes(box, input) }) {
			return s, true
		}
		if !free {
			found, free = s, true
		}
	}
	return found, free
}

func inUse(act *Act, s Socket, taken map[Socket]bool) bool {
	for at := range act.over.spots(s) {
		if taken[at] {
			return true
		}
	}
	return false
}

// FreeChannels are the first channels of a console that nothing is patched to, in the act or, where the house is asked, in
// any; channels of inputs that leave them are free for those.
func (v *View) FreeChannels(act *Act, console plan.DeviceID, inputs []plan.InputID) ([]int, error) {
	taken := map[int]bool{}
	for _, one := range v.concerned(act) {
		for _, row := range v.ConsoleRows(one)[console] {
			leaves := len(row.Lines) > 0 && !slices.ContainsFunc(row.Lines, func(l *Line) bool { return !slices.Contains(inputs, l.Input.ID) })
			taken[row.Number] = taken[row.Number] || !leaves
		}
	}
	limit := v.Channels(console)
	if limit == 0 {
		limit = most
	}
	var found []int
	for number := 1; number <= limit && len(found) < len(inputs); number++ {
		if !taken[number] {
			found = append(found, number)
		}
	}
	if len(found) < len(inputs) {
		return nil, fmt.Errorf("%s has %d channels free; %d are wanted", v.Name(console), len(found), len(inputs))
	}
	return found, nil
}

// FreeOutput is the first output of a device that nothing leaves by, in the act or, where the house is asked, in any.
func (v *View) FreeOutput(act *Act, device plan.DeviceID, without plan.OutputID) (Socket, error) {
	taken := v.nets.fed()
	for _, one := range v.concerned(act) {
		for _, line := range one.Outputs {
			if line.Patched() && line.Output.ID != without {
				taken[line.Socket] = true
			}
		}
	}
	for number := 1; number <= v.Sockets(device, true); number++ {
		if s := (Socket{device, number, true}); !taken[s] && len(v.nets.through[s]) == 0 {
			return s, nil
		}
	}
	return Socket{}, fmt.Errorf("%s has no free output left", v.Name(device))
}
