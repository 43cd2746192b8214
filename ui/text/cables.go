package text

import (
	"fmt"
	"math"
	"slices"

	"stageloom/model/budget"
	"stageloom/model/catalogue"
	"stageloom/model/plan"
	"stageloom/model/standards"
	"stageloom/model/words"
)

// CableChoice is one cable that could be laid next: a free reel, a house line, or a kind with the length that is left.
type CableChoice struct {
	Segment plan.Segment
	// Length is in metres: the reel's own, or what is left to reach rounded up to a usual length.
	Length float64
	Words  string
	// Suspect marks a cable that is here and not to be trusted, as its words say.
	Suspect bool
}

// usualLengths are the lengths in metres that cables are mostly made in (common practice, no source).
var usualLengths = []float64{2, 3, 5, 10, 15, 20, 25, 30, 40, 50, 60, 75, 80, 100}

// usualLength rounds metres up to a usual length; what is longer than all of them is the longest.
func usualLength(metres float64) float64 {
	for _, length := range usualLengths {
		if length >= metres-0.05 {
			return length
		}
	}
	return usualLengths[len(usualLengths)-1]
}

// CablesInstead lists the cables that could take the place of that of an order.
func CablesInstead(p *plan.Plan, id plan.LinkID, order int, units words.Units) []CableChoice {
	without, err := plan.Do(p, nil, func(e *plan.Edit) error { return e.RemoveSegment(id, order) })
	if err != nil {
		return nil
	}
	old := p.SegmentsOf(id)[order-1]
	return slices.DeleteFunc(CablesFor(without, id, units), func(choice CableChoice) bool {
		return old.Kind == "" && choice.Segment.Reel == old.Reel && choice.Segment.HouseLine == old.HouseLine
	})
}

// CablesFor lists the cables that fit a link: what is here first, reels and house lines that reach before those that do not, good
// ones before suspect ones and the least left over first; then kinds by length, the wanted one before the others.
func CablesFor(p *plan.Plan, id plan.LinkID, units words.Units) []CableChoice {
	link, _ := p.Link(id)
	b := budget.Of(p, link)
	left := b.Missing
	if left <= 0 {
		left = usualLengths[0]
	}
	transport, err := standards.TransportBySlug(standards.TransportSlug(link.Transport))
	if err != nil {
		return nil
	}
	var wanted, others []CableChoice
	for _, kind := range catalogue.CableKindsFor(p) {
		if !budget.Fits(kind, transport.Media) {
			continue
		}
		length := usualLength(left)
		choice := CableChoice{plan.Segment{Kind: kind.ID, Length: length}, length, kind.Name + ", by length", false}
		if kind.ID == link.FillKind {
			wanted = append(wanted, choice)
		} else {
			others = append(others, choice)
		}
	}
	reels := append(freeReels(p, transport.Media, units), freeLines(p, transport.Media, units)...)
	slices.SortStableFunc(reels, func(a, b CableChoice) int { return compareHere(a, b, left) })
	return slices.Concat(reels, wanted, others)
}

// LikeBefore is the place among choices of what is most like a cable that was laid: the same row of the stock, another
// cable of its kind out of the stock where that one was, or its kind by length; −1 where there is none.
func LikeBefore(p *plan.Plan, choices []CableChoice, laid plan.Segment) int {
	kind := kindOf(p, laid).ID
	like := func(test func(plan.Segment) bool) int {
		return slices.IndexFunc(choices, func(choice CableChoice) bool { return test(choice.Segment) })
	}
	if laid.Reel != "" {
		if same := like(func(s plan.Segment) bool { return s.Reel == laid.Reel }); same >= 0 {
			return same
		}
		if reel := like(func(s plan.Segment) bool { return s.Reel != "" && kindOf(p, s).ID == kind }); reel >= 0 {
			return reel
		}
	}
	return like(func(s plan.Segment) bool { return s.Kind == kind && kind != "" })
}

func reaches(length, left float64) bool { return length >= left-0.05 }

// compareHere puts what reaches before what does not, and on both sides a good cable before a suspect one.
func compareHere(a, b CableChoice, left float64) int {
	if reaches(a.Length, left) == reaches(b.Length, left) && a.Suspect != b.Suspect {
		if b.Suspect {
			return -1
		}
		return 1
	}
	return compareReach(a.Length, b.Length, left)
}

// compareReach puts lengths that reach before those that do not, the nearest first on both sides.
func compareReach(a, b, left float64) int {
	switch {
	case reaches(a, left) != reaches(b, left):
		if reaches(a, left) {
			return -1
		}
		return 1
	case math.Abs(a-left) < math.Abs(b-left):
		return -1
	case math.Abs(a-left) > math.Abs(b-left):
		return 1
	}
	return 0
}

// freeReels lists the reels of good condition that no link holds, with what is left of a row of equal ones.
func freeReels(p *plan.Plan, media standards.Media, units words.Units) []CableChoice {
	used := p.UsedReels()
	var free []CableChoice
	for reel := range p.Reels.All() {
		kind, _ := p.CableKinds.Get(plan.Key(reel.Kind))
		rest := reel.There() - used[reel.ID]
		if rest <= 0 || reel.Condition == plan.Faulty || !budget.Fits(kind, media) {
			continue
		}
		words := fmt.Sprintf("%s · %s · %s", reelName(reel, rest), units.Piece(reel.Length), kind.Name)
		if reel.Condition == plan.Suspect {
			words += " · suspect"
		}
		if box, found := p.Cases.Get(plan.Key(reel.Case)); found {
			words += " · " + box.Name
		}
		free = append(free, CableChoice{plan.Segment{Reel: reel.ID}, reel.Length, words, reel.Condition == plan.Suspect})
	}
	return free
}

// freeLines lists the venue's house lines that no link uses and that are not faulty.
func freeLines(p *plan.Plan, media standards.Media, units words.Units) []CableChoice {
	used := map[plan.HouseLineID]bool{}
	for segment := range p.Segments.All() {
		used[segment.HouseLine] = true
	}
	var free []CableChoice
	for line := range p.HouseLines.All() {
		kind, _ := p.CableKinds.Get(plan.Key(line.Kind))
		if used[line.ID] || line.Condition == plan.Faulty || !budget.Fits(kind, media) {
			continue
		}
		words := fmt.Sprintf("house line %s · %s · %s", line.Name, units.Piece(line.Length), kind.Name)
		if line.Condition == plan.Suspect {
			words += " · suspect"
		}
		free = append(free, CableChoice{plan.Segment{HouseLine: line.ID}, line.Length, words, line.Condition == plan.Suspect})
	}
	return free
}

func reelName(reel plan.Reel, rest int) string {
	if reel.Tag != "" {
		return reel.Tag
	}
	return fmt.Sprintf("%d left", rest)
}
