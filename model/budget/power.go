package budget

import (
	"errors"
	"fmt"

	"stageloom/model/pairline"
	"stageloom/model/plan"
	"stageloom/model/standards"
)

// Why power does not arrive.
var (
	ErrPowerTooMuch = errors.New("no type of power over the link gives so much")
	ErrNoPower      = errors.New("the port gives no power")
)

// Sender is the type of power that the port at a link's near end gives. It refuses with ErrNoPower where it gives none, and
// with standards.ErrUnknown where its type is not known; a passive device passes on what comes from elsewhere, and then no
// type is given and nothing refused.
func (r *Reckoner) Sender(link plan.Link) (standards.PowerType, error) {
	device, _ := r.plan.Device(link.From)
	kind, _ := r.plan.Kinds.Get(plan.Key(device.Kind))
	port, _ := r.plan.KindPorts.Get(plan.PortKey(device.Kind, link.FromPort))
	switch {
	case port.Power != "":
		power, err := standards.PowerTypeBySlug(standards.PowerSlug(port.Power))
		if err != nil {
			return standards.PowerType{}, fmt.Errorf("port %s of %s: %w", port.Name, device.Name, err)
		}
		return power, nil
	case kind.Passive:
		return standards.PowerType{}, nil
	}
	return standards.PowerType{}, fmt.Errorf("port %s of %s: %w", port.Name, device.Name, ErrNoPower)
}

// power reckons what the sender brings over the line; where the sender is not known, the weakest type meant for so much.
func (a *Advice) power(sender standards.PowerType, err error) {
	if err != nil {
		a.PowerErr = err
		return
	}
	if sender.Slug == "" {
		sender = weakest(a.PowerW)
	}
	if a.PowerType = sender; sender.DevicePower < a.PowerW {
		a.PowerErr = fmt.Errorf("%w: %.1f W wanted, at most %.1f W by %s", ErrPowerTooMuch, a.PowerW, sender.DevicePower, sender.Name)
		return
	}
	resistance, err := pairline.FeedResistance(a.LoopOhm, sender.Pairs)
	if err == nil {
		a.Feed, err = pairline.Draw(a.PowerW, sender.SourceVoltage, sender.DeviceVoltage, resistance)
	}
	a.PowerErr = err
}

// weakest is the weakest type of power that is meant for so many watts at the device, or the strongest there is.
func weakest(watts float64) standards.PowerType {
	types := standards.PowerTypes()
	for _, power := range types {
		if power.DevicePower >= watts {
			return power
		}
	}
	return types[len(types)-1]
}
