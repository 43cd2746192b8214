package sources

import (
	"fmt"
	"iter"
	"maps"
	"slices"
	"strings"

	"stageloom/model/assess"
	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/table"
)

// socketRow is one socket of a device in the act that is looked at. What its cells say is reckoned when they are looked at.
type socketRow struct {
	patch.Socket
	lines   []*patch.Line
	outputs []*patch.OutputLine
}

// Sockets is a row a socket of every device, by device: what is plugged in there in one act, and where it goes.
func Sockets(a *assess.Assessment, at View) table.Source {
	s := sighted(a, at)
	return &table.List[socketRow]{
		ID: "sockets", One: "socket", Many: "sockets", Rows: s.socketRows(),
		First:  "No device has a socket yet. Put a stage box on the plan first: Ctrl E.",
		RefOf:  func(r socketRow) plan.Ref { return SocketRef(r.Socket) },
		NameOf: func(r socketRow) string { return s.view.SocketWords(r.Socket) },
		ShowsOf: func(r socketRow) []plan.Ref {
			return []plan.Ref{{Table: plan.DevicesTable, Key: plan.Key(r.Socket.Device)}}
		},
		Fields: s.socketFields(),
	}
}

// socketRows are the sockets that devices have, by device, and then those that the patch names and no kind has.
func (s *patching) socketRows() (rows []socketRow) {
	lines, outputs := map[patch.Socket][]*patch.Line{}, map[patch.Socket][]*patch.OutputLine{}
	for _, line := range s.act.Lines {
		for socket := range s.view.Lies(s.act, line) {
			lines[socket] = append(lines[socket], line)
		}
	}
	for _, line := range s.act.Outputs {
		if line.Patched() {
			outputs[line.Socket] = append(outputs[line.Socket], line)
		}
	}
	for _, id := range s.devices() {
		for _, output := range []bool{false, true} {
			for number := 1; number <= s.view.Sockets(id, output); number++ {
				socket := patch.Socket{Device: id, Number: number, Output: output}
				rows = append(rows, socketRow{socket, lines[socket], outputs[socket]})
			}
		}
	}
	var missing []patch.Socket
	for _, socket := range slices.AppendSeq(slices.Collect(maps.Keys(lines)), maps.Keys(outputs)) {
		if !s.view.Exists(socket) {
			missing = append(missing, socket)
		}
	}
	slices.SortFunc(missing, func(a, b patch.Socket) int { return words.Natural(s.view.SocketWords(a), s.view.SocketWords(b)) })
	for _, socket := range missing {
		rows = append(rows, socketRow{socket, lines[socket], outputs[socket]})
	}
	return rows
}

// SocketRef names a row of the table of sockets.
func SocketRef(socket patch.Socket) plan.Ref {
	return plan.Ref{Table: "sockets", Key: plan.Key(socket.Device), Part: direction(socket)}
}

// SocketAt is the socket that a row of the table of sockets is about.
func SocketAt(ref plan.Ref) (socket patch.Socket, found bool) {
	word := ""
	if ref.Table != "sockets" {
		return socket, false
	}
	if _, err := fmt.Sscanf(ref.Part, "%s %d", &word, &socket.Number); err != nil {
		return socket, false
	}
	socket.Device, socket.Output = plan.DeviceID(ref.Key), word == "out"
	return socket, true
}

func direction(socket patch.Socket) string {
	if socket.Output {
		return fmt.Sprintf("out %d", socket.Number)
	}
	return fmt.Sprintf("in %d", socket.Number)
}

// devices are those with sockets: boxes by name, then consoles.
func (s *patching) devices() []plan.DeviceID {
	devices := s.view.WithSockets(false)
	for _, id := range s.view.WithSockets(true) {
		if s.view.Sockets(id, false) == 0 {
			devices = append(devices, id)
		}
	}
	return devices
}

// holds names what is plugged in at a socket.
func (r socketRow) holds() string {
	var said []string
	for _, line := range r.lines {
		said = append(said, fmt.Sprintf("%d %s", line.Input.Number, line.Input.Name))
	}
	for _, line := range r.outputs {
		said = append(said, fmt.Sprintf("%d %s", line.Output.Number, line.Output.Name))
	}
	return strings.Join(said, ", ")
}

// goesTo names the channels that a socket's preamp feeds, and the console that feeds an output.
func (s *patching) goesTo(r socketRow) string {
	var said []string
	for leg := range r.legs() {
		said = append(said, s.channelWords(leg.Channels)...)
	}
	for _, line := range r.lines {
		if line.At != r.Socket {
			said = append(said, "wired to "+s.view.SocketWords(line.At))
		}
	}
	for _, line := range r.outputs {
		words := "from " + s.view.Name(line.Console)
		if !line.Reached {
			words += " " + s.view.Unreached(line.Lost)
		}
		said = append(said, words)
	}
	return strings.Join(said, ", ")
}

// legs are those whose preamp is at the socket.
func (r socketRow) legs() iter.Seq[*patch.Leg] {
	return func(yield func(*patch.Leg) bool) {
		for _, line := range r.lines {
			for i := range line.Legs {
				if line.Legs[i].Socket == r.Socket && !yield(&line.Legs[i]) {
					return
				}
			}
		}
	}
}

