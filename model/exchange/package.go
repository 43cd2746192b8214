package exchange

import (
	"archive/zip"
	"bufio"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"path"
	"strings"
)

const (
	// mostUnpacked is how much a workbook may unpack to, in bytes.
	mostUnpacked = 128 << 20
	// longestTag bounds one tag, or the text between two, before the decoder holds it.
	longestTag = 1 << 20
	// mostTokens is how many tags and texts are looked at in all: five for each cell that is read, and as many for the rest.
	mostTokens = 5 * mostCells
)

var (
	errDamaged  = errors.New("the workbook is cut off or damaged: open it in a spreadsheet and save it again")
	errTokens   = errors.New("it holds far more tags than a list has cells: save the list as CSV")
	errUnpacked = fmt.Errorf("it unpacks to more than %d MB", mostUnpacked>>20)
)

// parts are the files in a workbook's archive (ECMA-376 part 2), read as streams: none is ever held whole.
type parts struct {
	files map[string]*zip.File
	// left is what all that is still unpacked may come to, tokens how many are looked at yet.
	left, tokens int
}

func openParts(data []byte) (*parts, error) {
	archive, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, errDamaged
	}
	p := &parts{files: map[string]*zip.File{}, left: mostUnpacked, tokens: mostTokens}
	said := uint64(0)
	for _, file := range archive.File {
		if said += file.UncompressedSize64; file.UncompressedSize64 > mostUnpacked || said > mostUnpacked {
			return nil, errUnpacked
		}
		p.files[partName(file.Name)] = file
	}
	return p, nil
}

// partName makes names of parts comparable: they are the same whatever their capitals, and some writers use the other stroke.
func partName(name string) string {
	return strings.ToLower(strings.TrimPrefix(path.Clean("/"+strings.ReplaceAll(name, `\`, "/")), "/"))
}

func (p *parts) has(name string) bool { return p.files[partName(name)] != nil }

// each visits the tokens of a part until visit returns io.EOF. A part that is not there has none.
func (p *parts) each(name string, visit func(xml.Token) error) error {
	file := p.files[partName(name)]
	if file == nil {
		return nil
	}
	unpacked, err := file.Open()
	if err != nil {
		return errDamaged
	}
	defer func() { _ = unpacked.Close() }() // it was only read
	s := &stream{from: bufio.NewReaderSize(unpacked, 64<<10), all: &p.left}
	decoder := xml.NewDecoder(s)
	for {
		if p.tokens--; p.tokens < 0 {
			return errTokens
		}
		s.left = longestTag
		token, err := decoder.RawToken()
		switch {
		case errors.Is(err, io.EOF) && s.failed == nil:
			return nil
		case s.failed != nil:
			return s.failed
		case err != nil:
			return errDamaged
		}
		if err := visit(token); errors.Is(err, io.EOF) {
			return nil
		} else if err != nil {
			return err
		}
	}
}

// stream hands the bytes of a part to the decoder one by one, and fails when a token is too long or the workbook too large.
type stream struct {
	from   *bufio.Reader
	left   int
	all    *int
	failed error
}

// ReadByte implements io.ByteReader.
func (s *stream) ReadByte() (byte, error) {
	if s.left--; s.left < 0 {
		s.failed = errDamaged
		return 0, s.failed
	}
	if *s.all--; *s.all < 0 {
		s.failed = errUnpacked
		return 0, s.failed
	}
	next, err := s.from.ReadByte()
	if err != nil && !errors.Is(err, io.EOF) {
		s.failed = errDamaged
	}
	return next, err
}

// Read implements io.Reader for the decoder, which reads bytes.
func (s *stream) Read(into []byte) (int, error) {
	if len(into) == 0 {
		return 0, nil
	}
	next, err := s.ReadByte()
	if err != nil {
		return 0, err
	}
	into[0] = next
	return 1, nil
}

// attribute is the value of an attribute by its local name, blank where it is not there.
func attribute(tag xml.StartElement, name string) string {
	for _, attr := range tag.Attr {
		if attr.Name.Local == name {
			return attr.Value
		}
	}
	return ""
}
