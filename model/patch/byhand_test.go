package patch_test

import (
	"fmt"
	"slices"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

// byHand reads the patch of one act from the rows of a plan alone, as somebody with paper and pencil does. It shares nothing
// with the room but the names of sockets.
type byHand struct {
	at   map[plan.InputID]patch.Socket
	wet  map[plan.InputID]map[patch.Socket]bool
	hear map[spot]patch.Socket
	has  map[spot][]plan.InputID
}

// spot is a channel of a console.
type spot struct {
	console plan.DeviceID
	number  int
}

// wires are where sockets lead; the rows that say so stay as they are while a rig is worked on.
type wires map[patch.Socket]map[patch.Socket]bool

// flood walks from a socket over every multicore whose way it lies on.
func (known wires) flood(p *plan.Plan, from patch.Socket) map[patch.Socket]bool {
	if wet := known[from]; wet != nil {
		return wet
	}
	wet := map[patch.Socket]bool{from: true}
	known[from] = wet
	for todo := []patch.Socket{from}; len(todo) > 0; todo = todo[1:] {
		s := todo[0]
		device, _ := p.Device(s.Device)
		kind, _ := p.Kinds.Get(plan.Key(device.Kind))
		if !kind.Passive && (s != from || !s.Output) {
			continue
		}
		for row := range p.KindWays.All() {
			way := row.First + s.Number - row.Socket
			if row.Kind != device.Kind || (row.Direction == "out") != s.Output || way < row.First || way >= row.First+row.Count {
				continue
			}
			for link := range p.Links.All() {
				far, port := link.To, link.ToPort
				if link.To == s.Device && link.ToPort == row.Port {
					far, port = link.From, link.FromPort
				} else if link.From != s.Device || link.FromPort != row.Port {
					continue
				}
				other, _ := p.Device(far)
				for there := range p.KindWays.All() {
					if there.Kind == other.Kind && there.Port == port && way >= there.First && way < there.First+there.Count {
						if next := (patch.Socket{Device: far, Number: there.Socket + way - there.First, Output: there.Direction == "out"}); !wet[next] {
							wet[next] = true
							todo = append(todo, next)
						}
					}
				}
			}
		}
	}
	return wet
}

func (known wires) read(p *plan.Plan, act plan.ActID) *byHand {
	b := &byHand{map[plan.InputID]patch.Socket{}, map[plan.InputID]map[patch.Socket]bool{}, map[spot]patch.Socket{}, map[spot][]plan.InputID{}}
	for input := range p.Inputs.All() {
		if input.Act != "" && input.Act != act {
			continue
		}
		row, said := p.StagePatches.Get(plan.StagePatch{Act: act, Input: input.ID}.Key())
		if !said {
			row, said = p.StagePatches.Get(plan.StagePatch{Input: input.ID}.Key())
		}
		switch snake, _ := p.Device(input.Snake); {
		case said && !row.Strike:
			b.at[input.ID] = patch.Socket{Device: row.Device, Number: row.Socket}
		case !said && input.Snake != "":
			kind, _ := p.Kinds.Get(plan.Key(snake.Kind))
			b.at[input.ID] = patch.Socket{Device: input.Snake, Number: input.SnakeWay, Output: !kind.Passive}
		}
	}
	for id, at := range b.at {
		b.wet[id] = known.flood(p, at)
	}
	for row := range p.ConsolePatches.All() {
		if own := (plan.ConsolePatch{Act: act, Console: row.Console, Channel: row.Channel}); row.Strike || row.Act != act && (row.Act != "" || p.ConsolePatches.Has(own.Key())) {
			continue
		}
		at := spot{row.Console, row.Channel}
		b.hear[at] = patch.Socket{Device: row.Device, Number: row.Socket}
		for id, wet := range b.wet {
			if wet[b.hear[at]] {
				b.has[at] = append(b.has[at], id)
			}
		}
	}
	return b
}

// alone says which inputs lie on one socket or come up on one channel; blank where none do.
func (b *byHand) alone() string {
	holder := map[patch.Socket]plan.InputID{}
	for id, wet := range b.wet {
		for s := range wet {
			if holder[s] != "" {
				return fmt.Sprintf("%s and %s are both on %v", holder[s], id, s)
			}
			holder[s] = id
		}
	}
	for at, on := range b.has {
		if len(on) > 1 {
			return fmt.Sprintf("%v has %v", at, on)
		}
	}
	return ""
}

// agrees says where the tables of a view say something else, by input or by console; blank where they agree.
func (b *byHand) agrees(v *patch.View, act *patch.Act) string {
	heard, listed := 0, 0
	for _, line := range act.Lines {
		id := line.Input.ID
		if b.at[id] != line.At {
			return fmt.Sprintf("%s is on %v and not %v", id, b.at[id], line.At)
		}
		for _, channel := range line.Channels() {
			if !slices.Equal(b.has[spot{channel.Console, channel.Number}], []plan.InputID{id}) {
				return fmt.Sprintf("%v has not %s", channel, id)
			}
			heard++
		}
		for s := range line.Sockets() {
			if !b.wet[id][s] && s != line.Snake {
				return fmt.Sprintf("%s is not on %v", id, s)
			}
		}
	}
	for console, all := range v.ConsoleRows(act) {
		for _, row := range all {
			if listed++; len(row.Lines) != len(b.has[spot{console, row.Number}]) {
				return fmt.Sprintf("%v has not %v", row.Number, row.Lines)
			}
		}
	}
	if heard != len(b.has) || listed != len(b.hear) {
		return fmt.Sprintf("%d channels have inputs and not %d, of %d and not %d", len(b.has), heard, len(b.hear), listed)
	}
	return ""
}

// moved says which channel has another input now though it may not; blank where all may.
func (b *byHand) moved(now *byHand, may func(at spot, was, is plan.InputID) bool) string {
	for _, all := range []map[spot][]plan.InputID{b.has, now.has} {
		for at := range all {
			if was, is := first(b.has[at]), first(now.has[at]); was != is && !may(at, was, is) {
				return fmt.Sprintf("%v had %q and has %q", at, was, is)
			}
		}
	}
	return ""
}

func first(ids []plan.InputID) plan.InputID {
	if len(ids) == 0 {
		return ""
	}
	return ids[0]
}
