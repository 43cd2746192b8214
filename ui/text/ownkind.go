package text

import (
	"fmt"
	"strings"

	"stageloom/model/catalogue"
	"stageloom/model/fields"
	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/model/standards"
	"stageloom/model/words"
)

// OwnKind is the form of a kind of the user's own, as text.
type OwnKind struct {
	Name, Inputs, Outputs string
	// Ports is one port a line: its name and its transport, then after commas what it goes through to, its sort of fibre and
	// its type of power, e.g. "A aes50, through B".
	Ports string
	// Hardware is what the connectors of its ports are made of, in the words of the field.
	Hardware string
}

// OwnKindFrom is the form filled in from a kind that is there.
func OwnKindFrom(p *plan.Plan, id plan.KindID) OwnKind {
	kind, _ := p.Kinds.Get(plan.Key(id))
	var ports []string
	for _, port := range p.Ports(id) {
		ports = append(ports, portLine(port))
	}
	said := func(id string) string { return standsIn(fields.State{Plan: p}, fields.Of(plan.KindsTable, id), kind) }
	return OwnKind{
		Name: kind.Name + ", own", Inputs: said("inputs"), Outputs: said("outputs"), Ports: strings.Join(ports, "\n"), Hardware: said("hardware"),
	}
}

// Kind reads the form; from is the kind it began with, whose connectors its ports keep. The reason says in words what
// cannot be read.
func (o OwnKind) Kind(p *plan.Plan, from plan.KindID) (kind catalogue.DeviceKind, reason string) {
	base, _ := p.Kinds.Get(plan.Key(from))
	slug := house.Slug(o.Name, func(slug plan.KindID) bool {
		_, built := catalogue.DeviceKindOf(slug)
		return built || p.Kinds.Has(plan.Key(slug))
	})
	base.ID, base.Own = slug, true
	kind.Ports, reason = o.ports(p, from, slug)
	e := plan.NewEdit(p, plan.NewIDSource(1, 1))
	plan.Put(e, base)
	for _, port := range kind.Ports { // they decide what connectors there can be
		plan.Put(e, port)
	}
	err := fields.TypeAll(e, words.Units{}, plan.KindsTable, base.Key(), []fields.Typed{
		{ID: "name", Text: o.Name}, {ID: "inputs", Text: o.Inputs}, {ID: "outputs", Text: o.Outputs}, {ID: "hardware", Text: o.Hardware},
	}...)
	if err != nil {
		return kind, words.Sentence(err)
	}
	kind.Kind, _ = e.Now().Kinds.Get(base.Key())
	kind.Sockets = fields.SocketsOf(kind.Kind)
	kind.Ways = waysFrom(p, from, kind.Kind, kind.Ports)
	return kind, reason
}

// ports reads the ports, one a line.
func (o OwnKind) ports(p *plan.Plan, from, slug plan.KindID) (ports []plan.KindPort, reason string) {
	seen := map[string]bool{}
	known := func(name string) plan.KindPort {
		port, _ := p.KindPorts.Get(plan.PortKey(from, name))
		return port
	}
	for n, line := range strings.Split(o.Ports, "\n") {
		if strings.TrimSpace(line) == "" {
			continue
		}
		port, wrong := readPort(line, known)
		if wrong == "" && seen[port.Name] {
			wrong = "there is a port " + port.Name + " already"
		}
		if wrong != "" {
			return nil, fmt.Sprintf("Port line %d: %s.", n+1, wrong)
		}
		seen[port.Name] = true
		port.Kind = slug
		ports = append(ports, port)
	}
	return ports, unjoined(ports)
}

func transportSlugs() string {
	var slugs []string
	for _, transport := range standards.Transports() {
		slugs = append(slugs, string(transport.Slug))
	}
	return strings.Join(slugs, ", ")
}

// HardwareFor are the connectors that ports may have, in the words of the field; the ports stand one a line as in the form.
func HardwareFor(ports string) (names []string) {
	var rows []plan.KindPort
	for _, line := range strings.Split(ports, "\n") {
		port, _ := readPort(line, func(string) plan.KindPort { return plan.KindPort{} })
		rows = append(rows, port)
	}
	for _, option := range fields.ConnectorsOf(rows) {
		names = append(names, option.Words)
	}
	return names
}
