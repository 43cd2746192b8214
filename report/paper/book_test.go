package paper_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/atomicfile"
	"stageloom/report/paper"
)

var (
	nan = math.NaN()
	inf = math.Inf(1)
)

func TestPagesOfMixedFormats(t *testing.T) {
	pages := sheets(t, write(t, draw(func(b *paper.Book) {
		for _, format := range []paper.Format{upright, lying, large, {Sheet: paper.A3}, letter, {Sheet: paper.Letter, Landscape: true}, upright} {
			b.NewPageOf(format)
			b.Paragraph("text")
		}
	})))
	var sizes []string
	for _, page := range pages {
		sizes = append(sizes, fmt.Sprintf("%.0f×%.0f", page.width, page.height))
	}
	// ISO 216 and ANSI/ASME Y14.1 sizes.
	require.Equal(t, []string{"210×297", "297×210", "420×297", "297×420", "216×279", "279×216", "210×297"}, sizes)
}

func TestTheFrameLeavesRoomForPunching(t *testing.T) {
	page := sheets(t, write(t, draw(func(b *paper.Book) { b.Paragraph("text") })))[0]
	// 15 mm left, 8 mm elsewhere, 0.5 mm wide: 42.52 pt, 22.68 pt and 1.42 pt.
	require.Contains(t, page.content, "1.42 w")
	require.Contains(t, page.content, "42.52 819.21 m\n572.60 819.21 l\n572.60 22.68 l\n42.52 22.68 l\nh\nS")
}

func TestTheStripTellsWhatASheetIs(t *testing.T) {
	page := sheets(t, write(t, paper.Chapter{Name: "Link budget", Draw: func(b *paper.Book) error { b.Paragraph("x"); return nil }}))[0]
	for _, words := range []string{"Harrow Meadow Weekender", "Harrow Meadow, lower field", "Link budget", "C", "printed 2026-06-12", "1 of 1"} {
		require.Greater(t, page.find(t, words).y, 270.0, "%q stands in the strip", words)
	}
	require.Regexp(t, `20\.00 Tf ET\n1\.000 g\nBT`, page.content, "the revision is white")
}

func TestTheTitleAndAuthorOfTheDocument(t *testing.T) {
	said := tool(t, write(t, sampleChapters()...), "pdfinfo", "FILE")
	require.Regexp(t, `Title: +Harrow Meadow Weekender`, said)
	require.Regexp(t, `Author: +System crew`, said)
	require.Regexp(t, `Pages: +9`, said)
}

func TestTypeSizes(t *testing.T) {
	sizes := func(reader paper.Reader, format paper.Format) map[string]float64 {
		page := sheets(t, write(t, paper.Chapter{Name: "Sheet", Reader: reader, Format: &format, Draw: func(b *paper.Book) error {
			b.Table(paper.Table{Columns: []paper.Column{{Head: "Link", Face: paper.Mono}, {Head: "To"}}, Rows: []paper.Row{paper.Texts("L01", "tower")}})
			return nil
		}}))[0]
		return map[string]float64{"id": page.find(t, "L01").size, "body": page.find(t, "tower").size}
	}
	require.Equal(t, map[string]float64{"id": 14, "body": 11}, sizes(paper.Crew, upright))
	require.Equal(t, map[string]float64{"id": 8, "body": 8}, sizes(paper.Engineer, upright))
	require.Equal(t, map[string]float64{"id": 16.8, "body": 13.2}, sizes(paper.Crew, large), "A3 type is 1.2 times as large")
}

func TestAPrintThatIsCalledOffLeavesTheOldFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "schedule.pdf")
	require.NoError(t, os.WriteFile(path, []byte("the old one"), 0o640))
	ctx, cancel := context.WithCancel(context.Background())
	begun := 0
	endless := draw(func(b *paper.Book) {
		for b.Err() == nil {
			if begun++; begun == 40 {
				cancel()
			}
			b.NewPage()
			b.Paragraph("text")
		}
	})
	_, err := paper.Save(ctx, path, setup(), endless)
	require.ErrorIs(t, err, context.Canceled)
	require.Equal(t, 40, begun, "the context is asked at each page")
	require.Equal(t, "the old one", contents(t, path))
	requireAlone(t, path)
}

func TestAChapterThatNeverAsksStillEnds(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, err := paper.Write(ctx, &bytes.Buffer{}, setup(), sampleChapters()...)
	require.ErrorIs(t, err, context.Canceled)
}

