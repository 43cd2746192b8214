package paper

import (
	"context"
	"fmt"
	"image"
	"math"

	scaling "golang.org/x/image/draw"
	"golang.org/x/image/math/f64"
	"golang.org/x/image/vector"
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
	return on.image, Print{Pages: known.pages, Entries: known.entries, Notices: known.notices}, nil
}

// proof is the press that paints one page and leaves out the others.
type proof struct {
	wanted int
	scale  float64 // pixels to the millimetre
	at     int     // the page that is drawn
	image  *image.RGBA
	within image.Rectangle // the clip, in pixels
	path   vector.Rasterizer
}

// mostProof bounds a proof's side, whatever scale is asked for.
const mostProof = 8000

func (p *proof) page(width, height float64) {
	p.at++
	if !p.draws() {
		return
	}
	p.scale = max(0.1, min(p.scale, mostProof/max(width, height)))
	p.within = image.Rect(0, 0, int(math.Ceil(width*p.scale)), int(math.Ceil(height*p.scale)))
	p.image = image.NewRGBA(p.within)
	scaling.Draw(p.image, p.within, image.White, image.Point{}, scaling.Src)
}

// draws reports whether the page at hand is the one wanted.
func (p *proof) draws() bool { return p.at == p.wanted }

func (*proof) bookmark(string, int, float64) {}

func (p *proof) clip(box Box, draw func()) {
	whole := p.within
	if box.sane() {
		p.within = whole.Intersect(image.Rect(
			int(math.Floor(box.X*p.scale)), int(math.Floor(box.Y*p.scale)), int(math.Ceil(box.Right()*p.scale)), int(math.Ceil(box.Bottom()*p.scale))))
	}
	draw()
	p.within = whole
}

func (p *proof) picture(at [4]Point, picture Picture) error {
	if !p.draws() {
		return nil
	}
	wide, tall := float64(picture.pixels.Rect.Dx()), float64(picture.pixels.Rect.Dy())
	onto := f64.Aff3{
		(at[1].X - at[0].X) * p.scale / wide, (at[3].X - at[0].X) * p.scale / tall, at[0].X * p.scale,
		(at[1].Y - at[0].Y) * p.scale / wide, (at[3].Y - at[0].Y) * p.scale / tall, at[0].Y * p.scale,
	}
	part := p.image.SubImage(p.within).(*image.RGBA)
	scaling.BiLinear.Transform(part, onto, picture.pixels, picture.pixels.Rect, scaling.Over, nil)
	return nil
}

func (p *proof) shape(rings [][]Point, fill Colour, edge Line) {
	if !p.draws() {
		return
	}
	if fill.inked {
		var outlines [][]Point
		for _, ring := range rings {
			if ring = sane(ring); len(ring) >= 3 {
				outlines = append(outlines, ring)
			}
		}
		p.fill(outlines, fill)
	}
	for _, ring := range rings {
		if ring = sane(ring); len(ring) >= 3 {
			p.stroke(append(ring, ring[0]), edge)
		}
	}
}

func (p *proof) stroke(points []Point, line Line) {
	points = sane(points)
	if !p.draws() || len(points) < 2 || !line.visible() {
		return
	}
	if line.Casing > 0 && line.Casing < far {
		p.fill(ribbons(points, line.Width+2*line.Casing, true), White)
	}
	if !dashes(line.Dash) {
		p.fill(ribbons(points, line.Width, line.Round), line.Colour)
		return
	}
	var pieces [][]Point
	for _, dash := range dashed(points, line.Dash) {
		pieces = append(pieces, ribbons(dash, line.Width, line.Round)...)
	}
	p.fill(pieces, line.Colour)
}

// ribbons are the stretches of a line as boxes, all turned the same way; they overlap at corners, and reach beyond the
// ends where those are round.
func ribbons(points []Point, width float64, beyond bool) [][]Point {
	var boxes [][]Point
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		length := math.Hypot(b.X-a.X, b.Y-a.Y)
		if length == 0 && !beyond {
			continue
		}
		ux, uy := 1.0, 0.0
		if length > 0 {
			ux, uy = (b.X-a.X)/length, (b.Y-a.Y)/length
		}
		half := width / 2
		if beyond || i > 1 {
			a = Point{X: a.X - ux*half, Y: a.Y - uy*half}
		}
		if beyond || i < len(points)-1 {
			b = Point{X: b.X + ux*half, Y: b.Y + uy*half}
		}
		nx, ny := -uy*half, ux*half
		boxes = append(boxes, []Point{{a.X + nx, a.Y + ny}, {a.X - nx, a.Y - ny}, {b.X - nx, b.Y - ny}, {b.X + nx, b.Y + ny}})
	}
	return boxes
}

// mostDashes bounds how many dashes a line is cut into.
const mostDashes = 20000

// dashed cuts a line into its dashes.
func dashed(points []Point, lengths []float64) [][]Point {
	var dashes [][]Point
	which, left := 0, lengths[0]
	current := []Point{points[0]}
	for i := 1; i < len(points); {
		a := current[len(current)-1]
		b := points[i]
		length := math.Hypot(b.X-a.X, b.Y-a.Y)
		if length <= left {
			current, left = append(current, b), left-length
			i++
			continue
		}
		share := left / length
		cut := Point{X: a.X + (b.X-a.X)*share, Y: a.Y + (b.Y-a.Y)*share}
		if which%2 == 0 {
			dashes = append(dashes, append(current, cut))
		}
		if len(dashes) > mostDashes {
			return dashes
		}
		which++
		left, current = lengths[which%len(lengths)], []Point{cut}
	}
	if which%2 == 0 && len(current) > 1 {
		dashes = append(dashes, current)
	}
	return dashes
}

// fill paints outlines in millimetres as one path.
func (p *proof) fill(outlines [][]Point, colour Colour) {
	p.paint(colour, func(add func(x, y float64)) {
		for _, outline := range outlines {
			for _, at := range outline {
				add(at.X*p.scale, at.Y*p.scale)
			}
		}
	}, func(left, top float32) {
		for _, outline := range outlines {
			for i, at := range outline {
				x, y := float32(at.X*p.scale)-left, float32(at.Y*p.scale)-top
				if i == 0 {
					p.path.MoveTo(x, y)
				} else {
					p.path.LineTo(x, y)
				}
			}
			p.path.ClosePath()
		}
	})
}

// paint bounds a path by its points, in pixels, and paints the part of it that lies on the page: the rasteriser walks all
// of the image that it is given, so it is given no more.
func (p *proof) paint(colour Colour, points func(add func(x, y float64)), trace func(left, top float32)) {
	left, top, right, bottom := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	points(func(x, y float64) {
		left, top, right, bottom = min(left, x), min(top, y), max(right, x), max(bottom, y)
	})
	if !(left <= right) || right-left > 4*mostProof || bottom-top > 4*mostProof {
		return
	}
	box := image.Rect(int(math.Floor(left)), int(math.Floor(top)), int(math.Ceil(right))+1, int(math.Ceil(bottom))+1)
	seen := box.Intersect(p.within)
	if seen.Empty() {
		return
	}
	p.path.Reset(seen.Dx(), seen.Dy())
	trace(float32(seen.Min.X), float32(seen.Min.Y))
	p.path.Draw(p.image, seen, image.NewUniform(rgba(colour)), image.Point{})
}
