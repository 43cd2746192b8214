package raster

import (
	"image"
	"image/color"
	"math"
	"math/bits"
)

const (
	unit = 256             // parts of a pixel
	full = 2 * unit * unit // what a pixel that is covered whole adds up to
)

// filler adds up how much of each pixel the shapes of one call cover, then blends a colour there. Each cell of cover
// holds by how much a row's coverage changes at that pixel; touched has a bit for each cell that is not zero, so that
// a long thin line costs what it covers and not the box round it.
type filler struct {
	target  *image.RGBA
	area    image.Rectangle // what the buffers stand for
	clip    image.Rectangle // what may be painted, within area
	stride  int             // cells a row
	words   int             // words of touched a row
	cover   []int32
	touched []uint64
	top     int // first and one past the last touched row, from the top of area
	bottom  int
}

// begin makes the filler ready for an area of the target.
func (f *filler) begin(target *image.RGBA, area image.Rectangle) {
	f.target, f.area, f.clip = target, area, area
	f.stride = area.Dx() + 2
	f.words = (f.stride + 63) / 64
	f.cover = zeroed(f.cover, f.stride*area.Dy())
	f.touched = zeroed(f.touched, f.words*area.Dy())
	f.top, f.bottom = area.Dy(), 0
}

// zeroed returns a slice of that length. The filler leaves its buffers zero, so that they can be used again.
func zeroed[T any](buffer []T, length int) []T {
	if cap(buffer) < length {
		return make([]T, length)
	}
	return buffer[:length]
}

// parts gives a coordinate in parts of a pixel, from an edge of the area.
func parts(v float64, edge int) int {
	return int(math.Floor(clamp(v)*unit+0.5)) - edge*unit
}

// polygon adds the shape within the corners. Shapes of one call must turn the same way round to add up.
func (f *filler) polygon(corners ...Point) {
	for i, p := range corners {
		f.line(p, corners[(i+1)%len(corners)])
	}
}

// line adds one side of a shape: what lies to the right of it, less if it runs upwards.
func (f *filler) line(a, b Point) {
	x0, y0 := parts(a.X, f.area.Min.X), parts(a.Y, f.area.Min.Y)
	x1, y1 := parts(b.X, f.area.Min.X), parts(b.Y, f.area.Min.Y)
	sign := int32(1)
	if y0 > y1 {
		x0, y0, x1, y1, sign = x1, y1, x0, y0, -1
	}
	from := max(y0, (f.clip.Min.Y-f.area.Min.Y)*unit)
	to := min(y1, (f.clip.Max.Y-f.area.Min.Y)*unit)
	if from >= to {
		return
	}
	f.top, f.bottom = min(f.top, from/unit), max(f.bottom, (to+unit-1)/unit)
	slope := float64(x1-x0) / float64(y1-y0)
	// Each x is reckoned from the end of the side, not from the row before, so that it is the same in every band.
	at := func(y int) int { return x0 + int(math.Floor(float64(y-y0)*slope+0.5)) }
	x := at(from)
	for y := from; y < to; {
		row := y / unit
		next := min((row+1)*unit, to)
		nextX := at(next)
		f.slice(row, min(x, nextX), max(x, nextX), next-y, sign)
		x, y = nextX, next
	}
}

// slice adds the part of a side that lies within one row: it is tall parts high and runs from one x to another.
func (f *filler) slice(row, from, to, tall int, sign int32) {
	left := (f.clip.Min.X - f.area.Min.X) * unit
	right := (f.clip.Max.X - f.area.Min.X) * unit
	switch {
	case from >= right:
		return
	case to <= left:
		f.add(row, left/unit, tall, 0, sign)
		return
	case from/unit == to/unit && from >= left:
		f.add(row, from/unit, tall, from%unit+to%unit, sign)
		return
	}
	wide, done, x := to-from, 0, from
	if x < left {
		done = share(left-from, tall, wide)
		f.add(row, left/unit, done, 0, sign)
		x = left
	}
	for x < to && x < right {
		cell := x / unit
		end := min((cell+1)*unit, to)
		reached := tall
		if end < to {
			reached = share(end-from, tall, wide)
		}
		f.add(row, cell, reached-done, x+end-2*cell*unit, sign)
		done, x = reached, end
	}
}

// share is part·tall/wide, rounded down: short whole numbers divide much faster.
func share(part, tall, wide int) int {
	if wide < 1<<23 {
		return int(uint32(part) * uint32(tall) / uint32(wide))
	}
	return part * tall / wide
}

// add notes a piece of a side within one pixel: tall parts high, its two ends summing to this distance from the left.
func (f *filler) add(row, cell, tall, ends int, sign int32) {
	right := int32(tall*ends) * sign
	at := row*f.stride + cell
	f.cover[at] += int32(tall)*2*unit*sign - right
	f.cover[at+1] += right
	word := row*f.words + cell/64
	f.touched[word] |= 3 << (cell % 64)
	if cell%64 == 63 {
		f.touched[word+1] |= 1
	}
}

// flush blends the colour wherever the shapes lie and forgets them.
func (f *filler) flush(colour color.NRGBA) {
	ink := inkOf(colour)
	left, right := f.clip.Min.X-f.area.Min.X, f.clip.Max.X-f.area.Min.X
	for row := f.top; row < f.bottom; row++ {
		cells := f.cover[row*f.stride : (row+1)*f.stride]
		offset := f.target.PixOffset(f.area.Min.X, f.area.Min.Y+row)
		pixels := f.target.Pix[offset : offset+4*f.area.Dx()]
		sum, start := int32(0), left
		touched := f.touched[row*f.words : (row+1)*f.words]
		for word := left / 64; word <= right/64; word++ {
			set := touched[word]
			touched[word] = 0
			for ; set != 0; set &= set - 1 {
				cell := word*64 + bits.TrailingZeros64(set)
				if sum != 0 && start < cell {
					ink.span(pixels, start, min(cell, right), coverage(sum))
				}
				sum += cells[cell]
				cells[cell] = 0
				start = cell
			}
		}
		if sum != 0 && start < right {
			ink.span(pixels, start, right, coverage(sum))
		}
	}
	f.top, f.bottom = f.area.Dy(), 0
}

// coverage brings a sum to 0…255. Shapes that overlap cover a pixel once.
func coverage(sum int32) uint32 {
	if sum < 0 {
		sum = -sum
	}
	return (min(uint32(sum), full)*255 + full/2) / full
}
