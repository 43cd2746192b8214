package journal

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"hash/crc32"
	"io"

	"stageloom/model/planfile"
)

// longestLine bounds one line: a whole plan at most, and some names.
const longestLine = planfile.MaxBytes + 1<<20

// written is content with its checksum, as one line.
func written(content []byte) []byte {
	return fmt.Appendf(nil, "%08x %s\n", crc32.ChecksumIEEE(content), content)
}

// errCut tells of a line whose checksum does not fit: it was cut off, or something else wrote into the file.
var errCut = errors.New("a line is cut off or damaged")

// read returns the content of a line, or errCut.
func read(line []byte) ([]byte, error) {
	sum, content, found := bytes.Cut(line, []byte(" "))
	if !found || fmt.Sprintf("%08x", crc32.ChecksumIEEE(content)) != string(sum) {
		return nil, errCut
	}
	return content, nil
}

// each hands the good lines of a journal over from its start on, and returns the fault that ended them, if one did.
func each(r io.Reader, take func(content []byte) (more bool)) (fault error) {
	reader := bufio.NewReaderSize(r, 1<<16)
	var line []byte
	for {
		part, err := reader.ReadSlice('\n')
		line = append(line, part...)
		switch {
		case len(line) > longestLine:
			return errCut
		case errors.Is(err, bufio.ErrBufferFull):
			continue
		case errors.Is(err, io.EOF) && len(line) == 0:
			return nil
		case errors.Is(err, io.EOF):
			return errCut
		case err != nil:
			return err
		}
		content, err := read(line[:len(line)-1])
		if err != nil {
			return err
		}
		if !take(content) {
			return nil
		}
		line = line[:0]
	}
}

// step is one edit as it stands in a line.
type step struct {
	Name  string          `json:"name"`
	Delta json.RawMessage `json:"delta"`
}
