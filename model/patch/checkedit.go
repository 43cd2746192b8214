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
	if by > 0 {
		slices.Reverse(turns)
	}
	for i, turn := range turns {
		if i == 0 || !slices.Contains(inputs, turn.Line.Input.ID) || slices.Contains(inputs, turns[i-1].Line.Input.ID) {
			continue
		}
		turns[i], turns[i-1] = turns[i-1], turns[i]
		order = shifted(order, turn.Line.Input.ID, turns[i].Line.Input.ID, by)
	}
	for i, input := range order {
		if input.CheckOrder != i+1 {
			input.CheckOrder = i + 1
			plan.Put(e, input)
		}
	}
	return nil
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
