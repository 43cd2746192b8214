package cabling

import (
	"fmt"
	"strings"

	"stageloom/model/budget"
	"stageloom/model/plan"
)

// Kept cables K1 … Km of a run leave m+1 gaps, 0 before the first and m behind the last, in which loose cables may lie.
// All joints and what meets the ends are reckoned with the gaps; only the kept cables themselves come off the limit.

// whole reports whether the kept cables meet each other and both ends without any cable between.
func (r *run) whole() bool {
	for gap := range len(r.kept) + 1 {
		if !r.meets(gap) {
			return false
		}
	}
	return true
}

// meets reports whether what stands on the two sides of a gap meets without a cable between.
func (r *run) meets(gap int) bool {
	switch gap {
	case 0:
		return r.begins(r.keptKind(0))
	case len(r.kept):
		return r.ends(r.keptKind(gap - 1))
	}
	return follows(r.keptKind(gap-1), r.keptKind(gap), r.turned)
}

func (r *run) keptKind(i int) plan.CableKind { return r.survey.kindOf(r.kept[i]) }

// gaps are those in which loose cables are picked: all of them, unless all cables are alike at their ends, so that it comes to
// the same where they lie; then the last.
func (r *run) gaps() []int {
	last := len(r.kept)
	if last > 0 && r.alike() {
		return []int{last}
	}
	all := make([]int, last+1)
	for gap := range all {
		all[gap] = gap
	}
	return all
}

// alike reports whether all that lies or may lie on a run has plugs of one sort at both ends, which go into both ports.
func (r *run) alike() bool {
	like := func(kind plan.CableKind) bool {
		near, far := sockets(kind, r.turned)
		head := r.keptKind(0)
		return !near && !far && r.begins(kind) && r.ends(kind) &&
			kind.Hardware == head.Hardware && kind.Media == head.Media && kind.Connector == head.Connector
	}
	for i := range r.kept {
		if !like(r.keptKind(i)) || r.kept[i].Coupler != "" {
			return false
		}
	}
	losses := r.survey.lossesFor(r)
	for i, l := range r.survey.lines {
		if kind := r.survey.kinds[l.kind]; losses[i] >= 0 && len(l.free) > 0 && r.allows(kind) && !like(kind) {
			return false
		}
	}
	return true
}

// chainKey tells kept chains apart by what decides their joints.
func (r *run) chainKey() string {
	var b strings.Builder
	for i, segment := range r.kept {
		fmt.Fprintf(&b, "%s:%s ", r.keptKind(i).ID, segment.Coupler)
	}
	return b.String()
}

// join is the loss of the joint of two neighbours in thousandths of a dB, the coupler before the second included, and
// whether they meet.
func (r *run) join(a, b plan.CableKindID, coupler plan.HardwareID) (int, bool) {
	kinds := r.survey.kinds
	if !follows(kinds[a], kinds[b], r.turned) {
		return 0, false
	}
	return r.survey.jointOf(r, a, b, coupler), true
}

// along is the loss of the joints from kept cable i to kept cable j, and whether all of them meet.
func (r *run) along(i, j int) (loss int, fits bool) {
	for ; i < j; i++ {
		joint, meets := r.join(r.keptKind(i).ID, r.keptKind(i+1).ID, r.kept[i+1].Coupler)
		if !meets {
			return 0, false
		}
		loss += joint
	}
	return loss, true
}

// across is the loss of the joints between a cable in one gap and the next loose one in the same gap or a later one.
func (r *run) across(a, b plan.CableKindID, from, to int) (int, bool) {
	if from == to {
		return r.join(a, b, "")
	}
	into, meets := r.join(a, r.keptKind(from).ID, r.kept[from].Coupler)
	if !meets {
		return 0, false
	}
	inner, meets := r.along(from, to-1)
	if !meets {
		return 0, false
	}
	out, meets := r.join(r.keptKind(to-1).ID, b, "")
	return into + inner + out, meets
}

// first is what a run loses between its near end and the first loose cable, nil where that cannot lie there.
func (r *run) first(kind plan.CableKindID, gap int) []int {
	if gap == 0 {
		if !r.begins(r.survey.kinds[kind]) {
			return nil
		}
		return []int{r.panel(kind, true) + r.meeting(kind, true)}
	}
	head := r.keptKind(0)
	if !r.begins(head) {
		return nil
	}
	inner, meets := r.along(0, gap-1)
	if !meets {
		return nil
	}
	out, meets := r.join(r.keptKind(gap-1).ID, kind, "")
	if !meets {
		return nil
	}
	return []int{r.panel(head.ID, true) + inner + out}
}

// last is what a run loses between the last loose cable and its far end, nil where that cannot lie there.
func (r *run) last(kind plan.CableKindID, gap int) []int {
	end := len(r.kept)
	if gap == end {
		if !r.ends(r.survey.kinds[kind]) {
			return nil
		}
		return []int{r.panel(kind, false) + r.meeting(kind, false)}
	}
	tail := r.keptKind(end - 1)
	if !r.ends(tail) {
		return nil
	}
	into, meets := r.join(kind, r.keptKind(gap).ID, r.kept[gap].Coupler)
	if !meets {
		return nil
	}
	inner, meets := r.along(gap, end-1)
	if !meets {
		return nil
	}
	return []int{into + inner + r.panel(tail.ID, false)}
}

// panel is what the panel at an end loses with its inner lead, before a cable of this kind; 0 where there is none.
func (r *run) panel(kind plan.CableKindID, near bool) int {
	if !r.fixed.Graded || near && r.link.FromPanel == "" || !near && r.link.ToPanel == "" {
		return 0
	}
	loss, behind := 0, false
	link := r.link
	link.FillKind = "" // no assumed cable behind it
	b := r.survey.reckoner.Cabled(link, renumbered([]plan.Segment{{Kind: kind, Length: 1}}))
	for _, part := range b.Parts {
		if part.What == budget.Cable {
			behind = true
		} else if (part.What == budget.Panel || part.What == budget.Lead) && behind != near {
			loss += up(part.LossDB)
		}
	}
	return loss
}

// isCable reports whether a part is a cable of the link or the inner connection of its drum.
func isCable(part *budget.Part) bool { return part.What == budget.Cable || part.What == budget.Inner }
