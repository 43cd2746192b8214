package pairline

import "slices"

// Part is a Segment or an Interface; no other type is one.
type Part interface {
	// Loss is the additive loss of the part.
	Loss() Loss
	part()
}

func (Segment) part()   {}
func (Interface) part() {}

// Line is a joined pair, its parts in order from the near end to the far end. A coupler is two interfaces one after the
// other; a panel with an inner lead is interface, segment, interface. The plugs at the two equipment ends are not parts:
// limits are for the cabling between them.
type Line struct{ Parts []Part }

// Loss is the additive loss of the line, the sum of its parts: the figure that grades it.
func (l Line) Loss() Loss {
	var sum Loss
	for _, part := range l.Parts {
		sum = sum.Plus(part.Loss())
	}
	return sum
}

// Reversed is the same line seen from its other end.
func (l Line) Reversed() Line {
	parts := slices.Clone(l.Parts)
	slices.Reverse(parts)
	return Line{Parts: parts}
}

// Segments gives the cables of the line in order.
func (l Line) Segments() []Segment {
	var found []Segment
	for _, part := range l.Parts {
		if segment, ok := part.(Segment); ok {
			found = append(found, segment)
		}
	}
	return found
}

// Interfaces gives the connections of the line in order.
func (l Line) Interfaces() []Interface {
	var found []Interface
	for _, part := range l.Parts {
		if connection, ok := part.(Interface); ok {
			found = append(found, connection)
		}
	}
	return found
}

// Length is the length of all cables together, in metres.
func (l Line) Length() float64 {
	sum := 0.0
	for _, part := range l.Parts {
		if segment, ok := part.(Segment); ok {
			sum += segment.Length
		}
	}
	return sum
}

// AtTemperature is the same line with all its cables at one temperature in °C.
func (l Line) AtTemperature(temperatureC float64) Line {
	parts := slices.Clone(l.Parts)
	for i, part := range parts {
		if segment, ok := part.(Segment); ok {
			segment.TemperatureC = temperatureC
			parts[i] = segment
		}
	}
	return Line{Parts: parts}
}
