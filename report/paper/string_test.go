package paper_test

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/jung-kurt/gofpdf"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/report/paper"
)

func TestCleanedStrings(t *testing.T) {
	for _, c := range []struct {
		sentence, given, wanted string
		said                    []string // a word of each notice
	}{
		{"plain text stays as it is", "FOH tower – 12 m × 3, ≥ 2 dB, 75 Ω, 40 °C → µ", "FOH tower – 12 m × 3, ≥ 2 dB, 75 Ω, 40 °C → µ", nil},
		{"Cyrillic and Greek are in the typeface", "Сцена λ", "Сцена λ", nil},
		{"an emoji becomes one box", "Stage 🎸 left", "Stage □ left", []string{"U+1F3B8"}},
		{"skin tones and joiners do not multiply boxes", "👩🏽\u200d🔧!", "□□!", []string{"U+1F469"}},
		{"letters above the basic plane become boxes", "𝄞 clef", "□ clef", []string{"U+1D11E"}},
		{"letters the typeface lacks become boxes", "舞台", "□□", []string{"U+821E U+53F0"}},
		{"NUL and other controls go", "a\x00b\x1bc", "abc", []string{"control characters (U+0000 U+001B)"}},
		{"bytes that are not UTF-8 become boxes", "a\xff\xfeb\xe2\x82", "a□□b□□", []string{"not text"}},
		{"direction controls go", "\u202eevil\u202c\u2066x\u2069", "evilx", []string{"direction controls"}},
		{"line breaks and tabs become spaces", "one\ntwo\r\nthree\tfour", "one two  three four", []string{"line breaks"}},
		{"marks that can't be seen go without a word", "so\u00adft\ufeff\u200bly", "softly", nil},
		{"accents are composed", "Cafe\u0301 Mu\u0308ller", "Café Müller", nil},
		{"towers of accents are cut", "a" + strings.Repeat("\u0316", 40), "a\u0316\u0316", []string{"accents"}},
		{"noncharacters become boxes", "a\uffffb\ufffe", "a□b□", []string{"U+FFFF"}},
		{"Arabic keeps its letters and says that they are not joined", "شاشة", "شاشة", []string{"not joined"}},
	} {
		t.Run(c.sentence, func(t *testing.T) {
			got, said := paper.Clean(c.given, paper.Regular)
			require.Equal(t, c.wanted, got)
			require.Len(t, said, len(c.said))
			for i, word := range c.said {
				require.Contains(t, said[i], word)
			}
		})
	}
}

func TestLettersThatMonoLacksAreSetInBold(t *testing.T) {
	page := sheets(t, write(t, draw(func(b *paper.Book) {
		pen := b.Pen(b.Take(50))
		pen.Text(paper.Point{Y: 10}, "bold", paper.Lettering{Face: paper.Bold})
		pen.Text(paper.Point{Y: 20}, "mono", paper.Lettering{Face: paper.Mono})
		pen.Text(paper.Point{Y: 30}, "\u05d0", paper.Lettering{Face: paper.Mono})
		pen.Text(paper.Point{Y: 40}, "x\u0316", paper.Lettering{Face: paper.Mono})
		pen.Text(paper.Point{Y: 50}, "\u821e", paper.Lettering{Face: paper.Mono})
	})))[0]
	bold, mono := page.find(t, "bold").font, page.find(t, "mono").font
	require.NotEqual(t, bold, mono)
	require.Equal(t, bold, page.find(t, "\u05d0").font)
	require.Equal(t, bold, page.find(t, "x\u0316").font, "accents would stand beside their letter")
	require.Equal(t, mono, page.find(t, "□").font, "no face has it")
}

func TestAnyBytesBecomePrintable(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		given := string(rapid.SliceOf(rapid.Byte()).Draw(t, "bytes"))
		if rapid.Bool().Draw(t, "text") {
			given = rapid.String().Draw(t, "string")
		}
		face := rapid.SampledFrom(paper.Faces).Draw(t, "face")
		got, _ := paper.Clean(given, face)
		require.True(t, utf8.ValidString(got))
		for _, r := range got {
			require.Less(t, r, rune(1<<16), "the PDF library stops the program at runes above U+FFFF")
			require.GreaterOrEqual(t, r, ' ')
		}
		again, said := paper.Clean(got, face)
		require.Equal(t, got, again, "clean text stays as it is")
		for _, sentence := range said {
			require.Contains(t, sentence, "joined", "clean text brings no new notice but of its letters")
		}
	})
}

// The expected widths come from the PDF library, whose widths the document
// carries and a viewer uses.
func TestWidthsAreThoseOfTheDocument(t *testing.T) {
	pdf := gofpdf.New("P", "mm", "A4", "")
	for i, face := range paper.Faces {
		family := string(rune('a' + i))
		pdf.AddUTF8FontFromBytes(family, "", append([]byte(nil), paper.TrueType(face)...))
		for _, text := range []string{"Stage left 0Oo 1lI", "−12.5 dB ≥ Ω µ × → – …", "Сцена Ærø", "□"} {
			pdf.SetFont(family, "", 11)
			require.InDelta(t, pdf.GetStringWidth(text), paper.WidthOf(face, text, 11), 1e-9, text)
		}
	}
}

