package report_test

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/demo"
	"stageloom/model/demo/demotest"
	"stageloom/model/goldentest"
	"stageloom/model/plan"
	"stageloom/report"
)

// tool runs an outside program on a document; FILE among the arguments stands for it.
func tool(t *testing.T, document []byte, name string, arguments ...string) string {
	t.Helper()
	program, err := exec.LookPath(name)
	if errors.Is(err, exec.ErrNotFound) && os.Getenv("STAGELOOM_TOOLS") != "required" {
		t.Skipf("%s is not installed", name)
	}
	require.NoError(t, err)
	path := filepath.Join(t.TempDir(), "print.pdf")
	require.NoError(t, os.WriteFile(path, document, 0o600))
	for i, argument := range arguments {
		if argument == "FILE" {
			arguments[i] = path
		}
	}
	out, err := exec.Command(program, arguments...).CombinedOutput()
	require.NoError(t, err, string(out))
	return string(out)
}

// pagesOf returns the text of each page as another program reads it, no-break spaces as spaces.
func pagesOf(t *testing.T, document []byte) []string {
	t.Helper()
	text := strings.ReplaceAll(tool(t, document, "pdftotext", "-raw", "FILE", "-"), "\u00a0", " ")
	return strings.Split(strings.TrimSuffix(text, "\f"), "\f")
}

// chapterOf returns the text of one chapter.
func chapterOf(t *testing.T, a *assess.Assessment, chapter report.Chapter) string {
	t.Helper()
	choice := report.ChoiceOf(a.Plan, day)
	choice.Chapters = []report.Chapter{chapter}
	document, _ := write(t, a, choice)
	return strings.Join(pagesOf(t, document), "\n")
}

// A change of this master is read line by line before it is accepted.
func TestTheTextOfAField(t *testing.T) {
	a := assess.Of(field(t))
	choice := report.ChoiceOf(a.Plan, day)
	choice.Packs = report.Packs()
	document, done := write(t, a, choice)
	var out strings.Builder
	for i, page := range pagesOf(t, document) {
		fmt.Fprintf(&out, "==== page %d of %d\n%s", i+1, done.Pages, page)
	}
	goldentest.Text(t, filepath.Join("testdata", "field.txt"), out.String())
}

func TestPrintsAreSound(t *testing.T) {
	for _, c := range []struct {
		sentence string
		plan     *plan.Plan
	}{
		{"no link", plan.New("Empty")},
		{"a handful of links", field(t)},
		{"names that are hard to print", nastyField(t)},
		{"a festival", demo.Weekender()},
		{"every grade and case", demotest.Grades()},
	} {
		for _, size := range []string{"A4", "A3", "Letter"} {
			t.Run(c.sentence+" on "+size, func(t *testing.T) {
				choice := report.ChoiceOf(c.plan, day)
				choice.Paper, choice.Grey, choice.Chapters = size, size == "Letter", report.Chapters()
				document, done := write(t, assess.Of(c.plan), choice)
				require.Contains(t, tool(t, document, "qpdf", "--check", "FILE"), "No syntax or stream encoding errors")
				requireFramed(t, document)
				require.Len(t, done.Entries, len(report.Chapters()))
				require.Equal(t, done.Pages, strings.Count(tool(t, document, "pdftotext", "-bbox", "FILE", "-"), "<page "))
			})
		}
	}
}

var wordBox = regexp.MustCompile(`<word xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">(.*)</word>`)

