package report

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"stageloom/model/budget"
	"stageloom/model/cabling"
	"stageloom/model/checks"
	"stageloom/model/plan"
	"stageloom/model/stocklist"
	"stageloom/model/words"
	"stageloom/report/paper"
)

// needAdapter are the rules whose findings an adapter or a tail from the case cures.
var needAdapter = []string{"connector", "socket-at-device", "shell"}

// adaptersTable lists the ends where a cable does not go into its port by itself.
func (p *printout) adaptersTable() paper.Table {
	table := paper.Table{
		Title: "Adapters and tails",
		Columns: []paper.Column{
			{Head: "Out", Align: paper.Centre}, {Head: "Where", Width: paper.Fill(1.6), Lines: 4}, {Head: "Pack", Width: paper.Fill(1), Lines: 4}, {Head: "Back", Align: paper.Centre},
		},
	}
	for _, finding := range p.Findings {
		if slices.Contains(needAdapter, finding.Rule) && p.speaksOf(finding.Where) {
			row := paper.Texts("", finding.What, finding.Remedy, "")
			row.Cells[0].Tick, row.Cells[3].Tick = true, true
			table.Rows = append(table.Rows, row)
		}
	}
	return table
}

// crossed is an area with the links that lie across it.
type crossed struct {
	area   plan.Area
	links  []string
	metres float64 // of the longest stretch across
	spans  int
}

// covered are the uses of ground on which cables are covered or flown; on a stage or in a building they lie as they do.
var covered = []string{"road", "walkway", "crowd", "exit", "fire-lane", "water"}

// crossings gathers what the links to print cross, in the natural order of the areas.
func (p *printout) crossings() []crossed {
	ground := p.Reckoner().Ground()
	found := map[plan.AreaID]*crossed{}
	for _, link := range p.Links() {
		for _, span := range ground.Spans(p.Reckoner().Way(link)) {
			if !slices.Contains(covered, span.Area.Use) {
				continue
			}
			if found[span.Area.ID] == nil {
				found[span.Area.ID] = &crossed{area: span.Area}
			}
			one := found[span.Area.ID]
			one.links, one.metres = appendNew(one.links, link.Name), math.Max(one.metres, span.To-span.From)
			one.spans++
		}
	}
	var list []crossed
	for area := range p.Plan.Areas.All() {
		if found[area.ID] != nil {
			list = append(list, *found[area.ID])
		}
	}
	slices.SortStableFunc(list, func(a, b crossed) int { return words.Natural(a.area.Name, b.area.Name) })
	return list
}

// protects says how cables cross a sort of ground.
var protects = map[string]string{
	"road":      "Ramps rated for the traffic, or flown by a competent rigger; marked and lit",
	"walkway":   "Ramps or covers, marked and lit; wheelchair ways stay passable",
	"crowd":     "Covered and taped down all along, or flown; no join inside",
	"exit":      "Keep clear: covered flat, or another way; ask who is in charge of exits",
	"fire-lane": "Keep clear: another way, or flown; ask the fire officer",
	"water":     "Above the water all along; no join inside",
}

// rampsTable lists what has to be covered or flown over.
func (p *printout) rampsTable() paper.Table {
	table := paper.Table{
		Title: "Ramps and covers",
		Columns: []paper.Column{
			{Head: "Out", Align: paper.Centre},
			{Head: "Across", Width: paper.Fill(0.8), Lines: 3},
			{Head: "Up to m", Align: paper.Right},
			{Head: "Links", Width: paper.Fill(0.8), Lines: 6},
			{Head: "Protect by", Width: paper.Fill(1.4)},
			{Head: "Back", Align: paper.Centre},
		},
	}
	for _, one := range p.crossings() {
		row := paper.Texts("", fmt.Sprintf("%s (%s)", one.area.Name, one.area.Use), fmt.Sprintf("%.0f", math.Ceil(one.metres)),
			strings.Join(one.links, ", "), protects[one.area.Use], "")
		row.Cells[0].Tick, row.Cells[5].Tick = true, true
		table.Rows = append(table.Rows, row)
	}
	return table
}

// spareTable lists what no link uses and is not faulty: kit held back for the day.
func (p *printout) spareTable() paper.Table {
	table := paper.Table{
		Title: "Held back: in the cases and on no link",
		Columns: []paper.Column{
			{Head: "Out", Align: paper.Centre},
			{Head: "Tag", Face: paper.Mono, Lines: 2, Width: paper.Fit(34)},
			{Head: "Cable", Width: paper.Fill(1.4), Lines: 3},
			{Head: "m", Align: paper.Right},
			{Head: "Number", Align: paper.Right},
			{Head: "Case", Width: paper.Fill(1)},
			{Head: "Can replace", Width: paper.Fill(1), Lines: 3},
			{Head: "Back", Align: paper.Centre},
		},
	}
	replaces := map[plan.ReelID][]string{}
	for _, held := range cabling.HeldBack(p.Plan) {
		replaces[held.Reel] = append(replaces[held.Reel], held.LinkName+" at "+held.PositionName)
	}
	used := p.Plan.UsedReels()
	for _, reel := range p.spares(used) {
		kind, _ := p.Plan.CableKinds.Get(plan.Key(reel.Kind))
		name := kind.Name
		if reel.Condition == plan.Suspect {
			name += " (suspect: test first)"
		}
		row := paper.Texts("", reel.Tag, name, stocklist.Bare(reel.Length), fmt.Sprint(reel.There()-used[reel.ID]), p.caseName(reel), strings.Join(replaces[reel.ID], ", "), "")
		row.Cells[0].Tick, row.Cells[7].Tick = true, true
		table.Rows = append(table.Rows, row)
	}
	return table
}

// spares are the reels with some left that are there and not faulty: by kind, the longest first.
func (p *printout) spares(used map[plan.ReelID]int) []plan.Reel {
	var reels []plan.Reel
	whole := p.pulledWhole()
	for reel := range p.Plan.Reels.All() {
		if reel.There() > used[reel.ID] && reel.Condition != plan.Faulty && !whole[wholeKey(reel)] {
			reels = append(reels, reel)
		}
	}
	slices.SortStableFunc(reels, func(a, b plan.Reel) int {
		return cmp.Or(cmp.Compare(a.Kind, b.Kind), cmp.Compare(b.Length, a.Length), words.Natural(a.Tag, b.Tag))
	})
	return reels
}

// speaksOf reports whether a finding is about a link to print, or about no link at all.
func (p *printout) speaksOf(places []checks.Place) bool {
	about := false
	for _, place := range places {
		if place.Table != plan.LinksTable {
			continue
		}
		about = true
		if slices.ContainsFunc(p.links, func(link plan.Link) bool { return link.Key() == place.Key }) {
			return true
		}
	}
	return !about
}

// cableMetre is how far along a link's cable a point of its way lies, in metres from the near end: slack is taken as lying
// at the ends, as stated, and the rest spread along the way. Common practice, no source; it is printed as "about".
func (p *printout) cableMetre(link plan.Link, figures budget.Budget, way, length float64) float64 {
	ends := figures.Measured.Ends
	before := ends[0] + link.RiseFrom
	middle := figures.Run - before - ends[1] - link.RiseTo
	if length <= 0 {
		return before
	}
	return before + max(0, middle)*way/length
}
