package text

import (
	"fmt"
	"strings"

	"stageloom/model/exchange"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// InputsTold says what an input list holds, which numbers are missing in it, and what it comes to in the plan: for all acts
// where act is blank, else for one.
func InputsTold(list exchange.Inputs, p *plan.Plan, act plan.ActID) string {
	told := words.Counted(len(list.Rows), "input", "inputs")
	coming := list.Coming(p, act)
	if coming.Known > 0 {
		told += fmt.Sprintf(", of which %d are in the plan already and become what the list says", coming.Known)
	}
	if row, found := p.Acts.Get(plan.Key(act)); found {
		told += fmt.Sprintf(" for %s: %d as in the house, %d of this act alone", row.Name, coming.Same, coming.New+coming.Own+coming.Known)
		if coming.Struck > 0 {
			told += fmt.Sprintf("; %d of the house are not used in it", coming.Struck)
		}
		if coming.Left > 0 {
			told += fmt.Sprintf("; %d of the house stay, of which the list says nothing", coming.Left)
		}
	}
	if coming.Gone > 0 {
		told += "; it lacks " + words.Counted(coming.Gone, "input, which leaves with its patch", "inputs, which leave with their patch")
	}
	if coming.Kept > 0 {
		told += "; it lacks " + words.Counted(coming.Kept, "input, which stays", "inputs, which stay")
	}
	var gaps []string
	for i, gap := range list.Gaps {
		if i == words.MostListed {
			gaps = append(gaps, "…")
			break
		}
		gaps = append(gaps, gap.String())
	}
	if len(gaps) > 0 {
		told += "; no input has number " + strings.Join(gaps, ", ")
	}
	return told
}

// PatchingTold says what comes of the sockets and channels of an input list, to be said after its inputs; blank where it
// names none.
func PatchingTold(got exchange.Patching) string {
	told := ""
	if got.Sockets+got.Channels > 0 {
		told = fmt.Sprintf("; %s and %s patched as the list says", words.Counted(got.Sockets, "socket", "sockets"), words.Counted(got.Channels, "channel", "channels"))
	}
	switch rows := exchange.BadRows(got.Left); rows {
	case 0:
	case 1:
		told += "; what 1 row says of a socket or channel is left out"
	default:
		told += fmt.Sprintf("; what %d rows say of sockets or channels is left out", rows)
	}
	return told
}

// WhoseList asks for whom a list without numbers is, which is never guessed.
const WhoseList = "The list has no numbers. Say above whose it is: an act's own, or that of all acts, to which it is added."

// InputChangesTold lists what a list does to the inputs of a plan, at most so many, each in a line of its own.
func InputChangesTold(changes []exchange.InputChange, most int) string {
	var lines []string
	for i, change := range changes {
		if i == most {
			lines = append(lines, fmt.Sprintf("… and %d more.", len(changes)-most))
			break
		}
		lines = append(lines, change.String()+".")
	}
	return strings.Join(lines, "\n")
}

// AsideTold lists what of a sheet is not taken, or not as it stands; blank where it all is.
func AsideTold(told []exchange.Fault, most int) string {
	if len(told) == 0 {
		return ""
	}
	return "Worth a look, and no fault:\n" + FaultsTold(told, most)
}
