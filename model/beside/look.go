package beside

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
)

// Form is how a picture is coded.
type Form string

// The forms.
const (
	PNG  Form = "png"
	JPEG Form = "jpg"
)

// Bounds of a picture: bytes of its file, pixels, and bytes that decoding it takes, which 16 bits a channel and pictures that
// build up in steps need several of for a pixel.
const (
	MostBytes  = 50_000_000
	MostPixels = 100_000_000
	mostMemory = 450_000_000
	mostScans  = 100 // of a picture that builds up in steps; ten are usual, and each walks over the whole picture
)

// Look is what the head of a picture says, without its pixels.
type Look struct {
	Form Form
	// Width and Height are in pixels.
	Width, Height int
}

// Refused says why a picture is not taken, and what to do.
type Refused struct{ Reason, Remedy string }

// Error is the sentence.
func (r *Refused) Error() string { return "the picture is not taken: " + r.Reason + "; " + r.Remedy }

// LookAt reads the head of a picture and refuses, as *Refused, what is no PNG or JPEG, or too large to be decoded.
func LookAt(data []byte) (Look, error) {
	if len(data) > MostBytes {
		return Look{}, tooManyBytes()
	}
	look, config := Look{Form: formOf(data)}, image.Config{}
	var err error
	switch look.Form {
	case PNG:
		config, err = png.DecodeConfig(bytes.NewReader(data))
	case JPEG:
		config, err = jpeg.DecodeConfig(bytes.NewReader(data))
	default:
		return Look{}, &Refused{"it is neither a PNG nor a JPEG", "save it as one of them in a program for pictures"}
	}
	if err != nil {
		return Look{}, damaged(err)
	}
	look.Width, look.Height = config.Width, config.Height
	return look, look.bounded(data, config.ColorModel)
}

func tooManyBytes() error {
	return &Refused{fmt.Sprintf("its file is larger than %d MB", MostBytes/1_000_000), "save it smaller, or as a JPEG"}
}

func damaged(err error) error {
	return &Refused{"its file is damaged or ends early (" + err.Error() + ")", "fetch it again, or save it anew in a program for pictures"}
}

// formOf tells the form by the first bytes; blank is another.
func formOf(data []byte) Form {
	switch {
	case bytes.HasPrefix(data, []byte("\x89PNG\r\n\x1a\n")):
		return PNG
	case bytes.HasPrefix(data, []byte("\xff\xd8\xff")):
		return JPEG
	}
	return ""
}

// bounded refuses what would take too much to decode.
func (l Look) bounded(data []byte, model color.Model) error {
	if l.Width < 1 || l.Height < 1 {
		return &Refused{"it has no pixels", "choose another"}
	}
	if l.Width > MostPixels/l.Height {
		return &Refused{
			fmt.Sprintf("its %d by %d pixels are more than %d million", l.Width, l.Height, MostPixels/1_000_000), "save it smaller",
		}
	}
	each := bytesOf(model)
	if l.Form == PNG && data[interlacing] != 0 {
		each *= 1.5 // the largest of its passes is half of it
	}
	if l.Form == JPEG {
		if model == color.RGBAModel || model == color.CMYKModel {
			each *= 2 // made of what was decoded
		}
		steps, scans, share := stepwise(data)
		if steps {
			each += 4 * share // the decoder keeps a number of 4 bytes for each value until the last step
		}
		if steps && scans > mostScans {
			return &Refused{"it builds up in too many steps", "save it as a plain JPEG"}
		}
	}
	if each*float64(l.Width)*float64(l.Height) > mostMemory {
		return &Refused{
			fmt.Sprintf("its %d by %d pixels take too much memory in this form", l.Width, l.Height),
			map[Form]string{PNG: "save it with 8 bits a channel, or smaller", JPEG: "save it as a plain JPEG that does not build up in steps, or smaller"}[l.Form],
		}
	}
	return nil
}

// interlacing is where a PNG says whether it is interlaced (W3C Portable Network Graphics, 11.2.1).
const interlacing = 28

// bytesOf is how many bytes a decoded pixel takes.
func bytesOf(model color.Model) float64 {
	switch model {
	case color.GrayModel:
		return 1
	case color.Gray16Model:
		return 2
	case color.YCbCrModel:
		return 3
	case color.RGBA64Model, color.NRGBA64Model:
		return 8
	}
	if _, palette := model.(color.Palette); palette {
		return 1
	}
	return 4
}

// stepwise reports whether a JPEG builds up in steps, in how many at most, and how many values it has for a pixel, by its
// frame header (ISO/IEC 10918-1, B.2.2).
func stepwise(data []byte) (steps bool, scans int, share float64) {
	for at := 2; at+4 <= len(data) && data[at] == 0xFF; {
		marker := data[at+1]
		if marker == 0xFF { // fill
			at++
			continue
		}
		length := int(binary.BigEndian.Uint16(data[at+2:]))
		segment := data[min(at+4, len(data)):min(at+2+max(length, 2), len(data))]
		switch {
		case marker == 0xC2:
			return true, bytes.Count(data, []byte{0xFF, 0xDA}), valuesOf(segment)
		case marker == 0xDA || marker == 0xC0 || marker == 0xC1:
			return false, 1, 0
		}
		at += 2 + max(length, 2)
	}
	return false, 0, 0
}

// valuesOf is how many values a frame has for a pixel: 3 where no colour is thinned out, 1.5 where three quarters are.
func valuesOf(frame []byte) float64 {
	const head = 6
	sum, most := 0, 1
	for at := head; at+3 <= len(frame); at += 3 {
		values := max(1, int(frame[at+1]>>4)*int(frame[at+1]&15))
		sum, most = sum+values, max(most, values)
	}
	return float64(sum) / float64(most)
}

// Decode decodes a picture that LookAt takes.
func Decode(data []byte) (image.Image, error) {
	look, err := LookAt(data)
	if err != nil {
		return nil, err
	}
	decode := map[Form]func() (image.Image, error){
		PNG:  func() (image.Image, error) { return png.Decode(bytes.NewReader(data)) },
		JPEG: func() (image.Image, error) { return jpeg.Decode(bytes.NewReader(data)) },
	}[look.Form]
	decoded, err := decode()
	if err != nil {
		return nil, damaged(err)
	}
	if size := decoded.Bounds().Size(); size.X != look.Width || size.Y != look.Height {
		return nil, damaged(errors.New("its head says another size"))
	}
	return decoded, nil
}
