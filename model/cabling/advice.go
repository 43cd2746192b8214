package cabling

import (
	"cmp"
	"fmt"
	"slices"

	"stageloom/model/plan"
	"stageloom/model/words"
)

// Hire is a number of equal cables to hire in, or to take from the house.
type Hire struct {
	Kind     plan.CableKindID
	KindName string
	Length   float64 // m
	Count    int
	// WouldDo are the lengths in whole metres, the longest first, that would do for each of those to be hired; one that may not be
	// shorter has its own length. All of them would do together.
	WouldDo []float64
}

// String is the row in words: "2 × 60 m of Cat 6A; 1 × 53 m and 1 × 41 m would do".
func (h Hire) String() string {
	row := fmt.Sprintf("%d × %s m of %s", h.Count, plain(h.Length), h.KindName)
	if len(h.WouldDo) == 0 || slices.Min(h.WouldDo) >= h.Length {
		return row
	}
	if h.Count == 1 {
		return fmt.Sprintf("%s; %s m would do", row, plain(h.WouldDo[0]))
	}
	var parts []string
	for i := 0; i < len(h.WouldDo); {
		from := i
		for ; i < len(h.WouldDo) && h.WouldDo[i] == h.WouldDo[from]; i++ {
		}
		parts = append(parts, fmt.Sprintf("%d × %s m", i-from, plain(h.WouldDo[from])))
	}
	return row + "; " + words.And(parts, words.MostListed) + " would do"
}

// summed makes one row of cables that are alike but for what was measured on others.
func summed(rows []Hire) (all []Hire) {
	slices.SortFunc(rows, func(a, b Hire) int {
		return cmp.Or(cmp.Compare(a.KindName, b.KindName), cmp.Compare(a.Kind, b.Kind), cmp.Compare(b.Length, a.Length))
	})
	for _, row := range rows {
		if last := len(all) - 1; last >= 0 && all[last].Kind == row.Kind && all[last].Length == row.Length {
			all[last].Count += row.Count
			all[last].WouldDo = append(all[last].WouldDo, row.WouldDo...)
			continue
		}
		all = append(all, row)
	}
	for _, row := range all {
		slices.SortFunc(row.WouldDo, func(a, b float64) int { return cmp.Compare(b, a) })
	}
	return all
}

// shorter says of each line how long each of its hired cables has to be at least for the link that it is for, in whole metres
// rounded up. The hired ones go where most is left over.
func (h hiring) shorter() map[int][]float64 {
	over := make([]int, len(h.picks))
	for i, picks := range h.picks {
		over[i] = -max(1, h.survey.runs[i].need)
		for _, at := range picks {
			over[i] += millimetres(h.survey.lines[at].length)
		}
	}
	used := map[[2]int]int{}
	lengths := map[int][]float64{}
	for at := range h.count {
		length := millimetres(h.survey.lines[at].length)
		for range h.hired(at) {
			best := -1
			for i, picks := range h.picks {
				if number(picks, at) > used[[2]int{i, at}] && (best < 0 || over[i] > over[best]) {
					best = i
				}
			}
			if best < 0 {
				break
			}
			used[[2]int{best, at}]++
			least := min(length, max(1, (length-over[best]+999)/1000)*1000)
			over[best] -= length - least
			lengths[at] = append(lengths[at], float64(least)/1000)
		}
	}
	return lengths
}

// Advice is what is to be had besides, under a heading that says whom it serves.
type Advice struct {
	Head string
	Rows []string
}

// Advice says what to take from the house and what to hire in for the links that stay unserved; nothing where all are served.
func (p *Proposal) Advice() (all []Advice) {
	whom := "all are served"
	if len(p.Beyond) > 0 {
		whom = "all but " + words.And(p.names(p.Beyond), words.MostListed) + " are served"
	}
	if len(p.FromShelf) > 0 {
		all = append(all, Advice{"To take from the house, so that " + whom, rowsOf(p.FromShelf)})
		if len(p.HireIn) > 0 {
			all[0].Head = "To take from the house first"
		}
	}
	switch {
	case len(p.HireIn) > 0:
		all = append(all, Advice{"To hire in, so that " + whom, rowsOf(p.HireIn)})
	case len(all) == 0 && len(p.Beyond) > 0:
		return []Advice{{Head: "No hire of the kinds that the stock holds or links want serves " + words.And(p.names(p.Beyond), words.MostListed)}}
	}
	if last := len(all) - 1; last >= 0 && !p.HireProved {
		all[last].Rows = append(all[last].Rows, "that less would not do is not proved")
	}
	return all
}

func rowsOf(list []Hire) (rows []string) {
	for _, hire := range list {
		rows = append(rows, hire.String())
	}
	return rows
}

// names are those of links, in the order given.
func (p *Proposal) names(ids []plan.LinkID) (names []string) {
	for _, id := range ids {
		link, _ := p.base.Link(id)
		names = append(names, link.Name)
	}
	return names
}
