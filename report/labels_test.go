package report_test

import (
	"cmp"
	"fmt"
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
		{"wider than the paper", func(s *report.LabelSheet) { s.Columns = 3 }, "the sheet is 210 × 297 mm"},
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
	read := map[string]bool{}
	for i := range labels {
		place := i % sheet.Count()
		pixels := func(mm float64) string { return fmt.Sprintf("%.0f", mm/25.4*dots) }
		x := sheet.Left + float64(place%sheet.Columns)*(sheet.Width+sheet.GapX)
		y := sheet.Top + float64(place/sheet.Columns)*(sheet.Height+sheet.GapY)
		crop := filepath.Join(folder, fmt.Sprintf("label%d", i))
		page := fmt.Sprint(i/sheet.Count() + 1)
		out, err := exec.Command("pdftoppm", "-r", fmt.Sprint(dots), "-f", page, "-l", page, "-singlefile", "-gray", "-png",
			"-x", pixels(x), "-y", pixels(y), "-W", pixels(sheet.Width/2), "-H", pixels(sheet.Height), path, crop).CombinedOutput()
		require.NoError(t, err, string(out))
		said, err := exec.Command("zbarimg", "--quiet", "--raw", "-Sdisable", "-Sqrcode.enable", crop+".png").Output()
		require.NoError(t, err, "label %d is not read", i)
		text := strings.TrimSpace(string(said))
		require.False(t, read[text], "%q is on two labels", text)
		read[text] = true
		link, end, _ := strings.Cut(text, " ")
		require.True(t, links[link], text)
		require.Regexp(t, `^(A|B|J\d+[AB])$`, end)
		require.LessOrEqual(t, len(text), 14)
	}
	require.Len(t, read, labels)
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
