package main

import (
	"fmt"
	"slices"
	"strings"

	"stageloom/model/budget"
	"stageloom/model/cabling"
	"stageloom/model/plan"
	"stageloom/model/supply"
)

// picked is what was picked for a plan, and the copy it was laid in, if any.
type picked struct {
	path, copy string
	// plan holds what the house offers beside the plan's own stock.
	plan     *plan.Plan
	proposal *cabling.Proposal
	house    bool
	from     *supply.Picked
}

// print lays out the comparison, what changes, what stays unserved and what to hire in.
func (r picked) print(p *page) {
	p.hang("", titleOf(r.plan))
	manner := "as for a new plan"
	if r.proposal.Request.OnTheDay {
		manner = "with few changes"
	}
	p.hang("", fmt.Sprintf("%s: cables picked for %s, %s%s", r.path, counted(len(r.proposal.Links), "link"), manner, r.source()))
	if len(r.proposal.Links) > 0 {
		p.blank()
		r.printTotals(p)
	}
	r.printOnSite(p)
	r.printChanges(p)
	r.printTaken(p)
	r.printUnserved(p)
	r.printAdvice(p)
	r.printHeld(p)
	p.blank()
	p.hang("", r.proof())
	if r.proposal.Tried != "" {
		p.hang("", r.proposal.Tried)
	}
	switch {
	case r.copy != "" && len(r.from.Takings) > 0:
		p.hang("", fmt.Sprintf("Laid in %s. The house learns what that plan takes when it is next saved in the window.", r.copy))
	case r.copy != "":
		p.hang("", fmt.Sprintf("Laid in %s.", r.copy))
	case r.changed() > 0:
		p.hang("", fmt.Sprintf("Nothing is laid yet. To lay it: --apply -o COPY%s", ".stageloom"))
	}
}

func (r picked) changed() int {
	changed := 0
	for _, change := range r.proposal.Links {
		if !change.Same() {
			changed++
		}
	}
	return changed
}

func (r picked) printTotals(p *page) {
	now, then := r.proposal.Now, r.proposal.Proposed
	row := func(name, a, b string) { p.line("  %s%s%s", left(name, 26), right(a, 12), right(b, 12)) }
	row("", "now", "proposed")
	row("links served", fmt.Sprintf("%d of %d", now.Served, now.Links), fmt.Sprintf("%d of %d", then.Served, then.Links))
	row("under their wanted margin", fmt.Sprint(now.Under), fmt.Sprint(then.Under))
	row("least margin", least(now), least(then))
	row("joins", fmt.Sprint(now.Joins), fmt.Sprint(then.Joins))
	row("cable", metres(now.Metres), metres(then.Metres))
	row("coiled", metres(now.Coiled), metres(then.Coiled))
	row("cables that come", "", fmt.Sprint(r.proposal.Come))
	row("cables that go", "", fmt.Sprint(r.proposal.Go))
}

func least(t cabling.Totals) string {
	if !t.LeastDB.Set {
		return "none"
	}
	return margin(t.LeastDB.Value)
}

// Columns of the list of changes.
const changeColumn = 11

// printChanges lists the links that get other cables, each with how it stands before and after.
func (r picked) printChanges(p *page) {
	whole, tied := r.proposal.LaidWhole()
	if len(whole) > 0 {
		p.blank()
		var rows []string
		for _, one := range whole {
			rows = append(rows, one.String())
		}
		p.list("Looms and trunk pieces", rows)
	}
	for _, change := range r.proposal.Links {
		if change.Same() || tied(change.Link) {
			continue
		}
		p.blank()
		names := wrap(change.Name, changeColumn-1)
		lead := func(i int) string { return "  " + left(nth(names, i), changeColumn) }
		p.hang(lead(0)+"now       ", stands(r.plan, change.Before, &change.Now, change.ServedNow))
		p.hang(lead(1)+"proposed  ", stands(r.plan, change.After, &change.Proposed, change.Served))
		for _, remark := range change.Remarks() {
			p.hang(lead(2)+"          ", remark)
		}
	}
	if same := len(r.proposal.Links) - r.changed(); same > 0 {
		p.blank()
		p.hang("  ", counted(same, "link")+map[bool]string{true: " stays as it is.", false: " stay as they are."}[same == 1])
	}
}

