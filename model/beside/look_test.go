package beside_test

import (
	"bytes"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"image"
	"image/color"
	"image/gif"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/beside"
)

// claiming is a PNG whose head is changed: its size, its bits and its colour type.
func claiming(t testing.TB, width, height uint32, bits, colour, interlaced byte) []byte {
	t.Helper()
	data := bytes.Clone(drawing(t, 0))
	binary.BigEndian.PutUint32(data[16:], width)
	binary.BigEndian.PutUint32(data[20:], height)
	data[24], data[25], data[28] = bits, colour, interlaced
	binary.BigEndian.PutUint32(data[29:], crc32.ChecksumIEEE(data[12:29]))
	return data
}

// frame is the head of a JPEG alone, with so many scans behind it, of nothing.
func frame(marker byte, width, height uint16, factors []byte, scans int) []byte {
	data := []byte{0xFF, 0xD8, 0xFF, marker}
	data = binary.BigEndian.AppendUint16(data, uint16(8+3*len(factors)))
	data = append(data, 8)
	data = binary.BigEndian.AppendUint16(data, height)
	data = binary.BigEndian.AppendUint16(data, width)
	data = append(data, byte(len(factors)))
	for i, factor := range factors {
		data = append(data, byte(i+1), factor, 0)
	}
	data = append(data, bytes.Repeat([]byte{0xFF, 0xDA, 0, 2}, scans)...)
	return append(data, make([]byte, 64)...)
}

func TestWhatIsNoSoundPictureIsRefusedWithWords(t *testing.T) {
	var moving bytes.Buffer
	require.NoError(t, gif.Encode(&moving, image.NewPaletted(image.Rect(0, 0, 3, 3), color.Palette{color.Black}), nil))
	whole := []byte{0x11, 0x11, 0x11}
	for _, c := range []struct {
		sentence string
		data     []byte
		said     string
	}{
		{"nothing", nil, "neither a PNG nor a JPEG"},
		{"plain words", []byte("a drawing"), "neither a PNG nor a JPEG"},
		{"another form", moving.Bytes(), "neither a PNG nor a JPEG"},
		{"a first line alone", drawing(t, 1)[:8], "damaged or ends early"},
		{"a PNG that ends early", drawing(t, 1)[:60], "damaged or ends early"},
		{"a PNG without its end", drawing(t, 1)[:len(drawing(t, 1))-12], "damaged or ends early"},
		{"a JPEG that ends early", photo(t)[:len(photo(t))-20], "damaged or ends early"},
		{"a JPEG's first bytes", []byte("\xff\xd8\xff"), "damaged or ends early"},
		{"too many bytes", append(drawing(t, 1), make([]byte, beside.MostBytes)...), "larger than 50 MB"},
		{"more pixels than there are bytes for", claiming(t, 30_000, 30_000, 8, 0, 0), "30000 by 30000 pixels are more than 100 million"},
		{"a side beyond reckoning", claiming(t, 1<<31-1, 1<<31-1, 8, 0, 0), "the picture is not taken"},
		{"no pixels", claiming(t, 0, 20, 8, 0, 0), "the picture is not taken"},
		{"a head that promises more than follows", claiming(t, 3000, 2000, 8, 0, 0), "damaged or ends early"},
		{"deep colours of many pixels", claiming(t, 9000, 9000, 16, 2, 0), "too much memory in this form; save it with 8 bits a channel"},
		{"the same interlaced", claiming(t, 9900, 9900, 8, 6, 1), "too much memory"},
		{"many pixels in steps", frame(0xC2, 9000, 9000, whole, 1), "save it as a plain JPEG that does not build up in steps"},
		{"too many steps", frame(0xC2, 900, 900, whole, 101), "too many steps"},
		{"a wide JPEG", frame(0xC0, 60_000, 60_000, whole, 1), "more than 100 million"},
	} {
		t.Run(c.sentence, func(t *testing.T) {
			h, _ := home(t)
			_, _, err := h.Put(c.data)
			var refused *beside.Refused
			require.ErrorAs(t, err, &refused)
			require.ErrorContains(t, err, c.said)
			require.NoDirExists(t, h.Folder(), "nothing was kept")
		})
	}
}

func TestWhatIsWithinBoundsIsLookedAtAlone(t *testing.T) {
	for _, c := range []struct {
		sentence string
		data     []byte
	}{
		{"a grey drawing of 100 million pixels", claiming(t, 10_000, 10_000, 8, 0, 0)},
		{"a coloured one", claiming(t, 10_000, 10_000, 8, 2, 0)},
		{"a photograph of 48 million that builds up in steps", frame(0xC2, 8000, 6000, []byte{0x22, 0x11, 0x11}, 10)},
		{"a plain photograph of 100 million", frame(0xC0, 10_000, 10_000, []byte{0x11, 0x11, 0x11}, 1)},
	} {
		t.Run(c.sentence, func(t *testing.T) {
			_, err := beside.LookAt(c.data)
			require.NoError(t, err, "its head says nothing that forbids it")
		})
	}
}

// FuzzLookAt takes any bytes: they are refused with words, or are a picture that is kept and read back as it came.
func FuzzLookAt(f *testing.F) {
	f.Add(drawing(f, 1))
	f.Add(photo(f))
	f.Add(drawing(f, 1)[:50])
	f.Add(claiming(f, 9000, 9000, 16, 2, 1))
	f.Add(frame(0xC2, 900, 900, []byte{0x41, 0x11, 0x00}, 3))
	f.Add(frame(0xC2, 9, 9, nil, 0)[:9])
	f.Fuzz(func(t *testing.T, data []byte) {
		look, err := beside.LookAt(data)
		var refused *beside.Refused
		if err != nil {
			require.True(t, errors.As(err, &refused), "%v", err)
			return
		}
		require.LessOrEqual(t, look.Width*look.Height, beside.MostPixels)
		if look.Width*look.Height > 1_000_000 {
			return // it may be as large as that; here it would only be slow
		}
		h, _ := home(t)
		name, _, err := h.Put(data)
		if err != nil {
			require.True(t, errors.As(err, &refused), "%v", err)
			return
		}
		back, err := h.Get(name)
		require.NoError(t, err)
		require.Equal(t, data, back)
	})
}
