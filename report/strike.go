package report

import (
	"cmp"
	"fmt"
	"slices"

	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/report/paper"
)

// drawStrike prints what is taken up where, the reverse of how it was laid, and the count into the cases.
func (p *printout) drawStrike(b *paper.Book) {
	b.Title("Strike")
	b.Paragraph("In reverse of laying. Unplug both ends, coil towards the drum end, count into the case. A cable that is bad goes to Faulty with a knot of tape in it, never back into its case.")
	for _, stand := range p.stands() {
		b.Skip(2 * b.Scale())
		b.Table(p.strikeTable(stand))
	}
	if p.linkless() {
		b.Paragraph("This plan has no link to take up.")
	}
	p.tables(b, p.countTable())
	b.Skip(3 * b.Scale())
	b.Table(p.faultyTable())
}

// stand is a position with the links that are taken up from there.
type stand struct {
	name  string
	phase int // the last in which one of its links is laid
	links []plan.Link
}

// stands shares the links out to positions: each to that of its drum end, where it is coiled; positions laid last come
// first.
func (p *printout) stands() []stand {
	found := map[plan.PositionID]*stand{}
	var order []*stand
	for _, link := range p.Links() {
		end := link.To
		if link.DrumEnd == "from" {
			end = link.From
		}
		device, _ := p.Plan.Device(end)
		if found[device.Position] == nil {
			name := "No position"
			if position, known := p.Plan.Positions.Get(plan.Key(device.Position)); known && device.Position != "" {
				name = position.Name
			}
			found[device.Position] = &stand{name: name}
			order = append(order, found[device.Position])
		}
		s := found[device.Position]
		s.links, s.phase = append(s.links, link), max(s.phase, link.LayPhase)
	}
	list := make([]stand, len(order))
	for i, s := range order {
		slices.SortStableFunc(s.links, func(a, b plan.Link) int {
			return cmp.Or(cmp.Compare(b.LayPhase, a.LayPhase), words.Natural(b.Name, a.Name))
		})
		list[i] = *s
	}
	slices.SortStableFunc(list, func(a, b stand) int {
		return cmp.Or(cmp.Compare(b.phase, a.phase), words.Natural(b.name, a.name))
	})
	return list
}

func (p *printout) strikeTable(s stand) paper.Table {
	table := paper.Table{
		Title: "Coil at " + s.name,
		Columns: []paper.Column{
			{Head: "Link", Face: paper.Mono, Lines: 2, Width: paper.Fit(30)},
			{Head: "Unplug", Width: paper.Fill(1.2), Lines: 4},
			{Head: "Pieces into their cases", Width: paper.Fill(1.4)},
			{Head: "Up", Align: paper.Centre},
			{Head: "Faulty", Align: paper.Centre},
		},
	}
	for _, link := range s.links {
		figures, _ := p.Budget(link.ID)
		ends := endOf(p.Plan, link.From, link.FromPort) + " and " + endOf(p.Plan, link.To, link.ToPort)
		if link.IsSpare() {
			ends = "laid spare, plugged in nowhere: " + ends
		}
		row := paper.Texts(link.Name, ends, cmp.Or(pieces(p.Plan, figures.Parts), "no cable was laid"), "", "")
		row.Cells[3].Tick, row.Cells[4].Tick = true, true
		table.Rows = append(table.Rows, row)
	}
	return table
}

// cased is what goes back into a case.
type cased struct {
	name                  string
	laid, spare, notThere int
}

// wentOut is how many cables left in a case: those laid, those kept as spares, and those that are not there any more.
func (c cased) wentOut() int { return c.laid + c.spare + c.notThere }

