package house

import (
	"strings"

	"stageloom/model/plan"
)

// longestWork is how much a line of a history holds.
const longestWork = 190

// longestHistory is how many signs of a history go back with a reel.
const longestHistory = 3900

// note writes a line into the history of a row.
func note(e *plan.Edit, reel plan.ReelID, day, work, by string) {
	e.AddService(plan.Service{Reel: reel, Day: day, Work: plan.ClippedTo(work, longestWork), By: plan.ClippedTo(by, longestWork)})
}

// historyWords are the lines that a plan has of a row's history, as they go back to the house.
func historyWords(p *plan.Plan, reel plan.ReelID) string {
	var lines []string
	for _, line := range p.History(reel) {
		lines = append(lines, line.Line())
	}
	return plan.ClippedTo(strings.Join(lines, "\n"), longestHistory)
}

// readHistory writes into the history of the house's row, where it is there, what a show wrote. What the house has from those
// of equal ones that came back before is not written again.
func readHistory(e *plan.Edit, reel plan.ReelID, text string) {
	if _, found := e.Now().Reels.Get(plan.Key(reel)); !found {
		return
	}
	known := written(e.Now(), reel)
	for _, line := range strings.Split(text, "\n") {
		said, err := plan.ReadService(line)
		if err == nil && !known.has(said) {
			note(e, reel, said.Day, said.Work, said.By)
		}
	}
}

// lines counts lines of a history by what they say.
type lines map[plan.Service]int

// written are the lines of a row's history.
func written(p *plan.Plan, reel plan.ReelID) lines {
	known := lines{}
	for _, line := range p.History(reel) {
		known[bareLine(line)]++
	}
	return known
}

// has reports whether a line is among them, and counts it off.
func (l lines) has(line plan.Service) bool {
	line = bareLine(line)
	l[line]--
	return l[line] >= 0
}

// bareLine is what a line says, as [note] writes it.
func bareLine(line plan.Service) plan.Service {
	return plan.Service{Day: line.Day, Work: plan.ClippedTo(line.Work, longestWork), By: plan.ClippedTo(line.By, longestWork)}
}

// Noted is an edit that writes into the history of each reel what it changed of its length, condition, state or tag, as done
// on a day by somebody, who may be blank. It is for edits of the house's stock and of a plan alike.
func Noted(day, by string, edit func(*plan.Edit) error) func(*plan.Edit) error {
	return func(e *plan.Edit) error {
		before := map[plan.ReelID]plan.Reel{}
		for row := range e.Now().Reels.All() {
			before[row.ID] = row
		}
		if err := edit(e); err != nil {
			return err
		}
		for row := range e.Now().Reels.All() {
			was, known := before[row.ID]
			if !known && (row.Condition == "" || row.Condition == plan.Good) {
				continue
			}
			if !known { // one of several that was marked
				was = row
				was.Condition, was.Reason = "", ""
			}
			if work := changedWords(e.Now(), was, row); work != "" {
				note(e, row.ID, day, work, by)
			}
		}
		return nil
	}
}

// changedWords says what is another in a row than before, of what a history tells; blank where nothing is.
func changedWords(p *plan.Plan, was, row plan.Reel) string {
	told := map[string]bool{"Length": true, "Nominal length": true, "Condition": true, "Reason": true, "Measured loss": true, "State": true, "Tag": true}
	back := backOf(p, row)
	was.Case = row.Case
	var differences []Difference
	for _, d := range Differences(p, was, back) {
		if told[d.Field] {
			differences = append(differences, d)
		}
	}
	if was.Tag != row.Tag {
		differences = append(differences, Difference{"Tag", was.Tag, row.Tag})
	}
	return differenceWords(differences)
}

// differenceWords lists differences for a history: length 50 m → 43 m; condition good → suspect: new plug.
func differenceWords(all []Difference) string {
	reason := ""
	for _, d := range all {
		if d.Field == "Reason" {
			reason = d.Is
		}
	}
	var said []string
	for _, d := range all {
		switch line := lower(d.Field) + " " + orNothing(d.Was) + " → " + orNothing(d.Is); {
		case d.Field == "Condition" && reason != "":
			said = append(said, line+": "+reason)
			reason = ""
		case d.Field == "Reason" && reason == "":
		default:
			said = append(said, line)
		}
	}
	return strings.Join(said, "; ")
}

func lower(field string) string { return strings.ToLower(field[:1]) + field[1:] }

func orNothing(text string) string {
	if text == "" {
		return "nothing"
	}
	return text
}
