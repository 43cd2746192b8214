package report_test

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/plan"
	"stageloom/report"
)

// codesOf reads the code of each of the first labels of a document with an outside reader, from one label at a time as a
// printer of 150 dots an inch gives it.
func codesOf(t *testing.T, document []byte, sheet report.LabelSheet, labels int) (codes []string) {
	t.Helper()
	if _, err := exec.LookPath("zbarimg"); err != nil && os.Getenv("STAGELOOM_TOOLS") != "required" {
		t.Skip("zbarimg is not installed")
	}
	folder := t.TempDir()
	path := filepath.Join(folder, "labels.pdf")
	require.NoError(t, os.WriteFile(path, document, 0o600))
	const dots = 150
	pixels := func(mm float64) int { return int(math.Round(mm / 25.4 * dots)) }
	var page image.Image
	for i := range labels {
		place := i % sheet.Count()
		if place == 0 {
			page = rastered(t, path, i/sheet.Count()+1, dots)
		}
		corner := image.Pt(pixels(sheet.Left+float64(place%sheet.Columns)*(sheet.Width+sheet.GapX)),
			pixels(sheet.Top+float64(place/sheet.Columns)*(sheet.Height+sheet.GapY)))
		var label bytes.Buffer
		require.NoError(t, png.Encode(&label, page.(interface {
			SubImage(image.Rectangle) image.Image
		}).SubImage(image.Rectangle{corner, corner.Add(image.Pt(pixels(sheet.Width), pixels(sheet.Height)))})))
		picture := filepath.Join(folder, fmt.Sprintf("label%02d.png", i))
		require.NoError(t, os.WriteFile(picture, label.Bytes(), 0o600))
		said, err := exec.Command("zbarimg", "--quiet", "--raw", "-Sdisable", "-Sqrcode.enable", picture).Output()
		require.NoError(t, err, "label %d holds no code that is read", i+1)
		codes = append(codes, strings.TrimSuffix(string(said), "\n"))
	}
	return codes
}

func TestTheCodeOfAReelIsItsTagAlone(t *testing.T) {
	s := warehouse(t, 31, 24)
	var tags, boxes []string
	for reel := range s.Plan.Reels.All() {
		switch {
		case reel.State == "written_off":
		case reel.TiedInto != "" && !slices.Contains(tags, reel.TiedInto):
			tags = append(tags, reel.TiedInto)
		case reel.TiedInto == "" && reel.Tag != "":
			tags = append(tags, reel.Tag)
		}
	}
	for box := range s.Plan.Cases.All() {
		boxes = append(boxes, box.Name)
	}
	slices.Sort(boxes)
	for paper, sheet := range map[string]report.LabelSheet{
		"A4":     report.LabelSheetFor("A4"),
		"Letter": report.LabelSheetFor("Letter"),
		"A3":     {Columns: 4, Rows: 8, Width: 45, Height: 22, Left: 10, Top: 20, GapX: 2, GapY: 2}, // the smallest labels
	} {
		document, _, _ := houseText(t, s, report.HouseChoice{Paper: paper, Sheets: []report.HouseSheet{report.HouseReelLabels}, Labels: sheet})
		require.ElementsMatch(t, tags, codesOf(t, document, sheet, len(tags)), paper)
		document, _, _ = houseText(t, s, report.HouseChoice{Paper: paper, Sheets: []report.HouseSheet{report.HouseCaseLabels}, Labels: sheet})
		require.Equal(t, boxes, codesOf(t, document, sheet, len(boxes)), paper)
	}
}

func TestLabelsOfAPlansStockHaveTheSameCodes(t *testing.T) {
	p, err := plan.Do(plan.New("Labels"), plan.NewIDSource(1, 1), func(e *plan.Edit) error {
		plan.Put(e, plan.CableKind{ID: "cat", Name: "CatA", Media: "balanced-pair"})
		box := e.AddCase(plan.Case{Name: "Koffer Süd", Pieces: 4})
		for _, tag := range []string{"A-01", "кабель 7", strings.Repeat("long tag ", 20) + "end"} {
			e.AddReel(plan.Reel{Tag: tag, Kind: "cat", Length: 60.96, Case: box})
		}
		return nil
	})
	require.NoError(t, err)
	sheet := report.LabelSheetFor("A4")
	choice := report.ChoiceOf(p, day)
	choice.Labels = sheet
	choice.Chapters = []report.Chapter{report.ReelLabels}
	document, _ := write(t, assess.Of(p), choice)
	require.Contains(t, strings.Join(pagesOf(t, document), " "), "60.96 m", "the length as it is")
	require.ElementsMatch(t, []string{"A-01", "кабель 7", strings.Repeat("long tag ", 20) + "end"}, codesOf(t, document, sheet, 3))
	choice.Chapters = []report.Chapter{report.CaseLabels}
	document, _ = write(t, assess.Of(p), choice)
	require.Equal(t, []string{"Koffer Süd"}, codesOf(t, document, sheet, 1))
	require.Contains(t, strings.Join(pagesOf(t, document), " "), "Takes 4 pieces")
}
