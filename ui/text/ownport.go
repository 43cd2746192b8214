package text

import (
	"fmt"
	"slices"
	"strings"

	"stageloom/model/plan"
	"stageloom/model/standards"
)

// portLine writes a port as a line of the form: its name and its transport, then what else it says, after commas.
func portLine(port plan.KindPort) string {
	line := port.Name + " " + string(port.Transport)
	for _, said := range []struct{ word, value string }{{"through", port.Through}, {"fibre", port.Fibre}, {"power", port.Power}} {
		if said.value != "" {
			line += ", " + said.word + " " + said.value
		}
	}
	return line
}

// readPort reads a line into a port, which keeps what the line does not speak of; the reason says why it cannot.
func readPort(line string, known func(name string) plan.KindPort) (port plan.KindPort, reason string) {
	first, rest, more := strings.Cut(line, ",")
	fields := strings.Fields(first)
	transport := fields[max(0, len(fields)-1):]
	name := strings.Join(fields[:max(0, len(fields)-1)], " ")
	if len(transport) == 0 || name == "" {
		return port, fmt.Sprintf("write a name and a transport, such as \"A aes50\"; %q has not both", plan.Clipped(strings.TrimSpace(line)))
	}
	carried, err := standards.TransportBySlug(standards.TransportSlug(transport[0]))
	if err != nil {
		return port, fmt.Sprintf("write a name and a transport, such as \"A aes50\"; %q is none of %s", plan.Clipped(transport[0]), transportSlugs())
	}
	port = known(name)
	port.Name, port.Transport, port.Through, port.Fibre, port.Power = name, plan.TransportID(transport[0]), "", "", ""
	if !more {
		return port, ""
	}
	for _, part := range strings.Split(rest, ",") {
		if reason := sayOfPort(&port, carried, part); reason != "" {
			return port, reason
		}
	}
	return port, ""
}

// sayOfPort reads one thing that a line says of its port behind a comma.
func sayOfPort(port *plan.KindPort, carried standards.Transport, part string) (reason string) {
	word, value, _ := strings.Cut(strings.TrimSpace(part), " ")
	value = strings.TrimSpace(value)
	switch {
	case word == "through" && value != "":
		port.Through = value
	case word == "fibre" && carried.Media != standards.Fibre:
		return fmt.Sprintf("%s is no fibre, so its port has no sort of fibre: leave that out", carried.Name)
	case word == "fibre" && (value == "multimode" || value == "singlemode"):
		port.Fibre = value
	case word == "fibre":
		return fmt.Sprintf("%q is no sort of fibre: write multimode or singlemode", plan.Clipped(value))
	case word == "power" && !carried.PowerOverLink:
		return fmt.Sprintf("%s carries no power: leave that out", carried.Name)
	case word == "power":
		if _, err := standards.PowerTypeBySlug(standards.PowerSlug(value)); err != nil {
			return fmt.Sprintf("%q is none of %s", plan.Clipped(value), powerSlugs())
		}
		port.Power = value
	default:
		return fmt.Sprintf("%q is not understood: write through and a port, fibre and its sort, or power and its type", plan.Clipped(strings.TrimSpace(part)))
	}
	return ""
}

func powerSlugs() string {
	var slugs []string
	for _, kind := range standards.PowerTypes() {
		slugs = append(slugs, string(kind.Slug))
	}
	return strings.Join(slugs, ", ")
}

// unjoined says which port goes through to one that is not there, to itself, or to one of another transport.
func unjoined(ports []plan.KindPort) (reason string) {
	for _, port := range ports {
		at := slices.IndexFunc(ports, func(other plan.KindPort) bool { return other.Name == port.Through })
		switch {
		case port.Through == "":
		case port.Through == port.Name:
			return fmt.Sprintf("Port %s goes through to itself: name the other one.", port.Name)
		case at < 0:
			return fmt.Sprintf("Port %s goes through to %s, and there is no such port.", port.Name, plan.Clipped(port.Through))
		case ports[at].Transport != port.Transport:
			return fmt.Sprintf("Port %s goes through to %s, which is of another transport.", port.Name, port.Through)
		}
	}
	return ""
}

// waysFrom are the ways of a kind that still lead from a port of another to sockets that it has.
func waysFrom(p *plan.Plan, from plan.KindID, kind plan.Kind, ports []plan.KindPort) (ways []plan.KindWay) {
	for row := range p.KindWays.All() {
		has := kind.Inputs
		if row.Direction == "out" {
			has = kind.Outputs
		}
		there := slices.ContainsFunc(ports, func(port plan.KindPort) bool { return port.Name == row.Port })
		if row.Kind == from && there && row.Socket+row.Count-1 <= has {
			row.Kind = kind.ID
			ways = append(ways, row)
		}
	}
	return ways
}
