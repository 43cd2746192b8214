package checks

import (
	"fmt"
	"slices"

	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// lost is the finding of a run of channels, with what follows on its acts.
func (s *Subject) lost(t *stretch) (finding Finding, rest string) {
	run, many := channels(s.Patch.Name(t.console), t.first(), t.last()), len(t.gaps) > 1
	finding = Finding{Severity: t.severe, Where: s.lostAt(t), What: run + choose(many, " get nothing", " gets nothing")}
	switch t.at.Cause {
	case patch.NoChannel:
		finding.What = run + choose(many, " are patched", " is patched")
		rest, finding.Remedy = s.notThere(t)
	case patch.NoSocket:
		rest, finding.Remedy = s.notThere(t)
	case patch.Unjoined, patch.Unfed, patch.Unplugged:
		rest, finding.Remedy = s.nothingIn(t, s.sockets(t, true))
	default:
		rest, finding.Remedy = s.onTheWay(t)
	}
	return finding, rest
}

// notThere tells of channels and sockets beyond the number that there are.
func (s *Subject) notThere(t *stretch) (rest, remedy string) {
	if t.at.Cause == patch.NoChannel {
		has := choose(t.at.Limit > 0, fmt.Sprintf("%d channels", t.at.Limit), "no channels")
		return fmt.Sprintf(", and %s has %s", s.Patch.Name(t.console), has), "Move it to a channel that is there, or take a larger console."
	}
	has := choose(t.at.Limit > 0, fmt.Sprintf("%d inputs", t.at.Limit), "no input")
	return fmt.Sprintf(": there is no %s, %s has %s", s.sockets(t, true), s.Patch.Name(t.at.Device), has),
		"Let it listen to a socket that is there, or take a larger box."
}

// onTheWay tells of a signal that is lost between where it is plugged in and the console.
func (s *Subject) onTheWay(t *stretch) (rest, remedy string) {
	console, device, box, named := s.Patch.Name(t.console), s.Patch.Name(t.at.Device), s.sockets(t, false), s.sockets(t, true)
	link, _ := s.Plan.Link(t.at.Link)
	many := len(t.gaps) > 1
	switch t.at.Cause {
	case patch.NotPassed:
		return fmt.Sprintf(": %s stands between and passes nothing on", device), passesOnOrLay(device, s.Patch.Name(t.device), console)
	case patch.NoSlot:
		return fmt.Sprintf(": %s %s no channel on %s", box, choose(many, "have", "has"), link.Name),
			"Assign channels on the links between them, or lay a link that has room."
	case patch.SlotOver:
		return fmt.Sprintf(": %s carries %d channels at %s, and %s %s beyond them", link.Name, t.at.Limit, patch.KHz(t.at.Rate), box, choose(many, "lie", "lies")),
			"Take it over another link, or run at a lower sample rate."
	case patch.NoLeg:
		return fmt.Sprintf(": %s %s joins nothing, and nothing else leads from %s to %s", device, t.at.Port, named, console),
			fmt.Sprintf("Lay a multicore from %s %s to a box that is joined to %s.", device, t.at.Port, console)
	case patch.FewWays:
		return fmt.Sprintf(": %s has %d ways, too few for %s", link.Name, t.at.Limit, s.inputNames(t, named)),
			"Lay a multicore of more ways or a second one, or plug into the ways that there are."
	}
	return fmt.Sprintf(": no link that carries channels leads from %s to %s", device, console),
		"Lay a link between them, or listen to a box that is joined to the console."
}

// passesOnOrLay says what to do where a console stands between.
func passesOnOrLay(console, from, to string) string {
	return fmt.Sprintf("If %s sends these on, set “Passes signals on” on its card; else lay a link from %s to %s.", console, from, to)
}

// passOn proposes that the console which stands between passes signals on, with the channels on the links that this wants.
func passOn(s *Subject, f Finding) (fixes []Fix) {
	for _, one := range s.stretches() {
		if one.at.Cause != patch.NotPassed || !slices.Equal(s.lostAt(one), f.Where) {
			continue
		}
		fixes = append(fixes, Fix{Label: s.Patch.Name(one.at.Device) + " passes signals on", Edit: func(e *plan.Edit) error {
			if err := changeDevices(e, []plan.DeviceID{one.at.Device}, func(d *plan.Device) { d.PassesOn = true }); err != nil {
				return err
			}
			for _, gap := range one.gaps {
				if err := patch.Connect(e, gap.Socket, gap.Console); err != nil {
					return err
				}
			}
			return nil
		}})
	}
	return fixes
}

// nothingIn says why nothing comes in at the sockets that channels list.
func (s *Subject) nothingIn(t *stretch, named string) (rest, remedy string) {
	port := s.Patch.Name(t.at.Device) + " " + t.at.Port
	there := s.Patch.Name(t.at.Beyond) + " " + t.at.BeyondPort
	switch {
	case t.at.Cause == patch.Unfed:
		waiting := fmt.Sprintf("%s on %s %s for it", s.inputNames(t, "inputs"), s.Patch.Name(t.at.Beyond), choose(len(t.inputs) == 1, "waits", "wait"))
		return fmt.Sprintf(": %s joins nothing, and %s", port, waiting), fmt.Sprintf("Lay the multicore to %s, for instance from %s.", port, there)
	case t.at.Cause == patch.Unjoined:
		return fmt.Sprintf(": %s joins nothing, and %s waits for it", port, there), fmt.Sprintf("Lay the multicore from %s to %s.", port, there)
	case len(t.inputs) > 0:
		return fmt.Sprintf(": nothing is plugged into %s, and %s %s plugged elsewhere", named, s.inputNames(t, ""), choose(len(t.inputs) == 1, "is", "are")),
			"Let the channel listen to where the input is, or plug it in here."
	}
	return ": nothing is plugged into " + named, "Plug an input in there, or leave the channel empty."
}

func (s *Subject) inputNames(t *stretch, otherwise string) string {
	var names []string
	for _, id := range t.inputs {
		input, _ := s.Plan.Inputs.Get(plan.Key(id))
		names = append(names, input.Name)
	}
	if len(names) == 0 {
		return otherwise
	}
	return words.And(names, fewNamed)
}

// lostAt are the console, the place where it is lost, and the inputs that are.
func (s *Subject) lostAt(t *stretch) []Place {
	where := []Place{{plan.DevicesTable, plan.Key(t.console)}}
	device := func(id plan.DeviceID) {
		if place := (Place{plan.DevicesTable, plan.Key(id)}); id != "" && s.Plan.Devices.Has(plan.Key(id)) && !slices.Contains(where, place) {
			where = append(where, place)
		}
	}
	device(t.at.Device)
	device(t.at.Beyond)
	device(t.device)
	if t.at.Link != "" {
		where = append(where, Place{plan.LinksTable, plan.Key(t.at.Link)})
	}
	for _, id := range t.inputs {
		where = append(where, Place{plan.InputsTable, plan.Key(id)})
	}
	return where
}

// channels names a run of channels: "FOH 9–24".
func channels(console string, first, last int) string {
	if first == last {
		return fmt.Sprintf("%s %d", console, first)
	}
	return fmt.Sprintf("%s %d–%d", console, first, last)
}

// sockets names those of a run: "SL in 9–24", "SL in 3, 7 and 2 more".
func (s *Subject) sockets(t *stretch, named bool) string {
	var all []patch.Socket
	for _, gap := range t.gaps {
		socket := gap.Socket
		if named {
			socket = gap.Named
		}
		all = append(all, socket)
	}
	return s.socketRow(all)
}

// socketRow names sockets, runs of them together.
func (s *Subject) socketRow(all []patch.Socket) string {
	var names []string
	for i := 0; i < len(all); {
		last := i
		for last+1 < len(all) && all[last+1].Device == all[i].Device && all[last+1].Output == all[i].Output && all[last+1].Number == all[last].Number+1 {
			last++
		}
		said := s.Patch.SocketWords(all[i])
		if last > i {
			said += fmt.Sprintf("–%d", all[last].Number)
		}
		names = append(names, said)
		i = last + 1
	}
	return words.And(names, fewNamed)
}

func choose(first bool, one, other string) string {
	if first {
		return one
	}
	return other
}
