package pairline

import (
	"errors"
	"fmt"
	"math"
)

// MaxSegments is the most cables a line may have.
const MaxSegments = 32

// maxInterfaces leaves each cable two panels of two connections and keeps a line finite.
const maxInterfaces = 4 * MaxSegments

// RangeError says which figure of which part lies outside the range that the formulas are good for.
type RangeError struct {
	Where     string  // the part, such as "segment 2 (Cat 5e)"
	Field     string  // the figure, such as "length"
	Value     float64 // as given
	Low, High float64 // the range, both ends allowed
	Unit      string  // of value and range; may be empty
}

// Error names part, figure, value and range in one sentence.
func (e *RangeError) Error() string {
	unit := e.Unit
	if unit != "" {
		unit = " " + unit
	}
	return fmt.Sprintf("%s: %s is %g%s; it must be from %g to %g%s", e.Where, e.Field, e.Value, unit, e.Low, e.High, unit)
}

// span is one figure with the range it must lie in.
type span struct {
	field            string
	value, low, high float64
	unit             string
}

// within refuses the first figure outside its range; NaN and infinities are outside every range.
func within(where string, spans []span) error {
	for _, s := range spans {
		if math.IsNaN(s.value) || s.value < s.low || s.value > s.high {
			return &RangeError{Where: where, Field: s.field, Value: s.value, Low: s.low, High: s.high, Unit: s.unit}
		}
	}
	return nil
}

// ErrNoSegment refuses a line without a cable.
var ErrNoSegment = errors.New("the line has no cable")

// Validate refuses a line with no cable, too many parts, or a figure outside the range its formulas are good for. A
// *RangeError names the part, figure, value and range. The reckoning functions do not validate: call this first on
// anything a user gave.
func (l Line) Validate() error {
	segments, interfaces := 0, 0
	for at, part := range l.Parts {
		var err error
		switch p := part.(type) {
		case Segment:
			segments++
			err = p.validate(fmt.Sprintf("segment %d (%s)", segments, p.Cable.Name))
		case Interface:
			interfaces++
			err = p.validate(fmt.Sprintf("interface %d (%s)", interfaces, p.Name))
		default:
			err = fmt.Errorf("part %d is neither a segment nor an interface", at+1)
		}
		if err != nil {
			return err
		}
	}
	if segments == 0 {
		return ErrNoSegment
	}
	return within("line", []span{
		{"number of segments", float64(segments), 1, MaxSegments, ""},
		{"number of interfaces", float64(interfaces), 0, maxInterfaces, ""},
	})
}

// Validate refuses a figure outside its range with a *RangeError.
func (s Segment) Validate() error { return s.validate("segment (" + s.Cable.Name + ")") }

func (s Segment) validate(where string) error {
	return within(where, []span{
		{"length", s.Length, 0.1, 1000, "m"},
		{"strand factor", s.StrandFactor, 0.8, 2, ""},
		{"unit factor", s.UnitFactor, 0.8, 2, ""},
		{"temperature", s.TemperatureC, -20, 60, "°C"},
		{"impedance", s.Impedance, 70, 150, "Ω"},
		{"conductor resistance per 100 m", s.ConductorOhmPer100m, 0.1, 100, "Ω"},
		{"k1", s.Cable.K1, 0.1, 20, "dB"},
		{"k2", s.Cable.K2, 0, 1, "dB"},
		{"k3", s.Cable.K3, 0, 10, "dB"},
		{"NEXT at 100 MHz", s.Cable.NEXTDB, 1, 200, "dB"},
		{"power-sum NEXT at 100 MHz", s.Cable.PowerSumNEXTDB, 1, 200, "dB"},
		{"ACR-F at 100 MHz", s.Cable.ACRFDB, 1, 200, "dB"},
	})
}

// Validate refuses a figure outside its range with a *RangeError.
func (i Interface) Validate() error { return i.validate("interface (" + i.Name + ")") }

func (i Interface) validate(where string) error {
	return within(where, []span{
		{"k", i.K, 0, 1, "dB"},
		{"return loss at 1 MHz", i.ReturnLossDB, 40, 200, "dB"},
		{"NEXT at 100 MHz", i.NEXTDB, 1, 200, "dB"},
		{"power-sum NEXT at 100 MHz", i.PowerSumNEXTDB, 1, 200, "dB"},
		{"FEXT at 100 MHz", i.FEXTDB, 1, 200, "dB"},
	})
}
