package paper_test

import (
	"cmp"
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/goldentest"
	"stageloom/report/paper"
)

func TestDocumentsAreSound(t *testing.T) {
	for _, compressed := range []bool{false, true} {
		s := setup()
		s.Uncompressed = !compressed
		document, _ := writeWith(t, s, sampleChapters()...)
		require.Contains(t, tool(t, document, "qpdf", "--check", "FILE"), "No syntax or stream encoding errors")
	}
	for i, text := range nasty {
		s, chapter := everywhere(text)
		document, _ := writeWith(t, s, chapter)
		require.Contains(t, tool(t, document, "qpdf", "--check", "FILE"), "No syntax or stream encoding errors", "string %d", i)
	}
}

// The text of one of everything: each line of the master is what stands on one
// baseline, from left to right.
func TestTheTextOfOneOfEverything(t *testing.T) {
	var out strings.Builder
	for i, page := range sheets(t, write(t, sampleChapters()...)) {
		fmt.Fprintf(&out, "==== page %d, %.0f × %.0f mm\n", i+1, page.width, page.height)
		slices.SortStableFunc(page.texts, func(a, b setText) int {
			return cmp.Or(cmp.Compare(math.Round(a.y*10), math.Round(b.y*10)), cmp.Compare(a.x, b.x))
		})
		before := nan
		for _, set := range page.texts {
			if y := math.Round(set.y * 10); y == before {
				out.WriteString(" | ")
			} else if before = y; out.Len() > 0 {
				out.WriteString("\n")
			}
			out.WriteString(set.text)
		}
		out.WriteString("\n")
	}
	goldentest.Text(t, filepath.Join("testdata", "everything.txt"), out.String())
}

// Another program finds the same words in the document.
func TestTheTextCanBeCopiedOut(t *testing.T) {
	s, chapter := everywhere("Ωµ µm × 12.5 − 3 ≥ 2 °C, Сцена (left) \\ Ærø")
	document, _ := writeWith(t, s, chapter)
	pages := strings.Split(strings.TrimSuffix(tool(t, document, "pdftotext", "-raw", "FILE", "-"), "\f"), "\f")
	for i, page := range sheets(t, document) {
		read := map[string]bool{}
		for _, word := range strings.Fields(pages[i]) {
			read[word] = true
		}
		for _, set := range page.texts {
			for _, word := range strings.Fields(set.text) {
				require.True(t, read[word] || strings.Contains(pages[i], word), "%q of %q is not read back", word, set.text)
			}
		}
	}
}

func TestNothingOverlapsOrLeavesTheFrame(t *testing.T) {
	for i, text := range append([]string{"Stage left"}, nasty...) {
		t.Run(fmt.Sprintf("string %d", i), func(t *testing.T) {
			s, chapter := everywhere(text)
			chapter.Draw = withoutPen(text)
			document, _ := writeWith(t, s, chapter)
			requireApart(t, document)
		})
	}
	t.Run("one of everything", func(t *testing.T) {
		var chapters []paper.Chapter
		for _, chapter := range sampleChapters() {
			if !strings.HasPrefix(chapter.Name, "Plan") { // a plan is lettered elsewhere
				chapters = append(chapters, chapter)
			}
		}
		requireApart(t, write(t, chapters...))
	})
}

// withoutPen puts a string wherever the book itself finds the place.
func withoutPen(s string) func(*paper.Book) error {
	return func(b *paper.Book) error {
		b.Title(s)
		b.Heading(s)
		b.Paragraph(s)
		b.Remark(s)
		b.Cautions([]string{s, s})
		b.Ticks([]string{s, s})
		b.Items([]string{s, s})
		b.Definitions([]paper.Definition{{Term: s, Text: s}, {Term: s, Text: "short"}, {Term: "short", Text: s}})
		b.Table(paper.Table{
			Title:   s,
			Columns: []paper.Column{{Head: s, Face: paper.Mono}, {Head: s, Width: paper.Fill(1)}, {Head: "Length m", Align: paper.Right}},
			Rows: []paper.Row{
				paper.GroupRow(s), paper.Texts(s, s, "12.5"), paper.Texts(s, "short", "1"),
				{Kind: paper.Total, Cells: []paper.Cell{{Text: s}}},
			},
		})
		return nil
	}
}

// requireApart looks at the boxes of words as pdftotext sees them: what lies on
// each other by more than a hair, or out of the frame, is a fault. Its boxes are
// as high as the font, so that lines set close touch a little.
func requireApart(t *testing.T, document []byte) {
	t.Helper()
	said := tool(t, document, "pdftotext", "-bbox", "FILE", "-")
	for number, part := range strings.Split(said, "<page ")[1:] {
		var boxes []paper.Box
		var words []string
		page := pageSize(t, part)
		for _, found := range wordBox.FindAllStringSubmatch(part, -1) {
			box := boxOf(t, found)
			// Only the middle of the height: the ink of letters, not their leading.
			box.Y, box.H = box.Y+box.H*0.2, box.H*0.6
			if box.X < 15 || box.Right() > page.W-8 || box.Bottom() > page.H-8 {
				require.Failf(t, "out of the frame", "page %d: %q", number+1, found[5])
			}
			for i, other := range boxes {
				wide := min(box.Right(), other.Right()) - max(box.X, other.X)
				high := min(box.Bottom(), other.Bottom()) - max(box.Y, other.Y)
				if wide > 0.3 && high > 0.3 {
					require.Failf(t, "overlap", "page %d: %q lies on %q by %.1f × %.1f mm", number+1, found[5], words[i], wide, high)
				}
			}
			boxes, words = append(boxes, box), append(words, found[5])
		}
	}
}

func boxOf(t *testing.T, found []string) paper.Box {
	t.Helper()
	at := func(i int) float64 { return number(t, []byte(found[i])) / pointsPerMM }
	return paper.Box{X: at(1), Y: at(2), W: at(3) - at(1), H: at(4) - at(2)}
}

func pageSize(t *testing.T, part string) paper.Box {
	t.Helper()
	var width, height float64
	_, err := fmt.Sscanf(strings.ReplaceAll(part, `"`, " "), "width= %f height= %f", &width, &height)
	require.NoError(t, err)
	return paper.Box{W: width / pointsPerMM, H: height / pointsPerMM}
}