func TestSavedFiles(t *testing.T) {
	page := draw(func(b *paper.Book) { b.Paragraph("text") })
	t.Run("a new file is whole and alone", func(t *testing.T) {
		path := filepath.Join(t.TempDir(), "schedule.pdf")
		print, err := paper.Save(context.Background(), path, setup(), page)
		require.NoError(t, err)
		require.Equal(t, 1, print.Pages)
		require.Equal(t, string(write(t, page)), contents(t, path))
		requireAlone(t, path)
	})
	t.Run("the mode of the old file is kept", func(t *testing.T) {
		path := filepath.Join(t.TempDir(), "schedule.pdf")
		require.NoError(t, os.WriteFile(path, nil, 0o640))
		_, err := paper.Save(context.Background(), path, setup(), page)
		require.NoError(t, err)
		info, err := os.Stat(path)
		require.NoError(t, err)
		require.Equal(t, os.FileMode(0o640), info.Mode())
	})
	t.Run("a folder that is not there is said in words", func(t *testing.T) {
		_, err := paper.Save(context.Background(), filepath.Join(t.TempDir(), "nowhere", "schedule.pdf"), setup(), page)
		var failure *atomicfile.Failure
		require.ErrorAs(t, err, &failure)
		require.ErrorContains(t, err, "schedule.pdf was not saved")
	})
	t.Run("a chapter that fails leaves the old file", func(t *testing.T) {
		path := filepath.Join(t.TempDir(), "schedule.pdf")
		require.NoError(t, os.WriteFile(path, []byte("the old one"), 0o600))
		_, err := paper.Save(context.Background(), path, setup(), page, draw(func(*paper.Book) { panic("a slip") }))
		require.ErrorContains(t, err, "a slip")
		require.Equal(t, "the old one", contents(t, path))
		requireAlone(t, path)
	})
}

func contents(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(data)
}

func requireAlone(t *testing.T, path string) {
	t.Helper()
	entries, err := os.ReadDir(filepath.Dir(path))
	require.NoError(t, err)
	require.Len(t, entries, 1, "no unfinished file stays behind")
}

func TestFailuresNameTheirChapter(t *testing.T) {
	broken := errors.New("no such act")
	for _, c := range []struct {
		sentence string
		chapter  paper.Chapter
		setup    func(*paper.Setup)
		wanted   string
	}{
		{"a chapter's own error", paper.Chapter{Name: "Patch", Draw: func(*paper.Book) error { return broken }}, nil, `print "Harrow Meadow Weekender": chapter "Patch": no such act`},
		{"a failure told to the book", paper.Chapter{Name: "Patch", Draw: func(b *paper.Book) error { b.Fail(broken); return nil }}, nil, `chapter "Patch", page 0: no such act`},
		{"a panic", paper.Chapter{Name: "Patch", Draw: func(b *paper.Book) error { b.NewPage(); panic("index") }}, nil, `chapter "Patch", page 1: internal fault: index`},
		{"a panic inside a clip", paper.Chapter{Name: "Patch", Draw: func(b *paper.Book) error {
			b.Pen(b.Take(9)).Clip(paper.Box{W: 1, H: 1}, func() { panic("clip") })
			return nil
		}}, nil, `internal fault: clip`},
		{"no Draw", paper.Chapter{Name: "Patch"}, nil, `chapter "Patch" draws nothing`},
		{"an unknown sheet", paper.Chapter{Name: "Patch", Format: &paper.Format{Sheet: "B5"}, Draw: func(*paper.Book) error { return nil }}, nil, `chapter "Patch": paper "B5" is not known: choose A4, A3 or Letter`},
		{"an unknown sheet of the setup", draw(func(*paper.Book) {}), func(s *paper.Setup) { s.Format.Sheet = "B5" }, `paper "B5" is not known`},
		{"an unknown sheet in the middle", draw(func(b *paper.Book) { b.NewPageOf(paper.Format{Sheet: "B5"}) }), nil, `paper "B5" is not known`},
		{"chapters that draw nothing", draw(func(*paper.Book) {}), nil, "there is nothing to print"},
	} {
		t.Run(c.sentence+" is named", func(t *testing.T) {
			s := setup()
			if c.setup != nil {
				c.setup(&s)
			}
			var out bytes.Buffer
			_, err := paper.Write(context.Background(), &out, s, c.chapter)
			require.ErrorContains(t, err, c.wanted)
			require.Zero(t, out.Len(), "nothing is written")
		})
	}
}

func TestAFaultKeepsItsStack(t *testing.T) {
	_, err := paper.Write(context.Background(), &bytes.Buffer{}, setup(), draw(func(*paper.Book) { panic("a slip") }))
	var fault *paper.Fault
	require.ErrorAs(t, err, &fault)
	require.Contains(t, string(fault.Stack), "book_test.go")
}

