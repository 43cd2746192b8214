package checks

import (
	"cmp"
	"slices"

	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/model/words"
)

// arrive follows all channels at the first call.
func (s *Subject) arrive() *patch.Arrivals {
	if s.arrivals == nil {
		s.arrivals = s.Patch.Arrivals()
	}
	return s.arrivals
}

// wanted is an input in an act.
type wanted struct {
	act   plan.ActID
	input plan.InputID
}

// waiting are the inputs that a channel waits for in an act.
func (s *Subject) waiting() map[wanted]bool {
	all := map[wanted]bool{}
	for _, act := range s.Patch.Acts {
		for _, gap := range s.arrive().Gaps(act) {
			for _, id := range gap.Inputs {
				all[wanted{act.Act.ID, id}] = true
			}
		}
	}
	return all
}

// loss is what channels that are told together have in common: their console, and how what they list is lost.
type loss struct {
	console plan.DeviceID
	at      patch.Spot
	device  plan.DeviceID // box of the socket
	severe  Severity
}

func lossOf(gap patch.Gap) loss {
	l := loss{console: gap.Console, at: gap.Spot, device: gap.Socket.Device, severe: Stop}
	if gap.Cause == patch.Unplugged && len(gap.Inputs) == 0 {
		l.severe = Warn
	}
	return l
}

// stretch is a run of channels of one console that get nothing for one cause, in the acts where this is so.
type stretch struct {
	loss
	gaps   []patch.Gap
	acts   []*patch.Act
	inputs []plan.InputID
}

func (t *stretch) first() int { return t.gaps[0].Channel }
func (t *stretch) last() int  { return t.gaps[len(t.gaps)-1].Channel }

// noArrival finds the channels that list a source and get nothing: one finding for each console, cause and run of channels.
// Those that two sample rates part are told with the rates.
func noArrival(s *Subject) []Finding {
	var sights []sight
	for _, one := range s.stretches() {
		finding, rest := s.lost(one)
		for _, act := range one.acts {
			sights = append(sights, sight{finding, act, rest})
		}
	}
	return s.once(sights)
}

// stretches are the runs of channels that get nothing, by console and number.
func (s *Subject) stretches() (all []*stretch) {
	for _, act := range s.Patch.Acts {
		var order []loss
		gaps := map[loss][]patch.Gap{}
		for _, gap := range s.arrive().Gaps(act) {
			key := lossOf(gap)
			if gap.Cause == patch.RatesApart {
				continue
			}
			if gaps[key] == nil {
				order = append(order, key)
			}
			gaps[key] = append(gaps[key], gap)
		}
		for _, key := range order {
			rest := gaps[key]
			for _, known := range all {
				if known.loss == key {
					rest = s.joins(known, act, rest)
				}
			}
			all = append(all, runs(key, act, rest)...)
		}
	}
	slices.SortStableFunc(all, func(a, b *stretch) int {
		return cmp.Or(words.Natural(s.Patch.Name(a.console), s.Patch.Name(b.console)), cmp.Compare(a.first(), b.first()))
	})
	return all
}

// runs parts channels where their numbers leap.
func runs(key loss, act *patch.Act, gaps []patch.Gap) (all []*stretch) {
	for i, gap := range gaps {
		if i == 0 || gap.Channel != gaps[i-1].Channel+1 {
			all = append(all, &stretch{loss: key, acts: []*patch.Act{act}})
		}
		all[len(all)-1].add(gap)
	}
	return all
}

func (t *stretch) add(gap patch.Gap) {
	t.gaps = append(t.gaps, gap)
	t.wants(gap)
}

func (t *stretch) wants(gap patch.Gap) {
	for _, id := range gap.Inputs {
		if !slices.Contains(t.inputs, id) {
			t.inputs = append(t.inputs, id)
		}
	}
}

// joins adds an act to a run of another where none of its channels gets anything in this one either, and returns the gaps
// of the act that it does not tell.
func (s *Subject) joins(known *stretch, act *patch.Act, gaps []patch.Gap) (rest []patch.Gap) {
	byChannel := map[int]patch.Gap{}
	for _, gap := range gaps {
		if gap.Channel >= known.first() && gap.Channel <= known.last() {
			byChannel[gap.Channel] = gap
			continue
		}
		rest = append(rest, gap)
	}
	if len(byChannel) == 0 {
		return gaps
	}
	for _, was := range known.gaps {
		now, also := byChannel[was.Channel]
		if also && now.Named != was.Named || !also && !s.arrive().Silent(act, known.console, was.Channel) {
			return gaps
		}
	}
	known.acts = append(known.acts, act)
	for _, was := range known.gaps {
		known.wants(byChannel[was.Channel])
	}
	return rest
}
