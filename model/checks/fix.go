package checks

import (
	"fmt"
	"slices"

	"stageloom/model/plan"
)

// Fix is a certain cure of a finding: what it does in words, and the edit that does it in one step.
type Fix struct {
	Label string
	Edit  func(*plan.Edit) error

	// all is its label where it is done on every link of a finding with a list; blank where it speaks of one link alone.
	all string
}

// fixers propose fixes for the findings of a rule, by its slug; a rule that is missing has none. A proposal need not
// hold: Fixes tries it.
var fixers = map[string]func(*Subject, Finding) []Fix{
	"over-limit":       betterParts,
	"tight":            betterParts,
	"too-short":        longer,
	"wrong-port":       portsTransport,
	"wrong-medium":     otherWantedKind,
	"screen":           otherWantedKind,
	"pairs-missing":    otherWantedKind,
	"shell":            otherWantedKind,
	"socket-at-device": turnOrTail,
	"same-way":         outOfLoom,
	"bad-reel":         equalReel,
	"bad-house-line":   reelInstead,
	"not-there":        equalReel,
	"other-kind":       wantWhatLies,
	"power":            noPower,
	"double-name":      ownNames,
	"retired-name":     freshName,
	"channel-left":     freeLeft,
	"rates-apart":      oneRate,
	"no-arrival":       passOn,
	"detour":           overShorter,
	"phantom-missing":  giveIt,
	"phantom-arrives":  takeIt,
	"double-input":     numberThem,
}

// FixedRules lists the rules that may have a fix, in the order of the rules.
func FixedRules() (ids []string) {
	for _, rule := range rules {
		if fixers[rule.ID] != nil {
			ids = append(ids, rule.ID)
		}
	}
	return ids
}

// Fixes returns the certain cures of a finding on a plan, the best first, or none. Each was tried on the plan: the
// finding was gone after it, its rule found nothing new, and nothing stops the show that did not before. On a plan of 750
// links one trial takes some milliseconds: ask for findings that are looked at, not for all.
func Fixes(p *plan.Plan, f Finding) (certain []Fix) {
	propose := fixers[f.Rule]
	if propose == nil || len(f.Where) == 0 {
		return nil
	}
	s := NewSubject(p)
	proposed := propose(s, f)
	if len(f.each) > 0 {
		proposed = onAll(s, f, propose)
	}
	if len(proposed) == 0 {
		return nil
	}
	before := s.found()
	for _, fix := range proposed {
		next, err := plan.Do(p, plan.NewIDSource(0, 0), fix.Edit)
		if err == nil && cured(f, before, NewSubject(next).found()) {
			certain = append(certain, fix)
		}
	}
	return certain
}

// onAll proposes what is proposed alike for each of the findings that became one with a list.
func onAll(s *Subject, f Finding, propose func(*Subject, Finding) []Fix) (fixes []Fix) {
	edits := map[string][]func(*plan.Edit) error{}
	var labels []string
	for _, one := range f.each {
		for _, fix := range propose(s, one) {
			if edits[fix.all] == nil {
				labels = append(labels, fix.all)
			}
			edits[fix.all] = append(edits[fix.all], fix.Edit)
		}
	}
	for _, label := range labels {
		if label == "" || len(edits[label]) != len(f.each) {
			continue
		}
		fixes = append(fixes, Fix{Label: fmt.Sprintf("%s, on all %d", label, len(f.each)), Edit: func(e *plan.Edit) error {
			for _, edit := range edits[label] {
				if err := edit(e); err != nil {
					return err
				}
			}
			return nil
		}})
	}
	return fixes
}

// found runs all rules.
func (s *Subject) found() (found []Finding) {
	for _, rule := range rules {
		found = append(found, rule.Find(s)...)
	}
	return found
}

// cured reports whether a finding is gone, with nothing new of its rule and no new stop.
func cured(f Finding, before, after []Finding) bool {
	for _, now := range after {
		was := slices.ContainsFunc(before, now.like)
		if now.like(f) || !was && (now.Rule == f.Rule || now.Severity == Stop && !slices.ContainsFunc(before, now.stopped)) {
			return false
		}
	}
	return true
}

// stopped reports whether another finding of the same rule stopped the show at the same first place: what is told together
// may name more or fewer places then.
func (f Finding) stopped(other Finding) bool {
	return f.Rule == other.Rule && other.Severity == Stop && len(f.Where) > 0 && len(other.Where) > 0 && f.Where[0] == other.Where[0]
}

// like reports whether two findings say the same of the same rows, be it with other figures.
func (f Finding) like(other Finding) bool {
	return f.Rule == other.Rule && slices.Equal(f.Where, other.Where)
}

// linkOf is the link that a finding is about first.
func (s *Subject) linkOf(f Finding) (plan.Link, bool) {
	if f.Where[0].Table != plan.LinksTable {
		return plan.Link{}, false
	}
	return s.Plan.Links.Get(f.Where[0].Key)
}

// linkFix is a fix that changes the link's own row; the same may be done on others.
func linkFix(link plan.Link, label string, with func(*plan.Link)) Fix {
	return Fix{Label: label, Edit: func(e *plan.Edit) error { return plan.Update(e, link.Key(), with) }, all: label}
}
