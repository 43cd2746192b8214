package quantity

import "fmt"

// MostDecibels bounds the decibels that are read, on either side of zero.
const MostDecibels = 1000.0

// ReadDecibels reads a loss or a margin, −[MostDecibels] to [MostDecibels], with
// or without "dB" after it, and returns dB. A text that is none gives an
// [*Error].
func ReadDecibels(text string) (float64, error) {
	r := request{"decibels", "for instance 1.5 dB"}
	negative, parts, err := r.scan(text)
	if err != nil {
		return 0, err
	}
	value := parts[0].value
	switch {
	case len(parts) > 1:
		return 0, r.refuse(text, "there is more than one number in it", "")
	case parts[0].unit != "" && parts[0].unit != "db":
		return 0, r.refuse(text, fmt.Sprintf("%q is not dB", parts[0].unit), "")
	case value > MostDecibels:
		return 0, r.refuse(text, fmt.Sprintf("it is more than %.0f dB", MostDecibels), "")
	case negative && value != 0:
		return -value, nil
	}
	return value, nil
}

// PrintDecibels prints decibels with digits digits after the point, as
// "1.5 dB". NaN and infinities give "–".
func PrintDecibels(decibels float64, digits int) string {
	return figure(decibels, digits, "dB")
}
