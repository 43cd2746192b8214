package checks_test

import (
	"math/rand/v2"
	"regexp"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/checks"
	"stageloom/model/patch"
	"stageloom/model/plan"
)

// follower follows signals by force, from the rows of a plan alone: it floods from where an input is plugged in over every
// multicore, then over every slot, and asks of each channel whether its socket was wetted. It shares nothing with the
// resolution of the patch but the names of sockets.
type follower struct {
	*plan.Plan
	kinds map[plan.DeviceID]plan.Kind
	// known are the pins of sockets; it serves all rigs of one kit.
	known map[patch.Socket]map[string]int
}

func follow(p *plan.Plan, known map[patch.Socket]map[string]int) *follower {
	f := &follower{p, map[plan.DeviceID]plan.Kind{}, known}
	for d := range p.Devices.All() {
		f.kinds[d.ID], _ = p.Kinds.Get(plan.Key(d.Kind))
	}
	return f
}

func (f *follower) passes(id plan.DeviceID) bool {
	return f.kinds[id].Passive || f.kinds[id].Splitter == "active"
}

// pins are the ways of ports at which a socket lies.
func (f *follower) pins(s patch.Socket) map[string]int {
	if pins, found := f.known[s]; found {
		return pins
	}
	pins := map[string]int{}
	f.known[s] = pins
	kind := f.kinds[s.Device]
	if kind.ID == "rf-rack-16" && s.Output {
		pins["M"] = s.Number
	}
	for row := range f.KindWays.All() {
		if row.Kind == kind.ID && (row.Direction == "out") == s.Output && s.Number >= row.Socket && s.Number < row.Socket+row.Count {
			pins[row.Port] = row.First + s.Number - row.Socket
		}
	}
	return pins
}

// at is the socket at a way of a port.
func (f *follower) at(id plan.DeviceID, port string, way int) (patch.Socket, bool) {
	for _, output := range []bool{false, true} {
		for number := 1; number <= 48; number++ {
			s := patch.Socket{Device: id, Number: number, Output: output}
			if number <= max(f.kinds[id].Inputs, f.kinds[id].Outputs) && f.pins(s)[port] == way {
				return s, true
			}
		}
	}
	return patch.Socket{}, false
}

// wet floods from a socket; guests sit at a drop in an act. Wide lets multicores have all ways.
func (f *follower) wet(from patch.Socket, drop, guest plan.DeviceID, wide bool) map[patch.Socket]bool {
	wet, todo := map[patch.Socket]bool{from: true}, []patch.Socket{from}
	for len(todo) > 0 {
		s := todo[0]
		todo = todo[1:]
		if !f.passes(s.Device) && (s != from || !s.Output) {
			continue
		}
		for port, way := range f.pins(s) {
			for link := range f.Links.All() {
				far, farPort := link.To, link.ToPort
				switch {
				case link.To == s.Device && link.ToPort == port:
					far, farPort = link.From, link.FromPort
				case link.From != s.Device || link.FromPort != port:
					continue
				}
				cable, _ := f.CableKinds.Get(plan.Key(link.FillKind))
				if link.Transport != "analogue-multicore" || !wide && cable.Ways > 0 && way > cable.Ways {
					continue
				}
				next, found := f.at(far, farPort, way)
				if !found || wet[next] {
					continue
				}
				wet[next] = true
				todo = append(todo, next)
				if far == drop && drop != "" {
					wet[patch.Socket{Device: guest, Number: way}] = true
				}
			}
		}
	}
	return wet
}

// heard is an input on a channel.
type heard struct {
	console plan.DeviceID
	channel int
	input   plan.InputID
}

var saying = regexp.MustCompile(`^(\S+) (\d+)(?:–(\d+))? (?:gets? nothing|is patched|are patched)`)

