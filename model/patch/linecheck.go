package patch

import (
	"cmp"
	"slices"
	"strings"

	"stageloom/model/plan"
)

// UsualCheckSeconds is how long an input of a line check takes where the act does not say; common practice, no source.
const UsualCheckSeconds = 20

// byArea and byHand are the orders of a line check beside that by number.
const (
	byArea = "area"
	byHand = "hand"
)

// Turn is one input's turn in the line check of an act.
type Turn struct {
	Line *Line
	// Place counts from 1.
	Place int
	// Planned is the time of day at which it is due, blank where the act names no time that can be read: "16:20", and with
	// seconds where any turn has them.
	Planned string
}

// LineCheck lists the inputs that an act uses in the order in which they are called out:
//   - by number;
//   - by area: riser by riser, in the order in which the risers first come by number, then by number, what is on no riser
//     last;
//   - by hand: by the place of each input, where one without a place takes that of its number and comes after one that was
//     put there; the right side of a stereo pair without a place follows its left side where that has one.
//
// The house, which has no row that could say so, goes by hand: by number as long as no input has a place.
func (v *View) LineCheck(act *Act) []Turn {
	var turns []Turn
	for _, line := range inCheckOrder(act) {
		if !line.Struck {
			turns = append(turns, Turn{Line: line, Place: len(turns) + 1})
		}
	}
	start, known := MinuteOf(act.Act.CheckStart)
	if !known {
		return turns
	}
	each := cmp.Or(act.Act.CheckSeconds, UsualCheckSeconds)
	for i := range turns {
		turns[i].Planned = clockWords(start*60+i*each, each%60 != 0)
	}
	return turns
}

// CheckOrderWords says in which order the line check of an act goes: "by number", "by area", "by hand".
func CheckOrderWords(act plan.Act) string { return "by " + cmp.Or(act.CheckBy, "number") }

// inCheckOrder are all lines of an act in the order of its line check, with those that it does not use.
func inCheckOrder(act *Act) []*Line {
	lines := slices.Clone(act.Lines) // by number
	switch {
	case act.Act.CheckBy == byArea:
		areas := areasOf(lines)
		slices.SortStableFunc(lines, func(a, b *Line) int { return cmp.Compare(areas[area(a)], areas[area(b)]) })
	case act.Act.CheckBy == byHand, act.House():
		slices.SortStableFunc(lines, func(a, b *Line) int { return byCheckPlace(a.Input, b.Input) })
		lines = rightsBehind(lines, func(line *Line) plan.Input { return line.Input })
	}
	return lines
}

// byCheckPlace orders inputs as a line check by hand does.
func byCheckPlace(a, b plan.Input) int {
	behind := func(input plan.Input) int {
		if input.CheckOrder == 0 {
			return 1
		}
		return 0
	}
	return cmp.Or(
		cmp.Compare(cmp.Or(a.CheckOrder, a.Number), cmp.Or(b.CheckOrder, b.Number)),
		cmp.Compare(behind(a), behind(b)), cmp.Compare(a.Number, b.Number), strings.Compare(string(a.ID), string(b.ID)),
	)
}

// rightsBehind puts the right sides of stereo pairs that have no place of their own behind left sides that have one.
func rightsBehind[Item any](order []Item, input func(Item) plan.Input) []Item {
	for _, left := range slices.Clone(order) {
		if input(left).Right == "" || input(left).CheckOrder == 0 {
			continue
		}
		right := slices.IndexFunc(order, func(item Item) bool { return input(item).ID == input(left).Right })
		if right < 0 || input(order[right]).CheckOrder > 0 {
			continue
		}
		item := order[right]
		order = slices.Delete(order, right, right+1)
		at := slices.IndexFunc(order, func(item Item) bool { return input(item).ID == input(left).ID })
		order = slices.Insert(order, at+1, item)
	}
	return order
}

// area is the riser of an input, however it is spelled.
func area(line *Line) string { return plan.Folded(line.Input.Riser) }

// areasOf numbers the risers of what an act uses in the order in which they first come; no riser comes last.
func areasOf(lines []*Line) map[string]int {
	areas := map[string]int{}
	for _, line := range lines {
		if riser := area(line); riser != "" && areas[riser] == 0 && !line.Struck {
			areas[riser] = len(areas) + 1
		}
	}
	areas[""] = len(areas) + 1
	return areas
}