// counts are the cables of the show by case: every piece that it has. Where only some links are printed, only what they use.
func (p *printout) counts() (list []cased, sum cased) {
	laid := map[plan.ReelID]int{}
	for _, one := range p.pulls() {
		laid[one.reel.ID] = one.count
	}
	found := map[string]*cased{}
	for reel := range p.Plan.Reels.All() {
		one := cased{name: p.caseName(reel), laid: laid[reel.ID]}
		if !p.partly() {
			one.spare = max(0, reel.There()-one.laid)
			one.notThere = max(0, reel.Count()-reel.Lacking-reel.There())
			if reel.State != "" {
				one.notThere = max(0, one.notThere-one.laid)
			}
		}
		if one.wentOut() == 0 {
			continue
		}
		if found[one.name] == nil {
			found[one.name] = &cased{name: one.name}
		}
		for _, to := range []*cased{found[one.name], &sum} {
			to.laid, to.spare, to.notThere = to.laid+one.laid, to.spare+one.spare, to.notThere+one.notThere
		}
	}
	for _, one := range found {
		list = append(list, *one)
	}
	slices.SortFunc(list, func(a, b cased) int {
		return cmp.Or(words.Natural(a.name, b.name), cmp.Compare(a.name, b.name))
	})
	return list, sum
}

// countTable counts the cables that go back into each case: those laid, and the spares that nobody laid.
func (p *printout) countTable() paper.Table {
	table := paper.Table{
		Title: "Count into the cases",
		Columns: []paper.Column{
			{Head: "Case", Width: paper.Fill(1)},
			{Head: "Laid", Align: paper.Right},
			{Head: "Not laid", Align: paper.Right},
			{Head: "Lost or in repair", Align: paper.Right, Width: paper.Fixed(18)},
			{Head: "Went out", Align: paper.Right},
			{Head: "Back", Width: paper.Fixed(20)},
			{Head: "Faulty", Width: paper.Fixed(20)},
			{Head: "Missing", Width: paper.Fixed(20)},
			{Head: "Closed", Align: paper.Centre},
		},
	}
	list, sum := p.counts()
	for _, one := range list {
		row := one.row()
		row.Cells[4].Bold, row.Cells[8].Tick = true, true
		table.Rows = append(table.Rows, row)
	}
	if len(list) > 0 {
		sum.name = "All cases"
		row := sum.row()
		row.Kind = paper.Total
		table.Rows = append(table.Rows, row)
	}
	return table
}

func (c cased) row() paper.Row {
	return paper.Texts(c.name, fmt.Sprint(c.laid), fmt.Sprint(c.spare), fmt.Sprint(c.notThere), fmt.Sprint(c.wentOut()), "", "", "", "")
}

// faultyTable lists the reels known to be bad, with room for those found on the day.
func (p *printout) faultyTable() paper.Table {
	table := paper.Table{
		Title: "Faulty and suspect",
		Columns: []paper.Column{
			{Head: "Tag", Face: paper.Mono, Lines: 2, Width: paper.Fit(34)},
			{Head: "Cable", Width: paper.Fill(1), Lines: 3},
			{Head: "What is wrong, found where and when", Width: paper.Fill(2)},
			{Head: "Initials", Width: paper.Fixed(20)},
		},
		BlankRows: 5,
	}
	for reel := range p.Plan.Reels.All() {
		if reel.Condition == plan.Faulty || reel.Condition == plan.Suspect {
			kind, _ := p.Plan.CableKinds.Get(plan.Key(reel.Kind))
			said := foundWords(reel.Condition, reel.Reason, reel.FoundAt, reel.FoundOn)
			table.Rows = append(table.Rows, paper.Texts(reel.Tag, pieceLength(reel.Length)+" "+kind.Name, said, ""))
		}
	}
	for line := range p.Plan.HouseLines.All() {
		if line.Condition == plan.Faulty || line.Condition == plan.Suspect {
			kind, _ := p.Plan.CableKinds.Get(plan.Key(line.Kind))
			said := foundWords(line.Condition, line.Reason, line.FoundAt, line.FoundOn) + "; the venue's: tell the venue"
			table.Rows = append(table.Rows, paper.Texts(line.Name, pieceLength(line.Length)+" "+kind.Name, said, ""))
		}
	}
	return table
}

// foundWords says how a cable is, why, and where and when that was found.
func foundWords(condition, reason, where, when string) string {
	said := condition
	if reason != "" {
		said += ": " + reason
	}
	for _, more := range []string{where, when} {
		if more != "" {
			said += ", " + more
		}
	}
	return said
}
