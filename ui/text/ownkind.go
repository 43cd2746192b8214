package text

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"stageloom/model/catalogue"
	"stageloom/model/house"
	"stageloom/model/medium"
	"stageloom/model/plan"
	"stageloom/model/standards"
)

// OwnKind is the form of a kind of the user's own, as text.
type OwnKind struct {
	Name, Inputs, Outputs string
	// Ports is one port a line: its name and its transport, then after commas what it goes through to, its sort of fibre and
	// its type of power, e.g. "A aes50, through B".
	Ports string
	// Hardware is what the connectors of its ports are made of, as a class of connecting hardware; blank is not stated.
	Hardware string
}

// OwnKindFrom is the form filled in from a kind that is there.
func OwnKindFrom(p *plan.Plan, id plan.KindID) OwnKind {
	kind, _ := p.Kinds.Get(plan.Key(id))
	var ports []string
	for _, port := range p.Ports(id) {
		ports = append(ports, portLine(port))
	}
	return OwnKind{
		Name: kind.Name + ", own", Inputs: strconv.Itoa(kind.Inputs), Outputs: strconv.Itoa(kind.Outputs),
		Ports: strings.Join(ports, "\n"), Hardware: string(kind.Hardware),
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
	base.Hardware = plan.HardwareID(o.Hardware)
	kind.Kind = base
	kind.Ports, reason = o.ports(p, from, slug)
	kind.Sockets = socketRows(slug, inputs, outputs)
	kind.Ways = waysFrom(p, from, base, kind.Ports)
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

func socketRows(slug plan.KindID, inputs, outputs int) (rows []plan.KindSocket) {
	if inputs > 0 {
		rows = append(rows, plan.KindSocket{Kind: slug, Direction: "in", First: 1, Count: inputs, Use: "mic"})
	}
	if outputs > 0 {
		rows = append(rows, plan.KindSocket{Kind: slug, Direction: "out", First: 1, Count: outputs, Use: "line"})
	}
	return rows
}

// HardwareFor are the classes of connecting hardware that ports may have, which stand one a line as in the form: those of the
// media that their transports run through, or of the first medium where no loss is reckoned in any.
func HardwareFor(ports string) (classes []standards.Hardware) {
	var media []standards.Media
	for _, line := range strings.Split(ports, "\n") {
		port, _ := readPort(line, func(string) plan.KindPort { return plan.KindPort{} })
		transport, _ := standards.TransportBySlug(standards.TransportSlug(port.Transport))
		if _, known := medium.Of(transport.Media); known && !slices.Contains(media, transport.Media) {
			media = append(media, transport.Media)
			classes = append(classes, medium.HardwareFor(transport.Media)...)
		}
	}
	if len(media) == 0 {
		return medium.HardwareFor("")
	}
	return classes
}

// HardwareWords are the names of classes to choose from, the first for what is not stated.
func HardwareWords(classes []standards.Hardware) (words []string) {
	words = []string{"not stated"}
	for _, class := range classes {
		words = append(words, class.Name)
	}
	return words
}

// HardwareAt is the class that stands at a place of the HardwareWords of those.
func HardwareAt(classes []standards.Hardware, place int) string {
	if place < 1 {
		return ""
	}
	return string(classes[place-1].Slug)
}

// PlaceOfHardware finds a class in the HardwareWords of those; one that is not among them counts as not stated.
func PlaceOfHardware(classes []standards.Hardware, class string) int {
	return 1 + slices.IndexFunc(classes, func(h standards.Hardware) bool { return string(h.Slug) == class })
}
