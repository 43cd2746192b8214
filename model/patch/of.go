package patch

import (
	"cmp"
	"maps"
	"slices"
	"strings"

	"stageloom/model/plan"
)

// Of resolves the patch of a plan.
func Of(p *plan.Plan) *View {
	return resolve(p, newNetwork(p, restOf(p)), nil)
}

// Next resolves the patch of the plan that an edit made of the one before: an act that nothing touched is taken over, and
// so is everything when things were only moved about. It equals Of(p).
func Next(prev *View, p *plan.Plan) *View {
	switch {
	case prev == nil:
		return Of(p)
	case prev.Plan == p:
		return prev
	}
	nets := prev.nets
	if !sameRest(prev.Plan, p) {
		if r := restOf(p); !nets.rest.same(r) {
			return resolve(p, newNetwork(p, r), nil)
		}
	}
	if samePatch(prev.Plan, p) {
		next := *prev
		next.Plan = p
		return &next
	}
	return resolve(p, nets, prev)
}

// Tables names the tables that a patch reads; beside them it reads the plan's sample rate.
func Tables() []string {
	return []string{
		plan.KindsTable, plan.KindPortsTable, plan.KindSocketsTable, plan.KindWaysTable, plan.DevicesTable, plan.CableKindsTable, plan.ReelsTable, plan.HouseLinesTable, plan.LinksTable, plan.SegmentsTable,
		plan.InputsTable, plan.OutputsTable, plan.ActsTable, plan.StagePatchesTable, plan.ConsolePatchesTable, plan.SlotPatchesTable, plan.OutputPatchesTable, plan.ActConsolesTable, plan.SocketOwnersTable,
	}
}

// Same reports whether two views say the same of their plans: nothing that a patch reads has changed.
func Same(a, b *View) bool {
	return a == b || len(a.Acts) > 0 && len(b.Acts) > 0 && &a.Acts[0] == &b.Acts[0]
}

// samePatch reports whether two plans share every table that acts are made of.
func samePatch(a, b *plan.Plan) bool {
	return a.Inputs == b.Inputs && a.Outputs == b.Outputs && a.Acts == b.Acts && a.StagePatches == b.StagePatches &&
		a.ConsolePatches == b.ConsolePatches && a.SlotPatches == b.SlotPatches && a.OutputPatches == b.OutputPatches &&
		a.ActConsoles == b.ActConsoles && a.SocketOwners == b.SocketOwners
}

// resolve builds a view; prev, which rests on the same network, may lend it acts.
func resolve(p *plan.Plan, n *network, prev *View) *View {
	v := &View{Plan: p, nets: n}
	overlays := gather(p, n)
	lent := lenders(prev, p)
	inputs := sortedInputs(p)
	house, kept := lent[""]
	if !kept {
		house = &Act{over: overlays[""]}
		house.over.users = map[Socket][]plan.InputID{}
		house.Outputs = allOutputs(p, house.over)
		for i := range inputs {
			if inputs[i].Act == "" {
				l := house.over.line(inputs[i])
				house.Lines = append(house.Lines, l)
				house.over.lines[l.Input.ID] = l
				house.over.index(l)
			}
		}
	}
	v.Acts = append(v.Acts, house)
	for _, row := range running(p) {
		if act, found := lent[row.ID]; kept && found && act.Act == row {
			v.Acts = append(v.Acts, act)
			continue
		}
		o := overlays[row.ID]
		o.house = house.over
		v.Acts = append(v.Acts, actOf(row, inputs, o, house))
	}
	v.consoles = consolesOf(p, n)
	return v
}

