package raster

import (
	"image"
	"image/color"
	"image/draw"
	"math"
)

// Image is a picture that is ready to be painted at any size and turn. It keeps halves of itself, down to one pixel, so
// that painting costs what is seen of it on the target and not what it has: lightness for each pixel and colour for every
// second one each way, about two and two thirds bytes for a pixel, one and a third where it is grey. It is opaque; what was transparent
// is white. It is not changed once made, so that many drawings may use it side by side.
type Image struct {
	wide, tall int
	levels     []half
}

// half is an image at the size of one level; blue and red are nil where it is grey.
type half struct {
	light, blue, red plane
}

// plane is one channel, row by row.
type plane struct {
	wide, tall int
	of         []uint8
}

func newPlane(wide, tall int) plane { return plane{wide, tall, make([]uint8, wide*tall)} }

// NewImage prepares a picture; one without pixels is never seen. The picture is not kept.
func NewImage(from image.Image) *Image {
	size := from.Bounds().Size()
	if size.X < 1 || size.Y < 1 {
		return &Image{}
	}
	whole := half{light: newPlane(size.X, size.Y)}
	if !grey(from) {
		whole.blue, whole.red = newPlane((size.X+1)/2, (size.Y+1)/2), newPlane((size.X+1)/2, (size.Y+1)/2)
	}
	if chroma, is := from.(*image.YCbCr); is {
		whole.takeChroma(chroma)
	} else {
		whole.take(from)
	}
	made := &Image{wide: size.X, tall: size.Y, levels: []half{whole}}
	for whole.light.wide > 1 || whole.light.tall > 1 {
		whole = half{light: whole.light.halved(), blue: whole.blue.halved(), red: whole.red.halved()}
		made.levels = append(made.levels, whole)
	}
	return made
}

// Size is that of the picture in its own pixels.
func (i *Image) Size() (wide, tall int) { return i.wide, i.tall }

// grey reports whether a picture can have no colour.
func grey(from image.Image) bool {
	model := from.ColorModel()
	return model == color.GrayModel || model == color.Gray16Model
}

// takeChroma takes a picture that is held as lightness and colour already, as photographs are.
func (h *half) takeChroma(from *image.YCbCr) {
	for y := range h.light.tall {
		at := from.YOffset(from.Rect.Min.X, from.Rect.Min.Y+y)
		copy(h.light.of[y*h.light.wide:(y+1)*h.light.wide], from.Y[at:])
	}
	for y := range h.blue.tall {
		for x := range h.blue.wide {
			blue, red, count := 0, 0, 0
			for i := range 4 {
				across, down := 2*x+i%2, 2*y+i/2
				if across < h.light.wide && down < h.light.tall {
					at := from.COffset(from.Rect.Min.X+across, from.Rect.Min.Y+down)
					blue, red, count = blue+int(from.Cb[at]), red+int(from.Cr[at]), count+1
				}
			}
			h.blue.of[y*h.blue.wide+x] = uint8((blue + count/2) / count)
			h.red.of[y*h.red.wide+x] = uint8((red + count/2) / count)
		}
	}
}

// take takes any picture, two rows at a time, laid on white.
func (h *half) take(from image.Image) {
	rows := image.NewRGBA(image.Rect(0, 0, h.light.wide, 2))
	corner := from.Bounds().Min
	for y := 0; y < h.light.tall; y += 2 {
		part := image.Rect(0, 0, h.light.wide, min(2, h.light.tall-y))
		draw.Draw(rows, part, image.White, image.Point{}, draw.Src)
		draw.Draw(rows, part, from, corner.Add(image.Pt(0, y)), draw.Over)
		for x := 0; x < h.light.wide; x += 2 {
			h.cell(rows, x, y, part.Dy())
		}
	}
}

// cell takes the four pixels, fewer at an edge, that share a colour.
func (h *half) cell(rows *image.RGBA, x, y, tall int) {
	blue, red, count := 0, 0, 0
	for down := range tall {
		for across := x; across < min(x+2, h.light.wide); across++ {
			pixel := rows.Pix[down*rows.Stride+4*across:]
			lightness, b, r := color.RGBToYCbCr(pixel[0], pixel[1], pixel[2])
			h.light.of[(y+down)*h.light.wide+across] = lightness
			blue, red, count = blue+int(b), red+int(r), count+1
		}
	}
	if h.blue.of != nil {
		h.blue.of[y/2*h.blue.wide+x/2] = uint8((blue + count/2) / count)
		h.red.of[y/2*h.red.wide+x/2] = uint8((red + count/2) / count)
	}
}

// halved is the plane at half the size, rounded up, each pixel the mean of four.
func (p plane) halved() plane {
	if p.of == nil {
		return p
	}
	small := newPlane((p.wide+1)/2, (p.tall+1)/2)
	for y := range small.tall {
		upper := p.of[2*y*p.wide : (2*y+1)*p.wide]
		lower := upper
		if 2*y+1 < p.tall {
			lower = p.of[(2*y+1)*p.wide : (2*y+2)*p.wide]
		}
		row := small.of[y*small.wide : (y+1)*small.wide]
		for x := range row {
			left, right := 2*x, min(2*x+1, p.wide-1)
			row[x] = uint8((int(upper[left]) + int(upper[right]) + int(lower[left]) + int(lower[right]) + 2) / 4)
		}
	}
	return small
}

// Image implements [Pen]. A pixel of the target is painted where its middle lies on the picture, so that pictures side by
// side have no seam.
func (d *Drawing) Image(corners [4]Point, picture *Image, opacity float64) {
	if picture == nil || len(picture.levels) == 0 || !(opacity > 0) {
		return
	}
	placed := make([]Point, 4)
	for i, at := range corners {
		placed[i] = Point{at.X * d.scale, at.Y * d.scale}
		if !placed[i].finite() || math.Abs(placed[i].X) > farthest || math.Abs(placed[i].Y) > farthest {
			return
		}
	}
	if laid, seen := lay(placed, picture, opacity); seen {
		d.add(laid)
	}
}
