package report

import (
	"errors"

	"rsc.io/qr"
	"rsc.io/qr/coding"

	"stageloom/report/paper"
)

// unicodeText is a text in a code with the mark that says its bytes are UTF-8: without it readers guess which letters are meant
// beyond ASCII (ISO/IEC 18004, Extended Channel Interpretation; assignment 26 is UTF-8, from memory of the AIM ECI register).
type unicodeText string

// Check accepts every text.
func (unicodeText) Check() error { return nil }

// Bits counts the mark and the text.
func (t unicodeText) Bits(v coding.Version) int { return 12 + coding.String(t).Bits(v) }

// Encode writes the mark and the text.
func (t unicodeText) Encode(b *coding.Bits, v coding.Version) {
	b.Write(7, 4)
	b.Write(26, 8)
	coding.String(t).Encode(b, v)
}

// codeOf is the QR code of a text, level M.
func codeOf(text string) (*qr.Code, error) {
	if isASCII(text) {
		return qr.Encode(text, qr.M)
	}
	said := unicodeText(text)
	for v := coding.Version(coding.MinVersion); v <= coding.MaxVersion; v++ {
		if said.Bits(v) > v.DataBytes(coding.M)*8 {
			continue
		}
		p, err := coding.NewPlan(v, coding.M, 0)
		if err != nil {
			return nil, err
		}
		code, err := p.Encode(said)
		if err != nil {
			return nil, err
		}
		return &qr.Code{Bitmap: code.Bitmap, Size: code.Size, Stride: code.Stride, Scale: 8}, nil
	}
	return nil, errors.New("the text is too long for a code")
}

func isASCII(text string) bool {
	for i := range len(text) {
		if text[i] >= 0x80 {
			return false
		}
	}
	return true
}

// drawCode draws a QR code as one path, so that no seam lies between its modules (ISO/IEC 18004, level M).
func drawCode(pen *paper.Pen, at paper.Point, text string, width float64) {
	if pen.Counts() || text == "" {
		return
	}
	code, err := codeOf(text)
	if err != nil {
		return
	}
	side := width / float64(code.Size)
	var rings [][]paper.Point
	for y := range code.Size {
		for x := 0; x < code.Size; x++ {
			from := x
			for x < code.Size && code.Black(x, y) {
				x++
			}
			if x > from {
				rings = append(rings, outline(paper.Box{X: at.X + float64(from)*side, Y: at.Y + float64(y)*side, W: float64(x-from) * side, H: side}))
			}
		}
	}
	pen.Rings(rings, paper.Black, paper.Stroke{})
}
