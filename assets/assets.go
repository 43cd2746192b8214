// Package assets holds the files that are built into the programs.
package assets

import _ "embed"

//go:embed icon.png
var icon []byte

// Icon returns the program's icon: a PNG of 512 × 512 pixels, drawn from
// icon.svg beside it. The bytes are the caller's own.
func Icon() []byte { return append([]byte(nil), icon...) }
