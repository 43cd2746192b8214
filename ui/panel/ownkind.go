package panel

import (
	"fmt"
	"strconv"
	"strings"

	"stageloom/model/catalogue"
	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/model/standards"
)

// OwnKind is the form of a kind of the user's own, as text.
type OwnKind struct {
	Name, Inputs, Outputs string
	// Ports is one port a line: its name and its transport, e.g. "A aes50".
	Ports string
}

// OwnKindFrom is the form filled in from a kind that is there.
func OwnKindFrom(p *plan.Plan, id plan.KindID) OwnKind {
	kind, _ := p.Kinds.Get(plan.Key(id))
	var ports []string
	for _, port := range p.Ports(id) {
		ports = append(ports, port.Name+" "+string(port.Transport))
	}
	return OwnKind{
		Name: kind.Name + ", own", Inputs: strconv.Itoa(kind.Inputs), Outputs: strconv.Itoa(kind.Outputs),
		Ports: strings.Join(ports, "\n"),
	}
}

// Kind reads the form; from is the kind it began with, whose connectors its ports keep. The reason says in words what
// cannot be read.
func (o OwnKind) Kind(p *plan.Plan, from plan.KindID) (kind catalogue.DeviceKind, reason string) {
	if strings.TrimSpace(o.Name) == "" {
		return kind, "Give the kind a name."
	}
	inputs, errIn := strconv.Atoi(strings.TrimSpace(o.Inputs))
	outputs, errOut := strconv.Atoi(strings.TrimSpace(o.Outputs))
	if errIn != nil || errOut != nil || inputs < 0 || outputs < 0 || inputs > 1024 || outputs > 1024 {
		return kind, "Inputs and outputs are whole numbers from 0 to 1024."
	}
	base, _ := p.Kinds.Get(plan.Key(from))
	slug := house.Slug(o.Name, func(slug plan.KindID) bool {
		_, built := catalogue.DeviceKindOf(slug)
		return built || p.Kinds.Has(plan.Key(slug))
	})
	base.ID, base.Name, base.Inputs, base.Outputs, base.Own = slug, strings.TrimSpace(o.Name), inputs, outputs, true
	kind.Kind = base
	kind.Ports, reason = o.ports(p, from, slug)
	kind.Sockets = socketRows(slug, inputs, outputs)
	return kind, reason
}

// ports reads the ports, one a line.
func (o OwnKind) ports(p *plan.Plan, from, slug plan.KindID) (ports []plan.KindPort, reason string) {
	seen := map[string]bool{}
	for n, line := range strings.Split(o.Ports, "\n") {
		fields := strings.Fields(line)
		if len(fields) == 0 {
			continue
		}
		transport := fields[len(fields)-1]
		name := strings.Join(fields[:len(fields)-1], " ")
		if _, err := standards.TransportBySlug(standards.TransportSlug(transport)); err != nil || name == "" {
			return nil, fmt.Sprintf("Port line %d: write a name and a transport, such as \"A aes50\"; %q is none of %s.", n+1, transport, transportSlugs())
		}
		if seen[name] {
			return nil, fmt.Sprintf("Port line %d: there is a port %s already.", n+1, name)
		}
		seen[name] = true
		port, _ := p.KindPorts.Get(plan.PortKey(from, name))
		port.Kind, port.Name, port.Transport = slug, name, plan.TransportID(transport)
		ports = append(ports, port)
	}
	return ports, ""
}

func transportSlugs() string {
	var slugs []string
	for _, transport := range standards.Transports() {
		slugs = append(slugs, string(transport.Slug))
	}
	return strings.Join(slugs, ", ")
}

func socketRows(slug plan.KindID, inputs, outputs int) (rows []plan.KindSocket) {
	if inputs > 0 {
		rows = append(rows, plan.KindSocket{Kind: slug, Direction: "in", First: 1, Count: inputs, Use: "mic"})
	}
	if outputs > 0 {
		rows = append(rows, plan.KindSocket{Kind: slug, Direction: "out", First: 1, Count: outputs, Use: "line"})
	}
	return rows
}

// PutKind puts a kind with its ports and sockets into a plan, unless it is there.
func PutKind(e *plan.Edit, kind catalogue.DeviceKind) {
	if e.Now().Kinds.Has(kind.Kind.Key()) {
		return
	}
	plan.Put(e, kind.Kind)
	for _, port := range kind.Ports {
		plan.Put(e, port)
	}
	for _, socket := range kind.Sockets {
		plan.Put(e, socket)
	}
}
