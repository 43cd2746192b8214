package planfile

import (
	"fmt"
	"strings"

	"stageloom/model/plan"
)

// unnamed stands where a text that is needed holds nothing but signs that turn letters round.
const unnamed = "unnamed"

// straight is a text of the file without the signs that turn letters round, so that a name reads as what it is; each place
// is noted. A name is worth no plan: the file is read all the same.
func (r *reader) straight(said string, needed bool, at int, place string) string {
	clean := plan.Straight(said)
	if clean == said {
		return said
	}
	sign := rune(0)
	for _, sign = range said {
		if plan.Turns(sign) {
			break
		}
	}
	if clean = strings.TrimSpace(clean); clean == "" && needed {
		clean = unnamed
	}
	if len(r.turned) < mostKept {
		r.turned = append(r.turned, Mend{Fault{
			lineOf(r.data, at), place, fmt.Sprintf("holds the sign %U, which is not seen and turns the letters behind it round", sign),
		}, fmt.Sprintf("%s: %q", takenOut, plan.Clipped(clean))})
	}
	return clean
}

// TakenOut says in one sentence what reading took out of a file's texts, blank where nothing was.
func TakenOut(mends []Mend) string {
	if len(mends) == 0 {
		return ""
	}
	var b strings.Builder
	fmt.Fprintf(&b, "texts of the file hold signs that are not seen and turn letters round; they are taken out here, and of the file when it is saved: ")
	for i, mend := range mends {
		if i == mostTold {
			fmt.Fprintf(&b, " (and %d more)", len(mends)-i)
			break
		}
		if i > 0 {
			b.WriteString("; ")
		}
		fmt.Fprintf(&b, "line %d, %s %s", mend.Line, plan.ClippedTo(mend.Place, longestPlace), strings.TrimPrefix(mend.Done, takenOut+": "))
	}
	return b.String()
}
