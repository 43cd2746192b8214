package report_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/cabling"
	"stageloom/model/demo"
	"stageloom/model/geom"
	"stageloom/model/plan"
	"stageloom/model/planfile"
	"stageloom/report"
)

// packOf returns the text of one pack, page by page.
func packOf(t *testing.T, a *assess.Assessment, pack report.Pack) []string {
	t.Helper()
	choice := report.ChoiceOf(a.Plan, day)
	choice.Packs = []report.Pack{pack}
	document, _ := write(t, a, choice)
	return pagesOf(t, document)
}

func TestEveryPackBeginsWithAFrontPageThatListsItsChapters(t *testing.T) {
	a := assess.Of(demo.Weekender())
	for _, pack := range report.Packs() {
		t.Run(string(pack), func(t *testing.T) {
			choice := report.ChoiceOf(a.Plan, day)
			choice.Packs = []report.Pack{pack}
			document, done := write(t, a, choice)
			front := strings.Split(pagesOf(t, document)[0], "\n")
			name, reader := pack.Name()
			require.Contains(t, front, name+" pack")
			require.Contains(t, front, reader+".")
			require.Len(t, done.Entries, 1+len(pack.Chapters()), "the demo has something for every chapter")
			for _, entry := range done.Entries[1:] {
				chapter, found := strings.CutPrefix(entry.Name, name+": ")
				require.True(t, found)
				require.Contains(t, front, fmt.Sprintf("%s %d", chapter, entry.Page))
			}
		})
	}
}

func TestPacksThatArePrintedTogetherComeOneBehindTheOther(t *testing.T) {
	a := assess.Of(demo.Weekender())
	choice := report.ChoiceOf(a.Plan, day)
	choice.Packs = []report.Pack{report.Strike, report.Lay}
	_, done := write(t, a, choice)
	last := 0
	var packs []string
	for _, entry := range done.Entries {
		require.Greater(t, entry.Page, last)
		last = entry.Page
		if name, whole := strings.CutSuffix(entry.Name, " pack"); whole {
			packs = append(packs, name)
		}
	}
	require.Equal(t, []string{"Lay", "Strike"}, packs)
}

func TestTheScheduleSaysWhatIsDoneOnSiteAlready(t *testing.T) {
	said := func(p *plan.Plan) string { return strings.Join(packOf(t, assess.Of(p), report.Lay), "\n") }
	p := demo.Weekender()
	require.NotContains(t, said(p), "joined ?")
	p, err := plan.Do(p, nil, func(e *plan.Edit) error {
		for link := range p.Links.All() {
			if link.Name == "L01" {
				link.Done, link.Moved = plan.Joined, true
				plan.Put(e, link)
			}
		}
		return nil
	})
	require.NoError(t, err)
	require.Contains(t, strings.ReplaceAll(said(p), "\u00a0", " "), "joined ?")
}

func TestEveryReelIsPulledAndComesBack(t *testing.T) {
	a := assess.Of(demo.Weekender())
	prep, strike := strings.Join(packOf(t, a, report.Prep), "\n"), strings.Join(packOf(t, a, report.Strike), "\n")
	tags := 0
	for segment := range a.Plan.Segments.All() {
		reel, found := a.Plan.Reels.Get(plan.Key(segment.Reel))
		if !found || segment.Reel == "" || reel.Tag == "" {
			continue
		}
		tags++
		require.Contains(t, prep, "\n"+reel.Tag+" ", "pulled")
		require.Contains(t, strike, reel.Tag+" ", "taken up")
	}
	require.Greater(t, tags, 20)
	for _, link := range a.Links() {
		require.Contains(t, strike, "\n"+link.Name+" ")
	}
}

// What is held back says which link at which position it can replace.
func TestThePullListSaysWhatASpareCanReplace(t *testing.T) {
	a := assess.Of(demo.Weekender())
	prep := strings.Join(strings.Fields(strings.Join(packOf(t, a, report.Prep), "\n")), " ")
	said := 0
	for _, held := range cabling.HeldBack(a.Plan) {
		if held.Reel != "" {
			said++
			require.Contains(t, prep, held.LinkName+" at ")
		}
	}
	require.Positive(t, said)
	require.Contains(t, prep, "Can replace")
}

