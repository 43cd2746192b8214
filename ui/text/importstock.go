package text

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stageloom/model/exchange"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// LeaveRowsOut is the answer by which the rows that say a word are not taken.
const LeaveRowsOut = "leave these rows out"

// Unanswered stands for a word or a column of which nobody said yet what it means.
const Unanswered = "say what it is…"

// StockQuestion is what is asked about a word of a stock list, with what it can mean; the last answer leaves its rows out.
type StockQuestion struct {
	Said    exchange.Said
	Label   string
	Answers []exchange.Meaning
	// Likely is the answer that the word itself gives, blank where it gives none.
	Likely string
}

// StockQuestionOf puts a word that is not known into a question.
func StockQuestionOf(u exchange.Unknown, kinds []plan.CableKind) StockQuestion {
	word, rows := plan.Clipped(u.Word), words.Counted(u.Rows, "row", "rows")
	label := map[string]string{
		exchange.OfKind:      fmt.Sprintf("Kind %q, %s", word, rows),
		exchange.OfCondition: fmt.Sprintf("Condition %q, %s", word, rows),
		exchange.OfOwner:     fmt.Sprintf("Owner %q, %s: is that the house itself?", word, rows),
		exchange.OfUnit:      fmt.Sprintf("Unit %q, %s", word, rows),
		exchange.OfWeight:    fmt.Sprintf("Weights under %q without a unit, %s", word, rows),
	}[u.For]
	answers := append(exchange.Meanings(u.For, kinds), exchange.Meaning{Value: exchange.LeaveOut, Words: LeaveRowsOut})
	return StockQuestion{Said: u.Said, Label: label, Answers: answers, Likely: u.Likely}
}

// UnreadTold says what a column holds that is not read: its letter and head, and some of what it holds.
func UnreadTold(column exchange.Unread) string {
	examples := make([]string, len(column.Examples))
	for i, example := range column.Examples {
		examples[i] = fmt.Sprintf("%q", plan.ClippedTo(strings.Join(strings.Fields(example), " "), 30))
	}
	told := strings.TrimSpace("Column " + exchange.Letter(column.Column) + " " + plan.ClippedTo(column.Head, 30))
	if column.Likely != "" {
		return told + " looks like " + strings.ToLower(column.Likely) + " and is not read: " + strings.Join(examples, ", ")
	}
	return told + " is not read: " + strings.Join(examples, ", ")
}

// StockSummary says what the good rows of a list are, in cables: of each kind how many, and how many are not as they should be,
// not there or hired.
func StockSummary(list exchange.Stock, kinds []plan.CableKind, units words.Units) string {
	ofKind, aside := map[plan.CableKindID]int{}, map[string]int{}
	for _, row := range list.Rows {
		for _, reel := range row.Reels {
			ofKind[reel.Kind] += reel.Count()
			for _, said := range notAsTheOthers(reel) {
				aside[said] += reel.Count()
			}
		}
	}
	told := ListTold(list, units)
	if most := kindsTold(ofKind, kinds); most != "" {
		told += ": " + most
	}
	var counts []string
	for _, what := range []string{plan.Suspect, plan.Faulty, "missing", "in repair", "written off", "hired"} {
		if aside[what] > 0 {
			counts = append(counts, fmt.Sprintf("%d %s", aside[what], what))
		}
	}
	if len(counts) > 0 {
		told += "; " + strings.Join(counts, ", ")
	}
	return told
}

// notAsTheOthers says of a reel what sets it apart: a condition, a state, an owner.
func notAsTheOthers(reel plan.Reel) (said []string) {
	if reel.Condition == plan.Suspect || reel.Condition == plan.Faulty {
		said = append(said, reel.Condition)
	}
	switch reel.State {
	case plan.Missing:
		said = append(said, "missing")
	case plan.InRepair:
		said = append(said, "in repair")
	case plan.WrittenOff:
		said = append(said, "written off")
	}
	if reel.Owner != "" && reel.Owner != plan.OfTheHouse {
		said = append(said, "hired")
	}
	return said
}

// mostKinds is how many kinds a summary names.
const mostKinds = 12

func kindsTold(count map[plan.CableKindID]int, kinds []plan.CableKind) string {
	var counted []plan.CableKind
	for _, kind := range kinds {
		if count[kind.ID] > 0 {
			counted = append(counted, kind)
		}
	}
	slices.SortStableFunc(counted, func(a, b plan.CableKind) int { return cmp.Compare(count[b.ID], count[a.ID]) })
	var told []string
	for i, kind := range counted {
		if i == mostKinds {
			told = append(told, fmt.Sprintf("%d other kinds", len(counted)-mostKinds))
			break
		}
		told = append(told, fmt.Sprintf("%d %s", count[kind.ID], kind.Name))
	}
	return strings.Join(told, ", ")
}

// UpdateTold says what of a list the stock has already: as it is, otherwise, or not yet; blank where it has nothing of it.
func UpdateTold(u exchange.Update) string {
	if u.Same == 0 && len(u.Changed) == 0 {
		return ""
	}
	_, fresh := u.New.Count()
	told := fmt.Sprintf("The stock has %s as they are, %s are brought up to date, %d are new.",
		words.Counted(u.Same, "of the cables", "of the cables"), words.Counted(len(u.Changed), "row", "rows"), fresh)
	if u.Alike > 0 {
		told += fmt.Sprintf(" Without a tag are %d of those that it has.", u.Alike)
	}
	return told
}

// UpdateChangesTold lists what a list changes field by field, at most so many rows.
func UpdateChangesTold(u exchange.Update, most int) string {
	var lines []string
	for i, change := range u.Changed {
		if i == most {
			lines = append(lines, fmt.Sprintf("… and %d more.", len(u.Changed)-most))
			break
		}
		var fields []string
		for _, field := range change.Fields {
			fields = append(fields, fmt.Sprintf("%s %s, was %s", field.Name, shortly(field.Is), shortly(field.Was)))
		}
		lines = append(lines, fmt.Sprintf("Row %d changes %s: %s.", change.Row, change.Name, strings.Join(fields, "; ")))
	}
	return strings.Join(lines, "\n")
}

// shortly is what stands in a field, in a few words.
func shortly(said string) string {
	if said == "" {
		return "blank"
	}
	return plan.ClippedTo(strings.Join(strings.Fields(said), " "), 60)
}
