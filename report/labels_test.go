package report_test

import (
	"bytes"
	"cmp"
	"fmt"
	"image"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/demo"
	"stageloom/model/plan"
	"stageloom/report"
)

func labelsOf(t *testing.T, a *assess.Assessment, sheet report.LabelSheet) ([]byte, report.Printed) {
	t.Helper()
	choice := report.ChoiceOf(a.Plan, day)
	choice.Chapters, choice.Labels = []report.Chapter{report.LabelSheets}, sheet
	return write(t, a, choice)
}

func TestTwoLabelsForEveryEndAndJoin(t *testing.T) {
	a := assess.Of(demo.Weekender())
	document, done := labelsOf(t, a, report.LabelSheet{})
	text := strings.Join(pagesOf(t, document), "\n")
	wanted := 0
	for _, b := range a.Budgets {
		wanted += 2 + 2*b.Joins
	}
	require.Equal(t, (wanted+15)/16, done.Pages)
	require.Equal(t, 2*wanted, strings.Count(text, "END A")+strings.Count(text, "END B")+strings.Count(text, "JOIN "), "a flag says it on both faces")
	require.NotContains(t, text, "Page", "a sheet to stick has no strip")
}

func TestUsedUpLabelsAreSkipped(t *testing.T) {
	a := assess.Of(field(t))
	sheet := report.LabelSheetFor("A4")
	whole, _ := labelsOf(t, a, sheet)
	sheet.Skip = 5
	skipped, _ := labelsOf(t, a, sheet)
	places := func(document []byte) [][2]float64 {
		var at [][2]float64
		for _, word := range wordBox.FindAllStringSubmatch(tool(t, document, "pdftotext", "-bbox", "-f", "1", "-l", "1", "FILE", "-"), -1) {
			if word[5] == "END" || word[5] == "JOIN" {
				x, err := strconv.ParseFloat(word[1], 64)
				require.NoError(t, err)
				y, err := strconv.ParseFloat(word[2], 64)
				require.NoError(t, err)
				at = append(at, [2]float64{x, y})
			}
		}
		slices.SortFunc(at, func(a, b [2]float64) int { return cmp.Or(cmp.Compare(a[1], b[1]), cmp.Compare(a[0], b[0])) })
		return at
	}
	first := places(skipped)[0]
	require.InDelta(t, 2*sheet.Height/report.PointMM, first[1]-places(whole)[0][1], 0.1, "the sixth label lies in the third row")
	require.Greater(t, first[0]*report.PointMM, sheet.Left+sheet.Width, "and in the second column")
	require.Len(t, places(skipped), min(2*11, len(places(whole))))
}

func TestASheetOfLabelsThatCannotBeIsRefused(t *testing.T) {
	a := assess.Of(field(t))
	good := report.LabelSheetFor("A4")
	for _, c := range []struct {
		sentence string
		change   func(*report.LabelSheet)
		said     string
	}{
		{"wider than the paper", func(s *report.LabelSheet) { s.Columns = 3 }, "they reach 307.1 × 284.1 mm, and the sheet is 210 × 297 mm; give fewer columns, or less width, left or gap across, or print on Letter"},
		{"longer than the paper", func(s *report.LabelSheet) { s.GapY = 10 }, "the sheet is 210 × 297 mm; give fewer rows, or less height, top or gap down, or print on Letter"},
		{"larger both ways", func(s *report.LabelSheet) { s.Columns, s.Rows = 3, 9 }, "gap across; and fewer rows"},
		{"too small for its code", func(s *report.LabelSheet) { s.Width, s.Columns = 20, 4 }, "needs 45 × 22 mm"},
		{"no row", func(s *report.LabelSheet) { s.Rows = 0 }, "at least one of each"},
		{"more used up than there are", func(s *report.LabelSheet) { s.Skip = 16 }, "from 0 to 15"},
	} {
		t.Run(c.sentence, func(t *testing.T) {
			choice := report.ChoiceOf(a.Plan, day)
			choice.Labels = good
			c.change(&choice.Labels)
			_, err := report.Write(t.Context(), &strings.Builder{}, a, choice)
			require.ErrorContains(t, err, c.said)
		})
	}
}

