package patch

import (
	"fmt"
	"slices"

	"stageloom/model/plan"
)

// PairInputs makes two inputs the left and the right side of a stereo pair, or takes the right side off the left one where none is
// named. Both are of one list, and neither is a side of another pair.
func PairInputs(e *plan.Edit, leftID, rightID plan.InputID) error {
	rows := e.Now().Inputs
	one, found := rows.Get(plan.Key(leftID))
	other, known := rows.Get(plan.Key(rightID))
	switch {
	case !found || rightID != "" && !known:
		return refuse("there is no such input any more")
	case rightID == "":
	case leftID == rightID:
		return refuse("%s cannot be its own right side: choose another input", one.Name)
	case one.Act != other.Act:
		return refuse("%s and %s are of different lists: a stereo pair is of one act or of the house", one.Name, other.Name)
	default:
		for input := range rows.All() {
			if input.ID != leftID && input.Right != "" && (input.ID == rightID || input.Right == leftID || input.Right == rightID) {
				right, _ := rows.Get(plan.Key(input.Right))
				return refuse("%s and %s are a stereo pair already: part them first", input.Name, right.Name)
			}
		}
	}
	one.Right = rightID
	plan.Put(e, one)
	return nil
}

// PairOutputs is PairInputs of two outputs.
func PairOutputs(e *plan.Edit, leftID, rightID plan.OutputID) error {
	rows := e.Now().Outputs
	one, found := rows.Get(plan.Key(leftID))
	_, known := rows.Get(plan.Key(rightID))
	switch {
	case !found || rightID != "" && !known:
		return refuse("there is no such output any more")
	case leftID == rightID:
		return refuse("%s cannot be its own right side: choose another output", one.Name)
	case rightID != "":
		for output := range rows.All() {
			if output.ID != leftID && output.Right != "" && (output.ID == rightID || output.Right == leftID || output.Right == rightID) {
				right, _ := rows.Get(plan.Key(output.Right))
				return refuse("%s and %s are a stereo pair already: part them first", output.Name, right.Name)
			}
		}
	}
	one.Right = rightID
	plan.Put(e, one)
	return nil
}

// Side says which side of a stereo pair an input of an act is, and of which other: "L of 8", "R of 7"; blank where it is mono.
func (a *Act) Side(input plan.Input) string {
	if right, found := a.Line(input.Right); found && input.Right != "" {
		return fmt.Sprintf("L of %d", right.Input.Number)
	}
	for _, line := range a.Lines {
		if line.Input.Right == input.ID {
			return fmt.Sprintf("R of %d", line.Input.Number)
		}
	}
	return ""
}

// OutputSide is Side of an output.
func (a *Act) OutputSide(output plan.Output) string {
	for _, line := range a.Outputs {
		switch {
		case output.Right != "" && line.Output.ID == output.Right:
			return fmt.Sprintf("L of %d", line.Output.Number)
		case line.Output.Right == output.ID:
			return fmt.Sprintf("R of %d", line.Output.Number)
		}
	}
	return ""
}

// rightOf is the right side of an input that both are there in the act; blank where it is mono.
func (w *work) rightOf(id plan.InputID) plan.InputID {
	right, found := w.inputs[w.inputs[id].Right]
	if !found || right.ID == id || right.Act != w.inputs[id].Act {
		return ""
	}
	return right.ID
}

// next is the socket behind one.
func (s Socket) next() Socket { return Socket{s.Device, s.Number + 1, s.Output} }

// rightMoves are the moves of right sides to the socket behind their left one's, where they are not named themselves.
func (w *work) rightMoves(moves []Move) (along []Move) {
	for _, m := range moves {
		id := w.rightOf(m.Input)
		named := slices.ContainsFunc(moves, func(other Move) bool { return other.Input == id })
		row, _ := w.over.stageRow(id)
		if id == "" || named || row.Strike || w.at(w.over, w.inputs[m.Input]) == m.To {
			continue
		}
		along = append(along, Move{id, m.To.next()})
	}
	return along
}

// rightChannels are the channels behind those of left sides, for right sides that are not named themselves; a right side leaves
// a console with its left one where it stood on the channel behind.
func (w *work) rightChannels(console plan.DeviceID, wanted []Wanted) (along []Wanted) {
	before := w.before[w.act]
	for _, one := range wanted {
		id := w.rightOf(one.Input)
		_, plugged := before.at[id]
		if id == "" || !plugged || slices.ContainsFunc(wanted, func(other Wanted) bool { return other.Input == id }) {
			continue
		}
		switch {
		case one.Channel == 0:
			if w.besides(console, one.Input, id) {
				along = append(along, Wanted{id, 0})
			}
		case !slices.Contains(before.has[place{console, one.Channel}], one.Input):
			along = append(along, Wanted{id, one.Channel + 1})
		}
	}
	return along
}