func TestAChapterThatDrawsDifferentlyIsRefused(t *testing.T) {
	calls := 0
	_, err := paper.Write(context.Background(), &bytes.Buffer{}, setup(), draw(func(b *paper.Book) {
		for calls++; b.Page() < calls; {
			b.NewPage()
			b.Paragraph("text")
		}
	}))
	require.ErrorContains(t, err, "draws differently each time: 1 pages counted, 2 drawn")
}

func TestContentsAtTheFrontKnowTheirPages(t *testing.T) {
	front := paper.Chapter{Name: "Front", Draw: func(b *paper.Book) error {
		for range b.Contents() {
			b.NewPage() // the contents move what they list
			b.Paragraph("an entry")
		}
		for _, entry := range b.Contents() {
			b.Paragraph(fmt.Sprintf("%s on %d", entry.Name, entry.Page))
		}
		return nil
	}}
	body := paper.Chapter{Name: "Body", Draw: func(b *paper.Book) error { b.Paragraph("text"); return nil }}
	document, print := writeWith(t, setup(), front, body)
	require.Equal(t, []paper.Entry{{Name: "Front", Page: 1}, {Name: "Body", Page: 3}}, print.Entries)
	sheets(t, document)[1].find(t, "Body on 3")
}

func TestACautionIsNotSplit(t *testing.T) {
	caution := strings.Repeat("Cables across walkways lie under ramps. ", 12)
	pages := sheets(t, write(t, draw(func(b *paper.Book) {
		b.Take(b.Area().H - 12)
		b.Cautions([]string{caution})
	})))
	require.Len(t, pages, 2)
	for _, words := range pages[0].words() {
		require.NotContains(t, words, "walkways")
	}
}

func TestAHeadingNeverStandsAlone(t *testing.T) {
	pages := sheets(t, write(t, draw(func(b *paper.Book) {
		b.Take(b.Area().H - 14)
		b.Heading("Ramps")
		b.Paragraph("text")
	})))
	require.Len(t, pages, 2)
	pages[1].find(t, "Ramps")
	pages[1].find(t, "text")
}

func TestALongParagraphGoesOnOverPages(t *testing.T) {
	words := strings.Fields(strings.Repeat("one two three four five ", 800))
	pages := sheets(t, write(t, draw(func(b *paper.Book) { b.Paragraph(strings.Join(words, " ")) })))
	require.Greater(t, len(pages), 1)
	var got []string
	for _, page := range pages {
		for _, set := range page.texts {
			if set.size == 11 {
				got = append(got, strings.Fields(set.text)...)
			}
		}
	}
	require.Equal(t, words, got)
}

func TestAChapterKnowsTheAreaBeforeItsPage(t *testing.T) {
	write(t, draw(func(b *paper.Book) {
		width, _ := b.Measure("Stage left", paper.Lettering{Size: 10})
		require.Zero(t, b.Page(), "measuring begins no page")
		for i, format := range []paper.Format{upright, lying, large, letter} {
			b.NewPageOf(format)
			require.Equal(t, i+1, b.Page())
			require.Equal(t, format.Area(), b.Area())
			again, _ := b.Pen(b.Area()).Measure("Stage left", paper.Lettering{Size: 10})
			require.InDelta(t, width, again, 1e-12)
			b.Paragraph("text")
		}
	}))
}

func TestTheProgressOfAPrintIsTold(t *testing.T) {
	s := setup()
	var told []string
	s.Drawing = func(page, pages int) { told = append(told, fmt.Sprintf("%d of %d", page, pages)) }
	writeWith(t, s, draw(func(b *paper.Book) {
		for range 3 {
			b.NewPage()
			b.Paragraph("text")
		}
	}))
	require.Equal(t, []string{"1 of 3", "2 of 3", "3 of 3"}, told, "once for each page, not for passes that count")
}

func TestTheStripHoldsTheNumbersOfAThousandPages(t *testing.T) {
	chapter := paper.Chapter{Name: "Long", Draw: func(b *paper.Book) error {
		for range 1100 {
			b.NewPage()
			b.Paragraph("a page")
		}
		return nil
	}}
	text := tool(t, write(t, chapter), "pdftotext", "-bbox", "-f", "1099", "-l", "1099", "FILE", "-")
	words := regexp.MustCompile(`xMax="([\d.]+)" yMax="[\d.]+">(1100|1099)</word>`).FindAllStringSubmatch(text, -1)
	require.Len(t, words, 2)
	for _, word := range words {
		right, err := strconv.ParseFloat(word[1], 64)
		require.NoError(t, err)
		require.Less(t, right, (210-8)*72/25.4, "%s lies in the frame", word[2])
	}
}
