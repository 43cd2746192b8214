package cabling

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"stageloom/model/plan"
	"stageloom/model/words"
)

// Looms and trunk pieces are picked whole: one serves links between the same two positions, with one of its cables each, or it
// stays in the truck. Its cables are never picked singly.

// Whole is a loom or trunk piece of the stock that a proposal lays whole.
type Whole struct {
	Name  string
	Links []plan.LinkID
	names []string
}

// String names it with its links: "Trunk 2, whole: L3, L7, L9".
func (w Whole) String() string { return w.Name + ", whole: " + strings.Join(w.names, ", ") }

// LaidWhole lists the looms and trunk pieces that would change links, and tells of links whether they are of one.
func (p *Proposal) LaidWhole() (list []Whole, of func(plan.LinkID) bool) {
	changed := func(id plan.LinkID) bool {
		return slices.ContainsFunc(p.Links, func(c Change) bool { return c.Link == id && !c.Same() })
	}
	for _, whole := range p.Whole {
		if slices.ContainsFunc(whole.Links, changed) {
			list = append(list, whole)
		}
	}
	return list, func(id plan.LinkID) bool {
		return slices.ContainsFunc(list, func(w Whole) bool { return slices.Contains(w.Links, id) })
	}
}

// tie says which reel of a loom or trunk piece links have, and which of these are used.
type tie struct {
	reels map[plan.LinkID]plan.ReelID
	items []item
}

// item is a loom or trunk piece: its cables that may be picked, a row's id as often as it has any.
type item struct {
	name   string
	house  bool // its name is the house's, not the show's
	cables []plan.ReelID
}

// named is what tells items apart.
func (i item) named() [2]string { return [2]string{i.name, fmt.Sprint(i.house)} }

func nameOf(reel plan.Reel) [2]string {
	return item{name: reel.TiedInto, house: reel.HouseReel != ""}.named()
}

// holds reports whether a reel is part of an item that is used.
func (t tie) holds(reel plan.Reel) bool {
	return reel.TiedInto != "" && slices.ContainsFunc(t.items, func(i item) bool { return i.named() == nameOf(reel) })
}

// Bounds of what is tried.
const (
	mostOptions = 4000 // steps of matching one item with the links between two positions
	mostTies    = 240  // ways of laying all items
	mostTied    = 6000 // ways times links
)

// tying finds the ways in which the items of a plan can be laid.
type tying struct {
	*survey
	items  []item
	groups [][]*run
	steps  int
	many   bool // there are more ways than are tried
}

// ties lists the ways of laying the looms and trunk pieces of a plan, none of them first, and whether these are all there are. An
// item that is used serves as many links between two positions as it can.
func (s *survey) ties() (ways []tie, all bool) {
	t := &tying{survey: s, items: s.items()}
	if len(t.items) == 0 {
		return []tie{{}}, true
	}
	t.groups = s.between()
	ways = t.combined()
	if t.many {
		return []tie{{}, t.greedy()}, false
	}
	return ways, true
}

// items are the looms and trunk pieces that may be picked, by their names: those of which no cable lies where it stays.
func (s *survey) items() (items []item) {
	held := s.plan.UsedReels()
	for _, r := range s.runs {
		if r.tieable() {
			for _, segment := range r.loose {
				held[segment.Reel]--
			}
		}
	}
	byName, fixed := map[[2]string]*item{}, map[[2]string]bool{}
	for reel := range s.plan.Reels.All() {
		if reel.TiedInto == "" {
			continue
		}
		key := nameOf(reel)
		if held[reel.ID] > 0 || s.request.ForHire && s.request.Offered[reel.ID] {
			fixed[key] = true
		}
		if byName[key] == nil {
			byName[key] = &item{name: reel.TiedInto, house: reel.HouseReel != ""}
		}
		if s.allowed(reel) {
			byName[key].cables = append(byName[key].cables, slices.Repeat([]plan.ReelID{reel.ID}, reel.There())...)
		}
	}
	for key, one := range byName {
		if !fixed[key] && len(one.cables) > 0 {
			items = append(items, *one)
		}
	}
	slices.SortFunc(items, func(a, b item) int {
		return cmp.Or(words.Natural(a.name, b.name), cmp.Compare(btoi(a.house), btoi(b.house)))
	})
	return items
}

// tieable reports whether a run may have a cable of a loom or trunk piece: nothing of it stays, and it is a line of its own.
func (r *run) tieable() bool {
	return !r.link.Lies() && !r.wanting() && len(r.kept) == 0 && !r.fixed.PartOf()
}

// between are the runs between the same two positions, the most important first. A device without a position stands for its own.
func (s *survey) between() [][]*run {
	groups := map[[2]string][]*run{}
	for _, r := range s.runs {
		if !r.tieable() {
			continue
		}
		ends := [2]string{s.placeOf(r.link.From), s.placeOf(r.link.To)}
		slices.Sort(ends[:])
		groups[ends] = append(groups[ends], r)
	}
	var list [][]*run
	for _, ends := range slices.SortedFunc(maps.Keys(groups), func(a, b [2]string) int { return slices.Compare(a[:], b[:]) }) {
		group := groups[ends]
		slices.SortStableFunc(group, func(a, b *run) int { return cmp.Compare(b.link.Priority, a.link.Priority) })
		list = append(list, group)
	}
	return list
}