// rightWays is the way behind one for a right side that was on the way behind its left one's, or on none as that.
func (w *work) rightWays(input plan.Input, device plan.DeviceID, way int) []onSnake {
	right := w.inputs[w.rightOf(input.ID)]
	beside := right.Snake == input.Snake && (right.SnakeWay == input.SnakeWay+1 || input.Snake == "")
	switch {
	case right.ID == "" || !beside || input.Snake == device && input.SnakeWay == way:
		return nil
	case device == "":
		return []onSnake{{right.ID, "", 0}}
	case way == 0:
		return []onSnake{{right.ID, device, 0}}
	}
	if w.exists(w.net.snake(plan.Input{Snake: device, SnakeWay: way + 1})) != nil {
		return nil
	}
	return []onSnake{{right.ID, device, way + 1}}
}

// besides reports whether an input has the channel behind another's.
func (w *work) besides(console plan.DeviceID, one, other plan.InputID) bool {
	mine, _ := w.channelsHad(w.over, console, one)
	return slices.ContainsFunc(mine, func(at place) bool {
		return slices.Contains(w.before[w.act].has[place{console, at.number + 1}], other)
	})
}

// behind is the channel behind one where the right side of its input is; none where it is elsewhere.
func (w *work) behind(console plan.DeviceID, number int) (next int, is bool) {
	before := w.before[w.act]
	for _, id := range before.has[place{console, number}] {
		if right := w.rightOf(id); right != "" && slices.Contains(before.has[place{console, number + 1}], right) {
			return number + 1, true
		}
	}
	return 0, false
}

// withBehind are channels with those behind where right sides are.
func (w *work) withBehind(console plan.DeviceID, numbers []int) []int {
	all := slices.Clone(numbers)
	for _, number := range numbers {
		if next, is := w.behind(console, number); is && !slices.Contains(all, next) {
			all = append(all, next)
		}
	}
	return all
}

// bothBehind reports whether the channels behind two that change places can do so too: right sides of theirs, or empty.
func (w *work) bothBehind(console plan.DeviceID, a, b int) bool {
	_, left := w.behind(console, a)
	_, other := w.behind(console, b)
	free := func(number int) bool {
		return w.console(console, number, number) == nil && w.over.heard(place{console, number}).None()
	}
	return a-b != 1 && b-a != 1 && (left || other) && (left || free(a+1)) && (other || free(b+1))
}

// together does what was asked for with all that may go along; where that is refused, with as much of it as goes, one by one.
func together[Item any](w *work, asked, along []Item, do func(*work, []Item) error) error {
	try := func(w *work, items []Item) (*work, error) {
		err := do(w, items)
		if err == nil {
			err = w.check()
		}
		return w, err
	}
	fresh := func(items []Item) (*work, error) {
		again, err := newWork(w.edit, w.act)
		if err != nil {
			return nil, err
		}
		return try(again, items)
	}
	best, err := try(w, slices.Concat(asked, along))
	if err != nil && len(along) > 0 {
		best, err = fresh(asked)
		for items, left := slices.Clone(asked), along; len(left) > 0 && len(along) > 1; left = left[1:] {
			if more, wrong := fresh(append(slices.Clone(items), left[0])); wrong == nil {
				items, best, err = append(items, left[0]), more, nil
			}
		}
	}
	if err != nil {
		return err
	}
	best.write()
	return nil
}

// Stayed says, after inputs were moved in an act, which right sides of theirs did not go along: "Keys R stays on SL in 8". The
// view is that before, after the one that the move came to; where no inputs are named, it is asked of all that were moved.
func (v *View) Stayed(after *View, id plan.ActID, moved []plan.InputID) (said []string) {
	was, _ := v.Act(id)
	is, found := after.Act(id)
	if was == nil || !found {
		return nil
	}
	asked := moved
	if moved == nil {
		asked = is.stillPaired(was)
	}
	for _, input := range asked {
		left, known := is.Line(input)
		if known && !slices.Contains(moved, left.Input.Right) {
			said = append(said, after.rightStayed(was, is, left)...)
		}
	}
	return said
}

// stillPaired are the left sides of an act that had the same right side before.
func (a *Act) stillPaired(was *Act) (lefts []plan.InputID) {
	for _, line := range a.Lines {
		if old, known := was.Line(line.Input.ID); known && line.Input.Right != "" && old.Input.Right == line.Input.Right {
			lefts = append(lefts, line.Input.ID)
		}
	}
	return lefts
}

// rightStayed says where the right side of one that moved stands, by socket or else by console, where it did not go along.
func (v *View) rightStayed(was, is *Act, left *Line) (said []string) {
	before, there := was.Line(left.Input.ID)
	right, paired := is.Line(left.Input.Right)
	if !there || !paired || !right.Patched() {
		return nil
	}
	if left.Patched() && left.At != before.At && right.At != left.At.next() {
		return []string{fmt.Sprintf("%s stays on %s", right.Input.Name, v.SocketWords(right.At))}
	}
	for _, console := range v.Consoles() {
		number, old := left.Number(console), before.Number(console)
		if stays := right.Number(console); number != old && number > 0 && stays > 0 && stays != number+1 {
			said = append(said, fmt.Sprintf("%s stays on %s %d", right.Input.Name, v.Name(console), stays))
		}
	}
	return said
}
