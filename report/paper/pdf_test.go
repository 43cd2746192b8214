package paper_test

import (
	"bytes"
	"context"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/stretchr/testify/require"

	"stageloom/report/paper"
)

// sheet is a page read back from the bytes of a document, by the syntax of ISO
// 32000-1 and not by anything this room knows.
type sheet struct {
	width, height float64 // in mm
	content       string
	texts         []setText
}

// setText is a text and where its baseline begins, in mm from the top left
// corner of the sheet.
type setText struct {
	text    string
	x, y    float64
	size    float64
	font    string
	shadows bool // the ink was not set just before
}

const pointsPerMM = 72 / 25.4

// write prints chapters and returns the document.
func write(t *testing.T, chapters ...paper.Chapter) []byte {
	t.Helper()
	document, _ := writeWith(t, setup(), chapters...)
	return document
}

func writeWith(t *testing.T, s paper.Setup, chapters ...paper.Chapter) ([]byte, paper.Print) {
	t.Helper()
	if testing.Short() {
		t.Skip("a document written alone shares nothing: for the run without -short")
	}
	var out bytes.Buffer
	print, err := paper.Write(context.Background(), &out, s, chapters...)
	require.NoError(t, err)
	return out.Bytes(), print
}

// draw is a book of one chapter.
func draw(draw func(*paper.Book)) paper.Chapter {
	return paper.Chapter{Name: "Sheet", Draw: func(b *paper.Book) error { draw(b); return nil }}
}

var (
	pageObject = regexp.MustCompile(`<</Type /Page\n/Parent 1 0 R\n(?:/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]\n)?`)
	allPages   = regexp.MustCompile(`/Count \d+\n/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]`)
	plainBegin = regexp.MustCompile(`<</Length (\d+)>>\nstream\n`)
)

// sheets reads the pages of an uncompressed document.
func sheets(t *testing.T, document []byte) []sheet {
	t.Helper()
	usual := allPages.FindSubmatch(document)
	require.NotNil(t, usual, "no page tree")
	var pages []sheet
	for _, found := range pageObject.FindAllSubmatch(document, -1) {
		if len(found[1]) == 0 {
			found = usual
		}
		pages = append(pages, sheet{width: number(t, found[1]) / pointsPerMM, height: number(t, found[2]) / pointsPerMM})
	}
	next := 0
	for _, at := range plainBegin.FindAllSubmatchIndex(document, -1) {
		length := int(number(t, document[at[2]:at[3]]))
		content := string(document[at[1] : at[1]+length])
		if strings.HasPrefix(content, "/CIDInit") {
			continue
		}
		require.Less(t, next, len(pages), "more contents than pages")
		pages[next].content = content
		pages[next].read(t)
		next++
	}
	require.Equal(t, len(pages), next, "a page has no content")
	return pages
}

func number(t *testing.T, digits []byte) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(string(digits), 64)
	require.NoError(t, err)
	return v
}

var (
	fontSet  = regexp.MustCompile(`^BT /F(\w+) ([\d.]+) Tf ET$`)
	textSet  = regexp.MustCompile(`(?s)^BT (-?[\d.]+) (-?[\d.]+) Td \(`)
	textTail = ") Tj ET\n"
	fillInk  = regexp.MustCompile(`(^|\s)(rg|g)$`)
)

// read finds the texts of the page.
func (s *sheet) read(t *testing.T) {
	t.Helper()
	var size float64
	var font string
	inked := false
	rest := s.content
	for rest != "" {
		if at := textSet.FindStringSubmatch(rest); at != nil {
			end := strings.Index(rest, textTail)
			require.Positive(t, end)
			s.texts = append(s.texts, setText{
				text: decode(t, rest[len(at[0]):end]), size: size, font: font, shadows: !inked,
				x: number(t, []byte(at[1])) / pointsPerMM, y: s.height - number(t, []byte(at[2]))/pointsPerMM,
			})
			rest, inked = rest[end+len(textTail):], false
			continue
		}
		line, after, _ := strings.Cut(rest, "\n")
		rest = after
		if set := fontSet.FindStringSubmatch(line); set != nil {
			font, size = set[1], number(t, []byte(set[2]))
		}
		inked = inked || fillInk.MatchString(line)
	}
}

// decode reads a string of UTF-16 between parentheses.
func decode(t *testing.T, raw string) string {
	t.Helper()
	plain := strings.NewReplacer(`\\`, `\`, `\(`, `(`, `\)`, `)`, `\r`, "\r").Replace(raw)
	require.Zero(t, len(plain)%2, "half a UTF-16 unit in %q", raw)
	units := make([]uint16, len(plain)/2)
	for i := range units {
		units[i] = uint16(plain[2*i])<<8 | uint16(plain[2*i+1])
	}
	return string(utf16.Decode(units))
}

// words returns the texts of a page in the order in which they were set.
func (s sheet) words() []string {
	var out []string
	for _, set := range s.texts {
		out = append(out, set.text)
	}
	return out
}

// find returns the first place where a text is set.
func (s sheet) find(t *testing.T, text string) setText {
	t.Helper()
	for _, set := range s.texts {
		if set.text == text {
			return set
		}
	}
	require.Failf(t, "not on the page", "%q is none of %q", text, s.words())
	return setText{}
}

// tool runs a program over a document and returns what it says. The test is
// skipped where the program is missing, unless tools are required.
func tool(t *testing.T, document []byte, name string, arguments ...string) string {
	t.Helper()
	program, err := exec.LookPath(name)
	if errors.Is(err, exec.ErrNotFound) && os.Getenv("STAGELOOM_TOOLS") != "required" {
		t.Skipf("%s is not installed", name)
	}
	require.NoError(t, err)
	path := filepath.Join(t.TempDir(), "document.pdf")
	require.NoError(t, os.WriteFile(path, document, 0o600))
	for i, argument := range arguments {
		if argument == "FILE" {
			arguments[i] = path
		}
	}
	out, err := exec.Command(program, arguments...).CombinedOutput()
	require.NoError(t, err, string(out))
	return string(out)
}