// TestAFollowerByForceAgrees draws rigs with splitters, sub-snakes, drops, guests, narrow multicores and slots at random, and
// compares channel by channel what arrives, and what is told of those where nothing does.
func TestAFollowerByForceAgrees(t *testing.T) {
	base := stock(t)
	arrived, silent, mute := 0, 0, 0
	known := map[patch.Socket]map[string]int{}
	for seed := range uint64(rigs) {
		p := draw(t, base, rand.New(rand.NewPCG(seed, 41)))
		f, v := follow(p, known), patch.Of(p)
		told := toldOf(t, p, v)
		scenes := map[plan.ActID]*scene{}
		on := map[[2]string]bool{} // channels on which an input lies in any act
		for _, act := range v.Acts {
			s := f.scene(act.Act.ID)
			scenes[act.Act.ID] = s
			for row := range s.lists {
				for id := range s.at {
					if s.floods[id][source(row)] {
						on[[2]string{string(row.Console), strconv.Itoa(row.Channel)}] = true
					}
				}
			}
		}
		for _, act := range v.Acts {
			s := scenes[act.Act.ID]
			got := map[heard]bool{}
			for _, line := range act.Lines {
				for _, c := range line.Channels() {
					if c.Reached {
						got[heard{c.Console, c.Number, line.Input.ID}] = true
					}
				}
			}
			want := map[heard]bool{}
			for row := range s.lists {
				some, lies := false, false
				for id := range s.at {
					if s.gets(row.Console, source(row), id) {
						want[heard{row.Console, row.Channel, id}], some = true, true
					}
					lies = lies || s.floods[id][source(row)]
				}
				beyond := row.Channel > f.kinds[row.Console].Channels
				is := told[place{act.Act.ID, row.Console, row.Channel}]
				where := []any{"rig %d, act %q, %v", seed, act.Act.ID, row}
				switch {
				case some && !beyond:
					arrived++
					require.False(t, is, where...)
				case !lies && !beyond && s.meant(scenes[""], row, on):
					mute++
				default:
					silent++
					require.True(t, is, where...)
				}
			}
			require.Equal(t, want, got, "rig %d, act %q", seed, act.Act.ID)
		}
	}
	for what, count := range map[string]int{"arriving": arrived, "told": silent, "silent by intent": mute} {
		require.Greater(t, count, rigs/10, what)
		t.Log(what, count)
	}
}

func source(row plan.ConsolePatch) patch.Socket {
	return patch.Socket{Device: row.Device, Number: row.Socket}
}

// meant reports whether a channel may be silent by intent: the input that it would have is struck, or only another act has one.
func (s *scene) meant(house *scene, row plan.ConsolePatch, on map[[2]string]bool) bool {
	at := [2]string{string(row.Console), strconv.Itoa(row.Channel)}
	for id := range s.struck {
		from, patched := house.at[id]
		part := s.wet(from, "", "", true)
		if patched && (part[source(row)] || s.couldJoin(part, s.behind(source(row)))) {
			return true
		}
	}
	if s.act != "" && s.own[at] || !on[at] {
		return false
	}
	for id := range house.at {
		if house.floods[id][source(row)] {
			return false
		}
	}
	return true
}

// behind is all that a box's inlet hangs together with, were the multicores wide enough: the flood from what comes in there.
func (f *follower) behind(listed patch.Socket) map[patch.Socket]bool {
	all := map[patch.Socket]bool{listed: true}
	for port, way := range f.pins(listed) {
		for link := range f.Links.All() {
			far, farPort := link.To, link.ToPort
			if link.To == listed.Device && link.ToPort == port {
				far, farPort = link.From, link.FromPort
			} else if link.From != listed.Device || link.FromPort != port {
				continue
			}
			if next, found := f.at(far, farPort, way); found {
				for s := range f.wet(next, "", "", true) {
					all[s] = true
				}
			}
		}
	}
	return all
}

// couldJoin reports whether one multicore more would join two parts.
func (f *follower) couldJoin(a, b map[patch.Socket]bool) bool {
	free := func(part map[patch.Socket]bool) map[int]bool {
		ways := map[int]bool{}
		for s := range part {
			for port, way := range f.pins(s) {
				used := false
				for link := range f.Links.All() {
					used = used || link.From == s.Device && link.FromPort == port || link.To == s.Device && link.ToPort == port
				}
				ways[way] = ways[way] || !used
			}
		}
		return ways
	}
	one, other := free(a), free(b)
	for way, is := range one {
		if is && other[way] {
			return true
		}
	}
	return false
}

type place struct {
	act     plan.ActID
	console plan.DeviceID
	channel int
}

// toldOf reads from the findings which channels get nothing.
func toldOf(t *testing.T, p *plan.Plan, v *patch.View) map[place]bool {
	told := map[place]bool{}
	named := map[string]plan.DeviceID{}
	for d := range p.Devices.All() {
		named[d.Name] = d.ID
	}
	for _, finding := range ruleNamed(t, "no-arrival").Find(&checks.Subject{Plan: p, Patch: v}) {
		words := saying.FindStringSubmatch(finding.What)
		require.NotNil(t, words, finding.What)
		first, _ := strconv.Atoi(words[2])
		last := first
		if words[3] != "" {
			last, _ = strconv.Atoi(words[3])
		}
		for _, act := range finding.Acts {
			for channel := first; channel <= last; channel++ {
				told[place{act, named[words[1]], channel}] = true
			}
		}
		require.True(t, slices.IsSorted(finding.Acts))
	}
	return told
}
