package text

import (
	"fmt"
	"math"
	"slices"

	"stageloom/model/assess"
	"stageloom/model/budget"
	"stageloom/model/catalogue"
	"stageloom/model/pairline"
	"stageloom/model/plan"
	"stageloom/model/quantity"
	"stageloom/model/standards"
	"stageloom/model/words"
)

// Study is what is to be known of one link beside its verdict: its curves, how far each kind of cable would reach, what
// would cure it, and advice. All of it is reckoned, on demand, in some milliseconds.
type Study struct {
	Title, Subtitle string
	// Hint says why there is nothing to study; all else is then blank.
	Hint    string
	Budget  budget.Budget
	Line    pairline.Line
	Reaches []ReachRow
	// ReachNote says what the reaches are.
	ReachNote string
	// Changes are what each single change would give, and Advice what stands beside the verdict; each note says what the
	// figure is.
	Changes, Advice []Figure
}

// ReachRow is how far one kind of cable carries, with no join, with one, with two: with the wanted margin in hand, and at
// the limit.
type ReachRow struct {
	Kind  string
	Cells [budget.MostReachJoins + 1]ReachCell
	// Used tells that the link has cable of this kind.
	Used bool
}

// ReachCell is one reach in words; Serves tells that it covers the link's run with the wanted margin.
type ReachCell struct {
	Words  string
	Serves bool
}

// StudyOf studies a link. Kinds of the catalogue that the plan does not hold are looked at too.
func StudyOf(a *assess.Assessment, id plan.LinkID, units words.Units) Study {
	link, _ := a.Plan.Link(id)
	b, _ := a.Budget(id)
	s := Study{
		Title: "Link " + link.Name, Budget: b,
		Subtitle: EndOf(a.Plan, link.From, link.FromPort) + " → " + EndOf(a.Plan, link.To, link.ToPort) + " · " + b.TransportName + " · " + b.Printed(units.Unit()).WhyIn(units.Needed),
	}
	switch {
	case !b.Graded:
		s.Hint = b.TransportName + " carries no loss budget here: there are no decibels to study."
		return s
	case !b.HasMargin():
		s.Hint = "Nothing to study yet: " + b.Printed(units.Unit()).WhyIn(units.Needed) + ". Lay a cable of known loss, or choose the kind wanted for the missing metres."
	default:
		s.Line = a.Reckoner().Line(link)
	}
	wider := withCatalogue(a.Plan, a.Reckoner().Transport(link.Transport).Media)
	r := budget.NewReckoner(wider)
	s.reach(wider, r, link, units)
	for _, w := range r.WhatIfs(link) {
		s.Changes = append(s.Changes, changeFigure(wider, r, w, units))
	}
	if advice, err := a.Reckoner().Advise(link); err == nil {
		s.Advice = adviceFigures(advice, units)
	}
	return s
}