// lenders are the acts of the view before whose rows stand as they stood.
func lenders(prev *View, p *plan.Plan) map[plan.ActID]*Act {
	lent := map[plan.ActID]*Act{}
	if prev == nil || prev.Plan.Inputs != p.Inputs || prev.Plan.Outputs != p.Outputs {
		return lent
	}
	for _, act := range prev.Acts {
		lent[act.Act.ID] = act
	}
	touch := func(id plan.ActID) { delete(lent, id) }
	a, b := prev.Plan, p
	touched(a.StagePatches, b.StagePatches, func(r plan.StagePatch) { touch(r.Act) })
	touched(a.ConsolePatches, b.ConsolePatches, func(r plan.ConsolePatch) { touch(r.Act) })
	touched(a.SlotPatches, b.SlotPatches, func(r plan.SlotPatch) { touch(r.Act) })
	touched(a.OutputPatches, b.OutputPatches, func(r plan.OutputPatch) { touch(r.Act) })
	touched(a.SocketOwners, b.SocketOwners, func(r plan.SocketOwner) { touch(r.Act) })
	if a.ActConsoles != b.ActConsoles {
		clear(lent) // a guest of one act is absent in all others
	}
	return lent
}

// touched visits the rows, old and new, in which two tables differ.
func touched[R plan.Row](a, b *plan.Table[R], visit func(R)) {
	if a == b {
		return
	}
	for row := range b.All() {
		if old, found := a.Get(row.Key()); !found || old != row {
			visit(row)
		}
	}
	for row := range a.All() {
		if !b.Has(row.Key()) {
			visit(row)
		}
	}
}

// running are the acts in the order of the running list.
func running(p *plan.Plan) []plan.Act {
	acts := slices.Collect(p.Acts.All())
	slices.SortStableFunc(acts, func(a, b plan.Act) int { return cmp.Compare(a.Order, b.Order) })
	return acts
}

// sortedInputs are all inputs by number.
func sortedInputs(p *plan.Plan) []plan.Input {
	inputs := slices.AppendSeq(make([]plan.Input, 0, p.Inputs.Len()), p.Inputs.All())
	slices.SortFunc(inputs, func(a, b plan.Input) int {
		return cmp.Or(cmp.Compare(a.Number, b.Number), strings.Compare(string(a.ID), string(b.ID)))
	})
	return inputs
}

func allOutputs(p *plan.Plan, o *overlay) []*OutputLine {
	var lines []*OutputLine
	for row := range p.Outputs.All() {
		lines = append(lines, o.output(row))
	}
	slices.SortStableFunc(lines, func(a, b *OutputLine) int { return cmp.Compare(a.Output.Number, b.Output.Number) })
	return lines
}

// index notes which sockets a line touches.
func (o *overlay) index(l *Line) {
	note := func(s Socket) {
		if !s.None() {
			o.users[s] = append(o.users[s], l.Input.ID)
		}
	}
	note(l.At)
	for _, way := range o.net.through[l.At] {
		note(way.socket)
	}
}

// actOf resolves one act: lines that nothing of its own touches are the house's.
func actOf(row plan.Act, inputs []plan.Input, o *overlay, house *Act) *Act {
	act := &Act{Act: row, over: o, Guests: slices.SortedFunc(maps.Keys(o.present), o.net.byName), Lines: make([]*Line, 0, len(house.Lines))}
	dirty := o.dirty()
	next := 0 // line of the house
	for i := range inputs {
		input := &inputs[i]
		var above *Line
		if input.Act == "" {
			above = house.Lines[next]
			next++
		} else if input.Act != row.ID {
			continue
		}
		line := above
		if above == nil || dirty[input.ID] {
			line = share(above, o.line(*input))
		}
		if act.Lines = append(act.Lines, line); line != above {
			o.lines[input.ID] = line
		}
	}
	act.Outputs = slices.Clone(house.Outputs)
	if len(o.outputs)+len(o.slots)+len(o.present) > 0 || len(o.guests) > 0 {
		for i, line := range act.Outputs {
			act.Outputs[i] = share(line, o.output(line.Output))
		}
	}
	return act
}

// consolesOf are the devices whose channels are patched.
func consolesOf(p *plan.Plan, n *network) []plan.DeviceID {
	found := map[plan.DeviceID]bool{}
	for id, d := range n.devices {
		if d.kind.Channels > 0 || d.kind.Group == "Mixing" && d.kind.Inputs > 0 {
			found[id] = true
		}
	}
	for row := range p.ConsolePatches.All() {
		found[row.Console] = true
	}
	return slices.SortedFunc(maps.Keys(found), n.byName)
}
