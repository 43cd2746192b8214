package text

import (
	"fmt"
	"slices"
	"strings"

	"stageloom/model/catalogue"
	"stageloom/model/picture"
	"stageloom/model/plan"
)

// EquipmentRow is a line of the equipment list: the head of a group, a kind of device, or a new position.
type EquipmentRow struct {
	// Group is set on the head of a group alone.
	Group string
	// Kind is what a drop or Enter places; blank on a new position and on heads.
	Kind plan.KindID
	// Position tells that a new position is placed.
	Position bool
	Name     string
	// Sockets are "32 in / 16 out", blank where a kind has none.
	Sockets string
	// Pictogram is the name of what it does as drawn.
	Pictogram string
	// Placed counts the devices of this kind in the plan.
	Placed int
}

// Head reports whether the row is only the head of a group.
func (r EquipmentRow) Head() bool { return r.Group != "" }

// EquipmentOf lists what can be placed: positions, the catalogue's kinds and the plan's own by group, as far as
// their names or groups hold all words of a query. own are the kinds of the user's library.
func EquipmentOf(p *plan.Plan, own []catalogue.DeviceKind, query string) []EquipmentRow {
	placed := map[plan.KindID]int{}
	for device := range p.Devices.All() {
		placed[device.Kind]++
	}
	kinds := map[plan.KindID]plan.Kind{}
	var order []plan.KindID
	pictograms := map[plan.KindID]string{}
	add := func(kind plan.Kind, ports []plan.KindPort) {
		if _, known := kinds[kind.ID]; !known {
			order = append(order, kind.ID)
		}
		kinds[kind.ID], pictograms[kind.ID] = kind, picture.PictogramOf(kind, ports)
	}
	for _, kind := range catalogue.DeviceKinds() {
		add(kind.Kind, kind.Ports)
	}
	for _, kind := range own {
		add(kind.Kind, kind.Ports)
	}
	for kind := range p.Kinds.All() {
		add(kind, p.Ports(kind.ID)) // the plan's copy is the one that counts
	}
	var rows []EquipmentRow
	if matches(query, "Position", "Site") {
		rows = append(rows, EquipmentRow{Group: "Site"}, EquipmentRow{Position: true, Name: "Position"})
	}
	for _, group := range groupsOf(kinds, order) {
		head := len(rows)
		for _, id := range order {
			if kind := kinds[id]; kind.Group == group && matches(query, kind.Name, group) {
				rows = append(rows, EquipmentRow{Kind: id, Name: kind.Name, Sockets: socketsOf(kind), Placed: placed[id], Pictogram: pictograms[id]})
			}
		}
		if len(rows) > head {
			rows = slices.Insert(rows, head, EquipmentRow{Group: group})
		}
	}
	return rows
}

func groupsOf(kinds map[plan.KindID]plan.Kind, order []plan.KindID) []string {
	groups := slices.Clone(catalogue.Groups())
	for _, id := range order {
		if !slices.Contains(groups, kinds[id].Group) {
			groups = append(groups, kinds[id].Group)
		}
	}
	return groups
}

// matches reports whether each word of a query stands in one of the texts, whatever its case.
func matches(query string, texts ...string) bool {
	all := strings.ToLower(strings.Join(texts, " "))
	for _, word := range strings.Fields(strings.ToLower(query)) {
		if !strings.Contains(all, word) {
			return false
		}
	}
	return true
}

func socketsOf(kind plan.Kind) string {
	if kind.Inputs+kind.Outputs == 0 {
		return ""
	}
	return fmt.Sprintf("%d in / %d out", kind.Inputs, kind.Outputs)
}
