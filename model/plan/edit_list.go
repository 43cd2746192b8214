package plan

import "slices"

// AddInput adds an input under a new id and returns it.
func (e *Edit) AddInput(r Input) InputID {
	r.ID = InputID(newID[Input](e))
	Put(e, r)
	return r.ID
}

// RemoveInput takes an input off the list, with what the patch and the line check say of it; its stereo partner stands alone.
func (e *Edit) RemoveInput(id InputID) {
	dropWhere(e, func(r StagePatch) bool { return r.Input == id })
	dropWhere(e, func(r LineCheck) bool { return r.Input == id })
	changeWhere(e, func(r Input) bool { return r.Right == id }, func(r *Input) { r.Right = "" })
	Drop[Input](e, Key(id))
}

// AddOutput adds an output under a new id and returns it.
func (e *Edit) AddOutput(r Output) OutputID {
	r.ID = OutputID(newID[Output](e))
	Put(e, r)
	return r.ID
}

// RemoveOutput takes an output off the list, with the patch rows that name it.
func (e *Edit) RemoveOutput(id OutputID) {
	dropWhere(e, func(r OutputPatch) bool { return r.Output == id })
	changeWhere(e, func(r Output) bool { return r.Right == id }, func(r *Output) { r.Right = "" })
	Drop[Output](e, Key(id))
}

// AddAct adds an act under a new id and returns it.
func (e *Edit) AddAct(r Act) ActID {
	r.ID = ActID(newID[Act](e))
	Put(e, r)
	return r.ID
}

// RemoveAct takes an act out of the plan with all that it says of the patch and the inputs that it alone has; the house
// stays as it is.
func (e *Edit) RemoveAct(id ActID) {
	for _, input := range slices.Collect(e.next.Inputs.All()) {
		if input.Act == id {
			e.RemoveInput(input.ID)
		}
	}
	dropWhere(e, func(r StagePatch) bool { return r.Act == id })
	dropWhere(e, func(r ConsolePatch) bool { return r.Act == id })
	dropWhere(e, func(r SlotPatch) bool { return r.Act == id })
	dropWhere(e, func(r OutputPatch) bool { return r.Act == id })
	dropWhere(e, func(r ActConsole) bool { return r.Act == id })
	dropWhere(e, func(r SocketOwner) bool { return r.Act == id })
	dropWhere(e, func(r LineCheck) bool { return r.Act == id })
	Drop[Act](e, Key(id))
}

// AddHouseLine adds a house line under a new id and returns it.
func (e *Edit) AddHouseLine(r HouseLine) HouseLineID {
	r.ID = HouseLineID(newID[HouseLine](e))
	Put(e, r)
	return r.ID
}

// RemoveHouseLine takes a house line out of the plan; segments made of it keep their kind and length.
func (e *Edit) RemoveHouseLine(id HouseLineID) error {
	line, found := e.next.HouseLines.Get(Key(id))
	if !found {
		return refuse("there is no such house line any more")
	}
	changeWhere(e, func(r Segment) bool { return r.HouseLine == id },
		func(r *Segment) { r.HouseLine, r.Kind, r.Length = "", line.Kind, line.Length })
	Drop[HouseLine](e, Key(id))
	return nil
}
