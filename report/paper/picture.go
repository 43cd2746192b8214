package paper

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"image"
	"image/color"
	_ "image/gif" // the formats people have pictures in
	_ "image/jpeg"
	"image/png"

	"github.com/jung-kurt/gofpdf"
	scaling "golang.org/x/image/draw"
	_ "golang.org/x/image/webp"
)

// Bounds of a picture in pixels: what is read, and what is kept for printing
// (3,000 across A3 is 180 dots an inch).
const (
	mostPixels = 60_000_000
	mostSide   = 3000
)

// Picture is a picture ready to be printed: opaque, 8 bits a channel, of bounded
// size. The zero Picture draws nothing.
type Picture struct {
	name   string
	pixels *image.NRGBA
}

// placed is how a picture was given to the PDF library: how many pixels across,
// and how much wider that made it.
type placed struct {
	width   int
	stretch float64
	called  string // in the document
}

// ReadPicture decodes a PNG, JPEG, GIF or WebP of at most 60 million pixels. A
// picture that is larger than print needs is made smaller, and what is
// transparent becomes white.
func ReadPicture(data []byte) (Picture, error) {
	config, format, err := image.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		return Picture{}, fmt.Errorf("read picture: %w", err)
	}
	if config.Width < 1 || config.Height < 1 {
		return Picture{}, errors.New("read picture: it is empty")
	}
	if config.Width > mostPixels/config.Height {
		return Picture{}, fmt.Errorf("read picture: %d by %d pixels are too many: save it smaller than %d million pixels",
			config.Width, config.Height, mostPixels/1_000_000)
	}
	decoded, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return Picture{}, fmt.Errorf("read %s picture: %w", format, err)
	}
	pixels := flatten(decoded)
	sum := sha256.Sum256(pixels.Pix)
	return Picture{name: fmt.Sprintf("%dx%d-%x", pixels.Rect.Dx(), pixels.Rect.Dy(), sum[:12]), pixels: pixels}, nil
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

// Aspect returns the width of the picture over its height; 1 for the zero
// Picture.
func (p Picture) Aspect() float64 {
	if p.pixels == nil {
		return 1
	}
	return float64(p.pixels.Rect.Dx()) / float64(p.pixels.Rect.Dy())
}

// Picture draws a picture stretched over a box.
func (p *Pen) Picture(box Box, picture Picture) {
	box.X, box.Y = box.X+p.box.X, box.Y+p.box.Y
	if err := p.book.press.picture(box, picture); err != nil {
		p.book.Fail(err)
	}
}

// picture draws a picture, which it gives to the library at the first use.
func (k *ink) picture(box Box, picture Picture) error {
	if picture.pixels == nil || !box.sane() || box.W <= 0 || box.H <= 0 {
		return nil
	}
	known, ok := k.pictures[picture.name]
	if !ok {
		var err error
		if known, err = k.register(picture); err != nil {
			return err
		}
		k.pictures[picture.name] = known
	}
	k.clip(box, func() {
		k.now.picture(known.called, Box{X: box.X, Y: box.Y, W: box.W * known.stretch, H: box.H})
	})
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
	wide := image.NewNRGBA(image.Rect(0, 0, width, picture.pixels.Rect.Dy()))
	scaling.Draw(wide, wide.Rect, image.NewUniform(color.White), image.Point{}, scaling.Src)
	scaling.Draw(wide, picture.pixels.Rect, picture.pixels, image.Point{}, scaling.Src)
	var coded bytes.Buffer
	if err := png.Encode(&coded, wide); err != nil {
		return placed{}, fmt.Errorf("encode picture: %w", err)
	}
	k.pdf.RegisterImageOptionsReader(picture.name, gofpdf.ImageOptions{ImageType: "PNG"}, &coded)
	if err := k.pdf.Error(); err != nil {
		return placed{}, fmt.Errorf("take picture: %w", err)
	}
	called := k.called(pictureName, func(t *gofpdf.Tpl) {
		t.ImageOptions(picture.name, 0, 0, 1, 1, false, gofpdf.ImageOptions{ImageType: "PNG"}, 0, "")
	})
	return placed{width: width, stretch: float64(width) / float64(picture.pixels.Rect.Dx()), called: called}, nil
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
