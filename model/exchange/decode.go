package exchange

import (
	"bytes"
	"errors"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
)

// The encodings that are recognised.
const (
	UTF8        = "UTF-8"
	UTF16       = "UTF-16"
	Windows1252 = "Windows-1252"
)

var errNoText = errors.New("this is no text: save it as CSV or xlsx first")

// decode makes UTF-8 of a file's bytes and names the encoding they were in: UTF-8 and UTF-16 by their mark or their
// form, else Windows-1252, in which every byte but five means something.
func decode(data []byte) (text, name string, err error) {
	switch {
	case bytes.HasPrefix(data, []byte{0xEF, 0xBB, 0xBF}):
		data = data[3:]
		if !utf8.Valid(data) {
			return "", "", errors.New("it is marked as UTF-8, but is cut off or damaged: save it again")
		}
		return text8(string(data), UTF8)
	case bytes.HasPrefix(data, []byte{0xFF, 0xFE}), looksUTF16(data, 1):
		return decoded(data, UTF16, unicode.UTF16(unicode.LittleEndian, unicode.UseBOM))
	case bytes.HasPrefix(data, []byte{0xFE, 0xFF}), looksUTF16(data, 0):
		return decoded(data, UTF16, unicode.UTF16(unicode.BigEndian, unicode.UseBOM))
	case utf8.Valid(data):
		return text8(string(data), UTF8)
	}
	return decoded(data, Windows1252, charmap.Windows1252)
}

func decoded(data []byte, name string, form encoding.Encoding) (string, string, error) {
	text, err := form.NewDecoder().Bytes(data)
	if err != nil {
		return "", "", errNoText
	}
	return text8(string(text), name)
}

// text8 refuses what bears signs that no text has.
func text8(text, name string) (string, string, error) {
	if strings.IndexFunc(text, func(sign rune) bool {
		return sign < ' ' && !strings.ContainsRune("\t\n\v\f\r", sign)
	}) >= 0 {
		return "", "", errNoText
	}
	return text, name, nil
}

// looksUTF16 tells whether nearly every second byte, from the first or the second on, is nought: Latin letters without a mark.
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
