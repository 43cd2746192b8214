package checks

import (
	"fmt"
	"slices"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

// day is the minutes of a day; longestAct is how long an act may go past midnight before its times are doubted, longestRest how
// long a stage may rest before the next day's first act, before the order of the two is doubted, in minutes. Common practice,
// no source.
const (
	day         = 24 * 60
	longestAct  = 12 * 60
	longestRest = 18 * 60
)

// slot is an act with its times in minutes of the running list, which goes on past midnight.
type slot struct {
	act        plan.Act
	start, end int
}

// actTimes finds times of acts that are none, ends before starts, acts that overlap on one stage, and acts whose order runs
// against their times. An act without an end counts as its start alone.
func actTimes(s *Subject) (found []Finding) {
	stages := map[string][]slot{}
	var order []string
	for _, act := range actsInOrder(s.Plan) {
		one, findings := slotOf(act)
		found = append(append(found, findings...), checkStart(act)...)
		if len(findings) > 0 || act.Start == "" {
			continue
		}
		stage := plan.Folded(act.Stage)
		if stages[stage] == nil {
			order = append(order, stage)
		}
		stages[stage] = append(stages[stage], one)
	}
	for _, stage := range order {
		found = append(found, inTurn(stages[stage])...)
	}
	return found
}

func actsInOrder(p *plan.Plan) []plan.Act {
	acts := slices.Collect(p.Acts.All())
	slices.SortStableFunc(acts, func(a, b plan.Act) int { return a.Order - b.Order })
	return acts
}

// slotOf reads the times of an act, and says what is wrong with them.
func slotOf(act plan.Act) (one slot, found []Finding) {
	one.act = act
	wrong := func(what, remedy string) {
		found = append(found, Finding{Severity: Warn, Where: []Place{{plan.ActsTable, act.Key()}}, Acts: []plan.ActID{act.ID}, What: what, Remedy: remedy})
	}
	read := func(text, what string) int {
		minute, known := patch.MinuteOf(text)
		if text != "" && !known {
			wrong(fmt.Sprintf("%s %s at %s, which is no time of day", act.Name, what, quoted(text)), "Write hours and minutes, such as 20:15.")
		}
		return minute
	}
	one.start, one.end = read(act.Start, "starts"), read(act.End, "ends")
	if act.End == "" {
		one.end = one.start
	}
	if len(found) > 0 || act.Start == "" || act.End == "" || one.end > one.start {
		return one, found
	}
	if one.end += day; one.end-one.start > longestAct {
		wrong(fmt.Sprintf("%s ends at %s, before it starts at %s", act.Name, act.End, act.Start), "Correct its start or its end; past midnight an act may go on for 12 hours.")
	}
	return one, found
}

// checkStart says of a line check that begins at no time of day that its inputs have no times.
func checkStart(act plan.Act) []Finding {
	if _, known := patch.MinuteOf(act.CheckStart); known || act.CheckStart == "" {
		return nil
	}
	return []Finding{{
		Severity: Warn, Where: []Place{{plan.ActsTable, act.Key()}}, Acts: []plan.ActID{act.ID},
		What:   fmt.Sprintf("%s has its line check at %s, which is no time of day: its inputs have no times", act.Name, quoted(act.CheckStart)),
		Remedy: "Write hours and minutes, such as 16:20.",
	}}
}

// inTurn finds acts of one stage that are on at the same time, and those that begin before the one that the list has before
// them. The list goes on to the next day where an act starts earlier in the day than the one before it, unless the two would
// meet then too, or the stage would rest for longer than between two days.
func inTurn(slots []slot) (found []Finding) {
	var last slot
	for i, next := range slots {
		before := last
		rest := 0
		if i > 0 {
			next, rest = next.after(last)
		}
		if last.act.ID == "" || next.end > last.end {
			last = next
		}
		if i == 0 || next.start >= before.end && rest <= longestRest {
			continue
		}
		finding := Finding{
			Severity: Warn, Where: []Place{{plan.ActsTable, next.act.Key()}, {plan.ActsTable, before.act.Key()}}, Acts: []plan.ActID{next.act.ID},
			What:   fmt.Sprintf("%s begins before %s is over%s", next.words(), before.words(), next.place()),
			Remedy: "Correct their times, or name the stage of each: a changeover needs its own time.",
		}
		if next.start >= before.end {
			finding.What = fmt.Sprintf("%s begins before %s, which the list has before it%s", next.words(), before.words(), next.place())
			finding.Remedy = "Correct their times, or move it up in the running list: the order of acts says what changes between them."
		}
		found = append(found, finding)
	}
	return found
}

// after is an act in the minutes of the list behind another, and how long the stage rests where it comes to the next day.
func (s slot) after(last slot) (moved slot, rest int) {
	at := last.start % day
	if s.start < at && s.end > at {
		s.start, s.end = s.start+last.start-at, s.end+last.start-at
		return s, 0
	}
	for s.start < last.start {
		s.start, s.end = s.start+day, s.end+day
	}
	if s.start/day > last.start/day {
		rest = s.start - last.end
	}
	return s, rest
}

// words are an act with its times.
func (s slot) words() string {
	if s.act.End == "" {
		return fmt.Sprintf("%s (from %s)", s.act.Name, s.act.Start)
	}
	return fmt.Sprintf("%s (%s to %s)", s.act.Name, s.act.Start, s.act.End)
}

// place is the stage of an act, blank where it has none.
func (s slot) place() string {
	if s.act.Stage == "" {
		return ""
	}
	return " on " + s.act.Stage
}
