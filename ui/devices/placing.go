package devices

import (
	"fmt"

	"fyne.io/fyne/v2"

	"stageloom/model/geom"
	"stageloom/model/plan"
	"stageloom/ui/text"
)

// Carry names a kind at the pointer; over the plan at the place where a drop would put it.
func (k *Dialogs) Carry(row text.EquipmentRow, at fyne.Position) {
	if metres, over := k.Ground.MetresAt(at); over {
		at = k.Ground.PlaceOf(k.Ground.Snapped(metres))
	}
	k.Sign.Show(row.Name, at)
}

// Drop places what was carried; beside the plan it is given up.
func (k *Dialogs) Drop(row text.EquipmentRow, at fyne.Position) {
	k.Sign.Hide()
	if metres, over := k.Ground.MetresAt(at); over {
		k.placeAt(row, k.Ground.Snapped(metres))
	}
}

// Place puts a row in the middle of the view, or beside what stands there; or into the list alone, where the list of
// equipment says so.
func (k *Dialogs) Place(row text.EquipmentRow) {
	if k.InList() {
		k.list(row)
		return
	}
	k.placeAt(row, k.FreeNear(k.Ground.Snapped(k.Ground.Middle())))
}

// clearance is how far in points from another device a place is free: about a device's box.
const clearance = 130.0

// FreeNear is a place near a point that no device stands near.
func (k *Dialogs) FreeNear(at geom.Point) geom.Point { return k.freeIn(k.Desk().Plan(), at) }

// freeIn is FreeNear in a plan that is being edited.
func (k *Dialogs) freeIn(p *plan.Plan, at geom.Point) geom.Point {
	return k.Ground.Snapped(p.FreePlace(at, clearance/k.Ground.View().Scale))
}

// placeAt adds a device or a position as one step, and selects it. A position takes in what stands inside its outline.
func (k *Dialogs) placeAt(row text.EquipmentRow, at geom.Point) {
	var placed plan.Ref
	var taken []plan.DeviceID
	k.Do(fmt.Sprintf("Place %s at %s, %s", row.Name, k.Units().Tenths(at.X), k.Units().Tenths(at.Y)), func(e *plan.Edit) error {
		if row.Position {
			var id plan.PositionID
			id, taken = e.PlacePosition(at)
			placed = plan.Ref{Table: plan.PositionsTable, Key: plan.Key(id)}
			return nil
		}
		if err := k.Use(e, row.Kind); err != nil {
			return err
		}
		id := e.AddDevices(plan.Device{Kind: row.Kind}, 1, func(*plan.Plan) geom.Point { return at })
		placed = plan.Ref{Table: plan.DevicesTable, Key: plan.Key(id)}
		return nil
	})
	k.Desk().Select(placed)
	if row.Position {
		k.Taken(text.NameOf(k.Desk().Plan(), placed), taken)
		return
	}
	k.Clear()
}
