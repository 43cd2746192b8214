package journal

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"hash/crc32"
	"io"
	"strings"
)

// longestLine bounds one line: a whole plan at most.
const longestLine = 64 << 20

// written is content with its checksum, as one line.
func written(content []byte) []byte {
	return fmt.Appendf(nil, "%08x %s\n", crc32.ChecksumIEEE(content), content)
}

// errCut tells of a line whose checksum does not fit: it was cut off, or something else wrote into the file.
var errCut = errors.New("a line is cut off or damaged")

// read returns the content of a line, or errCut.
func read(line string) ([]byte, error) {
	sum, content, found := strings.Cut(line, " ")
	if !found || fmt.Sprintf("%08x", crc32.ChecksumIEEE([]byte(content))) != sum {
		return nil, errCut
	}
	return []byte(content), nil
}

// lines reads the good lines of a journal from its start on, and the fault that ended them, if one did.
func lines(r io.Reader) (good [][]byte, fault error) {
	reader := bufio.NewReader(io.LimitReader(r, longestLine*4))
	for {
		line, err := reader.ReadString('\n')
		switch {
		case errors.Is(err, io.EOF) && line == "":
			return good, nil
		case errors.Is(err, io.EOF):
			return good, errCut
		case err != nil:
			return good, err
		}
		content, err := read(strings.TrimSuffix(line, "\n"))
		if err != nil {
			return good, err
		}
		good = append(good, content)
	}
}

// step is one edit as it stands in a line.
type step struct {
	Name  string          `json:"name"`
	Delta json.RawMessage `json:"delta"`
}
