package paper

import (
	"bytes"
	"fmt"
	"sync"

	"github.com/go-fonts/dejavu/dejavusanscondensed"
	"github.com/go-fonts/dejavu/dejavusanscondensedbold"
	"github.com/go-fonts/dejavu/dejavusanscondensedoblique"
	"github.com/go-fonts/dejavu/dejavusansmonobold"
	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Face is one of the four typefaces of the book. All have digits of equal
// width and tell 0 from O and 1 from l and I.
type Face int

// The faces; Mono is bold and meant for ids.
const (
	Regular Face = iota
	Bold
	Oblique
	Mono
	faceCount
)

const (
	pointMM   = 25.4 / 72 // one typographic point in millimetres
	leastSize = 6.5       // nothing is set smaller, in points
	capHeight = 0.729     // height of DejaVu capitals in ems: sCapHeight 1493 of 2048
)

// metrics are the widths of a face in thousandths of an em, and what it lacks.
type metrics struct {
	width   [1 << 16]uint16
	covered [1 << 13]byte // one bit a rune
}

// trueType returns the bytes of the font file. They belong to the font
// package: whoever alters them must copy them first.
func (f Face) trueType() []byte {
	switch f {
	case Bold:
		return dejavusanscondensedbold.TTF
	case Oblique:
		return dejavusanscondensedoblique.TTF
	case Mono:
		return dejavusansmonobold.TTF
	default:
		return dejavusanscondensed.TTF
	}
}

// ownTrueType returns a copy for the PDF library, which writes into the bytes
// it is given.
func (f Face) ownTrueType() []byte { return bytes.Clone(f.trueType()) }

var measured [faceCount]struct {
	once    sync.Once
	metrics *metrics
}

// metrics returns the widths of the face, read once for the whole program.
func (f Face) metrics() *metrics {
	if f < 0 || f >= faceCount {
		f = Regular
	}
	m := &measured[f]
	m.once.Do(func() {
		read, err := readMetrics(f.trueType())
		if err != nil {
			panic(fmt.Sprintf("paper: built-in typeface %d: %v", f, err))
		}
		m.metrics = read
	})
	return m.metrics
}

// readMetrics reads the widths of all runes of the basic plane, which are all
// the PDF library can set.
func readMetrics(trueType []byte) (*metrics, error) {
	parsed, err := sfnt.Parse(trueType)
	if err != nil {
		return nil, fmt.Errorf("read font: %w", err)
	}
	m, buf := new(metrics), new(sfnt.Buffer)
	for r := rune(1); r < 1<<16; r++ {
		glyph, err := parsed.GlyphIndex(buf, r)
		if err != nil {
			return nil, fmt.Errorf("glyph of %U: %w", r, err)
		}
		if glyph == 0 {
			continue
		}
		advance, err := parsed.GlyphAdvance(buf, glyph, fixed.I(1000), font.HintingNone)
		if err != nil {
			return nil, fmt.Errorf("width of %U: %w", r, err)
		}
		m.width[r] = uint16(advance.Round())
		m.covered[r>>3] |= 1 << (r & 7)
	}
	return m, nil
}

// has reports whether the face has a glyph for the rune.
func (m *metrics) has(r rune) bool {
	return r > 0 && r < 1<<16 && m.covered[r>>3]&(1<<(r&7)) != 0
}

// em returns the width of the text in ems.
func (m *metrics) em(text string) float64 {
	sum := 0
	for _, r := range text {
		if r >= 0 && r < 1<<16 {
			sum += int(m.width[r])
		}
	}
	return float64(sum) / 1000
}

// width returns how wide the text is in millimetres at a size in points.
func (f Face) width(text string, size float64) float64 {
	return f.metrics().em(text) * size * pointMM
}
