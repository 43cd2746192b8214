package text

import (
	"fmt"
	"strings"

	"stageloom/model/budget"
	"stageloom/model/cabling"
	"stageloom/model/plan"
	"stageloom/model/supply"
	"stageloom/model/words"
)

// Picks is what a pick of cables comes to, in words: the whole now and as proposed, each link that changes, why links stay
// unserved, and what to hire in.
type Picks struct {
	// Head says in a line what would be done.
	Head string
	// Sums compare the whole: a name, now, proposed.
	Sums [][3]string
	// Links are those that change; Same counts the others.
	Links []PickedLink
	Same  int
	// OnSite names one by one what would be changed of what is laid, joined or tested; TakesApart tells that some of it is
	// taken apart.
	OnSite     []string
	TakesApart bool
	// Whole names the looms and trunk pieces that are laid whole, with their links, which are not among the others.
	Whole []string
	// FromHouse lists what is taken of the house's stock.
	FromHouse []string
	// Unserved and Held are sentences; Advice is what to have besides, from the house or for hire.
	Unserved, Held []string
	Advice         []cabling.Advice
	// Proof says whether anything better is possible.
	Proof string
	// changing counts the links that change.
	changing int
	// Changed tells that there is something to take.
	Changed bool
}

// PickedLink is one link now and as proposed.
type PickedLink struct {
	Name          string
	Now, Proposed string // cables
	Margin        string // "+7 → +12", blank where the link carries no grade
	Grade         budget.Grade
	Remark        string
}

// PicksOf puts a proposal into words.
func PicksOf(p *plan.Plan, proposal *cabling.Proposal, units words.Units) Picks {
	k := Picks{Proof: proofOf(proposal), Sums: sumsOf(proposal, units)}
	whole, tied := proposal.LaidWhole()
	for _, one := range whole {
		k.Whole = append(k.Whole, one.String())
	}
	for _, change := range proposal.Links {
		if change.Same() {
			k.Same++
			continue
		}
		if k.changing++; tied(change.Link) {
			continue
		}
		k.Links = append(k.Links, PickedLink{
			Name: change.Name, Now: cabling.Words(p, change.Before), Proposed: cabling.Words(p, change.After),
			Margin: marginsOf(change), Grade: change.Proposed.Grade, Remark: strings.Join(change.Remarks(), "; "),
		})
	}
	for _, one := range proposal.OnSite {
		k.OnSite = append(k.OnSite, one.String())
	}
	k.TakesApart = proposal.TakesApart() != ""
	for _, unserved := range proposal.Unserved {
		k.Unserved = append(k.Unserved, unserved.String())
	}
	k.Advice = proposal.Advice()
	for _, held := range proposal.Held {
		k.Held = append(k.Held, held.String())
	}
	k.Changed = k.changing > 0
	k.Head = headOf(proposal, k.changing)
	if proposal.Tried != "" {
		k.Proof += " " + proposal.Tried
	}
	return k
}

// PicksFrom puts a pick from the show's stock, the house's or both into words.
func PicksFrom(picked *supply.Picked, units words.Units) Picks {
	k := PicksOf(picked.Plan, picked.Proposal, units)
	k.FromHouse = picked.Words()
	k.Changed = k.Changed || len(k.FromHouse) > 0
	return k
}

// Step names the change that the picks are.
func (k Picks) Step() string {
	switch {
	case k.changing == 0:
		return "Take cables from the house"
	case k.changing == 1 && len(k.Links) == 1:
		return "Pick cables for " + k.Links[0].Name
	}
	return "Pick cables for " + words.Counted(k.changing, "link", "links")
}

func headOf(proposal *cabling.Proposal, changed int) string {
	switch {
	case len(proposal.Links) == 0:
		return "There is no link to pick cables for."
	case changed == 0 && len(proposal.Unserved) == 0 && proposal.Left:
		return "Nothing to change: what lies on site is left as it lies, and the others have the best picks."
	case changed == 0 && len(proposal.Unserved) == 0:
		return "Nothing to change: the cables that are laid are the best picks."
	case changed == 0 && proposal.Left:
		return "Nothing to change: the stock serves no more links while what lies on site is left."
	case changed == 0:
		return "Nothing to change: the stock serves no more links than it does."
	}
	apart := ""
	if names := proposal.TakesApart(); names != "" {
		apart = " Takes apart " + names + "."
	}
	return fmt.Sprintf("%s would change: %s."+apart, words.Counted(changed, "link", "links"), proposal.Moves())
}

func sumsOf(proposal *cabling.Proposal, units words.Units) [][3]string {
	now, then := proposal.Now, proposal.Proposed
	served := func(t cabling.Totals) string { return fmt.Sprintf("%d of %d", t.Served, t.Links) }
	least := func(t cabling.Totals) string {
		if !t.LeastDB.Set {
			return "–"
		}
		return budget.TenthDB(t.LeastDB.Value) + " dB"
	}
	return [][3]string{
		{"Links served", served(now), served(then)},
		{"Under the wanted margin", fmt.Sprint(now.Under), fmt.Sprint(then.Under)},
		{"Least margin", least(now), least(then)},
		{"Joins", fmt.Sprint(now.Joins), fmt.Sprint(then.Joins)},
		{"Cable", units.Metres(now.Metres), units.Metres(then.Metres)},
		{"Coiled", units.Metres(now.Coiled), units.Metres(then.Coiled)},
	}
}

func marginsOf(change cabling.Change) string {
	said := func(b budget.Budget, served bool) string {
		if !served || !b.HasMargin() {
			return "–"
		}
		return budget.WholeDB(b.MarginDB)
	}
	if !change.Proposed.Graded {
		return ""
	}
	return said(change.Now, change.ServedNow) + " → " + said(change.Proposed, change.Served) + " dB"
}

func proofOf(proposal *cabling.Proposal) string {
	apart := ""
	if names := proposal.TakesApart(); names != "" {
		apart = ", with " + names + " taken apart"
	}
	if proposal.Proved && apart == "" && proposal.Left {
		return "Proved: no other picks from this stock that leave what lies on site are better by these aims, taken in their order."
	}
	if proposal.Proved {
		return "Proved" + apart + ": no other picks from this stock are better by these aims, taken in their order."
	}
	for _, objective := range proposal.Objectives {
		if objective.Bound < objective.Value {
			return fmt.Sprintf("The best found so far%s, not proved: %s came to %d and cannot be under %d.", apart, objective.Name, objective.Value, objective.Bound)
		}
	}
	return "The best found so far" + apart + ", not proved."
}
