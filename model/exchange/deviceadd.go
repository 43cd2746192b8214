package exchange

import (
	"fmt"
	"strings"

	"stageloom/model/plan"
	"stageloom/model/quantity"
)

// DevicesComing is what a list of devices comes to in a plan: how many are new, of them how many have a place on the ground,
// which of the plan change and how, how many stay as they are, and which positions are made.
type DevicesComing struct {
	New, Placed, Same int
	Changes           []DeviceChange
	Positions         []string
}

// DeviceChange is a device of the plan that the list changes, in words: "now Console 48, was Stage box".
type DeviceChange struct{ Name, Words string }

// Coming reckons what the good rows come to in a plan.
func (d Devices) Coming(p *plan.Plan) DevicesComing {
	var c DevicesComing
	named, places := devicesByName(p), positionsByName(p)
	made := map[string]bool{}
	for _, row := range d.Rows {
		if name := plan.Folded(row.Position); name != "" && places[name] == "" && !made[name] {
			made[name] = true
			c.Positions = append(c.Positions, row.Position)
		}
		known := named[plan.Folded(row.Device.Name)]
		switch {
		case row.Device.Name == "" || len(known) == 0:
			c.New += row.Count
			if !row.Device.Unplaced {
				c.Placed += row.Count
			}
		default:
			if words := d.differences(p, known[0], row); words != "" {
				c.Changes = append(c.Changes, DeviceChange{known[0].Name, words})
			} else {
				c.Same++
			}
		}
	}
	return c
}

// differences says what a row changes about a device; blank cells change nothing.
func (d Devices) differences(p *plan.Plan, old plan.Device, row DeviceRow) string {
	var said []string
	kind, _ := p.Kinds.Get(plan.Key(old.Kind))
	at, _ := p.Positions.Get(plan.Key(old.Position))
	now := row.Device
	if now.Kind != "" && now.Kind != old.Kind {
		said = append(said, fmt.Sprintf("now %s, was %s", d.kinds[now.Kind], kind.Name))
	}
	if row.Position != "" && plan.Folded(row.Position) != plan.Folded(at.Name) {
		said = append(said, "now at "+row.Position)
	}
	if !now.Unplaced && (old.Unplaced || now.At().RoundMM() != old.At()) {
		length := func(metres float64) string { return quantity.PrintLength(metres, d.bare, 1) }
		said = append(said, fmt.Sprintf("placed %s to the right and %s up", length(now.X), length(now.Y)))
	}
	for _, text := range [][3]string{{"supply", now.Supply, old.Supply}, {"structure", now.Structure, old.Structure}, {"note", now.Note, old.Note}} {
		if text[1] != "" && text[1] != text[2] {
			said = append(said, "another "+text[0])
		}
	}
	return strings.Join(said, ", ")
}

// Add puts the devices into a plan: what bears the name of a device there changes it where its cells are filled, all others
// are new, without a place where no coordinates are given. Positions that the list names and the plan lacks are made: at the
// place of their first device, or named alone. use brings a kind of device into the plan. A list with faults is refused as a
// whole.
func (d Devices) Add(e *plan.Edit, use func(*plan.Edit, plan.KindID) error) error {
	if len(d.Faults) > 0 {
		return fmt.Errorf("%w: %d rows have faults, of which the first is %v", plan.ErrRefused, BadRows(d.Faults), d.Faults[0])
	}
	named, places := devicesByName(e.Now()), positionsByName(e.Now())
	for _, row := range d.Rows {
		if row.Device.Kind != "" {
			if err := use(e, row.Device.Kind); err != nil {
				return err
			}
		}
		row.Device.Position = places.of(e, row)
		if known := named[plan.Folded(row.Device.Name)]; row.Device.Name != "" && len(known) > 0 {
			if err := changed(e, known[0].ID, row.Device); err != nil {
				return err
			}
			continue
		}
		for i := range row.Count {
			device := row.Device
			if i > 0 && device.Name != "" {
				device.Name = e.FreeDeviceName(row.Device.Name)
			}
			e.AddDevice(device)
		}
	}
	return nil
}

// changed gives a device of the plan what the row says.
func changed(e *plan.Edit, id plan.DeviceID, row plan.Device) error {
	old, _ := e.Now().Device(id)
	if row.Kind != "" && row.Kind != old.Kind {
		if err := e.ReplaceKind(id, row.Kind); err != nil {
			return err
		}
	}
	if !row.Unplaced && (old.Unplaced || row.At().RoundMM() != old.At()) {
		e.Move(plan.MovingWith(e.Now(), []plan.DeviceID{id}, nil), row.At().Sub(old.At()))
	}
	return plan.Update(e, plan.Key(id), func(r *plan.Device) {
		if row.Position != "" {
			r.Position = row.Position
		}
		for _, text := range []struct {
			to  *string
			now string
		}{{&r.Supply, row.Supply}, {&r.Structure, row.Structure}, {&r.Note, row.Note}} {
			if text.now != "" {
				*text.to = text.now
			}
		}
	})
}

// GoodOnly is the list without its faulty rows, as the user chose.
func (d Devices) GoodOnly() Devices {
	d.Faults = nil
	return d
}

// places are the positions of a plan by their names.
type places map[string]plan.PositionID

func positionsByName(p *plan.Plan) places {
	named := places{}
	for position := range p.Positions.All() {
		named[plan.Folded(position.Name)] = position.ID
	}
	return named
}

// of is the position that a row names, made where there is none; without a name that in which a new device stands.
func (at places) of(e *plan.Edit, row DeviceRow) plan.PositionID {
	if row.Position == "" {
		if row.Device.Unplaced {
			return ""
		}
		return e.Now().PositionAt(row.Device.At())
	}
	name := plan.Folded(row.Position)
	if at[name] == "" {
		at[name] = e.AddPosition(plan.Position{Name: row.Position, X: row.Device.X, Y: row.Device.Y, Unplaced: row.Device.Unplaced})
	}
	return at[name]
}
