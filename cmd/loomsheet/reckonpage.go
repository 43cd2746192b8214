package main

import (
	"fmt"
	"strings"

	"stageloom/model/budget"
	"stageloom/model/medium"
	"stageloom/model/plan"
	"stageloom/model/standards"
)

// reckonResult is a reckoned chain with what else was asked for.
type reckonResult struct {
	standards.Reckoning
	wantedBy string // who decided the wanted margin
	reaches  []kindReach
}

// piece is a cable or a coupler of a chain: a coupler's two connections are one piece.
type piece struct {
	coupler         bool
	name            string
	length          float64 // m
	lossDB, totalDB float64
}

func (r reckonResult) pieces() []piece {
	var found []piece
	for i := 0; i < len(r.Steps); i++ {
		step := r.Steps[i]
		next := piece{name: step.Name, length: step.Length, lossDB: step.LossDB, totalDB: step.TotalDB}
		if step.Kind == standards.ConnectionStep {
			i++
			second := r.Steps[i]
			next = piece{coupler: true, name: couplerName(step.Name, second.Name), lossDB: step.LossDB + second.LossDB, totalDB: second.TotalDB}
		}
		found = append(found, next)
	}
	return found
}

// couplerName tells what the two connections of a coupler count as.
func couplerName(near, far string) string {
	if near == far {
		return "coupler: two connections of " + near
	}
	return fmt.Sprintf("coupler: %s, %s", near, far)
}

// joins is how many couplers the chain has.
func (r reckonResult) joins() int { return len(r.Chain.Cables) - 1 }

// budget is the chain as a link of a plan would be, so that both say the same in the same words. What the notes say
// besides is left out.
func (r reckonResult) budget() budget.Budget {
	return budget.Budget{
		Graded: true, Medium: medium.Pair{}, Transport: plan.TransportID(r.Transport.Slug), TransportName: r.Transport.Name, Laid: r.Line.Length(),
		LimitDB: r.LimitDB, MarginDB: r.MarginDB, WantedDB: r.WantedMarginDB, Grade: r.Grade,
	}
}

// print lays the reckoning out: pieces, verdict, what to mind, advice.
func (r reckonResult) print(p *page, sources bool) {
	p.hang("", conditions(r.Setting, r.joins()))
	p.blank()
	r.printPieces(p)
	p.blank()
	r.printVerdict(p)
	if len(r.Notes) > 0 {
		p.blank()
		p.line("Mind")
		for _, note := range r.Notes {
			p.hang("  - ", trueMinus(note))
		}
	}
	p.blank()
	p.line("Advice, never the verdict")
	for _, row := range r.advice() {
		row.print(p)
	}
	p.blank()
	p.hang("  ", r.adviceRemark())
	if len(r.Advice.Power) > 0 {
		p.blank()
		r.printPower(p)
	}
	if len(r.reaches) > 0 {
		p.blank()
		printReaches(p, r.Setting, r.reaches)
	}
	if sources {
		p.blank()
		printSources(p, r.sources())
	}
}

// conditions says what a figure is reckoned for.
func conditions(setting standards.Setting, joins int) string {
	text := fmt.Sprintf("%s, cable at %s", setting.Transport.Name, temperature(setting.TemperatureC))
	if joins > 0 {
		text += ", couplers of " + setting.Coupler.Name
	}
	return text
}

// Columns of the table of pieces.
const (
	orderColumn  = 4
	nameColumn   = 50
	lengthColumn = 9
	lossColumn   = 8
	totalColumn  = 9
)

func (r reckonResult) printPieces(p *page) {
	row := func(order, name, length, loss, total string) {
		lines := wrap(name, nameColumn)
		p.line("%s%s%s%s%s", left(order, orderColumn), left(lines[0], nameColumn), right(length, lengthColumn), right(loss, lossColumn), right(total, totalColumn))
		for _, more := range lines[1:] {
			p.line("%s%s", left("", orderColumn), more)
		}
	}
	row("", "", "length", "loss", "so far")
	cables := 0
	for _, piece := range r.pieces() {
		if piece.coupler {
			row("", piece.name, "", loss(piece.lossDB), loss(piece.totalDB))
			continue
		}
		cables++
		row(fmt.Sprintf("%d", cables), piece.name, metres(piece.length), loss(piece.lossDB), loss(piece.totalDB))
	}
	row("", counted(cables, "cable")+", "+counted(r.joins(), "join"), metres(r.Line.Length()), "", loss(r.LossDB))
}

// printVerdict lays out loss, limit, margin and grade.
func (r reckonResult) printVerdict(p *page) {
	row := func(name, figure, what string) {
		p.hang(left("  "+name, 18)+right(figure, 8)+"   ", what)
	}
	row("loss at 100 MHz", loss(r.LossDB), r.lossBasis())
	row("limit", decibels(r.LimitDB), fmt.Sprintf("%s: %s", r.Rule.Name, status(r.Rule.Status)))
	row("margin", margin(r.MarginDB), "limit less loss, at 100 MHz: the figure that grades")
	row("wanted", decibels(r.WantedMarginDB), r.wantedBy)
	p.blank()
	p.hang("  "+strings.ToUpper(string(r.Grade))+"  ", r.why())
}

// why is the sentence behind the grade.
func (r reckonResult) why() string {
	return strings.TrimLeft(strings.TrimPrefix(r.budget().Why(), string(r.Grade)), ": ")
}

// lossBasis says what the loss is made of.
func (r reckonResult) lossBasis() string {
	own, category := false, false
	for _, cable := range r.Chain.Cables {
		own = own || cable.OwnFigureDB != 0
		category = category || cable.OwnFigureDB == 0
	}
	switch {
	case own && category:
		return "computed from makers' own figures and catalogue maxima"
	case own:
		return "computed from makers' own figures"
	}
	return "computed from catalogue maxima"
}
