package cabling

import (
	"slices"

	"stageloom/model/plan"
)

// Alone is a plan that holds one reel of another, as one cable, with the kinds and cases that it can be of: in it a reel is
// changed field by field until [KeepReel] makes one step of it.
func Alone(p *plan.Plan, reel plan.Reel) (*plan.Plan, error) {
	return plan.Do(plan.New(p.Settings.Name), nil, func(e *plan.Edit) error {
		e.SetSettings(p.Settings)
		for kind := range p.CableKinds.All() {
			plan.Put(e, kind)
		}
		for box := range p.Cases.All() {
			plan.Put(e, box)
		}
		reel.Quantity = min(reel.Quantity, 1)
		plan.Put(e, reel)
		for line := range p.Services.All() {
			if line.Reel == reel.ID {
				plan.Put(e, line)
			}
		}
		return nil
	})
}

// KeepReel gives some of a quantity of equal reels the fields of one that was changed alone, in a new case where that is named;
// kinds that came with it come into the plan. Reels of the row that are not meant stay as they are.
func KeepReel(e *plan.Edit, alone *plan.Plan, changed plan.Reel, some int, newCase string) error {
	own, err := e.SplitReel(changed.ID, some)
	if err != nil {
		return err
	}
	now, _ := e.Now().Reels.Get(plan.Key(own))
	if kind, found := alone.CableKinds.Get(plan.Key(changed.Kind)); found && !e.Now().CableKinds.Has(kind.Key()) {
		plan.Put(e, kind)
	}
	keepHistory(e, alone, changed.ID, own)
	changed.ID, changed.Quantity = own, now.Quantity
	if newCase != "" {
		changed.Case = e.AddCase(plan.Case{Name: newCase})
	}
	plan.Put(e, changed)
	return nil
}

// keepHistory gives a row the history that a reel has where it was changed alone.
func keepHistory(e *plan.Edit, alone *plan.Plan, was, own plan.ReelID) {
	for _, line := range slices.Collect(e.Now().Services.All()) {
		if line.Reel == own {
			plan.Drop[plan.Service](e, line.Key())
		}
	}
	for line := range alone.Services.All() {
		if line.Reel != was {
			continue
		}
		line.Reel = own
		if e.Now().Services.Has(line.Key()) {
			e.AddService(line)
			continue
		}
		plan.Put(e, line)
	}
}