func TestWhatCrossesTheGroundIsCoveredAndAgreed(t *testing.T) {
	a := assess.Of(demo.Weekender())
	ramps, venue := strings.Join(packOf(t, a, report.Prep), "\n"), strings.Join(packOf(t, a, report.Venue), "\n")
	for _, finding := range a.Findings {
		if finding.Rule != "crossing" {
			continue
		}
		area, _ := a.Plan.Areas.Get(finding.Where[0].Key)
		first, _, _ := strings.Cut(area.Name, " ")
		require.Regexp(t, `(?m)^`+first+`\b`, ramps)
		require.Regexp(t, `(?m)^`+first+`\b`, venue)
	}
}

// moved is the demo issued as revision A, then with its FOH tower moved and one link laid otherwise.
func moved(t *testing.T) *plan.Plan {
	t.Helper()
	p, err := planfile.Seal(demo.Weekender(), "A", "2026-06-01", "first")
	require.NoError(t, err)
	p, err = plan.Do(p, plan.NewIDSource(3, 4), func(e *plan.Edit) error {
		for position := range e.Now().Positions.All() {
			if position.Name == "FOH tower" {
				e.Move(plan.MovingWith(e.Now(), nil, []plan.PositionID{position.ID}), geom.Pt(30, 0))
			}
		}
		for link := range e.Now().Links.All() {
			if link.Name == "L10" {
				e.SetSegments(link.ID, []plan.Segment{{Kind: "cat6", Length: 30}})
			}
		}
		s := e.Now().Settings
		s.Revision = "B"
		e.SetSettings(s)
		return nil
	})
	require.NoError(t, err)
	return p
}

func TestTheFrontPageSaysWhatChangedFirst(t *testing.T) {
	front := packOf(t, assess.Of(moved(t)), report.Lay)[0]
	require.Contains(t, front, "Changed since revision A of 2026-06-01")
	require.Contains(t, front, "FOH tower (position) moved 30.0 m right; ")
	require.Contains(t, front, "L10 (link): cables now 30 m of Cat 6")
	require.Less(t, strings.Index(front, "Changed since"), strings.Index(front, "How the plan stands"))
}

func TestOnlyWhatChangedAndOnlyOnePosition(t *testing.T) {
	p := moved(t)
	a := assess.Of(p)
	choice := report.ChoiceOf(p, day)
	choice.Chapters, choice.Changed = []report.Chapter{report.CableSchedule}, true
	document, _ := write(t, a, choice)
	starts := lineStarts(strings.Join(pagesOf(t, document), "\n"))
	for link := range p.Links.All() {
		require.Equal(t, link.Name == "L10", starts[link.Name], link.Name)
	}
	choice.Changed = false
	for position := range p.Positions.All() {
		choice.Position = position.ID
		document, _ := write(t, a, choice)
		starts := lineStarts(strings.Join(pagesOf(t, document), "\n"))
		for link := range p.Links.All() {
			from, _ := p.Device(link.From)
			to, _ := p.Device(link.To)
			require.Equal(t, from.Position == position.ID || to.Position == position.ID, starts[link.Name], "%s at %s", link.Name, position.Name)
		}
	}
}

func TestRunsAreDrawnWithTheirJoinsAndRamps(t *testing.T) {
	a := assess.Of(demo.Weekender())
	text := chapterOf(t, a, report.RunDrawings)
	for _, b := range a.Budgets {
		if b.Joins > 0 {
			require.Contains(t, text, b.Name+" ")
		}
	}
	require.Contains(t, text, "join 1 at 70 m")
	require.Contains(t, text, "walkway: Cross aisle, about ")
	require.Contains(t, text, "over limit by 2.0 dB: do not use")
}

func TestLoomsAreToldInTheOrderOfTheirRoute(t *testing.T) {
	text := chapterOf(t, assess.Of(demo.Weekender()), report.LoomSheets)
	require.Contains(t, text, "Loom FOH lane, red")
	require.Less(t, strings.Index(text, "Stage rack: L01 join"), strings.Index(text, "FOH console: L01, L02, L03 drop off"))
}

func TestThePlanMayLieOnLargerPaperThanTheRest(t *testing.T) {
	a := assess.Of(demo.Weekender())
	choice := report.ChoiceOf(a.Plan, day)
	choice.Packs, choice.PlanPaper = []report.Pack{report.Lay}, "A3"
	document, _ := write(t, a, choice)
	sizes := tool(t, document, "pdfinfo", "-f", "1", "-l", "99", "FILE")
	require.Contains(t, sizes, "(A3)")
	require.Contains(t, sizes, "(A4)")
	requireFramed(t, document)
	choice.PlanPaper = "B5"
	_, err := report.Write(t.Context(), &strings.Builder{}, a, choice)
	require.ErrorContains(t, err, "choose A4, A3 or Letter")
}
