package raster

import (
	"image"
	"image/color"
	"math"

	"golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

const (
	subpixels  = 4    // places in a pixel at which a letter may start
	mostGlyphs = 8192 // kept at once
	mostFaces  = 64
)

// glyphKey names a glyph of a size that starts at a place in a pixel.
type glyphKey struct {
	letter rune
	size   fixed.Int26_6
	shift  uint8
}

// glyph is the coverage of a letter's pixels, from its origin.
type glyph struct {
	box    image.Rectangle
	covers []uint8
}

// glyph returns the drawn letter; one that can't be drawn is empty. The caller holds the lock.
func (t *Typeface) glyph(key glyphKey) *glyph {
	if g, known := t.glyphs[key]; known {
		return g
	}
	if len(t.glyphs) >= mostGlyphs {
		clear(t.glyphs)
	}
	g := t.draw(key)
	t.glyphs[key] = g
	return g
}

// draw draws a letter.
func (t *Typeface) draw(key glyphKey) *glyph {
	face, known := t.faces[key.size]
	if !known {
		made, err := opentype.NewFace(t.font, &opentype.FaceOptions{
			Size: float64(key.size) / 64, DPI: 72, Hinting: font.HintingNone,
		})
		if err != nil {
			return &glyph{}
		}
		if len(t.faces) >= mostFaces {
			clear(t.faces)
		}
		face, t.faces[key.size] = made, made
	}
	origin := fixed.Point26_6{X: fixed.Int26_6(key.shift) * 64 / subpixels}
	box, mask, from, _, ok := face.Glyph(origin, key.letter)
	alpha, plain := mask.(*image.Alpha)
	if !ok || !plain || box.Empty() {
		return &glyph{}
	}
	g := &glyph{box: box, covers: make([]uint8, 0, box.Dx()*box.Dy())}
	for y := range box.Dy() {
		start := alpha.PixOffset(from.X, from.Y+y)
		g.covers = append(g.covers, alpha.Pix[start:start+box.Dx()]...)
	}
	return g
}

// words is a line of text in pixels.
type words struct {
	glyphs []placed
	colour color.NRGBA
}

// placed is a glyph and where its origin lies.
type placed struct {
	*glyph
	origin image.Point
}

// Text implements [Pen]. The baseline is moved to a whole pixel. Letters under 1 pixel or over 1,000 are left out.
func (d *Drawing) Text(at Point, text string, lettering Lettering) {
	size := lettering.Size * d.scale
	if lettering.Face == nil || lettering.Colour.A == 0 || text == "" || !at.finite() || !settable(size) {
		return
	}
	t := lettering.Face
	t.mu.Lock()
	defer t.mu.Unlock()
	key := glyphKey{size: fixed.Int26_6(math.Round(size * 64))}
	unit := size / t.units
	left := at.X * d.scale
	if lettering.Align != AlignLeft {
		left -= t.set(text, nil) * unit * float64(lettering.Align) / 2
	}
	baseline := math.Floor(at.Y*d.scale + 0.5)
	if clamp(left) != left || clamp(baseline) != baseline {
		return
	}
	line := &words{colour: lettering.Colour, glyphs: make([]placed, 0, len(text))}
	t.set(text, func(r rune, _ sfnt.GlyphIndex, along float64) {
		x := math.Floor((left+along*unit)*subpixels + 0.5)
		whole := math.Floor(x / subpixels)
		key.letter, key.shift = r, uint8(x-whole*subpixels)
		if g := t.glyph(key); len(g.covers) > 0 {
			line.glyphs = append(line.glyphs, placed{g, image.Pt(int(whole), int(baseline))})
		}
	})
	d.add(line)
}

func (w *words) bounds() image.Rectangle {
	var all image.Rectangle
	for _, g := range w.glyphs {
		all = all.Union(g.box.Add(g.origin))
	}
	return all
}

func (w *words) paint(f *filler) {
	ink := inkOf(w.colour)
	for _, g := range w.glyphs {
		seen := g.box.Add(g.origin).Intersect(f.clip)
		for y := seen.Min.Y; y < seen.Max.Y; y++ {
			from := (y-g.origin.Y-g.box.Min.Y)*g.box.Dx() + seen.Min.X - g.origin.X - g.box.Min.X
			pixels := f.target.Pix[f.target.PixOffset(seen.Min.X, y):]
			for x, cover := range g.covers[from : from+seen.Dx()] {
				if cover > 0 {
					ink.thinned(uint32(cover)).over(pixels[4*x:])
				}
			}
		}
	}
}
