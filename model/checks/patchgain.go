package checks

import (
	"cmp"
	"fmt"
	"slices"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

// owning is one owner of sockets of a device in one act, and what is wrong with it.
type owning struct {
	device, owner plan.DeviceID
	what, why     string
}

// wrongOwner finds gain and 48 V owned by a device that is no console, or by a console that no link joins to the box. A
// device may own its own.
func wrongOwner(s *Subject) []Finding {
	sockets := map[patch.Socket]bool{}
	var order []patch.Socket
	for row := range s.Plan.SocketOwners.All() {
		socket := patch.Socket{Device: row.Device, Number: row.Socket}
		if !sockets[socket] && s.Patch.Exists(socket) {
			sockets[socket] = true
			order = append(order, socket)
		}
	}
	slices.SortFunc(order, func(a, b patch.Socket) int {
		return cmp.Or(cmp.Compare(a.Device, b.Device), cmp.Compare(a.Number, b.Number))
	})
	var sights []sight
	for _, act := range s.Patch.Acts {
		sights = append(sights, s.wrongOwners(act, order)...)
	}
	return s.once(sights)
}

func (s *Subject) wrongOwners(act *patch.Act, sockets []patch.Socket) (sights []sight) {
	var order []owning
	wrong := map[owning][]patch.Socket{}
	joined := map[[2]plan.DeviceID]bool{}
	for _, socket := range sockets {
		gain, phantom := act.Owner(socket)
		owners := []owning{{socket.Device, gain, "gain", ""}, {socket.Device, phantom, "48 V", ""}}
		if gain == phantom {
			owners = []owning{{socket.Device, gain, "gain and 48 V", ""}}
		}
		for _, one := range owners {
			if one.why = s.whyNot(act, one, joined); one.why == "" {
				continue
			}
			if wrong[one] == nil {
				order = append(order, one)
			}
			wrong[one] = append(wrong[one], socket)
		}
	}
	for _, one := range order {
		sights = append(sights, sight{Finding{
			Severity: Warn, Where: []Place{{plan.DevicesTable, plan.Key(one.device)}, {plan.DevicesTable, plan.Key(one.owner)}},
			What:   fmt.Sprintf("%s: %s %s owned by %s", s.socketRow(wrong[one]), one.what, choose(one.what == "gain and 48 V", "are", "is"), s.Patch.Name(one.owner)),
			Remedy: "Name a console that is joined to the box as owner.",
		}, act, one.why})
	}
	return sights
}

// whyNot says why an owner cannot be one; blank where it can, or is not there in the act, which is told elsewhere.
func (s *Subject) whyNot(act *patch.Act, one owning, joined map[[2]plan.DeviceID]bool) string {
	if one.owner == "" || one.owner == one.device || !act.Here(one.owner) {
		return ""
	}
	if !s.Patch.Mixes(one.owner) {
		return ", which is no console"
	}
	key := [2]plan.DeviceID{one.device, one.owner}
	if _, known := joined[key]; !known {
		joined[key] = s.Patch.Joined(act, one.device, one.owner)
	}
	if !joined[key] {
		return ", and no link joins the two"
	}
	return ""
}
