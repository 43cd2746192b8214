package checks

import (
	"cmp"
	"fmt"
	"slices"
)

// leastGathered is from how many rows on that have the same said of them one finding with a list tells it.
const leastGathered = 4

// saying is what findings have in common that become one.
type saying struct {
	severity   Severity
	many, noun string
}

func (f *Finding) saying() saying { return saying{f.Severity, f.many, f.noun} }

// gathered makes one finding with a list of those that say the same, at the place of the first.
func gathered(found []Finding) (kept []Finding) {
	same := map[saying][]Finding{}
	for i := range found {
		same[found[i].saying()] = append(same[found[i].saying()], found[i])
	}
	told := map[saying]bool{}
	for _, f := range found {
		said := f.saying()
		switch {
		case f.many == "":
			kept = append(kept, f)
		case len(same[said]) < leastGathered:
			f.many, f.item, f.noun, f.Short = "", "", "", ""
			kept = append(kept, f)
		case !told[said]:
			told[said] = true
			kept = append(kept, inOne(same[said]))
		}
	}
	return kept
}

// inOne tells several findings as one, in the natural order of their items; what each is about stands first.
func inOne(several []Finding) Finding {
	one := Finding{Severity: several[0].Severity, Remedy: several[0].Remedy, Short: several[0].Short, each: several}
	slices.SortStableFunc(several, func(a, b Finding) int { return Natural(a.item, b.item) })
	items := make([]string, len(several))
	for i := range several {
		items[i] = several[i].item
		if !slices.Contains(one.Where, several[i].Where[0]) {
			one.Where = append(one.Where, several[i].Where[0])
		}
	}
	for i := range several {
		for _, place := range several[i].Where[1:] {
			if !slices.Contains(one.Where, place) {
				one.Where = append(one.Where, place)
			}
		}
	}
	one.What = fmt.Sprintf("%d %s %s: %s", len(several), cmp.Or(several[0].noun, "links"), several[0].many, listed(items))
	return one
}
