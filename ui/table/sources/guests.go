package sources

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/ui/panel"
)

// guestWords are the consoles that an act brings: "Guest FOH at FOH drop; Guest Mon".
func guestWords(p *plan.Plan, act plan.ActID, units panel.Units) string {
	var said []string
	for row := range p.ActConsoles.All() {
		if row.Act != act {
			continue
		}
		console, _ := p.Device(row.Console)
		words := console.Name
		if drop, found := p.Device(row.Drop); found {
			words += " at " + drop.Name
		}
		if row.Tail > 0 {
			words += ", tail " + units.Metres(row.Tail)
			if kind, found := p.CableKinds.Get(plan.Key(row.TailKind)); found {
				words += " of " + kind.Name
			}
		}
		said = append(said, words)
	}
	slices.SortFunc(said, cmp.Compare)
	return strings.Join(said, "; ")
}

// readGuests reads consoles and their drops. One that the act has already keeps its ports and its note.
func readGuests(p *plan.Plan, v *patch.View, act plan.ActID, units panel.Units, typed string) (guests []plan.ActConsole, err error) {
	consoles, drops := &catalogued{}, &catalogued{}
	for _, id := range v.Consoles() {
		consoles.add(v.Name(id), string(id))
	}
	for id := range v.ByName() {
		if !slices.Contains(v.Consoles(), id) {
			drops.add(v.Name(id), string(id))
		}
	}
	for part := range strings.SplitSeq(typed, ";") {
		part, tail, _ := strings.Cut(strings.TrimSpace(part), ", tail ")
		name, drop, dropped := strings.Cut(part, " at ")
		if name == "" {
			continue
		}
		console, err := consoles.id(strings.TrimSpace(name))
		if err != nil {
			return nil, err
		}
		guest := plan.ActConsole{Act: act, Console: plan.DeviceID(console)}
		for row := range p.ActConsoles.All() {
			if row.Act == act && row.Console == guest.Console {
				guest = row
			}
		}
		at := ""
		if dropped {
			if at, err = drops.id(strings.TrimSpace(drop)); err != nil {
				return nil, err
			}
		}
		if guest.Drop != plan.DeviceID(at) {
			guest.Drop, guest.DropPort = plan.DeviceID(at), ""
		}
		if err := readTail(p, &guest, units, tail); err != nil {
			return nil, err
		}
		if slices.ContainsFunc(guests, func(g plan.ActConsole) bool { return g.Console == guest.Console }) {
			return nil, fmt.Errorf("%s is named twice", v.Name(guest.Console))
		}
		guests = append(guests, guest)
	}
	return guests, nil
}

// readTail reads "5 m of Cat 6A tail" into a guest: how it reaches its drop. Blank is no tail; without a kind the kind stays.
func readTail(p *plan.Plan, guest *plan.ActConsole, units panel.Units, typed string) error {
	if typed = strings.TrimSpace(typed); typed == "" {
		guest.Tail, guest.TailKind = 0, ""
		return nil
	}
	length, kind, named := strings.Cut(typed, " of ")
	metres, err := metres(units, 0, mostTail).parse(strings.TrimSpace(length))
	if err != nil {
		return err
	}
	guest.Tail = metres
	if !named {
		return nil
	}
	kinds := &catalogued{}
	for row := range p.CableKinds.All() {
		kinds.add(row.Name, string(row.ID))
	}
	id, err := kinds.id(strings.TrimSpace(kind))
	guest.TailKind = plan.CableKindID(id)
	return err
}

// mostTail is the longest tail that a plan holds, in metres.
const mostTail = 1000
