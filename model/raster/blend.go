package raster

import (
	"encoding/binary"
	"image/color"
)

// ink is a premultiplied colour as pairs of bytes with a byte of room above each, so that two are reckoned at once:
// red and blue, green and alpha.
type ink struct{ redBlue, greenAlpha uint32 }

// lanes keeps the two bytes of a pair.
const lanes = 0x00FF00FF

// inkOf premultiplies a colour.
func inkOf(c color.NRGBA) ink {
	opaque := ink{uint32(c.R) | uint32(c.B)<<16, uint32(c.G) | 255<<16}
	return opaque.thinned(uint32(c.A))
}

// scaled multiplies both bytes of a pair by by/255, rounding each.
func scaled(pair, by uint32) uint32 {
	pair = pair*by + 0x00800080
	return (pair + pair>>8&lanes) >> 8 & lanes
}

// thinned returns the ink at a coverage of 0…255.
func (k ink) thinned(cover uint32) ink {
	return ink{scaled(k.redBlue, cover), scaled(k.greenAlpha, cover)}
}

// alpha is how much the ink hides, 0…255.
func (k ink) alpha() uint32 { return k.greenAlpha >> 16 }

// over blends the ink over one pixel. A sum cannot pass 255, as no colour of the ink is more than its alpha.
func (k ink) over(pixel []uint8) {
	below := binary.LittleEndian.Uint32(pixel)
	rest := 255 - k.alpha()
	redBlue := k.redBlue + scaled(below&lanes, rest)
	greenAlpha := k.greenAlpha + scaled(below>>8&lanes, rest)
	binary.LittleEndian.PutUint32(pixel, redBlue|greenAlpha<<8)
}

// span blends the ink over the pixels of a row from one to another, at a coverage of 0…255.
func (k ink) span(row []uint8, from, to int, cover uint32) {
	if from >= to || cover == 0 {
		return
	}
	if cover < 255 {
		k = k.thinned(cover)
	}
	pixels := row[4*from : 4*to]
	if k.alpha() == 255 && len(pixels) > 4 {
		k.fill(pixels)
		return
	}
	for len(pixels) >= 4 {
		k.over(pixels)
		pixels = pixels[4:]
	}
}

// fill sets all the pixels to the ink, which is opaque.
func (k ink) fill(pixels []uint8) {
	binary.LittleEndian.PutUint32(pixels, k.redBlue|k.greenAlpha<<8)
	for done := 4; done < len(pixels); done *= 2 {
		copy(pixels[done:], pixels[:done])
	}
}
