package checks

import (
	"fmt"
	"slices"
	"strings"

	"stageloom/model/budget"
	"stageloom/model/plan"
)

// lines visits every electrical line once: by the first of its links, with the name and the places of all of them.
func (s *Subject) lines(visit func(link *plan.Link, b *budget.Budget, name string, where []Place)) {
	s.each(func(link *plan.Link, b *budget.Budget, v *view) {
		if b.Whole == nil {
			visit(link, b, link.Name, at(link))
			return
		}
		links := b.Whole.Links()
		if slices.Min(links) != link.ID {
			return
		}
		var names []string
		var where []Place
		for _, id := range links {
			piece, _ := s.Plan.Link(id)
			names = append(names, piece.Name)
			where = append(where, Place{plan.LinksTable, piece.Key()})
		}
		visit(link, b, strings.Join(names, " + "), where)
	})
}

// cureLine says which one change to one of its links would cure a line, or what else to do.
func (s *Subject) cureLine(link *plan.Link, b *budget.Budget, otherwise string) string {
	if b.Whole == nil {
		return s.cure(link, otherwise)
	}
	for _, id := range b.Whole.Links() {
		piece, _ := s.Plan.Link(id)
		if said := s.cure(&piece, ""); said != "" {
			return piece.Name + ": " + said
		}
	}
	return otherwise
}

// noWayThrough finds links with a budget that end at a passive device which does not say where their port goes on.
func noWayThrough(s *Subject) (found []Finding) {
	s.each(func(link *plan.Link, b *budget.Budget, v *view) {
		if !b.Graded {
			return
		}
		ends := []struct {
			device plan.DeviceID
			port   string
		}{{link.From, link.FromPort}, {link.To, link.ToPort}}
		for _, end := range ends {
			device := s.device(end.device)
			if kind, _ := s.Plan.Kinds.Get(plan.Key(device.Kind)); !kind.Passive || s.Reckoner.Passes(end.device, end.port) {
				continue
			}
			found = append(found, Finding{
				Severity: Warn, Where: and(at(link), plan.DevicesTable, device.Key()),
				What:   fmt.Sprintf("%s ends at port %s of %s, which is passive and does not say which port that one is joined to", link.Name, end.port, device.Name),
				Remedy: "Say in the kind of device which port goes through to which, so that the loss is that of the whole line.",
			})
		}
	})
	return found
}

// tailUnknown finds guests at a drop of a line with a budget whose tail is not stated.
func tailUnknown(s *Subject) (found []Finding) {
	s.lines(func(link *plan.Link, b *budget.Budget, name string, where []Place) {
		if b.Whole == nil {
			return
		}
		for _, step := range b.Whole.Steps {
			if step.Guest && step.Length == 0 {
				found = append(found, Finding{
					Severity: Note, Acts: []plan.ActID{step.Act}, Where: append(slices.Clone(where), Place{plan.DevicesTable, plan.Key(step.Device)}),
					What:   fmt.Sprintf("Nothing says by how much cable %s plugs in behind %s", step.Name, name),
					Remedy: "Enter its tail in the table of acts, “tail 5 m of …”, so that it counts in the loss.",
				})
			}
		}
	})
	return found
}
