package pairline

import (
	"errors"
	"fmt"
	"math"
)

const (
	// copperPerKelvin is how much copper gains in resistance per kelvin, at 20 °C.
	copperPerKelvin = 0.00393
	// interfaceLoopOhm is the resistance a connection adds to the loop of a pair.
	interfaceLoopOhm = 0.06
)

// LoopResistance is the resistance in ohms of one pair, out and back, with its connections and at the cables' temperature.
func (l Line) LoopResistance() float64 {
	sum := 0.0
	for _, part := range l.Parts {
		switch p := part.(type) {
		case Segment:
			warm := 1 + copperPerKelvin*(p.TemperatureC-ReferenceTemperatureC)
			sum += 2 * p.ConductorOhmPer100m * p.Length / ReferenceLength * warm
		case Interface:
			sum += interfaceLoopOhm
		}
	}
	return sum
}

// Errors of power over a line; the error returned wraps one of them with the figures.
var (
	// ErrPowerBeyond says that no current can bring the wanted power to the far end.
	ErrPowerBeyond = errors.New("the line cannot carry this power")
	// ErrVoltageLow says that the voltage at the device falls under what it needs.
	ErrVoltageLow = errors.New("the voltage at the device is too low")
	// ErrPairs says that power runs over two or four pairs only.
	ErrPairs = errors.New("power runs over two or four pairs")
)

// Feed is direct current over a line.
type Feed struct {
	Current       float64 // A
	DeviceVoltage float64 // V
	DevicePower   float64 // W
	LinePower     float64 // W, turned to heat in the line
}

// FeedResistance is the resistance in ohms that power over 2 or 4 pairs sees, given the loop of one pair: the pairs share
// the current, so it is the loop over the number of pairs. Source: IEEE 802.3 clauses 33 and 145.
func FeedResistance(loopOhm float64, pairs int) (float64, error) {
	if pairs != 2 && pairs != 4 {
		return 0, fmt.Errorf("%w, not over %d", ErrPairs, pairs)
	}
	return loopOhm / float64(pairs), nil
}

// Draw is what flows when a device draws deviceW watts through a resistance in ohms from a source of sourceV volts:
// I = 2P/(V + √(V² − 4RP)). It refuses (ErrPowerBeyond, ErrVoltageLow) where V² < 4RP or where the device is left with
// less than minimumV. Powers and the source's voltage must be above zero.
func Draw(deviceW, sourceV, minimumV, resistanceOhm float64) (Feed, error) {
	discriminant := sourceV*sourceV - 4*resistanceOhm*deviceW
	if !(discriminant >= 0) { // so that a NaN is refused too
		return Feed{}, fmt.Errorf("%w: %.4g W from %.4g V through %.4g Ω; at most %.4g W arrive",
			ErrPowerBeyond, deviceW, sourceV, resistanceOhm, sourceV*sourceV/(4*resistanceOhm))
	}
	current := 2 * deviceW / (sourceV + math.Sqrt(discriminant))
	return arrive(current, sourceV, minimumV, resistanceOhm)
}

// Deliver is what arrives when the source gives its full sourceW watts at sourceV volts into a resistance in ohms:
// P − R·(P/V)². It refuses (ErrVoltageLow) where the device is left with less than half the source's voltage: beyond that
// point drawing more current brings less power, and the formula means nothing.
func Deliver(sourceW, sourceV, resistanceOhm float64) (Feed, error) {
	return arrive(sourceW/sourceV, sourceV, sourceV/2, resistanceOhm)
}

func arrive(current, sourceV, minimumV, resistanceOhm float64) (Feed, error) {
	deviceV := sourceV - resistanceOhm*current
	if !(deviceV >= minimumV) {
		return Feed{}, fmt.Errorf("%w: %.3g V, at least %.3g V are needed", ErrVoltageLow, deviceV, minimumV)
	}
	return Feed{
		Current:       current,
		DeviceVoltage: deviceV,
		DevicePower:   deviceV * current,
		LinePower:     resistanceOhm * current * current,
	}, nil
}
