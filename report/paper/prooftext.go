package paper

import (
	"fmt"
	"image/color"
	"math"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

func rgba(c Colour) color.RGBA { return color.RGBA{R: c.R, G: c.G, B: c.B, A: 255} }

// outlines is a typeface ready to give the outlines of its letters.
type outlines struct {
	font   *sfnt.Font
	buffer sfnt.Buffer
}

// faces are the typefaces for proofs; a buffer serves one goroutine at a time.
var faces [faceCount]sync.Pool

func outlinesOf(face Face) *outlines {
	if face < 0 || face >= faceCount {
		face = Regular
	}
	if ready, ok := faces[face].Get().(*outlines); ok {
		return ready
	}
	parsed, err := sfnt.Parse(face.trueType())
	if err != nil {
		panic(fmt.Sprintf("paper: built-in typeface %d: %v", face, err))
	}
	return &outlines{font: parsed}
}

// piece is a stretch of a letter's outline in pixels on the page.
type piece struct {
	op   sfnt.SegmentOp
	args [3]Point
}

// text sets the outlines of the letters, so that a turned line looks as it does on paper.
func (p *proof) text(at Point, text string, face Face, size float64, colour Colour, angle float64) {
	if !p.draws() || text == "" || !at.sane() || !(size < far) || !(math.Abs(angle) < far) {
		return
	}
	if face < 0 || face >= faceCount {
		face = Regular
	}
	ready := outlinesOf(face)
	defer faces[face].Put(ready)
	pieces := p.letters(ready, at, text, face, size, angle)
	p.paint(colour, func(add func(x, y float64)) {
		for i := range pieces {
			for _, point := range pieces[i].args[:pieces[i].count()] {
				add(point.X, point.Y)
			}
		}
	}, func(left, top float32) {
		for i := range pieces {
			p.trace(&pieces[i], left, top)
		}
		p.path.ClosePath()
	})
}

// count is how many points a piece has.
func (s *piece) count() int {
	switch s.op {
	case sfnt.SegmentOpQuadTo:
		return 2
	case sfnt.SegmentOpCubeTo:
		return 3
	}
	return 1
}

// letters returns the outlines of a line of text in pixels.
func (p *proof) letters(ready *outlines, at Point, text string, face Face, size, angle float64) []piece {
	sin, cos := math.Sincos(angle * math.Pi / 180)
	em := size * pointMM * p.scale
	const grid = 64 // outlines are asked for at 64 pixels to the em and scaled: fine enough, and one size for all
	ppem := fixed.I(grid)
	step := em / grid / 64
	var pieces []piece
	along := 0.0
	for _, r := range text {
		glyph, err := ready.font.GlyphIndex(&ready.buffer, r)
		if err != nil {
			continue
		}
		segments, err := ready.font.LoadGlyph(&ready.buffer, glyph, ppem, nil)
		if err != nil {
			continue
		}
		for _, segment := range segments {
			one := piece{op: segment.Op}
			for i := range one.args {
				x, y := along+float64(segment.Args[i].X)*step, float64(segment.Args[i].Y)*step
				one.args[i] = Point{X: at.X*p.scale + x*cos + y*sin, Y: at.Y*p.scale - x*sin + y*cos}
			}
			pieces = append(pieces, one)
		}
		advance, err := ready.font.GlyphAdvance(&ready.buffer, glyph, ppem, font.HintingNone)
		if err == nil {
			along += float64(advance) * step
		}
	}
	return pieces
}

// trace lays one stretch into the path.
func (p *proof) trace(s *piece, left, top float32) {
	x := func(i int) float32 { return float32(s.args[i].X) - left }
	y := func(i int) float32 { return float32(s.args[i].Y) - top }
	switch s.op {
	case sfnt.SegmentOpMoveTo:
		p.path.ClosePath()
		p.path.MoveTo(x(0), y(0))
	case sfnt.SegmentOpLineTo:
		p.path.LineTo(x(0), y(0))
	case sfnt.SegmentOpQuadTo:
		p.path.QuadTo(x(0), y(0), x(1), y(1))
	case sfnt.SegmentOpCubeTo:
		p.path.CubeTo(x(0), y(0), x(1), y(1), x(2), y(2))
	}
}
