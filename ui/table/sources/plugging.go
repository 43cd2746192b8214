package sources

import (
	"fmt"
	"slices"
	"strings"

	"stageloom/model/fields"
	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/ui/table"
)

// holdAll plugs what was typed into sockets: each input by number or name. What a cell says already changes nothing.
func (s *patching) holdAll(e *plan.Edit, cells []table.Typed, inOrder bool) []error {
	errs := make([]error, len(cells))
	var moves []patch.Move
	for i, cell := range cells {
		socket, found := SocketAt(cell.Ref)
		lines := s.linesOn(socket)
		switch {
		case !found:
			errs[i] = fmt.Errorf("there is no such socket any more")
			continue
		case !inOrder && cell.Text == s.rowOf(socket).holds():
			continue
		case socket.Output && s.leaves(socket, cell.Text):
			errs[i] = s.holdOutput(e, socket, cell.Text)
			continue
		case strings.TrimSpace(cell.Text) == "":
			errs[i] = s.unplug(e, socket, lines)
			continue
		}
		line, err := s.view.ReadInput(s.act, cell.Text)
		if err == nil && inOrder {
			line, err = s.following(line, i)
		}
		if errs[i] = err; err == nil && !slices.Contains(lines, line) {
			moves = append(moves, patch.Move{Input: line.Input.ID, To: socket})
		}
	}
	if slices.ContainsFunc(errs, func(err error) bool { return err != nil }) {
		return errs
	}
	errs[0] = patch.PlugAll(e, s.act.Act.ID, moves, s.channels)
	return errs
}

// leaves reports whether what is typed at an output is of the output list: at a receiver rack, inputs begin.
func (s *patching) leaves(socket patch.Socket, typed string) bool {
	if !s.view.Source(socket) {
		return true
	}
	if strings.TrimSpace(typed) == "" {
		return len(s.linesOn(socket)) == 0
	}
	_, err := s.view.ReadInput(s.act, typed)
	return err != nil || s.view.Sockets(socket.Device, false) > 0
}

// linesOn are the inputs that lie on a socket.
func (s *patching) linesOn(socket patch.Socket) (lines []*patch.Line) {
	for _, line := range s.act.Lines {
		for on := range s.view.Lies(s.act, line) {
			if on == socket {
				lines = append(lines, line)
				break
			}
		}
	}
	return lines
}

// rowOf is the row of a socket.
func (s *patching) rowOf(socket patch.Socket) socketRow {
	row := socketRow{Socket: socket, lines: s.linesOn(socket)}
	for _, line := range s.act.Outputs {
		if line.Patched() && line.Socket == socket {
			row.outputs = append(row.outputs, line)
		}
	}
	return row
}

// holdOutput lets an output leave by a socket, from the console that it comes from now; blank unplugs what leaves there.
func (s *patching) holdOutput(e *plan.Edit, socket patch.Socket, typed string) error {
	typed = strings.ToLower(strings.Join(strings.Fields(typed), " "))
	for _, line := range s.act.Outputs {
		ref, name := plan.RefOf(line.Output), strings.ToLower(line.Output.Name)
		switch number := fmt.Sprint(line.Output.Number); {
		case typed == "" && line.Socket == socket && line.Patched():
			return s.setOutputSocket(e, ref, map[bool]string{true: "", false: struck}[s.act.House()])
		case typed != "" && (typed == number || typed == name || typed == number+" "+name):
			return s.setOutputSocket(e, ref, s.view.SocketWords(socket))
		}
	}
	if typed == "" {
		return nil
	}
	return fmt.Errorf("no output is %q; write its number or its name", plan.Clipped(typed))
}

// following is the input so many places behind one in the list of the act.
func (s *patching) following(line *patch.Line, places int) (*patch.Line, error) {
	at := slices.Index(s.act.Lines, line) + places
	if at >= len(s.act.Lines) {
		return nil, fmt.Errorf("the input list ends with %s", inputWords(s.act.Lines[len(s.act.Lines)-1].Input))
	}
	return s.act.Lines[at], nil
}

// unplug takes what is plugged in at a socket off it. What comes there by wiring is unplugged where it is plugged in.
func (s *patching) unplug(e *plan.Edit, socket patch.Socket, lines []*patch.Line) error {
	var here []plan.InputID
	for _, line := range lines {
		if line.At == socket {
			here = append(here, line.Input.ID)
		}
	}
	if len(here) == 0 && len(lines) > 0 {
		return fmt.Errorf("%s comes to %s from %s: unplug it there", lines[0].Input.Name, s.view.SocketWords(socket), s.view.SocketWords(lines[0].At))
	}
	return patch.Unplug(e, s.act.Act.ID, here...)
}

// sameWords are entries of a list that say what they stand for.
func sameWords(names []string) (options []fields.Option) {
	for _, name := range names {
		options = append(options, fields.Option{Value: name, Words: name})
	}
	return options
}

// owners are those who can own a preamp: consoles that are there in the act, and the device itself.
func (s *patching) owners(socket patch.Socket) []string {
	names := []string{""}
	for _, id := range s.view.Consoles() {
		if s.act.Here(id) {
			names = append(names, s.view.Name(id))
		}
	}
	if name := s.view.Name(socket.Device); s.view.Supplies(socket.Device) && !slices.Contains(names, name) {
		names = append(names, name)
	}
	return names
}

func (s *patching) own(e *plan.Edit, ref plan.Ref, typed string, legOwner func(*patch.Leg) plan.DeviceID, owner func(*plan.SocketOwner) *plan.DeviceID) error {
	socket, found := SocketAt(ref)
	switch {
	case found && typed == s.owner(s.rowOf(socket), legOwner), socket.Output && strings.TrimSpace(typed) == "":
		return nil
	case !found || socket.Output:
		return fmt.Errorf("an output has no preamp")
	}
	name, err := fields.ReadOption(strings.TrimSpace(typed), sameWords(s.owners(socket)))
	if err != nil {
		return err
	}
	row, _ := e.Now().SocketOwners.Get(plan.SocketOwner{Act: s.act.Act.ID, Device: socket.Device, Socket: socket.Number}.Key())
	*owner(&row) = ""
	for id := range s.view.ByName() {
		if name != "" && s.view.Name(id) == name {
			*owner(&row) = id
			break
		}
	}
	patch.Own(e, s.act.Act.ID, socket, row.Gain, row.Phantom)
	return nil
}
