package raster

import (
	"image"
	"runtime"
	"sync"
	"sync/atomic"
)

// bandHeight is about the height of a band in pixels: its sums then stay in the processor's cache, and bands enough
// even out where one part of the picture is fuller than another.
const bandHeight = 128

var fillers = sync.Pool{New: func() any { return new(filler) }}

// Paint paints the drawing over the whole image.
func (d *Drawing) Paint(target *image.RGBA) { d.PaintWithin(target, target.Bounds()) }

// PaintWithin paints the part of the drawing that lies in the box: the very pixels that Paint would give there. It
// has painted all of it when it returns.
func (d *Drawing) PaintWithin(target *image.RGBA, box image.Rectangle) {
	box = box.Intersect(target.Bounds())
	if box.Empty() || len(d.marks) == 0 {
		return
	}
	count := max(1, box.Dy()/bandHeight)
	var next atomic.Int64
	var done sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), count) {
		done.Go(func() {
			f := fillers.Get().(*filler)
			defer fillers.Put(f)
			for {
				i := int(next.Add(1)) - 1
				if i >= count {
					return
				}
				band := box
				band.Min.Y, band.Max.Y = box.Min.Y+i*box.Dy()/count, box.Min.Y+(i+1)*box.Dy()/count
				d.paintBand(f, target, band)
			}
		})
	}
	done.Wait()
}

// paintBand paints all that lies in a band.
func (d *Drawing) paintBand(f *filler, target *image.RGBA, band image.Rectangle) {
	f.begin(target, band)
	for _, m := range d.marks {
		if clip := m.box.Intersect(band); !clip.Empty() {
			f.clip = clip
			m.shape.paint(f)
		}
	}
	f.target = nil
}

// Shift moves the pixels of the image by whole pixels, to the right and downwards, and returns the parts, none to two,
// that nothing was moved to and which are still to be painted.
func Shift(target *image.RGBA, dx, dy int) []image.Rectangle {
	all := target.Bounds()
	kept := all.Intersect(all.Add(image.Pt(dx, dy)))
	if kept.Empty() {
		return []image.Rectangle{all}
	}
	for i := range kept.Dy() {
		y := kept.Min.Y + i
		if dy > 0 { // from below, so that no row is overwritten before it has moved
			y = kept.Max.Y - 1 - i
		}
		to := target.PixOffset(kept.Min.X, y)
		from := target.PixOffset(kept.Min.X-dx, y-dy)
		copy(target.Pix[to:to+4*kept.Dx()], target.Pix[from:from+4*kept.Dx()])
	}
	var bare []image.Rectangle
	for _, part := range []image.Rectangle{
		{Min: all.Min, Max: image.Pt(all.Max.X, kept.Min.Y)},
		{Min: image.Pt(all.Min.X, kept.Max.Y), Max: all.Max},
		{Min: image.Pt(all.Min.X, kept.Min.Y), Max: image.Pt(kept.Min.X, kept.Max.Y)},
		{Min: image.Pt(kept.Max.X, kept.Min.Y), Max: image.Pt(all.Max.X, kept.Max.Y)},
	} {
		if !part.Empty() {
			bare = append(bare, part)
		}
	}
	return bare
}
