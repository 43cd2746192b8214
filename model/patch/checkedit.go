package patch

import (
	"slices"

	"stageloom/model/plan"
)

// mostPlaces is the last place that an input can have in a line check.
const mostPlaces = 9999

// MoveInCheck moves inputs one turn earlier (-1) or later (1) in the line check of an act. Every input of the plan gets a
// place then, so that the order stays what it is; in other acts that go by hand nothing changes but the place of those that
// were moved. A line check by number or by area is by hand from then on, beginning with the order that it had, which is then
// that of every line check by hand; where places are given already, it is refused. Those at the end of the order stay there.
// The two sides of a stereo pair whose turns are next to each other move as one; a right side that was elsewhere comes behind
// its left one.
func MoveInCheck(e *plan.Edit, act plan.ActID, inputs []plan.InputID, by int) error {
	v := Of(e.Now())
	a, found := v.Act(act)
	if !found {
		return refuse("there is no such act any more")
	}
	if err := haveTurns(a, inputs); err != nil {
		return err
	}
	order, err := checkOrderToBegin(e, a)
	if err != nil {
		return err
	}
	turns := v.LineCheck(a)
	if a.Act.CheckBy != byHand && act != "" {
		row := a.Act
		row.CheckBy = byHand
		plan.Put(e, row)
	}
	order = moved(order, sidesTogether(turns), inputs, by)
	for i, input := range order {
		if input.CheckOrder != i+1 {
			input.CheckOrder = i + 1
			plan.Put(e, input)
		}
	}
	return nil
}

// sidesTogether are the inputs in the order of their turns, the sides of a stereo pair in one where the right one comes next.
func sidesTogether(turns []Turn) (all [][]plan.Input) {
	for i, turn := range turns {
		if i > 0 && turns[i-1].Line.Input.Right == turn.Line.Input.ID {
			all[len(all)-1] = append(all[len(all)-1], turn.Line.Input)
		} else {
			all = append(all, []plan.Input{turn.Line.Input})
		}
	}
	return all
}

// moved lets inputs that are named change places with those before them (-1) or behind them (1) in an order.
func moved(order []plan.Input, turns [][]plan.Input, names []plan.InputID, by int) []plan.Input {
	named := func(sides []plan.Input) bool {
		return slices.ContainsFunc(sides, func(side plan.Input) bool { return slices.Contains(names, side.ID) })
	}
	if by > 0 {
		slices.Reverse(turns)
	}
	for i, sides := range turns {
		if i == 0 || !named(sides) || named(turns[i-1]) {
			continue
		}
		over := turns[i-1]
		turns[i], turns[i-1] = over, sides
		beside := over[0].ID
		if by > 0 {
			beside = lastSide(order, over)
		}
		order = shifted(order, sides[0].ID, beside, by)
		for _, side := range sides {
			right := slices.ContainsFunc(order, func(input plan.Input) bool { return input.ID == side.Right })
			if right && side.Right != side.ID && (len(sides) > 1 || !slices.Contains(names, side.Right)) {
				order = shifted(order, side.Right, side.ID, 1)
			}
		}
	}
	return order
}

// lastSide is the side of a pair that comes last in an order, where the act does without it too.
func lastSide(order, sides []plan.Input) plan.InputID {
	last := sides[len(sides)-1]
	at := slices.IndexFunc(order, func(input plan.Input) bool { return input.ID == last.ID })
	if at+1 < len(order) && order[at+1].ID == last.Right {
		return last.Right
	}
	return last.ID
}

// haveTurns refuses inputs that have no turn in the line check of an act.
func haveTurns(act *Act, inputs []plan.InputID) error {
	for _, id := range inputs {
		line, known := act.Line(id)
		switch {
		case !known:
			return refuse("one of these inputs is not in the list of this act")
		case line.Struck:
			return refuse("%s is not used in this act: it has no turn in its line check", line.Input.Name)
		}
	}
	return nil
}

// checkOrderToBegin are all inputs of the plan in the order by hand: those of the act as its line check goes until now where
// nobody put any by hand.
func checkOrderToBegin(e *plan.Edit, act *Act) ([]plan.Input, error) {
	order := slices.Collect(e.Now().Inputs.All())
	if len(order) > mostPlaces {
		return nil, refuse("a line check by hand has %d places, and this plan has %d inputs", mostPlaces, len(order))
	}
	slices.SortFunc(order, byCheckPlace)
	order = rightsBehind(order, func(input plan.Input) plan.Input { return input })
	if act.House() || act.Act.CheckBy == byHand {
		return order, nil
	}
	if slices.ContainsFunc(order, func(input plan.Input) bool { return input.CheckOrder > 0 }) {
		return nil, refuse("the line check of %s goes %s, and inputs have places by hand already: let it go by hand in the table of acts first",
			act.Act.Name, CheckOrderWords(act.Act))
	}
	lines := inCheckOrder(act)
	for i, input := range order {
		if _, its := act.Line(input.ID); its {
			order[i], lines = lines[0].Input, lines[1:]
		}
	}
	return order, nil
}

// shifted takes an input out of an order and puts it before another (-1) or behind it (1).
func shifted(order []plan.Input, id, beside plan.InputID, by int) []plan.Input {
	is := func(id plan.InputID) func(plan.Input) bool {
		return func(input plan.Input) bool { return input.ID == id }
	}
	at := slices.IndexFunc(order, is(id))
	input := order[at]
	order = slices.Delete(order, at, at+1)
	to := slices.IndexFunc(order, is(beside))
	if by > 0 {
		to++
	}
	return slices.Insert(order, to, input)
}
