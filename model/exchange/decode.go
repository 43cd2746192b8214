package exchange

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/japanese"
	"golang.org/x/text/encoding/unicode"

	"stageloom/model/plan"
)

// The encodings that are recognised.
const (
	UTF8        = "UTF-8"
	UTF16       = "UTF-16"
	Windows1252 = "Windows-1252"
	MacRoman    = "Mac Roman"
	ShiftJIS    = "Shift-JIS"
)

// Encodings are those that a user can choose where the guess is wrong.
func Encodings() []string { return []string{UTF8, UTF16, Windows1252, MacRoman, ShiftJIS} }

var errNoText = errors.New("this is no text: save it as CSV or xlsx first")

// decode makes UTF-8 of a file's bytes and names the encoding they were in: UTF-8 and UTF-16 by their mark or their
// form, else the one of the older encodings whose letters make words.
func decode(data []byte) (text, name string, err error) {
	switch {
	case bytes.HasPrefix(data, []byte{0xEF, 0xBB, 0xBF}):
		name = UTF8
	case bytes.HasPrefix(data, []byte{0xFF, 0xFE}), bytes.HasPrefix(data, []byte{0xFE, 0xFF}), looksUTF16(data, 0), looksUTF16(data, 1):
		name = UTF16
	case utf8.Valid(data):
		name = UTF8
	default:
		name = guessOld(data)
	}
	text, err = decodeAs(data, name)
	return text, name, err
}

// decodeAs makes UTF-8 of bytes in a named encoding.
func decodeAs(data []byte, name string) (string, error) {
	switch name {
	case UTF8:
		data, marked := bytes.CutPrefix(data, []byte{0xEF, 0xBB, 0xBF})
		switch {
		case utf8.Valid(data):
			return sane(string(data))
		case marked:
			return "", errors.New("it is marked as UTF-8, but is cut off or damaged: save it again")
		}
		return "", fmt.Errorf("it is not in %s: choose another encoding", name)
	case UTF16:
		order := unicode.LittleEndian
		if bytes.HasPrefix(data, []byte{0xFE, 0xFF}) || looksUTF16(data, 0) {
			order = unicode.BigEndian
		}
		return decoded(data, unicode.UTF16(order, unicode.UseBOM))
	case Windows1252:
		return eightBit(data, charmap.Windows1252)
	case MacRoman:
		return eightBit(data, charmap.Macintosh)
	case ShiftJIS:
		return decoded(data, japanese.ShiftJIS)
	}
	return "", fmt.Errorf("%q is no encoding that is read; choose one of %s", plan.Clipped(name), strings.Join(Encodings(), ", "))
}

func decoded(data []byte, form encoding.Encoding) (string, error) {
	var text strings.Builder
	text.Grow(len(data) + len(data)/2)
	if _, err := io.Copy(&text, form.NewDecoder().Reader(bytes.NewReader(data))); err != nil {
		return "", errNoText
	}
	return sane(text.String())
}

// eightBit decodes bytes that each are one sign, without holding the text twice.
func eightBit(data []byte, letters *charmap.Charmap) (string, error) {
	size := 0
	for _, sign := range data {
		size += utf8.RuneLen(letters.DecodeByte(sign))
	}
	var text strings.Builder
	text.Grow(size)
	for _, sign := range data {
		text.WriteRune(letters.DecodeByte(sign))
	}
	return sane(text.String())
}

// sane refuses what bears signs that no text has.
func sane(text string) (string, error) {
	if strings.IndexFunc(text, func(sign rune) bool {
		return sign < ' ' && !strings.ContainsRune("\t\n\v\f\r", sign)
	}) >= 0 {
		return "", errNoText
	}
	return text, nil
}

// looksUTF16 reports whether nearly every second byte, from the first or the second on, is nought: Latin letters without a mark.
func looksUTF16(data []byte, from int) bool {
	data = data[:min(len(data), 4096)]
	if len(data) < 4 {
		return false
	}
	noughts, others := 0, 0
	for i, sign := range data {
		switch {
		case sign != 0:
		case i%2 == from:
			noughts++
		default:
			others++
		}
	}
	return others == 0 && noughts*2 > len(data)*2/3
}
