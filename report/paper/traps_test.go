package paper_test

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/base64"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"stageloom/model/beside"
	"stageloom/report/paper"
)

// The traps of the PDF library, each with the test that would find it again.

// nasty are strings that stop the library or spoil the page.
var nasty = []string{
	"", " ", "\x00", "\xff\xfe", "a\xe2\x82", "🎸🔊", "𝄞", "\u202etfel\u202c", "\uffff", "line\nbreak\r\ttab",
	strings.Repeat("W", 10_000), strings.Repeat("long word ", 1000), "a" + strings.Repeat("\u0301", 500),
	"(brackets) \\ and \\) strokes", "%PDF", "\u010a\u0a28\u0d0d", "שלום 120 (m)", "شاشة المسرح", "舞台左", "Ωµ\u2126\u00b5",
}

// everywhere puts a string wherever a string can go.
func everywhere(s string) (paper.Setup, paper.Chapter) {
	set := setup()
	set.Plan, set.Site, set.Revision, set.Author = s, s, s, s
	return set, paper.Chapter{Name: s, Draw: func(b *paper.Book) error {
		b.Title(s)
		b.Heading(s)
		b.Bookmark(s)
		b.Paragraph(s)
		b.Remark(s)
		b.Cautions([]string{s})
		b.Ticks([]string{s})
		b.Items([]string{s})
		b.Definitions([]paper.Definition{{Term: s, Text: s}})
		b.Table(paper.Table{
			Title:   s,
			Empty:   s,
			Columns: []paper.Column{{Head: s, Face: paper.Mono}, {Head: s, Width: paper.Fill(1)}, {Head: s, Width: paper.Fixed(20), NoWrap: true}},
			Rows:    []paper.Row{paper.GroupRow(s), paper.Texts(s, s, s), {Kind: paper.Total, Cells: []paper.Cell{{Text: s}}}},
		})
		pen := b.Pen(b.Take(30))
		pen.Text(paper.Point{X: 50, Y: 10}, s, paper.Lettering{Face: paper.Oblique, Angle: 33, Plate: 1})
		pen.Badge(paper.Point{X: 50, Y: 20}, 6, paper.Badge{Grade: paper.Tight, Text: s})
		b.Cautions(b.Notices())
		return nil
	}}
}

func TestStringsThatStopTheLibrary(t *testing.T) {
	for i, s := range nasty {
		t.Run(fmt.Sprintf("string %d prints everywhere", i), func(t *testing.T) {
			set, chapter := everywhere(s)
			document, _ := writeWith(t, set, chapter)
			again, _ := writeWith(t, set, chapter)
			require.Equal(t, document, again)
			for _, page := range sheets(t, document) {
				for _, set := range page.texts {
					require.GreaterOrEqual(t, set.size, 6.5)
				}
			}
		})
	}
}

func TestFontBytesAreNotOverwritten(t *testing.T) {
	before := fontSums()
	first := write(t, sampleChapters()...)
	require.Equal(t, before, fontSums(), "the library writes into the bytes it is given")
	require.Equal(t, first, write(t, sampleChapters()...))
}

func fontSums() (sums [][32]byte) {
	for _, face := range paper.Faces {
		sums = append(sums, sha256.Sum256(paper.TrueType(face)))
	}
	return sums
}

func TestDocumentsMadeAtOnceAreAlike(t *testing.T) {
	const many = 6
	documents := make([][]byte, many)
	errs := make([]error, many)
	var wait sync.WaitGroup
	for i := range many {
		wait.Go(func() {
			var out bytes.Buffer
			_, errs[i] = paper.Write(context.Background(), &out, setup(), sampleChapters()...)
			documents[i] = out.Bytes()
		})
	}
	wait.Wait()
	for i := range many {
		require.NoError(t, errs[i])
		require.Equal(t, documents[0], documents[i])
	}
}

func TestPageNumbersAreTextOfTheFont(t *testing.T) {
	pages := sheets(t, write(t, draw(func(b *paper.Book) {
		for range 12 {
			b.NewPage()
			b.Paragraph("text")
		}
	})))
	require.Len(t, pages, 12)
	for i, page := range pages {
		page.find(t, fmt.Sprintf("%d of 12", i+1))
	}
}

func TestBookmarksOnPagesOfOtherHeights(t *testing.T) {
	chapter := func(name string, format paper.Format) paper.Chapter {
		return paper.Chapter{Name: name, Format: &format, Draw: func(b *paper.Book) error {
			b.Take(100)
			b.Bookmark("in " + name)
			return nil
		}}
	}
	document := write(t, chapter("A", upright), chapter("B", large), chapter("C", letter), chapter("D", lying))
	pages := sheets(t, document)
	marks := regexp.MustCompile(`/Dest \[(\d+) 0 R /XYZ 0 ([\d.]+) null\]`).FindAllSubmatch(document, -1)
	require.Len(t, marks, 8)
	for i, page := range pages {
		top := number(t, marks[2*i][2]) / pointsPerMM
		require.InDelta(t, page.height, top, 0.01, "a chapter begins at the top of its page")
		within := number(t, marks[2*i+1][2]) / pointsPerMM
		require.InDelta(t, page.height-(8+3.5+100), within, 0.01, "8 mm margin, 3.5 mm gap, 100 mm taken")
	}
}

