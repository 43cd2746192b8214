package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"strconv"
	"unicode"
)

// keysVersion numbers the keys that --json prints; it rises when one changes its meaning or goes.
const keysVersion = 1

// number is a figure in JSON, rounded to a millionth so that it is the same on every machine. Its unit is in its key.
type number float64

// MarshalJSON writes the shortest figure that reads back as the same.
func (n number) MarshalJSON() ([]byte, error) {
	value := float64(n)
	if math.IsNaN(value) || math.IsInf(value, 0) {
		return nil, fmt.Errorf("%v has no place in JSON", value)
	}
	return strconv.AppendFloat(nil, math.Round(value*1e6)/1e6+0, 'f', -1, 64), nil // + 0: no negative zero
}

// json prints keys for other programs.
func (a *answer) json(keys any) error {
	var text bytes.Buffer
	encoder := json.NewEncoder(&text)
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("", "  ")
	if err := encoder.Encode(keys); err != nil {
		return fmt.Errorf("--json: %w", err)
	}
	// What printable would replace stands escaped instead, so that names come out as they are.
	for _, letter := range text.String() {
		if letter != '\n' && (unicode.IsControl(letter) || unicode.Is(unicode.Bidi_Control, letter)) {
			fmt.Fprintf(&a.b, `\u%04x`, letter)
			continue
		}
		a.b.WriteRune(letter)
	}
	return nil
}