// withCatalogue is the plan with the portable kinds of the catalogue that suit a medium.
func withCatalogue(p *plan.Plan, media standards.Media) *plan.Plan {
	wider, err := plan.Do(p, nil, func(e *plan.Edit) error {
		for _, kind := range catalogue.CableKinds() {
			if kind.Solid || kind.Form == "tail" || !budget.Fits(kind, media) {
				continue
			}
			if err := catalogue.UseCable(e, kind.ID); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		return p
	}
	return wider
}

// reach lists the reaches, the farthest without a join first.
func (s *Study) reach(p *plan.Plan, r *budget.Reckoner, link plan.Link, units words.Units) {
	used := map[plan.CableKindID]bool{}
	for _, part := range s.Budget.Parts {
		used[part.Kind] = used[part.Kind] || part.What == budget.Cable
	}
	screened := r.Transport(link.Transport).ScreenRequired
	reaches := slices.DeleteFunc(r.KindReaches(link), func(reach budget.KindReach) bool {
		kind, _ := p.CableKinds.Get(plan.Key(reach.Kind))
		return screened && !kind.Screened && !used[reach.Kind]
	})
	slices.SortStableFunc(reaches, func(a, b budget.KindReach) int {
		return int(math.Copysign(1, b.Joins[0].AtLimit-a.Joins[0].AtLimit))
	})
	for _, reach := range reaches {
		row := ReachRow{Kind: cableKindName(p, reach.Kind), Used: used[reach.Kind]}
		for i, joins := range reach.Joins {
			row.Cells[i] = ReachCell{
				fmt.Sprintf("%s / %s", wholeLength(joins.Wanted, units), wholeLength(joins.AtLimit, units)), joins.Wanted >= s.Budget.Run,
			}
		}
		s.Reaches = append(s.Reaches, row)
	}
	s.ReachNote = fmt.Sprintf("Metres of run with %s wanted in hand / at the limit of %s; computed from catalogue maxima at %s. Bold covers the run of %s (%s).",
		quantity.PrintDecibels(s.Budget.WantedDB, 1), quantity.PrintDecibels(s.Budget.LimitDB, 1), quantity.PrintTemperature(s.Budget.TemperatureC, units.Temperature, 0), units.Needed(s.Budget.Printed(units.Unit()).Run), s.Budget.Measured.Words())
	if units.Length == quantity.Imperial {
		s.ReachNote = "Feet" + s.ReachNote[len("Metres"):]
	}
}

// wholeLength prints a reach in whole metres or feet, rounded down, without its unit.
func wholeLength(metres float64, units words.Units) string {
	if math.IsInf(metres, 1) {
		return "any"
	}
	if units.Length == quantity.Imperial {
		metres /= 0.3048
	}
	return fmt.Sprintf("%.0f", math.Floor(metres))
}

// changeFigure says what a change of a link would give.
func changeFigure(p *plan.Plan, r *budget.Reckoner, w budget.WhatIf, units words.Units) Figure {
	f := Figure{Value: budget.TenthDB(w.MarginDB) + " dB"}
	cable := fmt.Sprintf("cable %d", w.Order)
	if w.Order == 0 {
		cable = "the missing metres"
	}
	switch w.Change {
	case budget.Shorter:
		f.Name, f.Note = units.Needed(w.Metres)+" shorter", "less of "+cable
	case budget.FewerJoins:
		f.Name = "fewer joins"
		f.Note = fmt.Sprintf("cables %d to %d as one of %s, %s", w.Order, w.Last, units.Metres(w.Metres), cableKindName(p, w.Kind))
	case budget.BetterKind:
		f.Name, f.Note = "better kind", units.Needed(w.Metres)+" of "+cableKindName(p, w.Kind)+" for "+cable
	case budget.BetterJoint:
		f.Name, f.Note = "better coupler", r.HardwareName(w.Coupler)+" before "+cable
	case budget.Cooler:
		f.Name, f.Note = "cooler", "cable at "+quantity.PrintTemperature(w.TemperatureC, units.Temperature, 0)
	case budget.Warmer:
		f.Name, f.Note = "warmer", "cable at "+quantity.PrintTemperature(w.TemperatureC, units.Temperature, 0)
	}
	f.Note += fmt.Sprintf(": %s, %s wanted", w.Grade, quantity.PrintDecibels(w.WantedDB, 1))
	return f
}

// adviceFigures says what stands beside the verdict, and of each figure what it is.
func adviceFigures(a budget.Advice, units words.Units) []Figure {
	margin := func(dB float64) string { return budget.TenthDB(dB) + " dB" }
	at := func(freqMHz float64) string { return fmt.Sprintf("%.3g MHz", freqMHz) }
	heat := func(c float64) string { return quantity.PrintTemperature(c, units.Temperature, 0) }
	transport, _ := standards.TransportBySlug(standards.TransportSlug(a.Budget.Transport))
	allowed := func(limitDB float64) string {
		if limitDB == 0 {
			return ""
		}
		return fmt.Sprintf(", %.1f dB allowed", limitDB)
	}
	next, acr := budget.CrosstalkLess(a.NEXT.LikelyDB, a.Budget.LossDB)
	nextWorst, acrWorst := budget.CrosstalkLess(a.NEXT.WorstDB, a.Budget.LossDB)
	figures := []Figure{
		{"worst point", margin(a.WorstMarginDB), "at " + at(a.WorstMHz) + " against " + a.Curve.Name + "; computed"},
		{"mean margin", margin(a.MeanMarginDB), "over 1 to 62.5 MHz; computed"},
		{
			"risk", budget.Chance(a.Risk),
			fmt.Sprintf("chance of being over at %s; %s from 20 °C up. Judgement, an upper estimate: catalogue figures are maxima", heat(a.Budget.TemperatureC), budget.Chance(a.RiskFrom20)),
		},
		{"return loss", margin(a.Reflections.ReturnLossMarginDB), "to its limit at " + at(a.Reflections.ReturnLossMHz) + "; computed, limit published"},
		{"ripple", fmt.Sprintf("%.1f dB", a.Reflections.RippleDB), "at " + at(a.Reflections.RippleMHz) + "; computed"},
		{"NEXT, likely", next + " dB", fmt.Sprintf("%s dB at worst, at 100 MHz%s; from catalogue limits", nextWorst, allowed(transport.NEXTLimitDB))},
		{"ACR-N, likely", acr + " dB", acrWorst + " dB at worst: NEXT less loss; from catalogue limits"},
		{"ACR-F, likely", budget.InHand(a.ACRF.LikelyDB) + " dB", fmt.Sprintf("%s dB at worst, at 100 MHz%s; from catalogue limits", budget.InHand(a.ACRF.WorstDB), allowed(transport.ACRFLimitDB))},
		{"delay", fmt.Sprintf("%.0f ns", a.DelayNs), fmt.Sprintf("skew %.0f ns; catalogue maxima", a.SkewNs)},
		{"loop resistance", fmt.Sprintf("%.1f Ω", a.LoopOhm), "of one pair; computed from the wires' gauges"},
	}
	switch {
	case a.PowerErr != nil:
		figures = append(figures, Figure{"power", "refused", a.PowerErr.Error() + "; computed"})
	case a.PowerW > 0:
		figures = append(figures, Figure{
			"power", fmt.Sprintf("%.1f V", a.Feed.DeviceVoltage),
			fmt.Sprintf("at the device, which draws %.1f W by %s; computed, type from memory", a.PowerW, a.PowerType.Name),
		})
	}
	return figures
}
