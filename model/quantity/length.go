package quantity

import "fmt"

// metresPerFoot is exact: the international foot of 1959.
const metresPerFoot = Foot

// Foot is a foot in metres (NIST Handbook 44, appendix C).
const Foot = 0.3048

// LongestLength is the bound of lengths and of coordinates on either side of
// zero, in metres. It lies far outside any venue: what is larger is a slip of
// the keyboard.
const LongestLength = 100_000.0

var metresPerUnit = map[string]float64{
	"mm": 0.001, "millimetre": 0.001, "millimetres": 0.001, "millimeter": 0.001, "millimeters": 0.001,
	"cm": 0.01, "centimetre": 0.01, "centimetres": 0.01, "centimeter": 0.01, "centimeters": 0.01,
	"m": 1, "metre": 1, "metres": 1, "meter": 1, "meters": 1,
	"km": 1000, "kilometre": 1000, "kilometres": 1000, "kilometer": 1000, "kilometers": 1000,
	"in": metresPerFoot / 12, "inch": metresPerFoot / 12, "inches": metresPerFoot / 12, `"`: metresPerFoot / 12,
	"ft": metresPerFoot, "foot": metresPerFoot, "feet": metresPerFoot, "'": metresPerFoot,
	"yd": 3 * metresPerFoot, "yard": 3 * metresPerFoot, "yards": 3 * metresPerFoot,
}

// ReadLength reads a length, 0 to [LongestLength], and returns metres. A bare
// number is in metres or feet, as bare says. Feet may be followed by inches
// (`12' 6"`, "12 ft 6 in"). A text that is no such length gives an [*Error].
func ReadLength(text string, bare System) (float64, error) {
	return request{"length", "for instance 45 m or 148 ft"}.length(text, bare, 0)
}

// ReadCoordinate reads a place along an axis as [ReadLength] reads a length,
// from −[LongestLength] to [LongestLength], and returns metres.
func ReadCoordinate(text string, bare System) (float64, error) {
	return request{"coordinate", "for instance -6 m or 20 ft"}.length(text, bare, -LongestLength)
}

func (r request) length(text string, bare System, least float64) (float64, error) {
	negative, parts, err := r.scan(text)
	if err != nil {
		return 0, err
	}
	metres, err := r.metres(text, parts, bare)
	if err != nil {
		return 0, err
	}
	if negative && metres != 0 {
		metres = -metres
	}
	if metres < least && least == 0 {
		return 0, r.refuse(text, "it is less than nothing", "")
	}
	if metres < least || metres > LongestLength {
		return 0, r.refuse(text, fmt.Sprintf("it is more than %.0f km", LongestLength/1000), "")
	}
	return metres, nil
}

func (r request) metres(text string, parts []part, bare System) (float64, error) {
	if parts[0].unit == "" {
		parts[0].unit = map[System]string{Metric: "m", Imperial: "ft"}[bare]
	}
	for _, p := range parts {
		if p.unit == "" {
			return 0, r.refuse(text, "the second number has no unit", `inches with their unit, for instance 12' 6" or 12 ft 6 in`)
		}
		if metresPerUnit[p.unit] == 0 {
			return 0, r.refuse(text, fmt.Sprintf("%q is no unit of length here", p.unit), "m, cm, mm, km, ft, in or yd after the number")
		}
	}
	total := parts[0].value * metresPerUnit[parts[0].unit]
	switch {
	case len(parts) == 1:
		return total, nil
	case len(parts) > 2 || metresPerUnit[parts[0].unit] != metresPerFoot || metresPerUnit[parts[1].unit] != metresPerFoot/12:
		return 0, r.refuse(text, "only feet and inches are read together", "one number with one unit, for instance 5.3 m")
	case parts[1].value >= 12:
		return 0, r.refuse(text, "the inches after feet reach a foot or more", "fewer than 12 inches")
	}
	return total + parts[1].value*metresPerUnit[parts[1].unit], nil
}

// PrintLength prints metres with digits digits after the point, as "45.0 m" or
// "147.6 ft". NaN and infinities give "–".
func PrintLength(metres float64, system System, digits int) string {
	if system == Imperial {
		return figure(metres/metresPerFoot, digits, "ft")
	}
	return figure(metres, digits, "m")
}
