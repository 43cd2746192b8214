package report

import "stageloom/report/paper"

// Chapter names a chapter of a print.
type Chapter string

// The chapters.
const (
	PullList        Chapter = "pull"        // what leaves the cases, what is hired, couplers, ramps
	TruckList       Chapter = "truck"       // cases in the order of loading, with pieces and kilograms
	HireOrder       Chapter = "hire"        // what is to be hired in, of whom and until when
	ReturnList      Chapter = "return"      // what goes back to whom
	ReelLabels      Chapter = "reel-labels" // a label for every tag
	CaseLabels      Chapter = "case-labels" // a label for every case
	LabelSheets     Chapter = "labels"      // labels for every end and join, on sheets to stick
	TapeList        Chapter = "tape"        // what to write on tape by hand
	SitePlan        Chapter = "plan"        // the plan to a round scale
	LoomSheets      Chapter = "looms"       // what lies together, in the order of joining and dropping off
	CableSchedule   Chapter = "schedule"    // every link with its pieces, for the crew
	RunDrawings     Chapter = "runs"        // links drawn from end to end, to tick and to note tests on
	PatchLists      Chapter = "lists"       // inputs and outputs, act by act
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
	draw      func(*printout, *paper.Book)
	// empty, when set, tells that a pack needs no such chapter; one that is asked for by name says so itself.
	empty func(*printout) bool
}

var contents = []content{
	{chapter: PullList, name: "Pull list", draw: (*printout).drawPull},
	{chapter: TruckList, name: "Truck list", draw: (*printout).drawTruck, empty: (*printout).stockless},
	{chapter: HireOrder, name: "Hire order", draw: (*printout).drawHire, empty: (*printout).hireless},
	{chapter: ReelLabels, name: "Reel labels", draw: (*printout).drawReelLabels},
	{chapter: CaseLabels, name: "Case labels", draw: (*printout).drawCaseLabels},
	{chapter: LabelSheets, name: "Labels", draw: (*printout).drawLabels, empty: (*printout).linkless},
	{chapter: TapeList, name: "Tape list", draw: (*printout).drawTape, empty: (*printout).linkless},
	{chapter: SitePlan, name: "Plan", landscape: true, draw: (*printout).drawPlan},
	{chapter: LoomSheets, name: "Looms", draw: (*printout).drawLooms, empty: (*printout).loomless},
	{chapter: CableSchedule, name: "Cable schedule", landscape: true, draw: (*printout).drawSchedule},
	{chapter: RunDrawings, name: "Run drawings", landscape: true, draw: (*printout).drawRuns, empty: (*printout).runless},
	{chapter: PatchLists, name: "Input and output lists", landscape: true, draw: (*printout).drawLists, empty: (*printout).patchless},
	{chapter: BoxPatch, name: "Patch by box", draw: (*printout).drawBoxes, empty: (*printout).patchless},
	{chapter: ChannelPatch, name: "Patch by channel", draw: (*printout).drawChannels, empty: (*printout).channelless},
	{chapter: ActChanges, name: "Changes between acts", draw: (*printout).drawPatchChanges, empty: (*printout).patchless},
	{chapter: LineCheck, name: "Line check", landscape: true, draw: (*printout).drawLineCheck, empty: (*printout).patchless},
	{chapter: LinkBudget, name: "Link budget", reader: paper.Engineer, landscape: true, draw: (*printout).drawBudget},
	{chapter: FindingsList, name: "Findings", landscape: true, draw: (*printout).drawFindings},
	{chapter: SiteTests, name: "Site tests", landscape: true, draw: (*printout).drawTests, empty: (*printout).testless},
	{chapter: VenueSheet, name: "Crossings and questions", draw: (*printout).drawVenue},
	{chapter: CautionsList, name: "Cautions", draw: (*printout).drawCautions},
	{chapter: AssumptionsList, name: "Assumptions", draw: (*printout).drawAssumptions},
	{chapter: StrikeSheets, name: "Strike", draw: (*printout).drawStrike},
	{chapter: ReturnList, name: "Return list", draw: (*printout).drawReturn, empty: (*printout).stockless},
}