// requireFramed looks at the boxes of words as another program sees them: none lies on another or outside the frame, in
// chapters that the book sets. Words of the plan's pages are judged where they are laid out.
func requireFramed(t *testing.T, document []byte) {
	t.Helper()
	for number, page := range strings.Split(tool(t, document, "pdftotext", "-bbox", "FILE", "-"), "<page ")[1:] {
		var width, height float64
		_, err := fmt.Sscanf(strings.ReplaceAll(page, `"`, " "), "width= %f height= %f", &width, &height)
		require.NoError(t, err)
		var boxes [][4]float64
		var words []string
		drawing := strings.Contains(page, ">Plan,</word>") || !strings.Contains(page, ">Page</word>") // a sheet of labels has no strip
		for _, found := range wordBox.FindAllStringSubmatch(page, -1) {
			var b [4]float64
			for i := range b {
				b[i], err = strconv.ParseFloat(found[i+1], 64)
				require.NoError(t, err)
			}
			middle := (b[1] + b[3]) / 2
			// Only the middle of the height: the ink of letters, not their leading.
			b[1], b[3] = middle-(b[3]-b[1])*0.3, middle+(b[3]-b[1])*0.3
			if !drawing && (b[0] < 15/report.PointMM || b[2] > width-8/report.PointMM || b[3] > height-8/report.PointMM) {
				require.Failf(t, "out of the frame", "page %d: %q", number+1, found[5])
			}
			for i, other := range boxes {
				wide, high := min(b[2], other[2])-max(b[0], other[0]), min(b[3], other[3])-max(b[1], other[1])
				if !drawing && wide > 1 && high > 1 { // no require for each of a million pairs
					require.Failf(t, "one lies on another", "page %d: %q lies on %q", number+1, found[5], words[i])
				}
			}
			boxes, words = append(boxes, b), append(words, found[5])
		}
	}
}

func TestStringsThatNoPlanFileHoldsArePrintedToo(t *testing.T) {
	for _, name := range []string{"a\x00b", "\xff\xfe", strings.Repeat("Long ", 2000), strings.Repeat("W", 10_000), "\u202eevil", ""} {
		p := *field(t)
		p.Settings.Name, p.Settings.Site, p.Settings.Revision = name, name, name
		a := assess.Of(&p)
		document, done := write(t, a, report.ChoiceOf(&p, day))
		require.Contains(t, tool(t, document, "qpdf", "--check", "FILE"), "No syntax or stream encoding errors")
		require.Positive(t, done.Pages)
	}
}

func TestWhatIsPrintedOtherwiseIsSaid(t *testing.T) {
	a := assess.Of(nastyField(t))
	document, done := write(t, a, report.ChoiceOf(a.Plan, day))
	require.NotEmpty(t, done.Notices, "the packs lay and engineer say it where they end")
	pages := pagesOf(t, document)
	require.Contains(t, strings.Join(pages, "\n"), "Printed otherwise than typed")
}

func TestEveryLinkIsInScheduleAndBudget(t *testing.T) {
	for _, p := range []*plan.Plan{field(t), demo.Weekender(), demotest.Grades(), many(t, 2000)} {
		a := assess.Of(p)
		schedule, sums := chapterOf(t, a, report.CableSchedule), chapterOf(t, a, report.LinkBudget)
		inSchedule, inBudget := lineStarts(schedule), lineStarts(sums)
		for link := range p.Links.All() {
			require.True(t, inSchedule[link.Name], "%s is in no row of the schedule of %s", link.Name, p.Settings.Name)
			require.True(t, inBudget[link.Name], "%s is in no row of the budget of %s", link.Name, p.Settings.Name)
		}
	}
}

// lineStarts returns the words that begin a line.
func lineStarts(text string) map[string]bool {
	starts := map[string]bool{}
	for _, line := range strings.Split(text, "\n") {
		word, _, _ := strings.Cut(line, " ")
		starts[word] = true
	}
	return starts
}

func TestTheKeyListSaysOnWhichPartALinkIs(t *testing.T) {
	p := demotest.Large(1)
	a := assess.Of(p)
	text := chapterOf(t, a, report.SitePlan)
	_, list, found := strings.Cut(text, "Links drawn on the plan without their label")
	require.True(t, found)
	_, unnamed, _, err := report.Pages(a, report.ChoiceOf(p, day))
	require.NoError(t, err)
	for _, id := range unnamed {
		link, _ := p.Link(id)
		require.Regexp(t, `(?m)^`+link.Name+` .* \d+(, \d+)*$`, list)
	}
}

