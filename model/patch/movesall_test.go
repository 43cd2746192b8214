package patch_test

import (
	"stageloom/model/patch"
	"stageloom/model/patch/patchtest"
	"stageloom/model/plan"
)

// added are the inputs that operations added.
func added(p *plan.Plan) (all []plan.InputID) {
	own := map[plan.InputID]bool{}
	for n := range 10 {
		own[movesInput(n)] = true
	}
	for input := range p.Inputs.All() {
		if !own[input.ID] {
			all = append(all, input.ID)
		}
	}
	return all
}

// drawAny draws an operation; those over all acts more rarely, as they are slow.
func (m mover) drawAny(p *plan.Plan) operation {
	if m.IntN(5) == 0 {
		return m.drawOverAll(p)
	}
	return m.draw()
}

// drawOverAll draws an operation that works on all acts at once, or on everything of one.
func (m mover) drawOverAll(p *plan.Plan) operation {
	act := []plan.ActID{"", first2, second2}[m.IntN(3)]
	console, number, by := movesDevice(6+m.IntN(2)), 1+m.IntN(12), []int{-2, -1, 1, 2}[m.IntN(4)]
	boxes := m.Perm(3)
	one, other := movesDevice(3+boxes[0]), movesDevice(3+boxes[1])
	offset := patch.Offset{Act: act, All: m.IntN(2) == 0, By: by, Follow: true}
	everywhere := func(consoles ...plan.DeviceID) (all []patchtest.Spot) {
		for _, id := range consoles {
			for n := range 14 {
				all = append(all, patchtest.Spot{Console: id, Number: n})
			}
		}
		return all
	}
	switch m.IntN(6) {
	case 0:
		dead := []plan.DeviceID{one, movesDevice(1), movesDevice(0)}[max(0, m.IntN(5)-2)]
		return operation{words: "move off", edit: func(e *plan.Edit) error { _, err := patch.MoveOff(e, dead); return err }}
	case 1:
		return operation{words: "swap boxes", edit: func(e *plan.Edit) error { return patch.SwapBoxes(e, one, other) }}
	case 2:
		some := m.some()
		return operation{words: "shift inputs of all acts", act: act, edit: func(e *plan.Edit) error { return offset.Inputs(e, some) }}
	case 3:
		return operation{words: "shift a device", act: act, edit: func(e *plan.Edit) error { return offset.Device(e, one) }}
	case 4:
		return operation{words: "shift all channels", act: act, channels: everywhere(console), edit: func(e *plan.Edit) error { return offset.Channels(e, console, number) }}
	}
	return m.drawInsert(p, act, everywhere(movesDevice(6), movesDevice(7)))
}

// drawInsert draws a new input; the oldest that was added leaves where there are several.
func (m mover) drawInsert(p *plan.Plan, act plan.ActID, all []patchtest.Spot) operation {
	old, with := added(p), patch.Insertion{Act: act, At: m.input(), Name: "New", Below: m.IntN(2) == 0}
	if len(old) > 3 {
		return operation{words: "take out", inputs: old[:1], edit: func(e *plan.Edit) error { e.RemoveInput(old[0]); return nil }}
	}
	o := operation{words: "insert", act: act, adds: true, edit: func(e *plan.Edit) error { _, err := patch.InsertInput(e, with); return err }}
	if with.Below {
		o.words, o.channels = "insert above", all
	}
	return o
}
