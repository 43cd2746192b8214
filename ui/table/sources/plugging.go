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

// holdAll plugs what was typed into sockets: each input by number or name.
func (s *patching) holdAll(e *plan.Edit, cells []table.Typed, inOrder bool) []error {
	errs := make([]error, len(cells))
	var moves []patch.Move
	for i, cell := range cells {
		socket, found := SocketAt(cell.Ref)
		switch {
		case !found:
			errs[i] = fmt.Errorf("there is no such socket any more")
			continue
		case socket.Output:
			errs[i] = s.holdOutput(e, socket, cell.Text)
			continue
		case strings.TrimSpace(cell.Text) == "":
			errs[i] = s.unplug(e, socket)
			continue
		}
		line, err := s.view.ReadInput(s.act, cell.Text)
		if err == nil && inOrder {
			line, err = s.following(line, i)
		}
		if errs[i] = err; err == nil {
			moves = append(moves, patch.Move{Input: line.Input.ID, To: socket})
		}
	}
	if slices.ContainsFunc(errs, func(err error) bool { return err != nil }) {
		return errs
	}
	errs[0] = patch.PlugAll(e, s.act.Act.ID, moves, s.channels)
	return errs
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

// unplug takes what is plugged in at a socket off it.
func (s *patching) unplug(e *plan.Edit, socket patch.Socket) error {
	for _, line := range s.act.Lines {
		if line.At == socket && !line.Struck {
			if err := patch.Unplug(e, s.act.Act.ID, line.Input.ID); err != nil {
				return err
			}
		}
	}
	return nil
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

func (s *patching) own(e *plan.Edit, ref plan.Ref, typed string, owner func(*plan.SocketOwner) *plan.DeviceID) error {
	socket, found := SocketAt(ref)
	switch {
	case socket.Output && strings.TrimSpace(typed) == "":
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