func TestDigitsAreEquallyWide(t *testing.T) {
	for _, face := range paper.Faces {
		for _, digit := range "0123456789" {
			require.Equal(t, paper.WidthOf(face, "0", 10), paper.WidthOf(face, string(digit), 10))
		}
	}
}

func TestWrappedLines(t *testing.T) {
	wide := paper.WidthOf(paper.Regular, "12345678", 11) + 0.01
	for _, c := range []struct {
		sentence, given string
		wanted          []string
	}{
		{"nothing is one empty line", "", []string{""}},
		{"what fits stays on a line", "abc def", []string{"abc def"}},
		{"a line breaks at a space", "1234 5678 90", []string{"1234", "5678 90"}},
		{"spaces at a break go", "1234567    890", []string{"1234567", "890"}},
		{"a line may break after a hyphen", "12345-abcde", []string{"12345-", "abcde"}},
		{"but not before a figure: a tag stays whole", "12 345-678", []string{"12", "345-678"}},
		{"and after a stroke", "12345/67890", []string{"12345/", "67890"}},
		{"a sign stays with its figure", "123456 -789", []string{"123456", "-789"}},
		{"a no-break space holds", "1234 56\u00a078", []string{"1234", "56\u00a078"}},
		{"a word wider than a line is cut anywhere", "123456789012345678", []string{"12345678", "90123456", "78"}},
	} {
		t.Run(c.sentence, func(t *testing.T) {
			require.Equal(t, c.wanted, paper.Wrap(c.given, paper.Regular, 11, wide))
		})
	}
}

func TestWrappingLosesNothing(t *testing.T) {
	alphabet := rapid.SampledFrom([]rune("ab01-/– \u00a0Ωw"))
	rapid.Check(t, func(t *rapid.T) {
		given := rapid.StringOf(alphabet).Draw(t, "text")
		width := rapid.Float64Range(4, 80).Draw(t, "width")
		face := rapid.SampledFrom(paper.Faces).Draw(t, "face")
		lines := paper.Wrap(given, face, 11, width)
		squeeze := func(s string) string { return strings.ReplaceAll(s, " ", "") }
		require.Equal(t, squeeze(given), squeeze(strings.Join(lines, "")))
		for _, line := range lines {
			require.LessOrEqual(t, paper.WidthOf(face, line, 11), width+1e-3)
		}
	})
}

func TestTenThousandCharactersWrap(t *testing.T) {
	lines := paper.Wrap(strings.Repeat("W", 10_000), paper.Regular, 11, 100)
	require.Equal(t, 10_000, len(strings.Join(lines, "")))
	require.Greater(t, len(lines), 200)
}

func TestTruncatedLines(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		given := rapid.StringOf(rapid.SampledFrom([]rune("abW 1"))).Draw(t, "text")
		width := rapid.Float64Range(0, 60).Draw(t, "width")
		got := paper.Truncate(given, paper.Bold, 11, width)
		require.LessOrEqual(t, paper.WidthOf(paper.Bold, got, 11), width+1e-9)
		if paper.WidthOf(paper.Bold, given, 11) <= width {
			require.Equal(t, given, got)
		} else if got != "" {
			require.True(t, strings.HasSuffix(got, "…"))
			require.True(t, strings.HasPrefix(given, strings.TrimSuffix(got, "…")))
		}
	})
}

// The first case has the form of the example of UAX #9, rule L2 ("car means
// CAR." is shown as "car means RAC."), with Hebrew for the capitals; the others
// follow its rules for figures (W2 to W7) and mirrored brackets (L4), for a page
// whose direction is left to right.
func TestRightToLeftReadingOrder(t *testing.T) {
	for _, c := range []struct{ sentence, given, wanted string }{
		{"left-to-right text stays", "car means car.", "car means car."},
		{"a word is turned round", "car means \u05d0\u05d1\u05d2.", "car means \u05d2\u05d1\u05d0."},
		{"words change places with their spaces", "\u05d0\u05d1 \u05d2\u05d3 x", "\u05d3\u05d2 \u05d1\u05d0 x"},
		{"figures are not turned", "\u05d0 120 \u05d1", "\u05d1 120 \u05d0"},
		{"nor are decimals", "\u05d0 12.5 \u05d1", "\u05d1 12.5 \u05d0"},
		{"brackets are mirrored", "\u05d0 (\u05d1) \u05d2", "\u05d2 (\u05d1) \u05d0"},
		{"two stretches keep their places", "\u05d0\u05d1 and \u05d2\u05d3", "\u05d1\u05d0 and \u05d3\u05d2"},
	} {
		t.Run(c.sentence, func(t *testing.T) {
			require.Equal(t, c.wanted, paper.Visual(c.given))
		})
	}
}

func TestReadingOrderKeepsEveryRune(t *testing.T) {
	alphabet := rapid.SampledFrom([]rune("ab 12.-()\u05d0\u05d1\u0634\u0301"))
	rapid.Check(t, func(t *rapid.T) {
		given := rapid.StringOf(alphabet).Draw(t, "text")
		count := func(s string) map[rune]int {
			n := map[rune]int{}
			for _, r := range s {
				if r == ')' {
					r = '(' // mirrored
				}
				n[r]++
			}
			return n
		}
		require.Equal(t, count(given), count(paper.Visual(given)))
	})
}
