package catalogue

import (
	"errors"
	"fmt"
	"sync"

	"stageloom/model/plan"
)

// ErrUnknown says that the catalogue holds no such kind; the error names it.
var ErrUnknown = errors.New("the catalogue holds no such kind")

var deviceKinds = sync.OnceValue(func() map[plan.KindID]DeviceKind {
	byID := map[plan.KindID]DeviceKind{}
	for _, kind := range DeviceKinds() {
		byID[kind.Kind.ID] = kind
	}
	return byID
})

var cableKinds = sync.OnceValue(func() map[plan.CableKindID]plan.CableKind {
	byID := map[plan.CableKindID]plan.CableKind{}
	for _, kind := range CableKinds() {
		byID[kind.ID] = kind
	}
	return byID
})

// DeviceKindOf returns the built-in device kind with this slug. Read its slices, never write them.
func DeviceKindOf(id plan.KindID) (DeviceKind, bool) {
	kind, found := deviceKinds()[id]
	return kind, found
}

// CableKindOf returns the built-in cable kind with this slug.
func CableKindOf(id plan.CableKindID) (plan.CableKind, bool) {
	kind, found := cableKinds()[id]
	return kind, found
}

// Use copies a device kind with its ports and sockets into the plan, where it is not there yet. A kind that the plan
// holds under this slug stays as it is.
func Use(e *plan.Edit, id plan.KindID) error {
	if e.Now().Kinds.Has(plan.Key(id)) {
		return nil
	}
	kind, found := DeviceKindOf(id)
	if !found {
		return fmt.Errorf("device kind %q: %w", id, ErrUnknown)
	}
	kind.Put(e)
	return nil
}

// UseKind is Use with the user's own kinds, which go before the catalogue's.
func UseKind(e *plan.Edit, own []DeviceKind, id plan.KindID) error {
	for _, kind := range own {
		if kind.Kind.ID == id {
			kind.Put(e)
			return nil
		}
	}
	return Use(e, id)
}

// Put puts a kind with its ports, sockets and ways into a plan, where it is not there yet. One that the plan holds under this
// slug stays as it is.
func (k DeviceKind) Put(e *plan.Edit) {
	if e.Now().Kinds.Has(k.Kind.Key()) {
		return
	}
	plan.Put(e, k.Kind)
	for _, port := range k.Ports {
		plan.Put(e, port)
	}
	for _, row := range k.Sockets {
		plan.Put(e, row)
	}
	for _, row := range k.Ways {
		plan.Put(e, row)
	}
}

// UseCable copies a cable kind into the plan, where it is not there yet. A kind that the plan holds under this slug
// stays as it is.
func UseCable(e *plan.Edit, id plan.CableKindID) error {
	if e.Now().CableKinds.Has(plan.Key(id)) {
		return nil
	}
	kind, found := CableKindOf(id)
	if !found {
		return fmt.Errorf("cable kind %q: %w", id, ErrUnknown)
	}
	plan.Put(e, kind)
	return nil
}

// CableKindsFor lists the cable kinds of a plan, then those of the catalogue that it has not.
func CableKindsFor(p *plan.Plan) []plan.CableKind {
	var kinds []plan.CableKind
	for kind := range p.CableKinds.All() {
		kinds = append(kinds, kind)
	}
	for _, kind := range CableKinds() {
		if !p.CableKinds.Has(kind.Key()) {
			kinds = append(kinds, kind)
		}
	}
	return kinds
}