// To the library a height of -1 means "here". On an A3 page before a last page
// of A4, 122 mm down is that height: 122 + 297 - 420.
func TestABookmarkWhereTheLibraryReadsHere(t *testing.T) {
	document := write(t, draw(func(b *paper.Book) {
		b.NewPageOf(paper.Format{Sheet: paper.A3})
		b.Take(122 - 8 - 3.5)
		b.Bookmark("here")
		b.NewPageOf(upright)
		b.Paragraph("last")
	}))
	marks := regexp.MustCompile(`/XYZ 0 ([\d.]+) null\]`).FindAllSubmatch(document, -1)
	require.Len(t, marks, 2)
	require.InDelta(t, 420-122, number(t, marks[1][1])/pointsPerMM, 0.01)
}

func TestBookmarksTakeTheirPlaceBelowTheirChapter(t *testing.T) {
	document := write(t, draw(func(b *paper.Book) { b.Bookmark("one"); b.Bookmark("two") }), draw(func(b *paper.Book) { b.Bookmark("three") }))
	said := tool(t, document, "qpdf", "--json", "--json-key=outlines", "FILE")
	require.Equal(t, 5, strings.Count(said, `"title"`))
	require.Equal(t, 2, strings.Count(said, `"title": "Sheet"`))
}

// interlaced is an 8 by 8 pixel PNG in the seven passes of Adam7, made by hand.
const interlaced = "iVBORw0KGgoAAAANSUhEUgAAAAgAAAAICAIAAAE8ahlKAAAAi0lEQVR4nBWNQRVDMRACcVAH6+A7wEEc4CAOcBAHOPgO1kEdrKKmHObNaQDuDF7Q/ks1BFrtACySppoGWmy7090ofIQnWION4iOucA8Pykve8Rm/N7bVJ/1Of4H6VBXrUdG1UuraU7esp0RqSbJ25NYZ3f+sipit2DlJOu+kgdk15hxNPG+me74z8wMxOE7BJMhBnQAAAABJRU5ErkJggg=="

func TestPicturesTheLibraryWouldRefuse(t *testing.T) {
	adam, err := base64.StdEncoding.DecodeString(interlaced)
	require.NoError(t, err)
	for _, c := range []struct {
		sentence string
		data     []byte
	}{
		{"sixteen bits a channel are made eight", coded(t, image.NewNRGBA64(image.Rect(0, 0, 9, 5)))},
		{"an interlaced picture is taken", adam},
		{"a grey one is taken", coded(t, image.NewGray16(image.Rect(0, 0, 3, 3)))},
		{"a transparent one is laid on white", coded(t, image.NewNRGBA(image.Rect(0, 0, 7, 7)))},
	} {
		t.Run(c.sentence, func(t *testing.T) {
			document := write(t, draw(func(b *paper.Book) {
				b.Pen(b.Take(50)).Picture(paper.Box{W: 50, H: 50}, picture(t, c.data))
			}))
			require.Equal(t, 1, bytes.Count(document, []byte("/Subtype /Image")))
			require.Contains(t, string(document), "/BitsPerComponent 8")
			require.NotContains(t, string(document), "/SMask")
		})
	}
}

func TestPicturesOfEqualWidthKeepTheirOrder(t *testing.T) {
	var pictures []paper.Picture
	for i := range 6 {
		pixels := image.NewNRGBA(image.Rect(0, 0, 20, 10))
		for x := range 20 {
			pixels.Set(x, i, color.Black)
		}
		pictures = append(pictures, picture(t, coded(t, pixels)))
	}
	chapter := draw(func(b *paper.Book) {
		for _, picture := range append(pictures, pictures...) {
			b.Pen(b.Take(20)).Picture(paper.Box{W: 40, H: 20}, picture)
		}
	})
	first := write(t, chapter)
	require.Equal(t, len(pictures), bytes.Count(first, []byte("/Subtype /Image")), "a picture used twice is kept once")
	for range 20 {
		require.Equal(t, first, write(t, chapter))
	}
}

func TestALargePictureIsMadeSmaller(t *testing.T) {
	large := picture(t, coded(t, image.NewGray(image.Rect(0, 0, 6000, 2000))))
	document := write(t, draw(func(b *paper.Book) { b.Pen(b.Take(50)).Picture(paper.Box{W: 150, H: 50}, large) }))
	require.Contains(t, string(document), "/Width 3000\n/Height 1000")
}

