package assets

import (
	"embed"
	"fmt"
)

//go:embed icons/*.svg
var icons embed.FS

// Drawing returns a small drawing of that name: an SVG of 24 × 24 units, filled shapes without strokes, which is what
// the window's library can colour after a theme. The names are those of the files in icons.
func Drawing(name string) ([]byte, error) {
	bytes, err := icons.ReadFile("icons/" + name + ".svg")
	if err != nil {
		return nil, fmt.Errorf("drawing %q: %w", name, err)
	}
	return bytes, nil
}
