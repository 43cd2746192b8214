package report_test

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/demo"
	"stageloom/model/plan"
	"stageloom/report"
)

// chaptersText is the text of some chapters of a plan, its white space as single blanks.
func chaptersText(t *testing.T, p *plan.Plan, chapters ...report.Chapter) string {
	t.Helper()
	choice := report.ChoiceOf(p, day)
	choice.Chapters, choice.Position = chapters, ""
	document, _ := write(t, assess.Of(p), choice)
	return regexp.MustCompile(`\s+`).ReplaceAllString(strings.Join(pagesOf(t, document), " "), " ")
}

func TestALaidSpareIsToldAsOneAndHasNoMargin(t *testing.T) {
	p := demo.Weekender()
	var graded plan.Link
	a := assess.Of(p)
	for link := range p.Links.All() {
		if b, _ := a.Budget(link.ID); b.HasMargin() && b.Missing == 0 && b.Joins > 0 && link.FromPanel == "" && link.ToPanel == "" {
			graded = link
			break
		}
	}
	require.NotEmpty(t, graded.ID, "the demo holds a joined link with a margin")
	spare, err := plan.Do(p, plan.NewIDSource(3, 3), func(e *plan.Edit) error { return e.MakeSpare(graded.ID) })
	require.NoError(t, err)
	for _, chapter := range []report.Chapter{report.SiteTests, report.LinkBudget} {
		require.NotContains(t, chaptersText(t, p, chapter), "laid spare", string(chapter))
		said := chaptersText(t, spare, chapter)
		require.Contains(t, said, "laid spare", string(chapter))
		require.Contains(t, said, "unplugged", string(chapter))
	}
	b, _ := a.Budget(graded.ID)
	require.Contains(t, chaptersText(t, p, report.RunDrawings), b.Label())
	require.Contains(t, chaptersText(t, spare, report.RunDrawings), "LAID SPARE")
	require.Contains(t, chaptersText(t, spare, report.RunDrawings), "unplugged")
}
