package fields

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

// sayGuests are the consoles that an act brings: "Guest FOH at FOH drop; Guest Mon".
func sayGuests(s State, act plan.Act) string {
	var said []string
	for row := range s.Plan.ActConsoles.All() {
		if row.Act != act.ID {
			continue
		}
		console, _ := s.Plan.Device(row.Console)
		text := console.Name
		if drop, found := s.Plan.Device(row.Drop); found {
			text += " at " + drop.Name
		}
		if row.Tail > 0 {
			text += ", tail " + s.Units.Metres(row.Tail)
			if kind, found := s.Plan.CableKinds.Get(plan.Key(row.TailKind)); found {
				text += " of " + kind.Name
			}
		}
		said = append(said, text)
	}
	slices.SortFunc(said, cmp.Compare)
	return strings.Join(said, "; ")
}

func putGuests(s State, e *plan.Edit, key plan.Key, value string) error {
	guests, err := readGuests(s, plan.ActID(key), value)
	if err != nil {
		return err
	}
	return patch.Bring(e, plan.ActID(key), guests)
}

// readGuests reads consoles and their drops. One that the act has already keeps its ports and its note.
func readGuests(s State, act plan.ActID, typed string) (guests []plan.ActConsole, err error) {
	consoles, drops := consolesAndDrops(s.Plan)
	for part := range strings.SplitSeq(typed, ";") {
		part, tail, _ := strings.Cut(strings.TrimSpace(part), ", tail ")
		name, drop, dropped := strings.Cut(part, " at ")
		if name == "" {
			continue
		}
		console, err := ReadOption(strings.TrimSpace(name), consoles)
		if err != nil {
			return nil, err
		}
		guest := plan.ActConsole{Act: act, Console: plan.DeviceID(console)}
		for row := range s.Plan.ActConsoles.All() {
			if row.Act == act && row.Console == guest.Console {
				guest = row
			}
		}
		at := ""
		if dropped {
			if at, err = ReadOption(strings.TrimSpace(drop), drops); err != nil {
				return nil, err
			}
		}
		if guest.Drop != plan.DeviceID(at) {
			guest.Drop, guest.DropPort = plan.DeviceID(at), ""
		}
		if err := readTail(s, &guest, tail); err != nil {
			return nil, err
		}
		if slices.ContainsFunc(guests, func(g plan.ActConsole) bool { return g.Console == guest.Console }) {
			return nil, fmt.Errorf("%s is named twice", name)
		}
		guests = append(guests, guest)
	}
	return guests, nil
}

// consolesAndDrops are the devices with channels, and those without.
func consolesAndDrops(p *plan.Plan) (consoles, drops []Option) {
	for device := range p.Devices.All() {
		kind, _ := p.Kinds.Get(plan.Key(device.Kind))
		option := Option{string(device.ID), device.Name}
		if kind.Channels > 0 {
			consoles = append(consoles, option)
		} else {
			drops = append(drops, option)
		}
	}
	return consoles, drops
}

// readTail reads "5 m of Cat 6A tail" into a guest: how it reaches its drop. Blank is no tail; without a kind the kind stays.
func readTail(s State, guest *plan.ActConsole, typed string) error {
	if typed = strings.TrimSpace(typed); typed == "" {
		guest.Tail, guest.TailKind = 0, ""
		return nil
	}
	text, kind, named := strings.Cut(typed, " of ")
	table, _ := plan.TableNamed(plan.ActConsolesTable)
	column, _ := table.Column("tail_m")
	tail := &Field{Table: table.Name, ID: "tail", column: column, unit: length}
	metres, err := tail.figure(s, strings.TrimSpace(text))
	if err != nil {
		return err
	}
	guest.Tail = metres
	if !named {
		return nil
	}
	var kinds []Option
	for row := range s.Plan.CableKinds.All() {
		kinds = append(kinds, Option{string(row.ID), row.Name})
	}
	id, err := ReadOption(strings.TrimSpace(kind), kinds)
	guest.TailKind = plan.CableKindID(id)
	return err
}
