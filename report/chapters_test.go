package report_test

import (
	"bytes"
	"context"
	"fmt"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/catalogue"
	"stageloom/model/checks"
	"stageloom/model/demo"
	"stageloom/model/plan"
	"stageloom/report"
)

var festival = sync.OnceValue(func() *assess.Assessment { return assess.Of(demo.Weekender()) })

func TestARefusalSaysWhatIsWrongAndWhatToChoose(t *testing.T) {
	for _, c := range []struct {
		sentence string
		change   func(*report.Choice)
		said     []string
	}{
		{"a pack", func(c *report.Choice) { c.Packs = []report.Pack{report.Lay, "catering"} }, []string{`pack "catering" is not known`, "prep, lay, patch, engineer, venue, strike"}},
		{"a chapter", func(c *report.Choice) { c.Chapters = []report.Chapter{"طقس 🌧"} }, []string{`chapter "طقس 🌧" is not known`, string(report.CableSchedule)}},
		{"a position", func(c *report.Choice) { c.Position = "p-nobody" }, []string{"is not in the plan"}},
		{"an act", func(c *report.Choice) { c.Act = "n-nobody" }, []string{"is not in the plan"}},
		{"the paper of the plan", func(c *report.Choice) { c.PlanPaper = "A0" }, []string{"A0", "choose A4, A3 or Letter"}},
		{"labels wider than the sheet", func(c *report.Choice) {
			c.Chapters = []report.Chapter{report.LabelSheets}
			c.Labels = report.LabelSheetFor("A4")
			c.Labels.Columns = 3 // of 99.1 mm
		}, []string{"307.1 × 284.1 mm", "the sheet is 210 × 297 mm"}},
	} {
		t.Run(c.sentence, func(t *testing.T) {
			choice := report.ChoiceOf(festival().Plan, day)
			c.change(&choice)
			var out bytes.Buffer
			_, err := report.Write(context.Background(), &out, festival(), choice)
			require.Error(t, err)
			for _, said := range append(c.said, "Harrow Meadow Weekender") {
				require.ErrorContains(t, err, said)
			}
			require.Empty(t, out.Bytes(), "nothing is written")
		})
	}
	name, reader := report.Pack("catering").Name()
	require.Equal(t, [2]string{"catering", ""}, [2]string{name, reader})
	require.Empty(t, report.Pack("catering").Chapters())
	report.Lay.Chapters()[0] = report.StrikeSheets
	require.Equal(t, report.SitePlan, report.Lay.Chapters()[0], "what is handed out is a copy")
}

func TestAChapterBeginsOnThePageThatIsToldOfIt(t *testing.T) {
	choice := report.ChoiceOf(festival().Plan, day)
	choice.Chapters = []report.Chapter{report.CableSchedule, report.LinkBudget, report.FindingsList, report.PullList, report.StrikeSheets}
	document, done := write(t, festival(), choice)
	pages := pagesOf(t, document)
	require.Len(t, pages, done.Pages)
	require.Len(t, done.Entries, len(choice.Chapters))
	for i, entry := range done.Entries {
		require.Contains(t, pages[entry.Page-1], entry.Name)
		for page := range done.Pages {
			require.Contains(t, pages[page], fmt.Sprintf("%d of %d", page+1, done.Pages), "every page says which it is")
		}
		if i > 0 {
			require.Greater(t, entry.Page, done.Entries[i-1].Page)
			require.NotContains(t, pages[entry.Page-2], entry.Name, "the page before is another chapter's")
		}
	}
	t.Run("the schedule has a row for every link", func(t *testing.T) {
		schedule := map[string]bool{}
		for _, entry := range done.Entries {
			if strings.Contains(strings.ToLower(entry.Name), "schedule") {
				for _, page := range pages[entry.Page-1 : pageAfter(done, entry.Page)-1] {
					for _, word := range strings.Fields(page) {
						schedule[word] = true
					}
				}
			}
		}
		for link := range festival().Plan.Links.All() {
			require.True(t, schedule[link.Name], link.Name)
		}
		require.False(t, schedule["L39"])
	})
	t.Run("findings are counted by severity", func(t *testing.T) {
		count := map[checks.Severity]int{}
		for _, finding := range festival().Findings {
			count[finding.Severity]++
		}
		text := strings.Join(pages, "\n")
		for severity, head := range map[checks.Severity]string{checks.Stop: "must not be used", checks.Warn: "has to accept", checks.Note: "worth knowing"} {
			require.Contains(t, text, fmt.Sprintf("%s (%d)", head, count[severity]))
		}
	})
}

// pageAfter is the page on which the chapter behind one begins.
func pageAfter(done report.Printed, page int) int {
	for _, entry := range done.Entries {
		if entry.Page > page {
			return entry.Page
		}
	}
	return done.Pages + 1
}

func TestAPlanOfNothingOrOfOneDevicePrintsEveryChapter(t *testing.T) {
	one, err := plan.Do(plan.New("وحيد 🎤"), plan.NewIDSource(1, 1), func(e *plan.Edit) error {
		e.AddDevice(plan.Device{Name: "Lonely rack", Kind: "stage-rack-48-20"})
		return catalogue.Use(e, "stage-rack-48-20")
	})
	require.NoError(t, err)
	for name, p := range map[string]*plan.Plan{"nothing": plan.New("Nothing"), "one device": one} {
		t.Run(name, func(t *testing.T) {
			choice := report.ChoiceOf(p, day)
			choice.Chapters = report.Chapters()
			document, done := write(t, assess.Of(p), choice)
			require.Len(t, done.Entries, len(report.Chapters()))
			text := strings.Join(pagesOf(t, document), "\n")
			require.NotRegexp(t, `NaN|Inf|%!|-[0-9.]+ m\b`, text)
			require.Equal(t, p.Devices.Len() == 1, strings.Contains(text, "Lonely rack"))
		})
	}
}
