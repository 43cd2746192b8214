package fields

import (
	"fmt"
	"slices"

	"stageloom/model/medium"
	"stageloom/model/plan"
	"stageloom/model/standards"
	"stageloom/model/words"
)

// kindFields are what a kind of device of the user's own says; one of the catalogue stays as it is.
func kindFields() []*Field {
	d := definer{plan.KindsTable}
	own := of(func(_ State, kind plan.Kind) bool { return kind.Own })
	return []*Field{
		d.field("name", "name", "Kind of device", "what it is called.").when(own).by(putKind("name", "")),
		d.field("inputs", "inputs", "Inputs", "how many sockets sound comes in by; blank is none.").ifBlank("none").when(own).by(putKind("inputs", "in")),
		d.field("outputs", "outputs", "Outputs", "how many sockets sound goes out by; blank is none.").ifBlank("none").when(own).by(putKind("outputs", "out")),
		d.field("hardware", "hardware", "Connectors", "what the connectors of its ports are made of.").among(of(connectors)).when(own).by(putKind("hardware", "")),
	}
}

// connectors lists what the connectors of a kind can be made of.
func connectors(s State, kind plan.Kind) []Option { return ConnectorsOf(s.Plan.Ports(kind.ID)) }

// ConnectorsOf lists what the connectors of ports can be made of: the hardware of the media that their transports run through,
// or of the first medium where no loss is reckoned in any.
func ConnectorsOf(ports []plan.KindPort) []Option {
	options := []Option{{"", "not stated"}}
	var media []standards.Media
	for _, port := range ports {
		transport, _ := standards.TransportBySlug(standards.TransportSlug(port.Transport))
		if _, reckoned := medium.Of(transport.Media); reckoned && !slices.Contains(media, transport.Media) {
			media = append(media, transport.Media)
			options = append(options, hardwareOf(medium.HardwareFor(transport.Media))...)
		}
	}
	if len(media) == 0 {
		options = append(options, hardwareOf(medium.HardwareFor(""))...)
	}
	return options
}

// putKind changes a kind of device of the user's own; the sockets of a direction, where one is given, follow their count.
func putKind(id, direction string) func(State, *plan.Edit, plan.Key, string) error {
	return func(s State, e *plan.Edit, key plan.Key, value string) error {
		kind, _ := e.Now().Kinds.Get(key)
		if !kind.Own {
			return fmt.Errorf("%s is a kind of the catalogue: make one of your own like it", kind.Name)
		}
		if err := Of(plan.KindsTable, id).store(s, e, kind, value); err != nil || direction == "" {
			return err
		}
		kind, _ = e.Now().Kinds.Get(key)
		for _, row := range e.Now().KindSockets.Under(key) {
			if row.Direction == direction {
				plan.Drop[plan.KindSocket](e, row.Key())
			}
		}
		for _, row := range SocketsOf(kind) {
			if row.Direction == direction {
				plan.Put(e, row)
			}
		}
		return nil
	}
}

// SocketsOf are the sockets of a kind that states only how many it has: microphones in, lines out.
func SocketsOf(kind plan.Kind) (rows []plan.KindSocket) {
	if kind.Inputs > 0 {
		rows = append(rows, plan.KindSocket{Kind: kind.ID, Direction: "in", First: 1, Count: kind.Inputs, Use: "mic"})
	}
	if kind.Outputs > 0 {
		rows = append(rows, plan.KindSocket{Kind: kind.ID, Direction: "out", First: 1, Count: kind.Outputs, Use: "line"})
	}
	return rows
}

// Typed is what was typed into the field of an id.
type Typed struct{ ID, Text string }

// TypeAll types into several fields of a row that is being made; its error names the field that cannot take what was typed.
func TypeAll(e *plan.Edit, units words.Units, table string, key plan.Key, typed ...Typed) error {
	for _, each := range typed {
		f := Of(table, each.ID)
		if err := f.Type(e, units, key, each.Text); err != nil {
			return fmt.Errorf("%s: %w", f.Name, err)
		}
	}
	return nil
}

// TickText is what stands in a field of yes or no.
func TickText(ticked bool) string {
	if ticked {
		return yes
	}
	return "no"
}
