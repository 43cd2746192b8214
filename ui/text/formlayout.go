package text

import (
	"slices"
	"strings"

	"stageloom/model/fields"
	"stageloom/model/plan"
	"stageloom/model/standards"
)

// folding says when a group of a form shows its heading alone.
type folding uint8

const (
	never folding = iota
	whileUnused
	always
)

// layoutGroup is which fields a form shows under one heading.
type layoutGroup struct {
	name, ids string
	folds     folding
}

// stackedFields stand under their label, by table: the kind that is wanted of what has a long name, and limit rules. So do notes,
// and the names of a plan and its site, which a card half as wide cuts.
var stackedFields = map[string]string{
	plan.LinksTable: "slack_end fill rule stands_for partner", plan.SegmentsTable: "reel kind", plan.ReelsTable: "kind",
	plan.DevicesTable: "kind", plan.HouseLinesTable: "kind", fields.Settings: "name site slack_end " + ruleIDs(),
}

// stacked reports whether a field stands under its label, whatever stands in it: so it never moves.
func stacked(table, id string) bool { return slices.Contains(strings.Fields(stackedFields[table]), id) }

// forms are the groups of the form of each table whose rows have one.
var forms = map[string][]layoutGroup{
	"links": {
		{"", "name transport fill", never},
		{"Run", "typed rise_from rise_to slack slack_end", never},
		{"Reckoning", "temperature wanted rule most_joins priority", never},
		{"Main and backup", "partner role", whileUnused},
		{"Laid spare", "stands_for", never},
		{"Panels in front of the devices", "from_panel from_lead from_lead_kind to_panel to_lead to_lead_kind", whileUnused},
		{"Laying", "loom colour phase drum power done from_theirs to_theirs note", always},
	},
	"segments": {{"", "reel kind length coupler kept", never}},
	"reels": {
		{"", "tag kind length nominal count case tied weight", never},
		{"Condition", "condition reason found_at found_on measured state state_on", never},
		{"History", "history", whileUnused},
		{"Whose it is", "owner hire return bought note", whileUnused},
	},
	"cases":       {{"", "name pieces most weight note", never}},
	"house_lines": {{"", "name kind length from_panel from_position to_panel to_position", never}, {"Condition", "condition reason found_at found_on measured note", never}},
	"devices": {
		{"", "name kind", never},
		{"Place", "position x y level", never},
		{"Surroundings", "exposure supply structure", whileUnused},
		{"Signals", "passes_on rate converts", whileUnused},
		{"Note", "note", whileUnused},
	},
	"positions": {
		{"", "name", never},
		{"Place", "x y width depth level", never},
		{"Surroundings", "exposure supply structure note", never},
	},
	"areas": {{"", "name use note", never}},
	"looms": {{"", "name colour stock note", never}},
	"inputs": {
		{"", "number name source use phantom stand riser snake way act note", never},
		{"Stereo, radio and line check", "right rf frequency transmitter check", whileUnused},
	},
	"outputs": {
		{"", "number name mix kind note", never},
		{"Stereo and radio", "right rf frequency pack", whileUnused},
	},
	"acts":        {{"", "order name stage start end guests note", never}, {"Line check", "check_by check_start check_seconds", whileUnused}},
	"cable_kinds": {{"", "name own_figure weight near_end far_end form lockable metal_shell note", never}},
}

// planForm is the form of the plan itself: all that decides its figures, and who and where.
var planForm = []layoutGroup{
	{"", "name site revision date out back", never},
	{"Temperature and margin", "exposure temperature air margin", never},
	{"Run", "slack slack_end detour coupler", never},
	{"Limit rules", ruleIDs(), whileUnused},
	{"Contacts", "contacts", whileUnused},
	{"Note, north and sample rate", "note north rate", always},
}

// templateForm is what new plans begin with.
var templateForm = []layoutGroup{
	{"Temperature and margin", "exposure temperature air margin", never},
	{"Run", "slack slack_end detour coupler", never},
	{"Limit rules", ruleIDs(), whileUnused},
	{"Contacts", "contacts", whileUnused},
	{"Revision, sample rate and paper", "revision rate paper", never},
}

// ruleIDs are the fields of the limit rules, one a graded transport.
func ruleIDs() (ids string) {
	for _, transport := range standards.Transports() {
		if transport.Graded() {
			ids += "rule_" + string(transport.Slug) + " "
		}
	}
	return ids
}
