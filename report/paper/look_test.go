package paper_test

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/report/paper"
)

var benchmarkPages, benchmarkBytes int

func printed(b *testing.B, s paper.Setup, chapters ...paper.Chapter) (pages, bytesOut int) {
	b.Helper()
	var out bytes.Buffer
	print, err := paper.Write(context.Background(), &out, s, chapters...)
	require.NoError(b, err)
	return print.Pages, out.Len()
}

var grades = []paper.Role{paper.Ample, paper.Enough, paper.Tight, paper.Over, paper.Uncabled}

// drawn renders the first page of a document in grey.
func drawn(t *testing.T, document []byte, dotsPerInch string) image.Image {
	t.Helper()
	out := filepath.Join(t.TempDir(), "page")
	tool(t, document, "pdftoppm", "-png", "-gray", "-r", dotsPerInch, "-singlefile", "FILE", out)
	data, err := os.ReadFile(out + ".png")
	require.NoError(t, err)
	picture, err := png.Decode(bytes.NewReader(data))
	require.NoError(t, err)
	return picture
}

func TestBadgesAreToldApartInGrey(t *testing.T) {
	for _, c := range []struct{ sentence, text string }{
		{"with the same figure", "2"},
		{"and without one", ""},
	} {
		t.Run(c.sentence, func(t *testing.T) {
			document := write(t, draw(func(b *paper.Book) {
				pen := b.Pen(b.Area())
				for i, grade := range grades {
					pen.Badge(paper.Point{X: 20, Y: 10 + 20*float64(i)}, 6, paper.Badge{Grade: grade, Text: c.text})
				}
			}))
			page := drawn(t, document, "150")
			for one := range grades {
				for other := range one {
					require.Greater(t, difference(page, one, other), 0.25, "%s and %s look alike", grades[one], grades[other])
				}
			}
		})
	}
}

// difference compares two badges of the test above, drawn at 150 dots an inch:
// how many dots differ, as a part of those that either inks.
func difference(page image.Image, one, other int) float64 {
	const width, height = 94, 47 // 16 by 8 mm
	toDots := func(mm float64) int { return int(mm / 25.4 * 150) }
	level := func(badge, x, y int) float64 {
		grey, _, _, _ := page.At(toDots(15+3.5+20-8)+x, toDots(8+3.5+10+20*float64(badge)-4)+y).RGBA()
		return float64(grey >> 8)
	}
	differ, inked := 0.0, 0.0
	for x := range width {
		for y := range height {
			a, b := level(one, x, y), level(other, x, y)
			if a < 200 || b < 200 {
				inked++
			}
			if math.Abs(a-b) > 40 {
				differ++
			}
		}
	}
	return differ / inked
}

func TestLinesOfGradesAreToldApartWithoutColour(t *testing.T) {
	seen := map[string]paper.Role{}
	previous := 0.0
	for _, grade := range []paper.Role{paper.Ample, paper.Enough, paper.Tight, paper.Over} {
		style, ok := paper.StyleOf(grade)
		require.True(t, ok)
		require.Greater(t, style.Line.Width, previous, "the worse the grade, the heavier the line")
		require.Positive(t, style.Line.Casing)
		previous = style.Line.Width
	}
	for _, grade := range append(grades, paper.Ungraded) {
		style, _ := paper.StyleOf(grade)
		pattern := fmt.Sprint(style.Line.Width, style.Line.Dash)
		other, used := seen[pattern]
		require.False(t, used, "%s and %s have one pattern", grade, other)
		seen[pattern] = grade
	}
}

// WCAG 2.2, success criterion 1.4.11: graphics need a contrast of 3 to 1; with
// the relative luminance it defines.
func TestLinesStandOutFromThePaper(t *testing.T) {
	for _, role := range append(grades, paper.Ungraded, paper.Device, paper.Measure) {
		style, _ := paper.StyleOf(role)
		require.Greater(t, 1.05/(luminance(style.Line.Colour)+0.05), 3.0, "role %q", role)
	}
}

