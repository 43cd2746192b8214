package checks

import (
	"cmp"
	"fmt"

	"stageloom/model/words"
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
	same := map[saying][]int{}
	for i := range found {
		if found[i].many != "" {
			same[found[i].saying()] = append(same[found[i].saying()], i)
		}
	}
	for i := range found {
		f := found[i]
		several := same[f.saying()]
		switch {
		case f.many == "":
			kept = append(kept, f)
		case len(several) < leastGathered:
			f.many, f.item, f.noun, f.Short = "", "", "", ""
			kept = append(kept, f)
		case several[0] == i:
			all := make([]Finding, len(several))
			for n, at := range several {
				all[n] = found[at]
			}
			kept = append(kept, inOne(all))
		}
	}
	return kept
}

// inOne tells several findings as one, in the natural order of their items; what each is about stands first.
func inOne(several []Finding) Finding {
	one := Finding{Severity: several[0].Severity, Remedy: several[0].Remedy, Short: several[0].Short, each: several}
	sortItems(several)
	items := make([]string, len(several))
	stands := map[Place]bool{}
	for i := range several {
		items[i] = several[i].item
		if place := several[i].Where[0]; !stands[place] {
			stands[place] = true
			one.Where = append(one.Where, place)
		}
	}
	for i := range several {
		for _, place := range several[i].Where[1:] {
			if !stands[place] {
				stands[place] = true
				one.Where = append(one.Where, place)
			}
		}
	}
	one.What = fmt.Sprintf("%d %s %s: %s", len(several), cmp.Or(several[0].noun, "links"), several[0].many, words.Listed(items))
	return one
}

// sortItems sorts by the natural order of the items.
func sortItems(findings []Finding) {
	words.SortNatural(findings, func(f *Finding) string { return f.item }, func(a, b *Finding) int { return 0 })
}
