package cabling

import (
	"cmp"
	"fmt"
	"maps"
	"slices"

	"stageloom/model/plan"
)

// Held is what is held back at a position: a cable that can replace the longest main run which one cable of the stock can
// make there, or nothing where none is to spare.
type Held struct {
	Position     plan.PositionID
	PositionName string
	Link         plan.LinkID
	LinkName     string
	// Reel is blank where nothing is held back.
	Reel plan.ReelID
	name string
}

// String says it in words: "LL07 for L01 at FOH tower".
func (h Held) String() string {
	if h.Reel == "" {
		return fmt.Sprintf("nothing for %s at %s: what could replace it in one piece is in use", h.LinkName, h.PositionName)
	}
	return fmt.Sprintf("%s for %s at %s", h.name, h.LinkName, h.PositionName)
}

// HeldBack lists what a plan as it stands has in the truck to replace the longest main run of each position, by the positions'
// names; the same as a pick holds back, as long as no link uses it.
func HeldBack(p *plan.Plan) []Held {
	s := newSurvey(p, Request{HoldBack: true}, tie{})
	left, used := map[plan.ReelID]int{}, p.UsedReels()
	for reel := range p.Reels.All() {
		left[reel.ID] = reel.Count() - used[reel.ID]
	}
	return s.held(left)
}

// spare is what a position wants held back: one cable of these lines.
type spare struct {
	position plan.Position
	run      *run
	lines    []int
}

// spares lists what each position wants held back, by the positions' names, where the stock holds such a cable at all. A run
// counts at the positions of both its ends.
func (s *survey) spares() []spare {
	wants := map[plan.PositionID]spare{}
	for _, r := range s.runs {
		if r.link.Role == plan.Backup || r.link.IsSpare() {
			continue
		}
		lines := r.alone()
		if len(lines) == 0 {
			continue
		}
		for _, id := range []plan.DeviceID{r.link.From, r.link.To} {
			device, _ := s.plan.Device(id)
			had, some := wants[device.Position]
			if position, is := s.plan.Positions.Get(plan.Key(device.Position)); is && (!some || r.now.Run > had.run.now.Run) {
				wants[device.Position] = spare{position, r, lines}
			}
		}
	}
	return slices.SortedFunc(maps.Values(wants), func(a, b spare) int {
		return cmp.Or(cmp.Compare(a.position.Name, b.position.Name), cmp.Compare(a.position.ID, b.position.ID))
	})
}

// alone lists the lines of which one cable makes the whole run.
func (r *run) alone() (lines []int) {
	losses := r.survey.lossesFor(r)
	for i, l := range r.survey.lines {
		kind := r.survey.kinds[l.kind]
		if losses[i] < 0 || !r.allows(kind) || !r.begins(kind) || !r.ends(kind) || millimetres(l.length) < millimetres(r.now.Run)-unnoticed {
			continue
		}
		b := r.survey.reckoner.Cabled(r.link, renumbered([]plan.Segment{l.sample}))
		if !b.Graded || rounded(&b) <= r.limit {
			lines = append(lines, i)
		}
	}
	return lines
}

// held gives to each spare one of the cables that the picks leave, as many spares as can have one.
func (s *survey) held(left map[plan.ReelID]int) []Held {
	spares := s.spares()
	count := s.byLine(left)
	has := match(spares, count)
	list := make([]Held, len(spares))
	for i, want := range spares {
		list[i] = Held{Position: want.position.ID, PositionName: want.position.Name, Link: want.run.link.ID, LinkName: want.run.link.Name}
		if has[i] < 0 {
			continue
		}
		for _, reel := range s.lines[has[i]].free {
			if left[reel] > 0 {
				left[reel]--
				list[i].Reel, list[i].name = reel, cableName(s.plan, plan.Segment{Reel: reel})
				break
			}
		}
	}
	return list
}

// match gives each spare a line, −1 where there is none, so that as many as possible have one: paths that change others' lines
// are tried until none is left.
func match(spares []spare, count []int) []int {
	has := make([]int, len(spares))
	for i := range has {
		has[i] = -1
	}
	var seek func(i int, seen map[int]bool) bool
	seek = func(i int, seen map[int]bool) bool {
		for _, at := range spares[i].lines {
			if seen[at] {
				continue
			}
			seen[at] = true
			if count[at] > 0 {
				count[at]--
				has[i] = at
				return true
			}
			for other := range spares {
				if has[other] == at && seek(other, seen) {
					has[i] = at
					return true
				}
			}
		}
		return false
	}
	for i := range spares {
		seek(i, map[int]bool{})
	}
	return has
}