func (s *survey) placeOf(id plan.DeviceID) string {
	device, _ := s.plan.Device(id)
	if device.Position != "" {
		return "position " + string(device.Position)
	}
	return "device " + string(id)
}

// servedBy reports whether one cable serves a run alone, with its wanted margin.
func (r *run) servedBy(id plan.ReelID) bool {
	reel, _ := r.survey.plan.Reels.Get(plan.Key(id))
	kind := r.survey.kinds[reel.Kind]
	if !r.allows(kind) || !r.begins(kind) || !r.ends(kind) {
		return false
	}
	b := r.survey.reckoner.Cabled(r.link, renumbered([]plan.Segment{{Reel: id}}))
	return b.Missing == 0 && !b.Unknown() && (!b.Graded || rounded(&b) <= r.limit-r.wanted)
}

// options are the ways in which an item serves most of a group: which cable each link has. Equal cables are one. Main and backup
// are never in one item: what cuts it takes both.
func (t *tying) options(it item, group []*run) (best []map[plan.LinkID]plan.ReelID) {
	chosen, used, most := map[plan.LinkID]plan.ReelID{}, make([]bool, len(it.cables)), 1
	var try func(at int)
	try = func(at int) {
		if t.steps++; t.steps > mostOptions {
			t.many = true
			return
		}
		if len(chosen)+len(group)-at < most {
			return
		}
		if at == len(group) {
			if len(chosen) > most {
				best, most = nil, len(chosen)
			}
			best = append(best, maps.Clone(chosen))
			return
		}
		r, seen := group[at], map[lineKey]bool{}
		for i, id := range it.cables {
			reel, _ := t.plan.Reels.Get(plan.Key(id))
			if _, both := chosen[r.link.Partner]; used[i] || both || seen[keyOf(reel)] || !r.servedBy(id) {
				continue
			}
			seen[keyOf(reel)] = true
			chosen[r.link.ID], used[i] = id, true
			try(at + 1)
			delete(chosen, r.link.ID)
			used[i] = false
		}
		try(at + 1)
	}
	try(0)
	return best
}

// combined are all ways of laying the items, as long as they are few.
func (t *tying) combined() (ways []tie) {
	limit := max(8, min(mostTies, mostTied/max(1, len(t.runs))))
	options := make([][]map[plan.LinkID]plan.ReelID, len(t.items))
	for i, it := range t.items {
		for _, group := range t.groups {
			t.steps = 0
			options[i] = append(options[i], t.options(it, group)...)
		}
	}
	var try func(at int, so tie)
	try = func(at int, so tie) {
		if t.many {
			return
		}
		if at == len(t.items) {
			ways = append(ways, so)
			t.many = len(ways) > limit
			return
		}
		try(at+1, so)
		for _, option := range options[at] {
			if !overlaps(so.reels, option) {
				try(at+1, so.with(t.items[at], option))
			}
		}
	}
	try(0, tie{})
	return ways
}

func overlaps(a, b map[plan.LinkID]plan.ReelID) bool {
	for id := range b {
		if _, both := a[id]; both {
			return true
		}
	}
	return false
}

func (t tie) with(it item, option map[plan.LinkID]plan.ReelID) tie {
	more := tie{map[plan.LinkID]plan.ReelID{}, append(slices.Clone(t.items), it)}
	maps.Copy(more.reels, t.reels)
	maps.Copy(more.reels, option)
	return more
}

// greedy gives each time the item that serves the most links yet without one, the most important of them first.
func (t *tying) greedy() (so tie) {
	left := slices.Clone(t.items)
	for len(left) > 0 {
		at, best := -1, map[plan.LinkID]plan.ReelID{}
		for i, it := range left {
			for _, group := range t.groups {
				if option := t.first(it, group, so); len(option) > len(best) {
					at, best = i, option
				}
			}
		}
		if at < 0 {
			return so
		}
		so = so.with(left[at], best)
		left = slices.Delete(left, at, at+1)
	}
	return so
}

// first gives each link of a group in turn the first cable of an item that serves it.
func (t *tying) first(it item, group []*run, so tie) map[plan.LinkID]plan.ReelID {
	option, cables := map[plan.LinkID]plan.ReelID{}, slices.Clone(it.cables)
	for _, r := range group {
		_, has := so.reels[r.link.ID]
		_, both := option[r.link.Partner]
		if has || both {
			continue
		}
		if at := slices.IndexFunc(cables, r.servedBy); at >= 0 {
			option[r.link.ID] = cables[at]
			cables = slices.Delete(cables, at, at+1)
		}
	}
	return option
}

// laidWhole lists the items that are laid, with their links by name.
func (s *survey) laidWhole(changes []Change) (list []Whole) {
	for _, it := range s.tie.items {
		one := Whole{Name: it.name}
		for _, change := range changes {
			if reel, is := s.tie.reels[change.Link]; is && slices.Contains(it.cables, reel) {
				one.Links, one.names = append(one.Links, change.Link), append(one.names, change.Name)
			}
		}
		list = append(list, one)
	}
	return list
}
