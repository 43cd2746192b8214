package report_test

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/exchange"
	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/report"
)

// bands is a stage with a box, FOH and monitors, so many inputs, and two acts of which the second plugs its kick elsewhere
// and does without one input.
func bands(t testing.TB, inputs int) *plan.Plan {
	t.Helper()
	p := made(t, "Two bands", func(r rig) {
		box, foh, monitors := r.device("Stage left", "stage-rack-48-20", 0, 0), r.device("FOH", "console-56", 0, -60), r.device("Monitors", "console-56", 20, 0)
		r.link(ends("aes50", box, "AES50 1", foh, "AES50 1"), of("cat6a-own", 60, 10)...)
		r.link(ends("aes50", box, "AES50 2", monitors, "AES50 1"), of("cat6a-own", 40)...)
		plan.Put(r.Edit, plan.Act{ID: "n-22222", Name: "Opening band", Order: 1, Start: "18:00", End: "18:40"})
		plan.Put(r.Edit, plan.Act{ID: "n-33333", Name: "Last band", Order: 2})
		var ids []plan.InputID
		for n := range inputs {
			id := plan.InputID(fmt.Sprintf("i-%c%c%c22", plan.Signs[n/29/29], plan.Signs[n/29%29], plan.Signs[n%29]))
			plan.Put(r.Edit, plan.Input{ID: id, Number: n + 1, Name: fmt.Sprintf("Voice %d", n+1), Source: "dynamic", Stand: "tall boom", Phantom: n == 2})
			ids = append(ids, id)
		}
		require.NoError(r.t, patch.Fill(r.Edit, "", ids[:min(48, inputs)], patch.Socket{Device: box, Number: 1}, false))
		require.NoError(r.t, patch.FillChannels(r.Edit, "", foh, ids[:min(48, inputs)], 1))
		require.NoError(r.t, patch.FillChannels(r.Edit, "", monitors, ids[:4], 1))
		require.NoError(r.t, patch.Plug(r.Edit, "n-33333", ids[0], patch.Socket{Device: box, Number: 48}, true))
		patch.Strike(r.Edit, "n-33333", ids[1])
	})
	return p
}

func TestPatchByBoxAndAct(t *testing.T) {
	a := assess.Of(bands(t, 12))
	text := chapterOf(t, a, report.BoxPatch)
	require.Contains(t, text, "in 1 1 Voice 1 dynamic, tall boom 1 1")
	require.Contains(t, text, "in 3 3 Voice 3 dynamic, tall boom 48 V 3 3")
	require.Contains(t, text, "Stage left, Opening band: as in the house patch.")
	require.Contains(t, text, "13–48 free")
	require.Contains(t, text, "in 48 1 Voice 1")
}

func TestOnlyWhatChangesFromTheActBefore(t *testing.T) {
	text := chapterOf(t, assess.Of(bands(t, 12)), report.ActChanges)
	require.Contains(t, text, "Last band, after Opening band")
	require.Contains(t, text, "1 Voice 1 Stage left in 1 → FOH 1, Monitors 1")
	require.Contains(t, text, "2 Voice 2 Stage left in 2 → FOH 2, Monitors 2 not plugged")
	require.NotContains(t, text, "Voice 3")
	require.Contains(t, text, "Opening band, after House, 18:00–18:40")
	require.Contains(t, text, "Nothing changes.")
}

func TestLinesAreCalledInOrder(t *testing.T) {
	a := assess.Of(bands(t, 12))
	choice := report.ChoiceOf(a.Plan, day)
	choice.Chapters, choice.Act = []report.Chapter{report.LineCheck}, "n-33333"
	document, _ := write(t, a, choice)
	text := strings.Join(pagesOf(t, document), "\n")
	require.Contains(t, text, "1 Voice 1 dynamic, tall boom Stage left in 48 1 1")
	require.NotContains(t, text, "Voice 2 ", "it is struck")
	require.NotContains(t, text, "Opening band")
	require.Less(t, strings.Index(text, "Voice 3 "), strings.Index(text, "Voice 12 "))
}

func TestChannelsOfAConsole(t *testing.T) {
	text := chapterOf(t, assess.Of(bands(t, 12)), report.ChannelPatch)
	require.Contains(t, text, "FOH, House")
	require.Contains(t, text, "FOH, Opening band: as in the house patch.")
	require.Contains(t, text, "1 1 Voice 1 dynamic, tall boom Stage left in 1 L01 1")
}

func TestAPlanWithOneActNeverShowsTheWord(t *testing.T) {
	p, err := plan.Do(bands(t, 12), nil, func(e *plan.Edit) error {
		for row := range e.Now().ConsolePatches.All() {
			if row.Act != "" {
				plan.Drop[plan.ConsolePatch](e, row.Key())
			}
		}
		for row := range e.Now().StagePatches.All() {
			if row.Act != "" {
				plan.Drop[plan.StagePatch](e, row.Key())
			}
		}
		plan.Drop[plan.Act](e, "n-22222")
		plan.Drop[plan.Act](e, "n-33333")
		return nil
	})
	require.NoError(t, err)
	for _, chapter := range []report.Chapter{report.BoxPatch, report.ChannelPatch, report.LineCheck} {
		text := chapterOf(t, assess.Of(p), chapter)
		require.Contains(t, text, "Voice 12")
		require.NotContains(t, text, "House")
	}
}

// The sheets are read back as text: every link and input is there, figures are figures, and nothing is a formula.
func TestTheSpreadsheetHoldsWhatThePrintDoes(t *testing.T) {
	p, err := plan.Do(bands(t, 12), nil, func(e *plan.Edit) error {
		for link := range e.Now().Links.All() {
			return plan.Update(e, link.Key(), func(l *plan.Link) { l.Note = "=1+1" })
		}
		return nil
	})
	require.NoError(t, err)
	a := assess.Of(p)
	book := report.Spreadsheet(a)
	rows := map[string]int{}
	for _, sheet := range book.Sheets {
		rows[sheet.Name] = len(sheet.Rows)
		for _, row := range sheet.Rows {
			require.Len(t, row, len(sheet.Columns), sheet.Name)
		}
	}
	require.Equal(t, p.Links.Len(), rows["Links"])
	require.Equal(t, 3*12, rows["Patch"], "three acts, the house among them")
	var first, second bytes.Buffer
	require.NoError(t, exchange.WriteXLSX(&first, book))
	require.NoError(t, exchange.WriteXLSX(&second, report.Spreadsheet(assess.Of(p))))
	require.Equal(t, first.Bytes(), second.Bytes())
	read, err := exchange.Read("workbook.xlsx", &first)
	require.NoError(t, err)
	require.Len(t, read.Grids, len(book.Sheets))
	require.Equal(t, "L01", read.Grids[1].Rows[1][0])
	var csv bytes.Buffer
	require.NoError(t, exchange.WriteCSV(&csv, book.Sheets[1], exchange.Comma))
	require.Contains(t, csv.String(), "'=1+1")
}
