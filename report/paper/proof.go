package paper

import (
	"context"
	"fmt"
	"image"
	"image/color"
	"math"
	"sync"

	scaling "golang.org/x/image/draw"

	"stageloom/model/raster"
)

// Proof draws one page of the chapters as a picture, so many pixels to the millimetre, and says how many pages there are:
// what Write would put on that page, to be looked at before it is printed. Pages count from 1. A page that is not there
// gives no picture.
func Proof(ctx context.Context, setup Setup, page int, scale float64, chapters ...Chapter) (*image.RGBA, Print, error) {
	if err := setup.check(chapters); err != nil {
		return nil, Print{}, fmt.Errorf("proof of %q: %w", setup.Plan, err)
	}
	known, err := count(ctx, setup, chapters)
	if err != nil {
		return nil, Print{}, fmt.Errorf("proof of %q: %w", setup.Plan, err)
	}
	on := &proof{wanted: page, scale: scale}
	setup.Drawing = nil
	if err := newBook(ctx, setup, known, on).run(chapters); err != nil {
		return nil, Print{}, fmt.Errorf("proof of %q: %w", setup.Plan, err)
	}
	if on.image != nil {
		on.drawing.Paint(on.image)
	}
	return on.image, Print{Pages: known.pages, Entries: known.entries, Notices: known.notices}, nil
}

// proof is the press that hands one page to the painter, in millimetres, and leaves out the others.
type proof struct {
	wanted  int
	scale   float64 // pixels to the millimetre
	at      int     // the page that is drawn
	image   *image.RGBA
	drawing *raster.Drawing // of the page wanted
}

// mostProof bounds a proof's side, whatever scale is asked for.
const mostProof = 8000

func (p *proof) page(width, height float64) {
	p.at++
	if !p.draws() {
		return
	}
	p.scale = max(0.1, min(p.scale, mostProof/max(width, height)))
	p.image = image.NewRGBA(image.Rect(0, 0, int(math.Ceil(width*p.scale)), int(math.Ceil(height*p.scale))))
	scaling.Draw(p.image, p.image.Rect, image.White, image.Point{}, scaling.Src)
	p.drawing = raster.NewDrawing(p.scale)
}

// draws reports whether the page at hand is the one wanted.
func (p *proof) draws() bool { return p.at == p.wanted }

func (*proof) bookmark(string, int, float64) {}

func (p *proof) clip(box Box, draw func()) {
	if !p.draws() || !box.sane() {
		draw()
		return
	}
	p.drawing.Clip(raster.Box{Left: box.X, Top: box.Y, Right: box.Right(), Bottom: box.Bottom()}, draw)
}

func (p *proof) picture(at [4]Point, picture Picture) error {
	if p.draws() {
		p.drawing.Image([4]raster.Point(places(at[:])), raster.NewImage(picture.pixels), 1)
	}
	return nil
}

func (p *proof) shape(rings [][]Point, fill Colour, edge Stroke) {
	if !p.draws() {
		return
	}
	outlines := make([][]raster.Point, 0, len(rings))
	for _, ring := range rings {
		if ring = sane(ring); len(ring) >= 3 {
			outlines = append(outlines, places(ring))
		}
	}
	p.drawing.Rings(outlines, pixel(fill))
	if !edge.visible() {
		return
	}
	edge.Casing = 0 // which lies along lines alone
	for _, ring := range outlines {
		p.drawing.Polygon(ring, pixel(None), edge.stroke())
	}
}

func (p *proof) stroke(points []Point, line Stroke) {
	if points = sane(points); p.draws() && len(points) >= 2 && line.visible() {
		p.drawing.Polyline(places(points), line.stroke())
	}
}

// text sets the outlines of the letters, so that a turned line looks as it does on paper.
func (p *proof) text(at Point, text string, face Face, size float64, colour Colour, angle float64) {
	if !p.draws() || !at.sane() || !(size < far) || !(math.Abs(angle) < far) {
		return
	}
	p.drawing.Outline(raster.Point(at), text, raster.Lettering{Face: face.typeface(), Size: size * pointMM, Colour: pixel(colour)}, angle)
}

// places are points as the painter takes them.
func places(points []Point) []raster.Point {
	all := make([]raster.Point, len(points))
	for i, at := range points {
		all[i] = raster.Point(at)
	}
	return all
}

// pixel is an ink on the screen; none is seen through.
func pixel(c Colour) color.NRGBA {
	if !c.inked {
		return color.NRGBA{}
	}
	return color.NRGBA{R: c.R, G: c.G, B: c.B, A: 255}
}

// stroke is the line as the painter takes it, with the ends, corners and dashes that [content.pen] asks of a viewer.
func (l Stroke) stroke() raster.Stroke {
	s := raster.Stroke{Width: l.Width, Colour: pixel(l.Colour), Join: raster.MitreJoin}
	if l.Round {
		s.Cap, s.Join = raster.RoundCap, raster.RoundJoin
	}
	if l.Casing > 0 && l.Casing < far {
		s.Casing, s.CasingColour = l.Casing, pixel(White)
	}
	if dashes(l.Dash) {
		s.Dash = l.Dash
		if len(l.Dash)%2 == 1 { // the lengths are gone through again with dashes for gaps: ISO 32000-1, 8.4.3.6
			s.Dash = append(append([]float64{}, l.Dash...), l.Dash...)
		}
	}
	return s
}

// typefaces are the faces as the painter takes them, read at the first proof.
var typefaces = sync.OnceValue(func() (all [faceCount]*raster.Typeface) {
	for face := range all {
		read, err := raster.ParseTypeface(Face(face).trueType())
		if err != nil {
			panic(fmt.Sprintf("paper: built-in typeface %d: %v", face, err))
		}
		all[face] = read
	}
	return all
})

func (f Face) typeface() *raster.Typeface {
	if f < 0 || f >= faceCount {
		f = Regular
	}
	return typefaces()[f]
}
