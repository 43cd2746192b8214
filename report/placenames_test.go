package report_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/checks"
	"stageloom/model/plan"
	"stageloom/report"
)

// odd is the field with figures that are found odd of a reel without a tag, one with a tag, and a line of the house.
func odd(t *testing.T) *plan.Plan {
	p, err := plan.Do(field(t), plan.NewIDSource(5, 5), func(e *plan.Edit) error {
		e.AddReel(plan.Reel{Kind: "cat6a-own", Length: 12.5, Measured: plan.Some(150)})
		e.AddReel(plan.Reel{Tag: "6A-77", Kind: "cat6a-own", Length: 20, Measured: plan.Some(140)})
		return plan.Update(e, "h-22222", func(l *plan.HouseLine) {
			l.FromPanel, l.ToPanel, l.Measured = "Panel A", "Panel B", plan.Some(130)
		})
	})
	require.NoError(t, err)
	return p
}

// flatOf is the text of one chapter in one line.
func flatOf(t *testing.T, a *assess.Assessment, chapter report.Chapter) string {
	t.Helper()
	choice := report.ChoiceOf(a.Plan, day)
	choice.Chapters, choice.Paper = []report.Chapter{chapter}, "A3" // no row is parted by the end of a page
	document, done := write(t, a, choice)
	return readPrint(t, document, done)[done.Entries[0].Name]
}

func TestWhatIsFoundIsToldWithTheNameOfWhatItIsAbout(t *testing.T) {
	p := odd(t)
	text := flatOf(t, assess.Of(p), report.FindingsList)
	kind, found := p.CableKinds.Get("cat6a-own")
	require.True(t, found)
	for sentence, said := range map[string]string{
		"a reel with a tag":          "6A-77 reel 6A-77 was measured at 140.0 dB",
		"a reel without one":         "12.5 m " + kind.Name,
		"a line of the house":        "house line H1 house line H1 was measured at 130.0 dB",
		"an area":                    "Walk Walk",
		"a link, and its two ends":   "L01, Stage left to FOH",
		"another link, and its ends": "L04, Stage right to Monitors",
	} {
		require.Contains(t, text, said, sentence)
	}
	for _, id := range []string{"r-22222", "h-22222", "a-33333", "cat6a-own"} {
		require.NotContains(t, text, id, "no id is printed")
	}
}

func TestTheVenueIsAskedForItsLinesByName(t *testing.T) {
	text := flatOf(t, assess.Of(odd(t)), report.VenueSheet)
	lines := section(text, "House lines wanted", "Questions to the venue")
	require.Regexp(t, `H1 Panel A Panel B 40 m .+ L03`, lines)
	crossings := section(text, "What cables cross", "Copper between", "House lines wanted", "Questions to the venue")
	require.Regexp(t, fmt.Sprintf(`Walk \(walkway\) 5 %.0f Ramps or covers`, math.Ceil(4*math.Hypot(64, 44)/44)), crossings, "five ways over 4 m, the longest aslant, 64 m over and 44 m down")
	require.NotContains(t, crossings, "Stage (stage)", "on a stage cables lie as they do")
}

func TestEachFindingStandsOnceTheWorstFirst(t *testing.T) {
	a := assess.Of(odd(t))
	text := flatOf(t, a, report.FindingsList)
	groups := map[checks.Severity]string{checks.Stop: "Stop: does not work", checks.Warn: "Warn: works", checks.Note: "Note: worth knowing"}
	require.Less(t, strings.Index(text, groups[checks.Stop]), strings.Index(text, groups[checks.Warn]), "the worst come first")
	require.Less(t, strings.Index(text, groups[checks.Warn]), strings.Index(text, groups[checks.Note]))
	under := map[checks.Severity]string{
		checks.Stop: section(text, groups[checks.Stop], groups[checks.Warn], groups[checks.Note]),
		checks.Warn: section(text, groups[checks.Warn], groups[checks.Note]),
		checks.Note: section(text, groups[checks.Note], groups[checks.Stop], groups[checks.Warn]),
	}
	counts := map[checks.Severity]int{}
	for _, finding := range a.Findings {
		counts[finding.Severity]++
		said := strings.Join(strings.Fields(finding.What+" "+finding.Remedy), " ")
		require.Equal(t, 1, strings.Count(text, said), said)
		require.Contains(t, under[finding.Severity], said, "among those of its severity")
	}
	front := strings.Join(strings.Fields(packOf(t, a, report.Engineer)[0]), " ")
	require.Greater(t, counts[checks.Stop], 1)
	require.Contains(t, front, fmt.Sprintf("%d findings stop the show", counts[checks.Stop]))
	for severity, group := range groups {
		require.Positive(t, counts[severity], "the plan has some of each")
		require.Regexp(t, fmt.Sprintf(`%s[^(]*\(%d\)`, group, counts[severity]), text)
	}
}
