package checks_test

import (
	"strconv"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

// scene is one act as the rows say it.
type scene struct {
	*follower
	act         plan.ActID
	drop, guest plan.DeviceID
	at          map[plan.InputID]patch.Socket
	struck      map[plan.InputID]bool
	lists       map[plan.ConsolePatch]bool // act, console and channel to be read with source
	own         map[[2]string]bool
	slots       map[plan.SlotPatch]bool
	floods      map[plan.InputID]map[patch.Socket]bool
}

func (f *follower) scene(act plan.ActID) *scene {
	s := &scene{
		follower: f, act: act, at: map[plan.InputID]patch.Socket{}, struck: map[plan.InputID]bool{}, lists: map[plan.ConsolePatch]bool{},
		own: map[[2]string]bool{}, slots: map[plan.SlotPatch]bool{}, floods: map[plan.InputID]map[patch.Socket]bool{},
	}
	guests := map[plan.DeviceID]bool{}
	for row := range f.ActConsoles.All() {
		if guests[row.Console] = true; row.Act == act {
			s.drop, s.guest = row.Drop, row.Console
		}
	}
	for input := range f.Inputs.All() {
		if input.Act != "" && input.Act != act {
			continue
		}
		row, found := f.StagePatches.Get(plan.StagePatch{Act: act, Input: input.ID}.Key())
		if !found {
			row, found = f.StagePatches.Get(plan.StagePatch{Input: input.ID}.Key())
		}
		switch {
		case found && row.Strike:
			s.struck[input.ID] = true
		case found:
			s.at[input.ID] = patch.Socket{Device: row.Device, Number: row.Socket}
		case input.Snake != "":
			s.at[input.ID] = patch.Socket{Device: input.Snake, Number: input.SnakeWay, Output: !f.kinds[input.Snake].Passive}
		}
	}
	for id, at := range s.at {
		s.floods[id] = f.wet(at, s.drop, s.guest, false)
	}
	for row := range f.ConsolePatches.All() {
		over, said := f.ConsolePatches.Get(plan.ConsolePatch{Act: act, Console: row.Console, Channel: row.Channel}.Key())
		if row.Act != act && (row.Act != "" || said) || row.Act == act && over.Strike || guests[row.Console] && row.Console != s.guest {
			continue
		}
		s.own[[2]string{string(row.Console), strconv.Itoa(row.Channel)}] = row.Act == act
		row.Act = act
		s.lists[row] = true
	}
	for row := range f.SlotPatches.All() {
		if row.Act == act || row.Act == "" && !f.SlotPatches.Has(plan.SlotPatch{Act: act, Link: row.Link, Direction: row.Direction, Slot: row.Slot}.Key()) {
			s.slots[row] = !row.Strike
		}
	}
	return s
}

// carried reports whether slots bring a socket to a console.
func (s *scene) carried(box patch.Socket, console plan.DeviceID) bool {
	there := map[plan.DeviceID]bool{box.Device: true}
	for grew := true; grew; {
		grew = false
		for row, on := range s.slots {
			link, _ := s.Link(row.Link)
			from, to := link.From, link.To
			if row.Direction == patch.Return {
				from, to = to, from
			}
			if on && row.Slot <= 48 && (from == box.Device || s.goesOn(from)) && (patch.Socket{Device: row.Device, Number: row.Socket, Output: row.Output}) == box && there[from] && !there[to] {
				there[to], grew = true, true
			}
		}
	}
	return there[console]
}

// goesOn reports whether a signal goes on from a device that it comes to.
func (s *scene) goesOn(id plan.DeviceID) bool {
	device, _ := s.Device(id)
	return s.kinds[id].Channels == 0 || device.PassesOn
}

// gets reports whether a channel that lists a socket gets an input.
func (s *scene) gets(console plan.DeviceID, listed patch.Socket, input plan.InputID) bool {
	flood := s.floods[input]
	if !flood[listed] {
		return false
	}
	if !s.passes(listed.Device) {
		return s.carried(listed, console)
	}
	for box := range flood {
		if !s.passes(box.Device) && s.carried(box, console) {
			return true
		}
	}
	return false
}
