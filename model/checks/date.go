package checks

import (
	"fmt"
	"time"

	"stageloom/model/plan"
)

// date finds days that the calendar does not have, wherever a plan states one; a day in words is left alone.
func date(s *Subject) (found []Finding) {
	look := func(text, what, item string, where ...Place) {
		wrong := plan.NoSuchDay(text)
		if wrong == "" {
			return
		}
		found = append(found, Finding{
			Severity: Warn, Where: where,
			What:   fmt.Sprintf("%s %s, and there is no such day", what, quoted(wrong)),
			Remedy: "Correct the date: year-month-day, such as 2027-06-19.",
			many:   "name a day that is not", item: fmt.Sprintf("%s %s", item, quoted(wrong)), noun: "dates",
		})
		if item == "" { // the plan's own stands for itself
			found[len(found)-1].many = ""
		}
	}
	settings := s.Plan.Settings
	look(settings.Date, "The plan is dated", "")
	look(settings.OutOn, "The stock leaves on", "")
	look(settings.BackOn, "The stock is back on", "")
	found = append(found, backBeforeOut(settings.OutOn, settings.BackOn)...)
	for reel := range s.Plan.Reels.All() {
		where := Place{plan.ReelsTable, reel.Key()}
		look(reel.Return, reelName(reel)+" is to be back by", reelName(reel)+" back by", where)
		look(reel.FoundOn, reelName(reel)+" was found bad on", reelName(reel)+" found on", where)
	}
	for line := range s.Plan.HouseLines.All() {
		look(line.FoundOn, "house line "+line.Name+" was found bad on", "house line "+line.Name+" found on", Place{plan.HouseLinesTable, line.Key()})
	}
	for revision := range s.Plan.Revisions.All() {
		look(revision.Date, "revision "+revision.Letter+" was issued on", "revision "+revision.Letter+" issued on", Place{plan.RevisionsTable, revision.Key()})
	}
	return found
}

// backBeforeOut finds days of the stock that are the wrong way round. Days in words are left alone.
func backBeforeOut(out, back string) []Finding {
	const short = "2006-1-2"
	first, err := time.Parse(short, out)
	if err != nil {
		return nil
	}
	last, err := time.Parse(short, back)
	if err != nil || !last.Before(first) {
		return nil
	}
	return []Finding{{
		Severity: Warn,
		What:     fmt.Sprintf("The stock leaves on %s, after it is back on %s", quoted(out), quoted(back)),
		Remedy:   "Correct one of the two days in the plan's settings; until then the house keeps what the show takes as if both were blank.",
	}}
}
