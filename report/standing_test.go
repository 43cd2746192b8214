package report_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/demo"
	"stageloom/model/exchange"
	"stageloom/model/plan"
	"stageloom/model/planfile"
	"stageloom/report"
)

// everyPage prints all packs and the labels on a sheet, and returns the text of each page.
func everyPage(t *testing.T, p *plan.Plan, sheet report.LabelSheet, paper string) []string {
	t.Helper()
	a := assess.Of(p)
	choice := report.ChoiceOf(p, day)
	choice.Packs, choice.Labels, choice.Paper = report.Packs(), sheet, paper
	document, _ := write(t, a, choice)
	return pagesOf(t, document)
}

func TestWhatWasNotIssuedSaysSoOnEveryPage(t *testing.T) {
	full, err := report.ReadLabelSheet("3x8,70x37,0,0.5,0,0", "A4")
	require.NoError(t, err)
	issued, err := planfile.Seal(demo.Weekender(), "A", "2026-06-01", "first")
	require.NoError(t, err)
	tested, err := plan.Do(issued, nil, func(e *plan.Edit) error {
		for link := range issued.Links.All() {
			if len(issued.SegmentsOf(link.ID)) > 0 {
				return e.MarkDone(link.ID, plan.Tested, true)
			}
		}
		return nil
	})
	require.NoError(t, err)
	for name, c := range map[string]struct {
		plan   *plan.Plan
		sheet  report.LabelSheet
		paper  string
		marked bool
	}{
		"a draft":                               {demo.Weekender(), report.LabelSheet{}, "A4", true},
		"changes, on labels that fill a sheet":  {moved(t), full, "A4", true},
		"changes, on the large paper":           {moved(t), report.LabelSheet{}, "A3", true},
		"what was issued":                       {issued, report.LabelSheet{}, "Letter", false},
		"what was issued, with its marks on it": {tested, full, "A4", false},
	} {
		t.Run(name, func(t *testing.T) {
			for i, page := range everyPage(t, c.plan, c.sheet, c.paper) {
				require.Equal(t, c.marked, strings.Contains(page, "not issued"), "page %d", i+1)
				if !c.marked && c.sheet != full {
					require.Contains(t, page, "issued 2026-06-01", "page %d", i+1)
				}
			}
		})
	}
}

func TestTheSpreadsheetSaysHowThePlanStands(t *testing.T) {
	sheet := report.Spreadsheet(assess.Of(moved(t))).Sheets[0]
	require.Equal(t, "Plan", sheet.Name)
	require.Contains(t, sheet.Rows, []exchange.Cell{exchange.Text("Revision"), exchange.Text("A + changes, not issued")})
	require.Contains(t, sheet.Rows, []exchange.Cell{exchange.Text("Issue date"), exchange.Text("2026-06-01")})
	require.Contains(t, sheet.Rows, []exchange.Cell{exchange.Text("Show date"), exchange.Text("2027-06-18")})
}