func coded(t *testing.T, picture image.Image) []byte {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, png.Encode(&out, picture))
	return out.Bytes()
}

// picture is a picture of a file, as a program reads one.
func picture(t *testing.T, data []byte) paper.Picture {
	t.Helper()
	decoded, err := beside.Decode(data)
	require.NoError(t, err)
	return paper.PictureOf(decoded)
}

func TestEachStrokeSetsItsOwnPen(t *testing.T) {
	for number, page := range sheets(t, write(t, sampleChapters()...)) {
		set := map[string]bool{}
		for line := range strings.SplitSeq(page.content, "\n") {
			operator := line[strings.LastIndex(line, " ")+1:]
			switch operator {
			case "w", "J", "j", "d":
				set[operator] = true
			case "RG", "G":
				set["ink"] = true
			case "S", "B*":
				require.Len(t, set, 5, "page %d: a stroke trusts what was set before it: %v", number+1, set)
				set = map[string]bool{}
			}
		}
	}
}

func TestTextNeverTrustsTheInkBefore(t *testing.T) {
	chapter := draw(func(b *paper.Book) {
		pen := b.Pen(b.Take(100))
		square := []paper.Point{{X: 0, Y: 0}, {X: 50, Y: 0}, {X: 50, Y: 50}, {X: 0, Y: 50}}
		pen.Polygon(square, paper.Grey(200), paper.Stroke{})
		pen.Clip(paper.Box{W: 50, H: 50}, func() { pen.Polygon(square, paper.Black, paper.Stroke{}) })
		pen.Text(paper.Point{X: 5, Y: 5}, "black", paper.Lettering{})
		pen.Text(paper.Point{X: 5, Y: 15}, "turned", paper.Lettering{Angle: 20})
	})
	for _, page := range append(sheets(t, write(t, chapter)), sheets(t, write(t, sampleChapters()...))...) {
		for _, set := range page.texts {
			require.False(t, set.shadows, "the ink of %q is left to chance", set.text)
		}
	}
}

func TestDatesComeFromOutside(t *testing.T) {
	document := string(write(t, draw(func(b *paper.Book) { b.Paragraph("text") })))
	require.Contains(t, document, "/CreationDate (D:20260612093000)")
	require.Contains(t, document, "/ModDate (D:20260612093000)")

	undated := setup()
	undated.Made = time.Time{}
	_, err := paper.Write(context.Background(), &bytes.Buffer{}, undated, draw(func(b *paper.Book) { b.Paragraph("text") }))
	require.ErrorContains(t, err, "date")
}

func TestMissingLettersAreSaid(t *testing.T) {
	var told []string
	_, print := writeWith(t, setup(), draw(func(b *paper.Book) {
		told = b.Notices()
		b.Cautions(told)
		b.NewPage()
		b.Table(paper.Table{Columns: []paper.Column{{Head: "Name"}}, Rows: []paper.Row{paper.Texts("舞台 left"), paper.Texts("plain")}})
	}))
	require.Equal(t, []string{"“□□ left” (page 2): characters this typeface lacks (U+821E U+53F0) are printed as □."}, told)
	require.Equal(t, told, print.Notices)
}

func TestNumbersAPDFCannotHold(t *testing.T) {
	document := string(write(t, draw(func(b *paper.Book) {
		pen := b.Pen(b.Take(50))
		line := paper.Stroke{Colour: paper.Black, Width: 1}
		wild := []paper.Point{{X: nan, Y: 1}, {X: 1, Y: inf}, {X: -inf, Y: 2}, {X: 1e300, Y: 3}}
		pen.Polyline(wild, line)
		pen.Polygon(wild, paper.Black, line)
		pen.Text(wild[0], "nowhere", paper.Lettering{})
		pen.Text(paper.Point{}, "spun", paper.Lettering{Angle: nan})
		pen.Badge(wild[1], 5, paper.Badge{Grade: paper.Over, Text: "1"})
		pen.Badge(paper.Point{}, inf, paper.Badge{Grade: paper.Over, Text: "1"})
		pen.Clip(paper.Box{X: nan, W: inf, H: 2}, func() {})
		pen.Polyline([]paper.Point{{}, {X: 9}}, paper.Stroke{Colour: paper.Black, Width: nan, Dash: []float64{inf}, Casing: nan})
		pen.RoundBox(paper.Box{W: 5, H: 5}, nan, paper.Black, line)
		b.Skip(nan)
		b.Take(nan)
		b.Paragraph("still here")
	})))
	for _, page := range sheets(t, []byte(document)) {
		require.NotRegexp(t, `NaN|Inf|e\+`, page.content)
		page.find(t, "still here")
	}
}
