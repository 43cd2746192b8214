package paper

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math"

	"github.com/jung-kurt/gofpdf"
	scaling "golang.org/x/image/draw"
)

// mostSide is how many pixels a side are kept for printing: 3,000 across A3 is
// 180 dots an inch.
const mostSide = 3000

// leastPicture is the area in square millimetres under which nothing is seen of
// a picture.
const leastPicture = 1e-3

// photoQuality is the quality at which a photograph is packed, of 100.
const photoQuality = 85

// Picture is a picture ready to be printed: opaque, 8 bits a channel, of bounded
// size. The zero Picture draws nothing.
type Picture struct {
	name   string
	pixels *image.NRGBA
	photo  bool // packed with small losses, which takes a tenth of the room
	grey   bool
}

// placed is how a picture was given to the PDF library: how many pixels across,
// and how much wider that made it.
type placed struct {
	width   int
	stretch float64
	called  string // in the document
}

// PictureOf makes a decoded picture ready. One that is larger than print needs is
// made smaller, and what is transparent becomes white. One held as lightness and
// colour is a photograph, and is packed as one. No program hands one in yet: it is
// the seam for a site's drawing, which model/beside decodes.
func PictureOf(decoded image.Image) Picture {
	if decoded.Bounds().Empty() {
		return Picture{}
	}
	_, photo := decoded.(*image.YCbCr)
	return named(Picture{pixels: flatten(decoded), photo: photo})
}

// named gives a picture the name by which the document knows it: what it shows.
func named(p Picture) Picture {
	sum := sha256.Sum256(p.pixels.Pix)
	p.name = fmt.Sprintf("%dx%d-%x", p.pixels.Rect.Dx(), p.pixels.Rect.Dy(), sum[:12])
	return p
}

// Faded returns the picture at an opacity from 0 to 1 on white, in grey where
// that is wanted. PDF viewers print it alike, unlike transparency.
func (p Picture) Faded(opacity float64, grey bool) Picture {
	if p.pixels == nil || !(opacity > 0) {
		return Picture{}
	}
	share := int(min(opacity, 1)*255 + 0.5)
	var shade [256]uint8
	for i := range shade {
		shade[i] = uint8(255 - ((255-i)*share+127)/255)
	}
	faded := Picture{pixels: image.NewNRGBA(p.pixels.Rect), photo: p.photo, grey: p.grey || grey}
	for at := 0; at+3 < len(p.pixels.Pix); at += 4 {
		r, g, b := p.pixels.Pix[at], p.pixels.Pix[at+1], p.pixels.Pix[at+2]
		if grey {
			r, _, _ = color.RGBToYCbCr(r, g, b)
			g, b = r, r
		}
		to := faded.pixels.Pix[at : at+4]
		to[0], to[1], to[2], to[3] = shade[r], shade[g], shade[b], 255
	}
	return named(faded)
}

// flatten lays a picture on white, no larger than print needs.
func flatten(from image.Image) *image.NRGBA {
	size := from.Bounds().Size()
	if longest := max(size.X, size.Y); longest > mostSide {
		size.X = max(1, size.X*mostSide/longest)
		size.Y = max(1, size.Y*mostSide/longest)
	}
	to := image.NewNRGBA(image.Rectangle{Max: size})
	scaling.Draw(to, to.Rect, image.NewUniform(color.White), image.Point{}, scaling.Src)
	if size == from.Bounds().Size() {
		scaling.Draw(to, to.Rect, from, from.Bounds().Min, scaling.Over)
	} else {
		scaling.BiLinear.Scale(to, to.Rect, from, from.Bounds(), scaling.Over, nil)
	}
	return to
}

// Picture draws a picture stretched over a box.
func (p *Pen) Picture(box Box, picture Picture) {
	if box.W <= 0 || box.H <= 0 {
		return
	}
	p.Placed([4]Point(corners(box)), picture)
}

// Placed draws a picture with its corners at these points, from its own top left
// one clockwise: those of a rectangle, turned or not.
func (p *Pen) Placed(at [4]Point, picture Picture) {
	moved := [4]Point(p.onSheet(at[:]))
	for _, corner := range moved {
		if !corner.sane() {
			return
		}
	}
	along, down := Point{moved[1].X - moved[0].X, moved[1].Y - moved[0].Y}, Point{moved[3].X - moved[0].X, moved[3].Y - moved[0].Y}
	if picture.pixels == nil || math.Abs(along.X*down.Y-along.Y*down.X) < leastPicture {
		return
	}
	if err := p.book.press.picture(moved, picture); err != nil {
		p.book.Fail(err)
	}
}

// picture draws a picture, which it gives to the library at the first use.
func (k *ink) picture(at [4]Point, picture Picture) error {
	known, ok := k.pictures[picture.name]
	if !ok {
		var err error
		if known, err = k.register(picture); err != nil {
			return err
		}
		k.pictures[picture.name] = known
	}
	k.now.clipTo(at)
	k.now.picture(known.called, at, known.stretch)
	k.now.restore()
	return k.pdf.Error()
}

// register gives a picture to the library. The library writes pictures in order
// of width, and those of equal width in random order: each is made as many
// columns wider as it takes to be the only one of its width.
func (k *ink) register(picture Picture) (placed, error) {
	width := picture.pixels.Rect.Dx()
	for k.hasWidth(width) {
		width++
	}
	coded, form, err := picture.coded(width)
	if err != nil {
		return placed{}, fmt.Errorf("encode picture: %w", err)
	}
	options := gofpdf.ImageOptions{ImageType: form}
	k.pdf.RegisterImageOptionsReader(picture.name, options, coded)
	if err := k.pdf.Error(); err != nil {
		return placed{}, fmt.Errorf("take picture: %w", err)
	}
	called := k.called(pictureName, func(t *gofpdf.Tpl) {
		t.ImageOptions(picture.name, 0, 0, 1, 1, false, options, 0, "")
	})
	return placed{width: width, stretch: float64(width) / float64(picture.pixels.Rect.Dx()), called: called}, nil
}

// coded is the picture as a file of a form, widened by columns of its last one.
func (p Picture) coded(width int) (*bytes.Buffer, string, error) {
	box := image.Rect(0, 0, width, p.pixels.Rect.Dy())
	var wide scaling.Image = image.NewRGBA(box)
	if p.grey {
		wide = image.NewGray(box)
	}
	scaling.Draw(wide, p.pixels.Rect, p.pixels, image.Point{}, scaling.Src)
	last := p.pixels.Rect.Dx() - 1
	for x := last + 1; x < width; x++ {
		scaling.Draw(wide, image.Rect(x, 0, x+1, box.Max.Y), p.pixels, image.Pt(last, 0), scaling.Src)
	}
	var coded bytes.Buffer
	if p.photo {
		return &coded, "JPG", jpeg.Encode(&coded, wide, &jpeg.Options{Quality: photoQuality})
	}
	return &coded, "PNG", png.Encode(&coded, wide)
}

// hasWidth reports whether a picture of that many pixels across is known.
func (k *ink) hasWidth(width int) bool {
	for _, other := range k.pictures {
		if other.width == width {
			return true
		}
	}
	return false
}
