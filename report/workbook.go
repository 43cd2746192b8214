package report

import (
	"slices"
	"strings"

	"stageloom/model/assess"
	"stageloom/model/budget"
	"stageloom/model/exchange"
	"stageloom/model/plan"
	"stageloom/model/revision"
)

// Spreadsheet is what a print says as sheets of typed cells: the plan and its revision, links, cables, stock, pull list, patch,
// outputs, sockets and findings. Lengths
// are metres and losses dB at the medium's reference, as numbers.
func Spreadsheet(a *assess.Assessment) exchange.Book {
	p := &printout{Assessment: a, links: a.Links()}
	return exchange.Book{Sheets: []exchange.Sheet{
		p.planSheet(), p.linksSheet(), p.cablesSheet(), p.stockSheet(), p.pullSheet(), p.patchSheet(), p.outputsSheet(), p.socketsSheet(), p.findingsSheet(),
	}}
}

// planSheet says which plan the sheets are of, and how it stands to its revisions.
func (p *printout) planSheet() exchange.Sheet {
	s := exchange.Sheet{Name: "Plan", Columns: []exchange.Column{{Head: "What", Width: 20}, {Head: "Words", Width: 60}}}
	standing := revision.StandingOf(p.Plan)
	for _, row := range [][2]string{
		{"Plan", p.Plan.Settings.Name},
		{"Site", p.Plan.Settings.Site},
		{"Revision", standing.Mark()},
		{"Show date", p.Plan.Settings.Date},
		{"Issue date", standing.Issued.Date},
	} {
		s.Rows = append(s.Rows, []exchange.Cell{exchange.Text(row[0]), exchange.Text(row[1])})
	}
	return s
}

func heads(names ...string) []exchange.Column {
	columns := make([]exchange.Column, len(names))
	for i, name := range names {
		columns[i].Head = name
		switch {
		case strings.HasSuffix(name, " dB"), strings.HasSuffix(name, " m"):
			columns[i].Digits = 1
		case slices.Contains([]string{"From", "To", "What", "What to do", "Cable", "Call", "Input"}, name):
			columns[i].Width = 28
		}
	}
	return columns
}

func (p *printout) linksSheet() exchange.Sheet {
	s := exchange.Sheet{Name: "Links", Columns: heads("Link", "Transport", "From", "From port", "To", "To port", "Tape", "Role", "Loom", "Way m", "Rises m", "Slack m", "Run m", "Metres from", "Laid m",
		"Missing m", "Joins", "Loss dB", "Limit dB", "Margin dB", "Wanted dB", "Grade", "Once laid", "Line", "Cable temperature °C", "Note")}
	for _, link := range p.links {
		b, _ := p.Budget(link.ID)
		b.LossDB, b.MarginDB = b.TenthsDB()
		from, _ := p.Plan.Device(link.From)
		to, _ := p.Plan.Device(link.To)
		loom, _ := p.Plan.Looms.Get(plan.Key(link.Loom))
		s.Rows = append(s.Rows, []exchange.Cell{
			exchange.Text(link.Name), exchange.Text(b.TransportName), exchange.Text(from.Name), exchange.Text(link.FromPort), exchange.Text(to.Name), exchange.Text(link.ToPort),
			exchange.Text(link.Colour), exchange.Text(link.Role), exchange.Text(loom.Name), exchange.Optional(b.Way, !b.Measured.Wanting()), exchange.Figure(b.Rises), exchange.Figure(b.Slack), exchange.Optional(b.Run, !b.Measured.Wanting()), exchange.Text(b.Measured.Words()), exchange.Figure(b.Laid), exchange.Figure(b.Missing),
			exchange.Count(b.Joins), exchange.Optional(b.LossDB, b.HasMargin()), exchange.Optional(b.LimitDB, b.Graded), exchange.Optional(b.MarginDB, b.HasMargin()),
			exchange.Optional(b.WantedDB, b.Graded), exchange.Text(gradeWord(b.Standing())), exchange.Text(onceLaid(b)), exchange.Text(b.PartIn(budget.Metres)), exchange.Optional(b.TemperatureC, b.Graded), exchange.Text(link.Note),
		})
	}
	return s
}

