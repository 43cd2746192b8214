package raster

import (
	"encoding/binary"
	"image"
	"math"
)

// laid is a picture at its place on the target. Places on the picture are reckoned in whole numbers of a part of a pixel
// of its level, from where x is 0, so that a pixel is the same whichever part of the drawing is painted, and wherever the
// target begins.
type laid struct {
	box     image.Rectangle
	level   half
	opacity uint32 // 0…255
	// across and down are by how much the place on the picture moves for a pixel of the target; from is where its
	// origin lies, and size how large the picture is, all in pixels of the level.
	across, down, from, size Point
}

// The place on a picture in whole numbers.
const (
	placeBits = 24
	place     = 1 << placeBits
)

// Beyond these in pixels of the picture the whole numbers would not do; nothing is seen there.
const (
	farStep  = 1 << 20
	farPlace = 1 << 37
)

// lay places a picture by its corners in pixels, and reports whether anything can be seen of it.
func lay(corners []Point, picture *Image, opacity float64) (*laid, bool) {
	a, b, c := corners[0], corners[1], corners[3]
	top, left := Point{b.X - a.X, b.Y - a.Y}, Point{c.X - a.X, c.Y - a.Y}
	area := top.X*left.Y - top.Y*left.X
	if !(math.Abs(area) > 1e-6) {
		return nil, false
	}
	wide, tall := float64(picture.wide), float64(picture.tall)
	l := &laid{
		box: boxOf(corners).pixels(), opacity: uint32(min(opacity, 1)*255 + 0.5), size: Point{wide, tall},
		across: Point{wide * left.Y / area, -tall * top.Y / area},
		down:   Point{-wide * left.X / area, tall * top.X / area},
	}
	l.from = Point{-a.X*l.across.X - a.Y*l.down.X, -a.X*l.across.Y - a.Y*l.down.Y}
	level := 0
	for ; level < len(picture.levels)-1 && l.covers() >= 1.5; level++ {
		for _, p := range []*Point{&l.across, &l.down, &l.from, &l.size} {
			p.X, p.Y = p.X/2, p.Y/2
		}
	}
	l.level = picture.levels[level]
	return l, l.opacity > 0 && math.Abs(l.across.X) < farStep && math.Abs(l.across.Y) < farStep
}

// covers is how many pixels of the picture lie along one of the target.
func (l *laid) covers() float64 {
	return max(math.Hypot(l.across.X, l.down.X), math.Hypot(l.across.Y, l.down.Y))
}

func (l *laid) bounds() image.Rectangle { return l.box }

func (l *laid) paint(f *filler) {
	edge := f.target.Rect.Min.X
	stepU, stepV := int64(math.Round(l.across.X*place)), int64(math.Round(l.across.Y*place))
	for y := f.clip.Min.Y; y < f.clip.Max.Y; y++ {
		middle := Point{0.5, float64(y) + 0.5}
		u := l.from.X + middle.X*l.across.X + middle.Y*l.down.X
		v := l.from.Y + middle.X*l.across.Y + middle.Y*l.down.Y
		if !(math.Abs(u) < farPlace && math.Abs(v) < farPlace) {
			continue
		}
		r := row{u: int64(math.Round(u * place)), v: int64(math.Round(v * place)), stepU: stepU, stepV: stepV}.from(int64(edge))
		l.row(f.target.Pix[f.target.PixOffset(edge, y):], r, int64(f.clip.Min.X-edge), int64(f.clip.Max.X-edge))
	}
}

// row paints pixels of one row of the target, which starts with its first, from one to another: those that lie well within
// the picture without looking for its edges.
func (l *laid) row(pixels []uint8, r row, from, to int64) {
	wide, tall := int64(l.size.X*place), int64(l.size.Y*place)
	from, to = r.within(from, to, 0, wide, 0, tall)
	if from >= to {
		return
	}
	first, end := r.within(from, to, place/2, int64(l.level.light.wide-1)*place+place/2, place/2, int64(l.level.light.tall-1)*place+place/2)
	if first >= end {
		first, end = to, to
	}
	l.edge(pixels[4*from:4*first], r.from(from))
	l.span(pixels[4*first:4*end], r.from(first))
	l.edge(pixels[4*end:4*to], r.from(end))
}

// row is where the pixels of a row of the target lie on the picture.
type row struct{ u, v, stepU, stepV int64 }

// from is the row from its nth pixel on.
func (r row) from(n int64) row {
	r.u, r.v = r.u+n*r.stepU, r.v+n*r.stepV
	return r
}

