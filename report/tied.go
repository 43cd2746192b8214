package report

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stageloom/model/plan"
	"stageloom/model/stocklist"
	"stageloom/model/words"
	"stageloom/report/paper"
)

// reelRow is a reel of the pull list.
func (p *printout) reelRow(one pulled) paper.Row {
	row := paper.Texts("", one.reel.Tag, stocklist.KindName(p.Plan, one.reel.Kind), stocklist.Bare(one.reel.Length), fmt.Sprint(one.count), strings.Join(one.links, ", "), "", "")
	row.Cells[0].Tick, row.Cells[6].Tick, row.Cells[7].Tick = true, true, true
	row.Cells[3].Bold = true
	return row
}

// wholeRows are a piece that several cables are tied into: one line to tick, and below it all of its cables, those on no link
// as well, for it goes out whole.
func (p *printout) wholeRows(key string, pulls []pulled) []paper.Row {
	name, parts := "", p.tied(key)
	sum := 0
	var cables []paper.Row
	for _, reel := range parts {
		one := pulled{reel: reel, count: reel.There()}
		if at := slices.IndexFunc(pulls, func(p pulled) bool { return p.reel.ID == reel.ID }); at >= 0 {
			one.links, one.count = pulls[at].links, max(one.count, pulls[at].count)
		}
		sum += one.count
		name = cmp.Or(name, stocklist.Whole(reel))
		row := paper.Texts("", cmp.Or(reel.Tag, "–"), "– "+stocklist.KindName(p.Plan, reel.Kind), stocklist.Bare(reel.Length), fmt.Sprint(one.count), cmp.Or(strings.Join(one.links, ", "), "on no link"))
		cables = append(cables, row)
	}
	row := paper.Texts("", name, "One piece, tied of "+words.Counted(sum, "cable", "cables"), "", "", "", "", "")
	row.Cells[0].Tick, row.Cells[6].Tick, row.Cells[7].Tick = true, true, true
	row.Cells[2].Bold = true
	return append([]paper.Row{row}, cables...)
}

// wholeKey is what reels of one piece share, blank for a reel by itself.
func wholeKey(reel plan.Reel) string { return strings.ToLower(stocklist.Whole(reel)) }

// tied are the reels that are tied into a piece, by tag.
func (p *printout) tied(key string) (reels []plan.Reel) {
	used := p.Plan.UsedReels()
	for reel := range p.Plan.Reels.All() {
		if wholeKey(reel) == key && (reel.There() > 0 || used[reel.ID] > 0) {
			reels = append(reels, reel)
		}
	}
	slices.SortStableFunc(reels, func(a, b plan.Reel) int {
		return cmp.Or(words.Natural(a.Tag, b.Tag), cmp.Compare(b.Length, a.Length))
	})
	return reels
}

// pulledWhole are the pieces of several cables of which some cable is on a link to print: they go out whole.
func (p *printout) pulledWhole() map[string]bool {
	whole := map[string]bool{}
	for _, one := range p.pulls() {
		if key := wholeKey(one.reel); key != "" {
			whole[key] = true
		}
	}
	return whole
}

// notThereTable lists what stands in the plan's stock and is not to be found: missing, in repair, written off, or not let out by
// the house.
func (p *printout) notThereTable() paper.Table {
	table := paper.Table{
		Title: "Not there: do not look for these",
		Columns: []paper.Column{
			{Head: "Tag", Face: paper.Mono, Lines: 2, Width: paper.Fit(34)},
			{Head: "Cable", Width: paper.Fill(1), Lines: 3},
			{Head: "Number", Align: paper.Right},
			{Head: "Why", Width: paper.Fill(1.6)},
		},
	}
	for reel := range p.Plan.Reels.All() {
		if count := reel.Count() - reel.There(); count > 0 {
			table.Rows = append(table.Rows, paper.Texts(reel.Tag, pieceLength(reel.Length)+" "+stocklist.KindName(p.Plan, reel.Kind), fmt.Sprint(count), whyNotThere(reel)))
		}
	}
	return table
}

// whyNotThere says why a reel cannot be laid.
func whyNotThere(reel plan.Reel) string {
	var said []string
	if reel.State != "" {
		said = append(said, strings.TrimSuffix(stateWords(reel.State)+" since "+reel.StateOn, " since "))
	}
	if reel.Lacking > 0 {
		said = append(said, cmp.Or(reel.LackingWhy, "the house does not have it"))
	}
	if reel.Reason != "" {
		said = append(said, reel.Reason)
	}
	return strings.Join(said, "; ")
}

func stateWords(state string) string {
	switch state {
	case plan.InRepair:
		return "in repair"
	case plan.WrittenOff:
		return "written off"
	}
	return state
}