func TestTwoThousandLinksOnAPlan(t *testing.T) {
	a := assess.Of(many(t, 2000))
	choice := report.ChoiceOf(a.Plan, day)
	choice.Chapters = []report.Chapter{report.SitePlan}
	document, _ := write(t, a, choice)
	text := strings.Join(pagesOf(t, document), "\n")
	for link := range a.Plan.Links.All() {
		require.Contains(t, text, link.Name)
	}
}

// The scale bar is measured on the sheet: its figures stand where its ends are.
func TestTheScaleBarIsAsLongAsItSays(t *testing.T) {
	for _, size := range []string{"A4", "A3", "Letter"} {
		a := assess.Of(field(t))
		choice := report.ChoiceOf(a.Plan, day)
		choice.Paper, choice.Chapters = size, []report.Chapter{report.SitePlan}
		document, _ := write(t, a, choice)
		page := tool(t, document, "pdftotext", "-bbox", "FILE", "-")
		scale := regexp.MustCompile(`>1</word>\s*<word[^>]*>:</word>\s*<word[^>]*>(\d+)</word>\s*<word[^>]*>on</word>`).FindStringSubmatch(page)
		require.NotNil(t, scale)
		denominator, _ := strconv.ParseFloat(scale[1], 64)
		var nought, half float64
		var metres float64
		found := wordBox.FindAllStringSubmatch(page, -1)
		for i, word := range found[:len(found)-1] {
			left, _ := strconv.ParseFloat(word[1], 64)
			right, _ := strconv.ParseFloat(word[3], 64)
			if figure, err := strconv.ParseFloat(found[i+1][5], 64); word[5] == "0" && err == nil && nought == 0 {
				nought, metres = (left+right)/2, figure
				nextLeft, _ := strconv.ParseFloat(found[i+1][1], 64)
				nextRight, _ := strconv.ParseFloat(found[i+1][3], 64)
				half = (nextLeft + nextRight) / 2
			}
		}
		require.Positive(t, metres, "the bar has a 0 and a figure after it")
		require.InDelta(t, metres*1000/denominator, (half-nought)*report.PointMM, 0.15, size)
	}
}

func TestAPrintThatIsCalledOffHalfwayLeavesNoFile(t *testing.T) {
	a := assess.Of(demo.Weekender())
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	choice := report.ChoiceOf(a.Plan, day)
	var told []string
	choice.Progress = func(page, pages int) {
		told = append(told, fmt.Sprintf("%d of %d", page, pages))
		if page == 3 {
			stop()
		}
	}
	path := filepath.Join(t.TempDir(), "off.pdf")
	_, err := report.Print(ctx, path, a, choice)
	require.ErrorIs(t, err, context.Canceled)
	require.NoFileExists(t, path)
	require.Len(t, told, 3)
	require.Regexp(t, `^1 of \d+$`, told[0])
}

// The schedule is for the crew: ids of 14 points, no text under 9 but the strip's and the scale's.
func TestTheCrewsTypeIsLarge(t *testing.T) {
	a := assess.Of(field(t))
	choice := report.ChoiceOf(a.Plan, day)
	choice.Uncompressed, choice.Chapters = true, []report.Chapter{report.CableSchedule}
	document, _ := write(t, a, choice)
	counts := map[string]int{}
	for _, size := range regexp.MustCompile(` (\d+\.\d+) Tf`).FindAllStringSubmatch(string(document), -1) {
		counts[size[1]]++
	}
	require.GreaterOrEqual(t, counts["14.00"], a.Plan.Links.Len())
	require.Greater(t, counts["11.00"], 4*a.Plan.Links.Len())
	require.LessOrEqual(t, counts["8.00"], 0)
}
