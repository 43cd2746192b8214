package text

import (
	"slices"
	"strings"

	"stageloom/model/catalogue"
	"stageloom/model/fields"
	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// OwnCable is the form of a kind of cable of the user's own, as text: a kind that is there with its maker's figure, its
// ends and its form.
type OwnCable struct {
	From plan.CableKindID
	Name string
	// Figure, Near, Far and Form are what stands in these fields of a kind.
	Figure, Near, Far, Form string
	Lockable, MetalShell    bool
}

// OwnCableFrom is the form filled in from a kind.
func OwnCableFrom(kind plan.CableKind) OwnCable {
	said := func(id string) string { return standsIn(fields.State{}, fields.Of(plan.CableKindsTable, id), kind) }
	return OwnCable{
		From: kind.ID, Name: kind.Name + ", own", Figure: said("own_figure"), Near: said("near_end"), Far: said("far_end"), Form: said("form"),
		Lockable: kind.Lockable, MetalShell: kind.MetalShell,
	}
}

// standsIn is what stands in a field of a row that is being made: of a list the words of the entry, those for none too.
func standsIn(state fields.State, f *fields.Field, row any) string {
	value := f.Value(state, row)
	for _, option := range f.Options(state, row) {
		if option.Value == value {
			return option.Words
		}
	}
	return value
}

// Kind reads the form by the fields of a kind; the reason says in words what cannot be read.
func (o OwnCable) Kind(p *plan.Plan) (kind plan.CableKind, reason string) {
	kinds := catalogue.CableKindsFor(p)
	at := slices.IndexFunc(kinds, func(known plan.CableKind) bool { return known.ID == o.From })
	if at < 0 {
		return kind, "Choose the kind that it is like."
	}
	kind = kinds[at]
	kind.ID = plan.CableKindID(house.Slug(strings.TrimSpace(o.Name), func(slug plan.KindID) bool {
		return slices.ContainsFunc(kinds, func(known plan.CableKind) bool { return string(known.ID) == string(slug) })
	}))
	kind.Own, kind.Note = true, ""
	e := plan.NewEdit(p, plan.NewIDSource(1, 1))
	plan.Put(e, kind)
	err := fields.TypeAll(e, words.Units{}, plan.CableKindsTable, kind.Key(), []fields.Typed{
		{ID: "name", Text: o.Name},
		{ID: "own_figure", Text: o.Figure},
		{ID: "near_end", Text: o.Near},
		{ID: "far_end", Text: o.Far},
		{ID: "form", Text: o.Form},
		{ID: "lockable", Text: fields.TickText(o.Lockable)},
		{ID: "metal_shell", Text: fields.TickText(o.MetalShell)},
	}...)
	if err != nil {
		return kind, words.Sentence(err)
	}
	kind, _ = e.Now().CableKinds.Get(kind.Key())
	return kind, ""
}