// within returns those pixels, between two, whose places lie in a box.
func (r row) within(from, to, left, right, top, bottom int64) (first, end int64) {
	for _, axis := range [2][4]int64{{r.u, r.stepU, left, right}, {r.v, r.stepV, top, bottom}} {
		at, step, low, high := axis[0], axis[1], axis[2], axis[3]
		switch {
		case step > 0:
			from, to = max(from, -floorDivided(at-low, step)), min(to, -floorDivided(at-high, step))
		case step < 0:
			from, to = max(from, floorDivided(at-high, -step)+1), min(to, floorDivided(at-low, -step)+1)
		case at < low || at >= high:
			return 0, 0
		}
	}
	return from, to
}

// floorDivided is a/b rounded down, for b above 0.
func floorDivided(a, b int64) int64 {
	whole := a / b
	if a%b < 0 {
		whole--
	}
	return whole
}

// span paints pixels whose four neighbours on the picture are all there: lightness between them, colour of the nearest.
func (l *laid) span(pixels []uint8, r row) {
	light, wide := l.level.light.of, l.level.light.wide
	blue, red, half := l.level.blue.of, l.level.red.of, l.level.blue.wide
	strength, rest := l.opacity, 255-l.opacity
	for u, v := r.u-place/2, r.v-place/2; len(pixels) >= 4; u, v, pixels = u+r.stepU, v+r.stepV, pixels[4:] {
		at := int(v>>placeBits)*wide + int(u>>placeBits)
		fx, fy := uint32(u>>(placeBits-8))&255, uint32(v>>(placeBits-8))&255
		above, below := light[at:at+2], light[at+wide:at+wide+2]
		bright := between(above[0], above[1], below[0], below[1], fx, fy)
		redBlue, greenAlpha := bright|bright<<16, bright|255<<16
		if blue != nil {
			at := int(v+place/2)>>(placeBits+1)*half + int(u+place/2)>>(placeBits+1)
			redBlue, greenAlpha = coloured(bright, blue[at], red[at])
		}
		seen := binary.LittleEndian.Uint32(pixels)
		redBlue = scaled(redBlue, strength) + scaled(seen&lanes, rest)
		greenAlpha = scaled(greenAlpha, strength) + scaled(seen>>8&lanes, rest)
		binary.LittleEndian.PutUint32(pixels, redBlue|greenAlpha<<8)
	}
}

// edge is span where neighbours may be missing: the nearest there are stand for them.
func (l *laid) edge(pixels []uint8, r row) {
	light, blue, red := l.level.light, l.level.blue, l.level.red
	for u, v := r.u-place/2, r.v-place/2; len(pixels) >= 4; u, v, pixels = u+r.stepU, v+r.stepV, pixels[4:] {
		x, y := int(u>>placeBits), int(v>>placeBits)
		fx, fy := uint32(u>>(placeBits-8))&255, uint32(v>>(placeBits-8))&255
		bright := between(light.near(x, y), light.near(x+1, y), light.near(x, y+1), light.near(x+1, y+1), fx, fy)
		k := ink{bright | bright<<16, bright | 255<<16}
		if blue.of != nil {
			x, y := int(u+place/2)>>(placeBits+1), int(v+place/2)>>(placeBits+1)
			k.redBlue, k.greenAlpha = coloured(bright, blue.near(x, y), red.near(x, y))
		}
		k.thinned(l.opacity).over(pixels)
	}
}

// near is the value at a place, or the nearest to it.
func (p plane) near(x, y int) uint8 {
	return p.of[min(max(y, 0), p.tall-1)*p.wide+min(max(x, 0), p.wide-1)]
}

// between is the value between four, at shares of 256 to the right and downwards.
func between(a, b, c, d uint8, right, down uint32) uint32 {
	top := uint32(a)<<8 + (uint32(b)-uint32(a))*right
	bottom := uint32(c)<<8 + (uint32(d)-uint32(c))*right
	return (top<<8 + (bottom-top)*down + 1<<15) >> 16 & 255
}

// coloured is an opaque ink of a lightness and two colour differences, as JFIF 1.02 has them.
func coloured(bright uint32, blue, red uint8) (redBlue, greenAlpha uint32) {
	lightness := int32(bright<<16 + 1<<15)
	toBlue, toRed := int32(blue)-128, int32(red)-128
	r := lightness + 91881*toRed
	g := lightness - 22554*toBlue - 46802*toRed
	b := lightness + 116130*toBlue
	return held(r) | held(b)<<16, held(g) | 255<<16
}

// held brings a value of 16 more bits to 0…255.
func held(value int32) uint32 {
	return uint32(min(max(value>>16, 0), 255))
}
