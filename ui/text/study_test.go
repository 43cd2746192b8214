package text_test

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"stageloom/model/budget"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/demo"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/text"
)

// studied is a study as a person reads it.
func studied(s text.Study) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n%s\n", s.Title, s.Subtitle)
	if s.Hint != "" {
		fmt.Fprintf(&b, "%s\n", s.Hint)
	}
	for _, row := range s.Reaches {
		mark := " "
		if row.Used {
			mark = "*"
		}
		fmt.Fprintf(&b, "%s %-34s", mark, row.Kind)
		for _, cell := range row.Cells {
			serves := " "
			if cell.Serves {
				serves = "+"
			}
			fmt.Fprintf(&b, " %11s%s", cell.Words, serves)
		}
		fmt.Fprintln(&b)
	}
	fmt.Fprintln(&b, s.ReachNote)
	for _, f := range append(s.Changes, s.Advice...) {
		fmt.Fprintf(&b, "%-20s %10s   %s\n", f.Name, f.Value, f.Note)
	}
	return b.String()
}

func TestTheStudyOfALink(t *testing.T) {
	p := demo.Weekender()
	a := assess.Of(p)
	for name, test := range map[string]struct {
		link  string
		units words.Units
	}{
		"tight": {"L02", words.Units{}}, "over": {"L03", words.Units{}}, "uncabled": {"L20", words.Units{}},
		"no-grade": {"L25", words.Units{}}, "in-feet": {"L02", imperial},
	} {
		t.Run(name, func(t *testing.T) {
			golden(t, "study-"+name, studied(text.StudyOf(a, plan.LinkID(linkNamed(p, test.link).Key), test.units)))
		})
	}
}

func TestEveryFigureOfAStudySaysWhatItIs(t *testing.T) {
	p := demo.Weekender()
	s := text.StudyOf(assess.Of(p), plan.LinkID(linkNamed(p, "L02").Key), words.Units{})
	require.NotEmpty(t, s.Advice)
	for _, f := range s.Advice {
		require.Regexp(t, `computed|from catalogue limits|catalogue maxima|Judgement`, f.Note, f.Name)
	}
	require.Contains(t, s.ReachNote, "computed from catalogue maxima")
}

func TestPrintedNEXTLessPrintedLossIsThePrintedACR(t *testing.T) {
	p := demo.Weekender()
	a := assess.Of(p)
	figure := regexp.MustCompile(`[−\d.]+`)
	tenths := func(said string) float64 {
		value, err := strconv.ParseFloat(strings.ReplaceAll(figure.FindString(said), "−", "-"), 64)
		require.NoError(t, err, said)
		return math.Round(value * 10)
	}
	checked := 0
	for link := range p.Links.All() {
		told := map[string]text.Figure{}
		for _, f := range text.StudyOf(a, link.ID, words.Units{}).Advice {
			told[f.Name] = f
		}
		if told["NEXT, likely"].Value == "" {
			continue
		}
		checked++
		b, _ := a.Budget(link.ID)
		loss := tenths(budget.LossTenths(b.LossDB))
		require.Equal(t, tenths(told["NEXT, likely"].Value)-loss, tenths(told["ACR-N, likely"].Value), link.Name)
		require.Equal(t, tenths(told["NEXT, likely"].Note)-loss, tenths(told["ACR-N, likely"].Note), link.Name)
	}
	require.Greater(t, checked, 5)
}
