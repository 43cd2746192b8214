package raster

import (
	"fmt"
	"math"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Ellipsis stands for the part of a text that found no room.
const Ellipsis = "…"

// Typeface measures text and keeps the glyphs that were painted. It may be used by several goroutines.
type Typeface struct {
	font  *sfnt.Font
	units float64 // font units in an em

	ascent, descent, capHeight float64 // in ems

	mu     sync.Mutex
	buffer sfnt.Buffer
	runes  map[rune]letter
	pairs  map[[2]sfnt.GlyphIndex]float64
	faces  map[fixed.Int26_6]font.Face
	glyphs map[glyphKey]*glyph
	shapes map[sfnt.GlyphIndex]sfnt.Segments
}

// letter is what measuring needs of a rune.
type letter struct {
	index   sfnt.GlyphIndex
	advance float64 // in font units
}

// ParseTypeface reads a TrueType or OpenType font. The bytes must not change afterwards.
func ParseTypeface(bytes []byte) (*Typeface, error) {
	parsed, err := opentype.Parse(bytes)
	if err != nil {
		return nil, fmt.Errorf("read typeface: %w", err)
	}
	t := &Typeface{
		font: parsed, units: float64(parsed.UnitsPerEm()),
		runes: map[rune]letter{}, pairs: map[[2]sfnt.GlyphIndex]float64{},
		faces: map[fixed.Int26_6]font.Face{}, glyphs: map[glyphKey]*glyph{}, shapes: map[sfnt.GlyphIndex]sfnt.Segments{},
	}
	metrics, err := parsed.Metrics(&t.buffer, t.em(), font.HintingNone)
	if err != nil {
		return nil, fmt.Errorf("measure typeface: %w", err)
	}
	t.ascent, t.descent = float64(metrics.Ascent)/64/t.units, float64(metrics.Descent)/64/t.units
	t.capHeight = math.Abs(float64(metrics.CapHeight)) / 64 / t.units // counted downwards by the library
	return t, nil
}

// em is the size at which one pixel is one font unit.
func (t *Typeface) em() fixed.Int26_6 { return fixed.Int26_6(t.units * 64) }

// Ascent is how far letters of a size reach above the baseline.
func (t *Typeface) Ascent(size float64) float64 { return t.ascent * size }

// Descent is how far letters of a size reach below the baseline.
func (t *Typeface) Descent(size float64) float64 { return t.descent * size }

// CapHeight is the height of the capitals of a size.
func (t *Typeface) CapHeight(size float64) float64 { return t.capHeight * size }

// Width is how far a text of a size goes, in the units of the size. It grows in proportion to the size.
func (t *Typeface) Width(text string, size float64) float64 {
	t.mu.Lock()
	defer t.mu.Unlock()
	return t.set(text, nil) * size / t.units
}

// Fit returns the text, or as much of its start as fits into the width with an ellipsis after it, or nothing.
func (t *Typeface) Fit(text string, size, width float64) string {
	if t.Width(text, size) <= width {
		return text
	}
	runes := []rune(text)
	for kept := len(runes) - 1; kept > 0; kept-- {
		for kept > 0 && runes[kept-1] == ' ' {
			kept--
		}
		if short := string(runes[:kept]) + Ellipsis; kept > 0 && t.Width(short, size) <= width {
			return short
		}
	}
	return ""
}

// set goes along the text and tells where each letter starts, in font units; it returns where the last one ends.
// The caller holds the lock.
func (t *Typeface) set(text string, place func(r rune, index sfnt.GlyphIndex, at float64)) float64 {
	at, before := 0.0, sfnt.GlyphIndex(0)
	for i, r := range text {
		l := t.letter(r)
		if i > 0 {
			at += t.kern(before, l.index)
		}
		if place != nil {
			place(r, l.index, at)
		}
		at += l.advance
		before = l.index
	}
	return at
}

// letter looks a rune up; a font that is damaged there gives a letter of no width.
func (t *Typeface) letter(r rune) letter {
	if l, known := t.runes[r]; known {
		return l
	}
	var l letter
	if index, err := t.font.GlyphIndex(&t.buffer, r); err == nil {
		l.index = index
	}
	if advance, err := t.font.GlyphAdvance(&t.buffer, l.index, t.em(), font.HintingNone); err == nil {
		l.advance = float64(advance) / 64
	}
	t.runes[r] = l
	return l
}

// kern is how much nearer or farther than usual one letter follows another, in font units.
func (t *Typeface) kern(a, b sfnt.GlyphIndex) float64 {
	pair := [2]sfnt.GlyphIndex{a, b}
	if by, known := t.pairs[pair]; known {
		return by
	}
	by := 0.0
	if kern, err := t.font.Kern(&t.buffer, a, b, t.em(), font.HintingNone); err == nil {
		by = float64(kern) / 64
	}
	t.pairs[pair] = by
	return by
}

// Has reports whether the typeface has a glyph for every rune of the text.
func (t *Typeface) Has(text string) bool {
	t.mu.Lock()
	defer t.mu.Unlock()
	for _, r := range text {
		if t.letter(r).index == 0 {
			return false
		}
	}
	return true
}

// settable reports whether letters of that many pixels are drawn.
func settable(size float64) bool { return size >= 1 && size <= 1000 && !math.IsNaN(size) }
