package look

import (
	"image/color"
	"math"

	"stageloom/model/picture"
)

// Palette is one look of the screen.
type Palette struct {
	// Name is "light", "dark" or "high contrast".
	Name string
	// Dark reports whether widgets take their dark variant.
	Dark bool

	Ground, Panel, Ink, Muted, Hairline, Strong  color.NRGBA
	Selection, Band                              color.NRGBA
	Ample, Enough, Tight, Over, Uncabled, Plain  color.NRGBA
	Stage, Building, Road, Water, Crowd, Caution color.NRGBA
	Danger                                       color.NRGBA
	// Field is the ground of entries, Button of buttons, and Edge the outline of what one can press or fill in.
	Field, Button, Edge color.NRGBA
}

func hex(rgb uint32) color.NRGBA {
	return color.NRGBA{R: uint8(rgb >> 16), G: uint8(rgb >> 8), B: uint8(rgb), A: 0xff}
}

func veil(c color.NRGBA, alpha uint8) color.NRGBA {
	c.A = alpha
	return c
}

// Palettes lists the three looks.
func Palettes() []Palette { return []Palette{light, dark, contrast} }

// PaletteNamed returns the palette of this name, the light one for any other.
func PaletteNamed(name string) Palette {
	for _, p := range Palettes() {
		if p.Name == name {
			return p
		}
	}
	return light
}

var light = Palette{
	Name: "light", Ground: hex(0xFBFAF7), Panel: hex(0xFFFFFF), Ink: hex(0x1F2328), Muted: hex(0x5C636C),
	Hairline: hex(0xE4E1D9), Strong: hex(0xCFCABE), Selection: hex(0x6F4E9C), Band: hex(0x6F4E9C),
	Ample: hex(0x0072B2), Enough: hex(0x008A64), Tight: hex(0xB57300), Over: hex(0xD55E00), Uncabled: hex(0x767D86),
	Plain: hex(0x5C636C), Stage: hex(0xEFEBE0), Building: hex(0xE8E5DE), Road: hex(0xECEAE6), Water: hex(0xDCE9F2),
	Crowd: hex(0xF4F0E6), Caution: hex(0xF7E6D8), Danger: hex(0xB3261E),
	Field: hex(0xF4F2EC), Button: hex(0xECE9E1), Edge: hex(0x8A867C),
}

var dark = Palette{
	Name: "dark", Dark: true, Ground: hex(0x1C1F24), Panel: hex(0x22262C), Ink: hex(0xE8E6E1), Muted: hex(0x9AA0A8),
	Hairline: hex(0x2A2E35), Strong: hex(0x3B414A), Selection: hex(0xB79AE0), Band: hex(0xB79AE0),
	Ample: hex(0x4FA3DA), Enough: hex(0x2FBF93), Tight: hex(0xF0B23C), Over: hex(0xF0763A), Uncabled: hex(0x8E949D),
	Plain: hex(0x9AA0A8), Stage: hex(0x2A2B2A), Building: hex(0x2B2D31), Road: hex(0x272A2E), Water: hex(0x1E2C38),
	Crowd: hex(0x26262A), Caution: hex(0x3A2C24), Danger: hex(0xF28B82),
	Field: hex(0x2B3038), Button: hex(0x333943), Edge: hex(0x7C838D),
}

var contrast = Palette{
	Name: "high contrast", Ground: hex(0xFFFFFF), Panel: hex(0xFFFFFF), Ink: hex(0x000000), Muted: hex(0x333333),
	Hairline: hex(0xDDDDDD), Strong: hex(0x888888), Selection: hex(0x5B2A91), Band: hex(0x5B2A91),
	Ample: hex(0x005A8F), Enough: hex(0x00694C), Tight: hex(0x8A5700), Over: hex(0xB04500), Uncabled: hex(0x4A4F55),
	Plain: hex(0x333333), Stage: hex(0xEEEEEE), Building: hex(0xE6E6E6), Road: hex(0xEEEEEE), Water: hex(0xE3EEF6),
	Crowd: hex(0xF5F5F5), Caution: hex(0xFBE9DC), Danger: hex(0x9B0000),
	Field: hex(0xF0F0F0), Button: hex(0xE4E4E4), Edge: hex(0x404040),
}

// Grade returns the colour of a grade; a link without grade is plain.
func (p Palette) Grade(grade string) color.NRGBA { return p.Style(picture.LinkRole(grade)).Colour }

// readable is the least contrast of text (WCAG 2.1, success criterion 1.4.3; published), with a little to spare; readableMore is
// that of the high contrast look (1.4.6).
const (
	readable     = 4.6
	readableMore = 7.1
)

// GradeInk is a grade's colour for text on a panel: as much of it as can be read, the rest ink.
func (p Palette) GradeInk(grade string) color.NRGBA { return p.inkOf(p.Grade(grade)) }

// inkOf mixes a colour with ink until it can be read as text on a panel.
func (p Palette) inkOf(c color.NRGBA) color.NRGBA {
	least := readable
	if p.Name == contrast.Name {
		least = readableMore
	}
	mixed := c
	for share := 0; share <= 20 && Contrast(mixed, p.Panel) < least; share++ {
		part := func(a, b uint8) uint8 { return uint8((int(a)*(20-share) + int(b)*share) / 20) }
		mixed = color.NRGBA{R: part(c.R, p.Ink.R), G: part(c.G, p.Ink.G), B: part(c.B, p.Ink.B), A: 0xff}
	}
	return mixed
}

// Contrast is the contrast ratio of two opaque colours, 1 to 21 (WCAG 2.1, definition of contrast ratio; published).
func Contrast(a, b color.NRGBA) float64 {
	light, dark := luminance(a), luminance(b)
	return (max(light, dark) + 0.05) / (min(light, dark) + 0.05)
}

// luminance is the relative luminance of a colour, 0 to 1 (WCAG 2.1, definition of relative luminance; published).
func luminance(c color.NRGBA) float64 {
	linear := func(channel uint8) float64 {
		s := float64(channel) / 255
		if s <= 0.03928 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(c.R) + 0.7152*linear(c.G) + 0.0722*linear(c.B)
}
