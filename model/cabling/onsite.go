package cabling

import (
	"fmt"
	"slices"
	"strings"

	"stageloom/model/picking"
	"stageloom/model/plan"
)

// OnSite is a link that is laid, joined or tested and that a proposal would change all the same.
type OnSite struct {
	Link plan.LinkID
	Name string
	// Done is the last step that is done of it on site.
	Done string
	// TakenApart tells that a cable goes or lies elsewhere in it; else cable is only added.
	TakenApart bool

	detail string
}

// String names it: "takes apart L36, tested: LL07 goes, LL09 comes".
func (o OnSite) String() string {
	if !o.TakenApart {
		return fmt.Sprintf("adds to %s, %s: %s", o.Name, o.Done, o.detail)
	}
	return fmt.Sprintf("takes apart %s, %s: %s", o.Name, o.Done, o.detail)
}

// TakesApart names the links on site that a proposal takes apart: "L36 (tested) and L40 (laid)"; blank for none.
func (p *Proposal) TakesApart() string {
	var names []string
	for _, one := range p.OnSite {
		if one.TakenApart {
			names = append(names, fmt.Sprintf("%s (%s)", one.Name, one.Done))
		}
	}
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " and " + names[last]
}

// onSite lists what a proposal changes of what lies.
func (s *survey) onSite(changes []Change) (list []OnSite) {
	for i := range changes {
		c := &changes[i]
		link, _ := s.plan.Link(c.Link)
		if !link.Lies() || c.Same() {
			continue
		}
		gone, come := without(c.Before, c.After), without(c.After, c.Before)
		one := OnSite{Link: c.Link, Name: c.Name, Done: link.Done, TakenApart: len(gone) > 0 || !inOrder(c.Before, c.After)}
		var said []string
		for _, segment := range gone {
			words := cableName(s.plan, segment)
			if condition := s.plan.ConditionOf(segment); condition != "" && condition != plan.Good {
				words += ", " + condition + ","
			}
			said = append(said, words+" goes")
		}
		for _, segment := range come {
			said = append(said, cableName(s.plan, segment)+" comes")
		}
		if len(said) == 0 {
			said = append(said, "joined in another order or with other couplers")
		}
		one.detail = strings.Join(said, ", ")
		list = append(list, one)
	}
	return list
}

// without are the cables of a chain that another has not.
func without(chain, other []plan.Segment) (rest []plan.Segment) {
	left := slices.Clone(other)
	for _, segment := range chain {
		at := slices.IndexFunc(left, func(s plan.Segment) bool { return s.Cable() == segment.Cable() })
		if at < 0 {
			rest = append(rest, segment)
			continue
		}
		left = slices.Delete(left, at, at+1)
	}
	return rest
}

// inOrder reports whether all cables of a chain lie in another in their order, joined as before.
func inOrder(chain, other []plan.Segment) bool {
	i := 0
	for _, segment := range other {
		if i < len(chain) && segment.Cable() == chain[i].Cable() && (i == 0 || segment.Coupler == chain[i].Coupler) {
			i++
		}
	}
	return i == len(chain)
}

// leaveWhatLies makes the cables of links that lie on site stay where they are, but for faulty ones: of all such links, or
// where they may be taken apart, of those that serve as they lie in a way that no pick could name.
func (s *survey) leaveWhatLies() {
	fixed := false
	for _, r := range s.runs {
		if !r.link.Lies() || s.request.TakeApart && (r.nameable() || !r.servesNow()) {
			continue
		}
		s.lies[r.link.ID] = true
		fixed = true
	}
	if !fixed {
		return
	}
	for i, r := range s.runs {
		if s.lies[r.link.ID] {
			apart := r.apart
			s.runs[i] = s.newRun(r.link)
			s.runs[i].apart = apart
		}
	}
	clear(s.lineOf)
	s.lines = nil
	s.stock()
}

// nameable reports whether the loose cables of a run, as they lie, are a pick that the optimiser could come to.
func (r *run) nameable() bool {
	return len(r.loose) <= min(picking.MaxReels, r.most) && r.pickable()
}