// onceLaid is how a link would stand once the metres are laid that are missing, and its faulty cables are changed; blank where
// it stands so.
func onceLaid(b budget.Budget) string {
	if b.Holds() || b.Standing() == budget.Uncabled {
		return ""
	}
	return gradeWord(b.Grade)
}

// cablesSheet has a row for every cable of every link, in order from the near end.
func (p *printout) cablesSheet() exchange.Sheet {
	s := exchange.Sheet{Name: "Cables", Columns: heads("Link", "Place", "Tag", "Cable", "Length m", "From m", "To m", "Case", "House line", "Loss dB", "Assumed")}
	for _, link := range p.links {
		b, _ := p.Budget(link.ID)
		place := 0
		for _, cable := range laidCables(b) {
			part := cable.Part
			place++
			kind, _ := p.Plan.CableKinds.Get(plan.Key(part.Kind))
			reel, stock := p.Plan.Reels.Get(plan.Key(part.Reel))
			line, _ := p.Plan.HouseLines.Get(plan.Key(part.HouseLine))
			box := ""
			if stock && part.Reel != "" {
				box = p.caseName(reel)
			}
			assumed := ""
			if part.Assumed {
				assumed = "assumed"
			}
			s.Rows = append(s.Rows, []exchange.Cell{
				exchange.Text(link.Name), exchange.Count(place), exchange.Text(reel.Tag), exchange.Text(kind.Name), exchange.Figure(part.Length), exchange.Figure(cable.start),
				exchange.Figure(cable.end()), exchange.Text(box), exchange.Text(line.Name), exchange.Optional(part.LossDB, b.Graded && !part.Unknown), exchange.Text(assumed),
			})
		}
	}
	return s
}

func (p *printout) stockSheet() exchange.Sheet {
	s := exchange.Sheet{Name: "Stock", Columns: heads("Tag", "Cable", "Length m", "Quantity", "In use", "Left", "Case", "Owner", "Hire reference", "Return date", "Condition", "Reason", "Measured loss dB")}
	used := p.Plan.UsedReels()
	for _, reel := range exchange.InStockOrder(p.Plan) {
		kind, _ := p.Plan.CableKinds.Get(plan.Key(reel.Kind))
		s.Rows = append(s.Rows, []exchange.Cell{
			exchange.Text(reel.Tag), exchange.Text(kind.Name), exchange.Figure(reel.Length), exchange.Count(reel.Count()), exchange.Count(used[reel.ID]), exchange.Count(max(0, reel.There()-used[reel.ID])),
			exchange.Text(p.caseName(reel)), exchange.Text(reel.Owner), exchange.Text(reel.Hire), exchange.Text(reel.Return), exchange.Text(reel.Condition), exchange.Text(reel.Reason),
			exchange.Optional(reel.Measured.Value, reel.Measured.Set),
		})
	}
	return s
}

// pullSheet is the pull list: reels by case, then cables by kind and length.
func (p *printout) pullSheet() exchange.Sheet {
	s := exchange.Sheet{Name: "Pull list", Columns: heads("Case", "Tag", "Cable", "Length m", "Number", "For", "Out", "Back", "Faulty")}
	row := func(box, tag string, kind plan.CableKindID, metres float64, number int, links []string) {
		row, _ := p.Plan.CableKinds.Get(plan.Key(kind))
		s.Rows = append(s.Rows, []exchange.Cell{
			exchange.Text(box), exchange.Text(tag), exchange.Text(row.Name), exchange.Figure(tenth(metres)), exchange.Count(number), exchange.Text(strings.Join(links, ", ")), {}, {}, {},
		})
	}
	for _, one := range p.pulls() {
		row(p.caseName(one.reel), one.reel.Tag, one.reel.Kind, one.reel.Length, one.count, one.links)
	}
	for _, one := range p.loose() {
		row("any that fits", "", one.kind, one.metres, one.count, one.links)
	}
	return s
}

func (p *printout) findingsSheet() exchange.Sheet {
	s := exchange.Sheet{Name: "Findings", Columns: heads("Severity", "Where", "What", "What to do")}
	for _, finding := range p.Findings {
		s.Rows = append(s.Rows, []exchange.Cell{
			exchange.Text(finding.Severity.String()), exchange.Text(p.places(finding)), exchange.Text(finding.What), exchange.Text(finding.Remedy),
		})
	}
	return s
}
