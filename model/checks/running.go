package checks

import (
	"fmt"
	"slices"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

// day is the minutes of a day; longestAct is how long an act may go past midnight before its times are doubted, in minutes.
const (
	day        = 24 * 60
	longestAct = 12 * 60
)

// slot is an act with its times in minutes of the running list, which goes on past midnight.
type slot struct {
	act        plan.Act
	start, end int
}

// actTimes finds times of acts that are none, ends before starts, and acts that overlap on one stage.
func actTimes(s *Subject) (found []Finding) {
	stages := map[string][]slot{}
	var order []string
	for _, act := range actsInOrder(s.Plan) {
		one, findings := slotOf(act)
		found = append(append(found, findings...), checkStart(act)...)
		if len(findings) > 0 || act.Start == "" || act.End == "" {
			continue
		}
		stage := plan.Folded(act.Stage)
		if stages[stage] == nil {
			order = append(order, stage)
		}
		stages[stage] = append(stages[stage], one)
	}
	for _, stage := range order {
		found = append(found, overlaps(stages[stage])...)
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
	if len(found) > 0 || act.Start == "" || act.End == "" || one.end > one.start {
		return one, found
	}
	if one.end += day; one.end-one.start > longestAct {
		wrong(fmt.Sprintf("%s ends at %s, before it starts at %s", act.Name, act.End, act.Start), "Mend its start or its end; past midnight an act may go on for 12 hours.")
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

// overlaps finds acts of one stage that are on at the same time. The list goes on to the next day where an act starts
// earlier in the day than the one before it, unless the two would meet then too.
func overlaps(slots []slot) (found []Finding) {
	var last slot
	for i, next := range slots {
		before := last
		if i > 0 {
			meet := next.start < last.start%day && next.end > last.start%day
			for next.start < last.start && !meet {
				next.start, next.end = next.start+day, next.end+day
			}
			if meet {
				next.start, next.end = next.start+last.start-last.start%day, next.end+last.start-last.start%day
			}
		}
		if last.act.ID == "" || next.end > last.end {
			last = next
		}
		if i == 0 || next.start >= before.end {
			continue
		}
		where := " on " + next.act.Stage
		if next.act.Stage == "" {
			where = ""
		}
		found = append(found, Finding{
			Severity: Warn, Where: []Place{{plan.ActsTable, next.act.Key()}, {plan.ActsTable, before.act.Key()}}, Acts: []plan.ActID{next.act.ID},
			What: fmt.Sprintf("%s (%s to %s) begins before %s (%s to %s) is over%s", next.act.Name, next.act.Start, next.act.End,
				before.act.Name, before.act.Start, before.act.End, where),
			Remedy: "Mend their times, or name the stage of each: a changeover needs its own time.",
		})
	}
	return found
}