// owner is who owns something of the socket's preamp.
func (s *patching) owner(r socketRow, of func(*patch.Leg) plan.DeviceID) string {
	for leg := range r.legs() {
		return s.view.Name(of(leg))
	}
	return ""
}

func gainOf(leg *patch.Leg) plan.DeviceID    { return leg.Gain }
func phantomOf(leg *patch.Leg) plan.DeviceID { return leg.Phantom }

// power says whether 48 V is wanted on a socket, and what is to be heeded there; blank where none comes.
func (s *patching) power(r socketRow) string {
	var said []string
	for _, line := range r.lines {
		words := s.phantoms.At(line, r.Socket)
		if rest, on := strings.CutPrefix(words, "48 V"); on && s.phantoms.Stands(line, r.Socket) {
			words = "wanted" + rest
		} else if words == "wants 48 V" {
			words = "wanted, none comes"
		}
		if words != "" && !slices.Contains(said, words) {
			said = append(said, words)
		}
	}
	return strings.Join(said, "; ")
}

func (s *patching) troubleAt(r socketRow) string {
	var said []string
	for _, line := range r.lines {
		if words := s.troubleOf(line); words != "" && !slices.Contains(said, words) {
			said = append(said, words)
		}
	}
	return strings.Join(said, "; ")
}

func (s *patching) channelWords(channels []patch.Channel) (said []string) {
	for _, channel := range channels {
		words := fmt.Sprintf("%s %d", s.view.Name(channel.Console), channel.Number)
		if !channel.Reached {
			words += " " + s.view.Unreached(channel.Lost)
		}
		said = append(said, words)
	}
	return said
}

// missed reports whether a channel or an output gets nothing of what is on this socket.
func (r socketRow) missed() bool {
	for leg := range r.legs() {
		if slices.ContainsFunc(leg.Channels, func(c patch.Channel) bool { return !c.Reached }) {
			return true
		}
	}
	return slices.ContainsFunc(r.outputs, func(line *patch.OutputLine) bool { return !line.Reached })
}

func (s *patching) socketFields() []table.ColumnOf[socketRow] {
	holds := column("holds", "Holds", 170, "the input that is plugged in here: write its number or name; blank unplugs it.")
	holds.Draggable, holds.InOrder = true, true
	return []table.ColumnOf[socketRow]{
		{
			Column: column("device", "Device", 130, "the box, splitter or console that has it."),
			Text:   func(r socketRow) string { return s.view.Name(r.Device) },
		},
		{
			Column: naming(column("socket", "Socket", 60, "its number on the device.")),
			Text:   func(r socketRow) string { return direction(r.Socket) },
		},
		{
			Column: holds,
			Text:   socketRow.holds,
			Tone: func(r socketRow) table.Tone {
				if len(r.lines)+len(r.outputs) > 1 {
					return table.Stop
				}
				return table.Usual
			},
			SetAll: s.holdAll,
		},
		{
			Column: column("theirs", "Their name", 110, "what the other party calls this socket: SR 9; blank is not told."),
			Text:   func(r socketRow) string { return s.view.TheirName(r.Socket) },
			Set: func(e *plan.Edit, ref plan.Ref, typed string) error {
				socket, found := SocketAt(ref)
				if !found {
					return fmt.Errorf("there is no such socket any more")
				}
				return patch.Call(e, socket, typed)
			},
		},
		{
			Column: column("channels", "Goes to", 160, "the channels that get it; of an output, the console that feeds it."),
			Text:   s.goesTo,
			Tone: func(r socketRow) table.Tone {
				if r.missed() {
					return table.Stop
				}
				return table.Usual
			},
		},
		{
			Column: column("power", "48 V", 60, "whether 48 V is wanted here, and what must not have it. None comes behind an isolated output."),
			Text:   s.power,
			Tone: func(r socketRow) table.Tone {
				if strings.Contains(s.power(r), "NO 48 V") {
					return table.Stop
				}
				return table.Usual
			},
		},
		{
			Column:  choice("gain", "Gain by", 100, "who sets the gain of this preamp; blank is as in the house."),
			Text:    func(r socketRow) string { return s.owner(r, gainOf) },
			Choices: func(r socketRow) []string { return s.owners(r.Socket) },
			Set: func(e *plan.Edit, ref plan.Ref, typed string) error {
				return s.own(e, ref, typed, gainOf, func(row *plan.SocketOwner) *plan.DeviceID { return &row.Gain })
			},
		},
		{
			Column:  choice("phantom", "48 V by", 100, "who switches 48 V of this preamp; blank is as in the house."),
			Text:    func(r socketRow) string { return s.owner(r, phantomOf) },
			Choices: func(r socketRow) []string { return s.owners(r.Socket) },
			Set: func(e *plan.Edit, ref plan.Ref, typed string) error {
				return s.own(e, ref, typed, phantomOf, func(row *plan.SocketOwner) *plan.DeviceID { return &row.Phantom })
			},
		},
		{
			Column: column("trouble", "What is wrong", 260, "what findings say of what is plugged in here."),
			Text:   s.troubleAt,
			Tone:   func(r socketRow) table.Tone { return toneOf(s.troubleAt(r)) },
		},
	}
}