// stands says which cables a chain has and how the link stands with them.
func stands(p *plan.Plan, chain []plan.Segment, b *budget.Budget, served bool) string {
	words := cabling.Words(p, chain)
	switch {
	case len(chain) == 0:
		return words
	case b.TooShort():
		words += ": " + budget.Metres(b.Printed(1).Missing) + " too short"
	case b.HasMargin():
		words += fmt.Sprintf(": %s, %s", b.Grade, margin(b.MarginDB))
	case served:
		words += ": reaches, " + noGrade
	}
	switch {
	case faulty(p, chain):
		words += ", with a faulty cable"
	case slices.ContainsFunc(chain, p.Away):
		words += ", with a cable that is not there"
	case !served && !b.TooShort() && b.Grade != budget.Over:
		words += ", does not serve it"
	}
	return words
}

func faulty(p *plan.Plan, chain []plan.Segment) bool {
	return slices.ContainsFunc(chain, func(segment plan.Segment) bool {
		return p.ConditionOf(segment) == plan.Faulty
	})
}

// printOnSite names one by one what would be changed of what lies, before all else.
func (r picked) printOnSite(p *page) {
	if len(r.proposal.OnSite) == 0 {
		return
	}
	p.blank()
	p.line("What lies on site would be changed:")
	for _, one := range r.proposal.OnSite {
		p.hang("  - ", one.String())
	}
}

// source says which stock was picked from, where there is a choice.
func (r picked) source() string {
	if !r.house {
		return ""
	}
	return map[supply.Source]string{
		supply.Show: ", from the show's stock", supply.House: ", from the house's stock", supply.Both: ", from the stock of show and house",
	}[r.from.From]
}

// printTaken lists what is taken of the house's stock.
func (r picked) printTaken(p *page) {
	if rows := r.from.Words(); len(rows) > 0 {
		p.blank()
		p.list("To be taken from the house", rows)
	}
}

// list prints sentences under a heading.
func (p *page) list(head string, rows []string) {
	p.hang("", head+":")
	for _, row := range rows {
		p.hang("  - ", row)
	}
}

func (r picked) printUnserved(p *page) {
	if len(r.proposal.Unserved) == 0 {
		return
	}
	p.blank()
	p.line("%s unserved:", counted(len(r.proposal.Unserved), "link"))
	for _, unserved := range r.proposal.Unserved {
		p.hang("  - ", unserved.String())
	}
}

// printAdvice says what to have besides: from the house, or for hire.
func (r picked) printAdvice(p *page) {
	for _, advice := range r.proposal.Advice() {
		p.blank()
		if len(advice.Rows) == 0 {
			p.hang("", advice.Head+".")
			continue
		}
		p.list(advice.Head, advice.Rows)
	}
}

func (r picked) printHeld(p *page) {
	if len(r.proposal.Held) == 0 {
		return
	}
	p.blank()
	p.line("Held back in the truck:")
	for _, held := range r.proposal.Held {
		p.hang("  - ", held.String())
	}
}

// proof says how sure it is that no picks are better.
func (r picked) proof() string {
	apart := r.proposal.TakesApart()
	switch {
	case r.proposal.Proved && apart != "":
		return fmt.Sprintf("Proved, with %s taken apart: no other picks are better.", apart)
	case r.proposal.Proved && r.proposal.Left:
		return "Proved: no other picks that leave what lies on site are better. --take-apart lets it be changed."
	case r.proposal.Proved:
		return "Proved: no other picks are better."
	}
	var open []string
	for _, objective := range r.proposal.Objectives {
		if objective.Bound < objective.Value {
			open = append(open, fmt.Sprintf("%s %d, at least %d", objective.Name, objective.Value, objective.Bound))
		}
	}
	if apart != "" {
		return fmt.Sprintf("The best picks found, with %s taken apart; not proved to be the best there are: %s.", apart, strings.Join(open, "; "))
	}
	return "The best picks found; not proved to be the best there are: " + strings.Join(open, "; ") + "."
}