func luminance(c paper.Colour) float64 {
	part := func(v uint8) float64 {
		s := float64(v) / 255
		if s <= 0.04045 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*part(c.R) + 0.7152*part(c.G) + 0.0722*part(c.B)
}

func TestEveryRoleHasAStyle(t *testing.T) {
	for _, role := range paper.Roles() {
		_, ok := paper.StyleOf(role)
		require.True(t, ok, "role %q", role)
	}
	_, ok := paper.StyleOf("nothing")
	require.False(t, ok)
}

func TestACasingLiesUnderItsLine(t *testing.T) {
	page := sheets(t, write(t, draw(func(b *paper.Book) {
		style, _ := paper.StyleOf(paper.Over)
		b.Pen(b.Take(20)).Polyline([]paper.Point{{X: 0, Y: 5}, {X: 100, Y: 5}}, style.Line)
	})))[0]
	// 0.9 mm and twice 0.45 mm of white, then the 0.9 mm line of dashes.
	white, line := strings.Index(page.content, "1.000 G\n5.10 w"), strings.Index(page.content, "2.55 w")
	require.Positive(t, white)
	require.Greater(t, line, white)
	require.Contains(t, page.content[line:], "[4.25 2.27] 0.00 d")
}

func TestTextAtAnAngle(t *testing.T) {
	document := write(t, draw(func(b *paper.Book) {
		pen := b.Pen(b.Area())
		pen.Text(paper.Point{X: 50, Y: 100}, "upwards", paper.Lettering{Size: 20, Angle: 90})
		pen.Text(paper.Point{X: 120, Y: 100}, "middle", paper.Lettering{Size: 20, Angle: 180, Align: paper.Centre})
	}))
	boxes := wordBoxes(t, document)
	up, middle := boxes[0]["upwards"], boxes[0]["middle"]
	require.Greater(t, up.Bottom()-up.Y, 2*(up.Right()-up.X), "it runs up the page")
	require.InDelta(t, 11.5+100, up.Bottom(), 1, "it begins at its place")
	require.InDelta(t, 15+3.5+120, (middle.X+middle.Right())/2, 0.5, "it is centred on its place")
}

func TestAClipConfines(t *testing.T) {
	document := write(t, draw(func(b *paper.Book) {
		pen := b.Pen(b.Area())
		pen.Clip(paper.Box{X: 40, Y: 40, W: 20, H: 20}, func() {
			pen.Polygon([]paper.Point{{X: 0, Y: 0}, {X: 100, Y: 0}, {X: 100, Y: 100}, {X: 0, Y: 100}}, paper.Black, paper.Stroke{})
		})
	}))
	page := drawn(t, document, "50")
	black := 0
	for x := range page.Bounds().Dx() {
		for y := range 240 { // above the strip: 122 mm
			if level, _, _, _ := page.At(x, y).RGBA(); level < 0x4000 && x > 45 && x < 385 && y > 25 {
				black++
			}
		}
	}
	require.InDelta(t, 20*20/(25.4/50)/(25.4/50), black, 160, "20 by 20 mm are black")
}

func TestPaleInks(t *testing.T) {
	require.Equal(t, paper.RGB(100, 50, 0), paper.RGB(100, 50, 0).Pale(0))
	require.Equal(t, paper.White, paper.RGB(100, 50, 0).Pale(1))
	require.Equal(t, paper.RGB(178, 153, 128), paper.RGB(100, 50, 0).Pale(0.5))
	require.Equal(t, paper.None, paper.Colour{}.Pale(0))
}

var wordBox = regexp.MustCompile(`<word xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">([^<]*)</word>`)

// wordBoxes returns where pdftotext sees words, page by page, in mm.
func wordBoxes(t *testing.T, document []byte) []map[string]paper.Box {
	t.Helper()
	var pages []map[string]paper.Box
	for _, part := range strings.Split(tool(t, document, "pdftotext", "-bbox", "FILE", "-"), "<page ")[1:] {
		words := map[string]paper.Box{}
		for _, found := range wordBox.FindAllStringSubmatch(part, -1) {
			at := func(i int) float64 { return number(t, []byte(found[i])) / pointsPerMM }
			words[found[5]] = paper.Box{X: at(1), Y: at(2), W: at(3) - at(1), H: at(4) - at(2)}
		}
		pages = append(pages, words)
	}
	return pages
}
