package text

import (
	"slices"
	"strconv"
	"strings"

	"stageloom/model/catalogue"
	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/model/standards"
)

// OwnCable is the form of a kind of cable of the user's own, as text: a kind that is there with its maker's figure, its
// ends and its form.
type OwnCable struct {
	From plan.CableKindID
	Name string
	// Figure is the maker's own loss at 100 MHz and 20 °C in dB per 100 m; blank takes the category's.
	Figure string
	// Near and Far are "plug" or "socket".
	Near, Far string
	// Form is drum, coil, loom or tail.
	Form                 string
	Lockable, MetalShell bool
}

// OwnCableFrom is the form filled in from a kind.
func OwnCableFrom(kind plan.CableKind) OwnCable {
	o := OwnCable{
		From: kind.ID, Name: kind.Name + ", own", Near: end(kind.NearEnd), Far: end(kind.FarEnd), Form: kind.Form,
		Lockable: kind.Lockable, MetalShell: kind.MetalShell,
	}
	if kind.OwnFigure.Set {
		o.Figure = strconv.FormatFloat(kind.OwnFigure.Value, 'g', -1, 64)
	}
	return o
}

// end is what a blank end is.
func end(words string) string {
	if words == "" {
		return "plug"
	}
	return words
}

// Kind reads the form; the reason says in words what cannot be read.
func (o OwnCable) Kind(p *plan.Plan) (kind plan.CableKind, reason string) {
	for _, known := range catalogue.CableKindsFor(p) {
		if known.ID == o.From {
			kind = known
		}
	}
	name := strings.TrimSpace(o.Name)
	switch {
	case kind.ID == "":
		return kind, "Choose the kind that it is like."
	case name == "":
		return kind, "Give the kind a name."
	}
	if kind.OwnFigure, reason = o.figure(kind); reason != "" {
		return kind, reason
	}
	taken := func(slug plan.KindID) bool {
		return slices.ContainsFunc(catalogue.CableKindsFor(p), func(known plan.CableKind) bool { return string(known.ID) == string(slug) })
	}
	kind.ID = plan.CableKindID(house.Slug(name, taken))
	kind.Name, kind.Own, kind.Note = name, true, ""
	kind.NearEnd, kind.FarEnd, kind.Form = bareEnd(o.Near), bareEnd(o.Far), o.Form
	kind.Lockable, kind.MetalShell = o.Lockable, o.MetalShell
	return kind, ""
}

// figure reads the maker's figure of a kind, blank where none is stated.
func (o OwnCable) figure(kind plan.CableKind) (figure plan.Optional, reason string) {
	if text := strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(o.Figure), "dB")); text != "" {
		value, err := strconv.ParseFloat(strings.Replace(text, ",", ".", 1), 64)
		if kind.Category == "" {
			return figure, "Only data cable has a loss at 100 MHz: leave the figure blank."
		}
		if err != nil {
			return figure, "The maker's figure is dB per 100 m at 100 MHz and 20 °C: for instance 19.2."
		}
		if category, err := standards.CableBySlug(standards.CableSlug(kind.Category)); err == nil {
			if wrong := category.CheckOwnFigure(value); wrong != nil {
				return figure, "The " + wrong.Error() + ", at 100 MHz and 20 °C."
			}
		}
		return plan.Some(value), ""
	}
	return figure, ""
}

// bareEnd leaves a plug blank, as the file does.
func bareEnd(words string) string {
	if words == "plug" {
		return ""
	}
	return words
}
