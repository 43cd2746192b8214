package report

import "stageloom/report/paper"

// Chapter names a chapter of a print.
type Chapter string

// The chapters.
const (
	PullList        Chapter = "pull"        // what leaves the cases, what is hired, couplers, ramps
	LabelSheets     Chapter = "labels"      // labels for every end and join, on sheets to stick
	TapeList        Chapter = "tape"        // what to write on tape by hand
	SitePlan        Chapter = "plan"        // the plan to a round scale
	LoomSheets      Chapter = "looms"       // what lies together, in the order of joining and dropping off
	CableSchedule   Chapter = "schedule"    // every link with its pieces, for the crew
	RunDrawings     Chapter = "runs"        // links drawn from end to end, to tick and to note tests on
	BoxPatch        Chapter = "boxes"       // every socket of a box, act by act
	ChannelPatch    Chapter = "channels"    // every channel of a console, act by act
	ActChanges      Chapter = "changes"     // only what changes from the act before
	LineCheck       Chapter = "linecheck"   // inputs in the order in which they are called out
	LinkBudget      Chapter = "budget"      // every link with loss, limit and margin, for the engineer
	FindingsList    Chapter = "findings"    // what the checks found, and what to do
	SiteTests       Chapter = "tests"       // a form for the timed tests
	VenueSheet      Chapter = "venue"       // what crosses which ground, and what is to be agreed
	CautionsList    Chapter = "cautions"    // the usual cautions
	AssumptionsList Chapter = "assumptions" // what the figures rest on
	StrikeSheets    Chapter = "strike"      // by position in reverse, and the count into the cases
)

// Chapters returns the chapters there are, in the order in which they are printed.
func Chapters() []Chapter {
	chapters := make([]Chapter, len(contents))
	for i, c := range contents {
		chapters[i] = c.chapter
	}
	return chapters
}

// content is a chapter and how it is drawn.
type content struct {
	chapter   Chapter
	name      string // on the strip and in the bookmarks
	reader    paper.Reader
	landscape bool // unless the chapter chooses for itself
	draw      func(*print, *paper.Book)
	// empty, when set, tells that a pack needs no such chapter; one that is asked for by name says so itself.
	empty func(*print) bool
}

var contents = []content{
	{chapter: PullList, name: "Pull list", draw: (*print).drawPull},
	{chapter: LabelSheets, name: "Labels", draw: (*print).drawLabels, empty: (*print).linkless},
	{chapter: TapeList, name: "Tape list", draw: (*print).drawTape, empty: (*print).linkless},
	{chapter: SitePlan, name: "Plan", landscape: true, draw: (*print).drawPlan},
	{chapter: LoomSheets, name: "Looms", draw: (*print).drawLooms, empty: (*print).loomless},
	{chapter: CableSchedule, name: "Cable schedule", landscape: true, draw: (*print).drawSchedule},
	{chapter: RunDrawings, name: "Run drawings", landscape: true, draw: (*print).drawRuns, empty: (*print).runless},
	{chapter: BoxPatch, name: "Patch by box", draw: (*print).drawBoxes, empty: (*print).patchless},
	{chapter: ChannelPatch, name: "Patch by channel", draw: (*print).drawChannels, empty: (*print).patchless},
	{chapter: ActChanges, name: "Changes between acts", draw: (*print).drawPatchChanges, empty: (*print).patchless},
	{chapter: LineCheck, name: "Line check", draw: (*print).drawLineCheck, empty: (*print).patchless},
	{chapter: LinkBudget, name: "Link budget", reader: paper.Engineer, landscape: true, draw: (*print).drawBudget},
	{chapter: FindingsList, name: "Findings", landscape: true, draw: (*print).drawFindings},
	{chapter: SiteTests, name: "Site tests", landscape: true, draw: (*print).drawTests, empty: (*print).testless},
	{chapter: VenueSheet, name: "Crossings and questions", draw: (*print).drawVenue},
	{chapter: CautionsList, name: "Cautions", draw: (*print).drawCautions},
	{chapter: AssumptionsList, name: "Assumptions", draw: (*print).drawAssumptions},
	{chapter: StrikeSheets, name: "Strike", draw: (*print).drawStrike},
}
