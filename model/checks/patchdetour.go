package checks

import (
	"fmt"
	"slices"

	"stageloom/model/budget"
	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// roundabout are channels of a console that come from a box by one detour in the same acts.
type roundabout struct {
	patch.Detour
	acts    []*patch.Act
	sockets []patch.Socket
	where   []Place
	first   string // "SL in 1 → FOH 1"
	count   int
}

// roundabouts gathers the detours of all channels, those together that differ in nothing but socket and channel.
func (s *Subject) roundabouts() (all []*roundabout) {
	detours, known := s.Patch.Detours(s.cableOf()), map[string]*roundabout{}
	s.own(func(act *patch.Act, lines []*patch.Line) {
		for _, line := range lines {
			for i := range line.Legs {
				leg := &line.Legs[i]
				for _, channel := range leg.Channels {
					detour, found := detours.Of(act, leg.Socket.Device, channel)
					if !found {
						continue
					}
					acts := s.sharers(act, line)
					key := fmt.Sprint(leg.Socket.Device, channel.Console, detour.Over, detour.Instead)
					for _, sharer := range acts {
						key += " " + string(sharer.Act.ID)
					}
					one := known[key]
					if one == nil {
						one = &roundabout{Detour: detour, acts: acts, first: fmt.Sprintf("%s → %s %d", s.Patch.SocketWords(leg.Socket), s.Patch.Name(channel.Console), channel.Number)}
						known[key], all = one, append(all, one)
					}
					one.take(line, leg.Socket)
				}
			}
		}
	})
	return all
}

func (r *roundabout) take(line *patch.Line, socket patch.Socket) {
	r.count++
	if !slices.Contains(r.sockets, socket) {
		r.sockets = append(r.sockets, socket)
	}
	if place := inputPlace(line); !slices.Contains(r.where, place) {
		r.where = append(r.where, place)
	}
}

// cableOf says how much cable a link has, or wants; 0 where nobody knows.
func (s *Subject) cableOf() func(plan.LinkID) float64 {
	metres := map[plan.LinkID]float64{}
	for i := range s.Budgets {
		b := &s.Budgets[i]
		switch {
		case b.Laid > 0:
			metres[b.Link] = b.Laid
		case !b.Measured.Wanting():
			metres[b.Link] = b.Run
		}
	}
	return func(id plan.LinkID) float64 { return metres[id] }
}

// detour finds channels whose way runs over far more cable than another that has room for them.
func detour(s *Subject) []Finding {
	var sights []sight
	for _, one := range s.roundabouts() {
		var where []Place
		for _, id := range slices.Concat(one.Over, one.Instead) {
			where = and(where, plan.LinksTable, plan.Key(id))
		}
		more := ""
		if one.count > 1 {
			more = fmt.Sprintf(" and %d more", one.count-1)
		}
		room := choose(one.count > 1, "them", "it")
		if one.Room < len(one.sockets) {
			room = fmt.Sprintf("%d of them", one.Room)
		}
		many := len(one.Instead)
		finding := Finding{
			Severity: Warn, Where: append(where, one.where...),
			What: fmt.Sprintf("%s%s %s %s over %s", one.first, more, words.Plural(one.count, "runs", "run"), budget.Metres(one.Metres), s.linkNames(one.Over)),
			Remedy: fmt.Sprintf("Take %s over %s, or leave %s where %s for good reason.", choose(one.count > 1, "them", "it"), s.linkNames(one.Instead),
				choose(one.count > 1, "them", "it"), choose(one.count > 1, "they are", "it is")),
		}
		rest := fmt.Sprintf("; %s %s room for %s and %s %s", s.linkNames(one.Instead), words.Plural(many, "has", "have"), room, words.Plural(many, "is", "are"), budget.Metres(one.Short))
		for _, act := range one.acts {
			sights = append(sights, sight{finding, act, rest})
		}
	}
	return s.once(sights)
}

func (s *Subject) linkNames(ids []plan.LinkID) string {
	var names []string
	for _, id := range ids {
		names = append(names, s.linkName(id))
	}
	return words.And(names, fewNamed)
}

// overShorter proposes to take channels over the shorter way, where it is taken as soon as it has channels.
func overShorter(s *Subject, f Finding) (fixes []Fix) {
	for _, one := range s.roundabouts() {
		links := slices.Concat(one.Over, one.Instead)
		about := len(f.Where) >= len(links) && one.Fewer
		for i := range links {
			about = about && f.Where[i] == Place{plan.LinksTable, plan.Key(links[i])}
		}
		if !about || !slices.Contains(f.Where, one.where[0]) {
			continue
		}
		label := fmt.Sprintf("Take %s over %s", choose(one.count > 1, "them", "it"), s.linkNames(one.Instead))
		fixes = append(fixes, Fix{Label: label, Edit: func(e *plan.Edit) error {
			for _, socket := range one.sockets {
				if err := patch.TakeOver(e, one.acts[0].Act.ID, socket, one.Instead); err != nil {
					return err
				}
			}
			return nil
		}})
	}
	return fixes
}