// Codes are read by an outside reader from single labels as a printer of 150 dots an inch gives them.
func TestEveryCodeIsReadByAnotherProgram(t *testing.T) {
	a := assess.Of(demo.Weekender())
	sheet := report.LabelSheetFor("A4")
	document, _ := labelsOf(t, a, sheet)
	if _, err := exec.LookPath("zbarimg"); err != nil && os.Getenv("STAGELOOM_TOOLS") != "required" {
		t.Skip("zbarimg is not installed")
	}
	folder := t.TempDir()
	path := filepath.Join(folder, "labels.pdf")
	require.NoError(t, os.WriteFile(path, document, 0o600))
	links := map[string]bool{}
	for link := range a.Plan.Links.All() {
		links[string(link.ID)] = true
	}
	const labels, dots = 48, 150
	command := []string{"--quiet", "--raw", "-Sdisable", "-Sqrcode.enable"}
	var page image.Image
	for i := range labels {
		place := i % sheet.Count()
		if place == 0 {
			page = rastered(t, path, i/sheet.Count()+1, dots)
		}
		pixels := func(mm float64) int { return int(math.Round(mm / 25.4 * dots)) }
		corner := image.Pt(pixels(sheet.Left+float64(place%sheet.Columns)*(sheet.Width+sheet.GapX)),
			pixels(sheet.Top+float64(place/sheet.Columns)*(sheet.Height+sheet.GapY)))
		half := image.Rectangle{corner, corner.Add(image.Pt(pixels(sheet.Width/2), pixels(sheet.Height)))}
		var label bytes.Buffer
		require.NoError(t, png.Encode(&label, page.(interface {
			SubImage(image.Rectangle) image.Image
		}).SubImage(half)))
		command = append(command, filepath.Join(folder, fmt.Sprintf("label%02d.png", i)))
		require.NoError(t, os.WriteFile(command[len(command)-1], label.Bytes(), 0o600))
	}
	said, err := exec.Command("zbarimg", command...).Output()
	require.NoError(t, err)
	read := map[string]bool{}
	for text := range strings.Lines(string(said)) {
		text = strings.TrimSpace(text)
		require.False(t, read[text], "%q is on two labels", text)
		read[text] = true
		link, end, _ := strings.Cut(text, " ")
		require.True(t, links[link], text)
		require.Regexp(t, `^(A|B|J\d+[AB])$`, end)
		require.LessOrEqual(t, len(text), 14)
	}
	require.Len(t, read, labels)
}

// rastered is a page as a printer of so many dots an inch gives it.
func rastered(t *testing.T, path string, page, dots int) image.Image {
	t.Helper()
	number := fmt.Sprint(page)
	out, err := exec.Command("pdftoppm", "-r", fmt.Sprint(dots), "-f", number, "-l", number, "-singlefile", "-gray", "-png", path).Output()
	require.NoError(t, err)
	picture, err := png.Decode(bytes.NewReader(out))
	require.NoError(t, err)
	return picture
}

func TestTapeIsShortEnoughToWrite(t *testing.T) {
	text := chapterOf(t, assess.Of(demo.Weekender()), report.TapeList)
	require.Contains(t, text, "L01A FOH conso")
	require.NotContains(t, text, "L01A FOH console")
	p := field(t)
	p, err := plan.Do(p, nil, func(e *plan.Edit) error {
		for link := range e.Now().Links.All() {
			return plan.Update(e, link.Key(), func(l *plan.Link) { l.Name = strings.Repeat("Ж", 60) })
		}
		return nil
	})
	require.NoError(t, err)
	require.NotEmpty(t, chapterOf(t, assess.Of(p), report.TapeList))
}
