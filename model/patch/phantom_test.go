package patch_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/catalogue"
	"stageloom/model/patch"
	"stageloom/model/plan"
)

// stageFor lays an input of a type before two racks with a console each, SL with FOH and MR with Mon, by one kind of split.
func stageFor(t require.TestingT, split, use string) *rig {
	r := newRig(t)
	r.device("SL", "stage-rack-48-20")
	r.device("MR", "stage-rack-48-20")
	r.device("FOH", "console-72")
	r.device("Mon", "console-56")
	r.link("L01", "SL", "AES50 1", "FOH", "AES50 1")
	r.link("L03", "MR", "AES50 1", "Mon", "AES50 1")
	r.input(1, "Source", func(i *plan.Input) { i.Use, i.Phantom = use, true })
	at, ports := "Split", [2]string{"A1", "B1"}
	switch split {
	case "none":
		at = "SL"
	case "direct", "isolated":
		r.device("Split", "splitter-48")
		if split == "isolated" {
			ports = [2]string{"B1", "C1"}
		}
	case "both direct":
		r.device("Split", "splitter-48")
		ports = [2]string{"A1", "A1"}
		r.do(func(e *plan.Edit) error {
			return plan.Update(e, plan.PortKey("splitter-48", "B1"), func(p *plan.KindPort) { p.Splitter = "direct" })
		})
		ports[1] = "B1"
	case "active":
		r.device("Split", "active-splitter-16")
		ports = [2]string{"A", "B"}
	case "shared":
		at = "Shared"
		r.device("Shared", "shared-preamp-40")
	case "snake before direct":
		r.device("Split", "splitter-48")
		r.device("Snake", "sub-snake-12-4")
		r.link("M03", "Snake", "M", "Split", "IN1")
		at = "Snake"
	}
	if r.devices["Split"] != "" {
		r.link("M01", "Split", ports[0], "SL", "M1")
		r.link("M02", "Split", ports[1], "MR", "M1")
	}
	r.stage("", "Source", at, 1)
	return r
}

// The table is written by hand: where 48 V can be switched for an input, and by whom, for each kind of split and each owner
// that the plan names. SL and MR are the racks, FOH and Mon the consoles.
func TestWhere48VComesFrom(t *testing.T) {
	type row struct{ split, owner, want string }
	for _, c := range []row{
		{"none", "", "SL in 1 by nobody"},
		{"none", "SL FOH", "SL in 1 by FOH"},
		{"direct", "", "SL in 1 by nobody"},
		{"direct", "SL FOH", "SL in 1 by FOH"},
		{"direct", "MR Mon", "SL in 1 by nobody"},
		{"both direct", "", "SL in 1 by nobody, MR in 1 by nobody"},
		{"both direct", "SL FOH", "SL in 1 by FOH"},
		{"both direct", "MR Mon", "MR in 1 by Mon"},
		{"both direct", "SL FOH, MR Mon", "SL in 1 by FOH, MR in 1 by Mon"},
		{"isolated", "", ""},
		{"isolated", "SL FOH", ""},
		{"active", "", "Split in 1 by Split"},
		{"active", "SL FOH", "Split in 1 by Split"},
		{"active", "Split FOH", "Split in 1 by FOH"},
		{"shared", "", "Shared in 1 by Shared"},
		{"shared", "Shared Mon", "Shared in 1 by Mon"},
		{"snake before direct", "", "SL in 1 by nobody"},
		{"snake before direct", "SL FOH", "SL in 1 by FOH"},
	} {
		for _, use := range []string{"mic", "DI", "condenser", "dynamic", "ribbon", "active_DI", "passive_DI", "line", ""} {
			t.Run(c.split+"/"+c.owner+"/"+use, func(t *testing.T) {
				r := stageFor(t, c.split, use)
				for owner := range strings.SplitSeq(c.owner, ", ") {
					if box, who, named := strings.Cut(owner, " "); named {
						put(r, plan.SocketOwner{Device: r.devices[box], Socket: 1, Phantom: r.devices[who]})
					}
				}
				line := r.line("", "Source")
				v, house := line.view, line.view.House()
				var got []string
				for _, feed := range v.Fed(house, line.Line) {
					who := "nobody"
					if feed.Switch != "" {
						who = v.Name(feed.Switch)
					}
					got = append(got, v.SocketWords(feed.Socket)+" by "+who)
				}
				require.Equal(t, c.want, strings.Join(got, ", "))
				sheet := v.PhantomSheet(house)
				caution := c.want != "" && (use == "ribbon" || use == "line")
				require.Equal(t, caution, strings.HasPrefix(sheet.Beside(line.Line), "NO 48 V – "), sheet.Beside(line.Line))
				current := newCurrent(r.plan)
				for socket := range v.Lies(house, line.Line) {
					reaches := slices.ContainsFunc(v.Fed(house, line.Line), func(f patch.Feed) bool { return current.reach(f.Socket)[socket] })
					says := sheet.At(line.Line, socket)
					require.Equal(t, reaches && !caution, strings.HasPrefix(says, "48 V"), "%s: %q", v.SocketWords(socket), says)
				}
			})
		}
	}
}

func TestHowTypesBear48V(t *testing.T) {
	for use, want := range map[string]patch.Bearing{
		"": patch.Untold, "mic": patch.Untold, "DI": patch.Untold, "condenser": patch.Needs, "active_DI": patch.Needs,
		"dynamic": patch.Bears, "passive_DI": patch.Bears, "ribbon": patch.Suffers, "line": patch.Suffers,
	} {
		require.Equal(t, want, patch.BearingOf(plan.Input{Use: use}), use)
	}
	for source, want := range map[string]string{
		"Bändchen, alt": "ribbon", "active DI": "active_DI", "DI passiv": "passive_DI", "keyboard DI": "DI", "keyboard": "line",
		"radio, condenser": "line", "boundary": "mic", "boundary mic": "mic", "condenser + DI": "", "dynamic ribbon": "", "Elektret": "condenser",
		"mic dynamic": "dynamic", "house special": "",
	} {
		require.Equal(t, want, patch.TypeOf(plan.Input{Source: source}), source)
	}
	require.Equal(t, "ribbon", patch.TypeOf(plan.Input{Use: "mic", Source: "ribbon"}))
	require.Equal(t, "DI", patch.TypeOf(plan.Input{Use: "DI", Source: "ribbon"}), "what the type says holds")
	require.Equal(t, "line", patch.TypeOf(plan.Input{Use: "line", Source: "condenser"}))
}

// current reads rows of the plan alone: which sockets are joined by conductors that 48 V passes.
type current struct {
	joined map[patch.Socket][]patch.Socket
}

func newCurrent(p *plan.Plan) current {
	c := current{map[patch.Socket][]patch.Socket{}}
	kindOf := func(id plan.DeviceID) plan.Kind {
		device, _ := p.Device(id)
		kind, _ := p.Kinds.Get(plan.Key(device.Kind))
		return kind
	}
	passes := func(id plan.DeviceID, name string, out bool) bool {
		kind := kindOf(id)
		port, _ := p.KindPorts.Get(plan.PortKey(kind.ID, name))
		if port.Splitter != "" {
			return port.Splitter == "direct"
		}
		return !out || kind.Splitter == "" || kind.Splitter == "direct"
	}
	socketOn := func(id plan.DeviceID, port string, way int) (patch.Socket, bool) {
		for row := range p.KindWays.All() {
			if row.Kind == kindOf(id).ID && row.Port == port && way >= row.First && way < row.First+row.Count {
				return patch.Socket{Device: id, Number: row.Socket + way - row.First, Output: row.Direction == "out"}, true
			}
		}
		return patch.Socket{}, false
	}
	for link := range p.Links.All() {
		if link.Transport != "analogue-multicore" || !passes(link.From, link.FromPort, true) || !passes(link.To, link.ToPort, false) {
			continue
		}
		for way := 1; way <= 16; way++ {
			one, first := socketOn(link.From, link.FromPort, way)
			other, second := socketOn(link.To, link.ToPort, way)
			if first && second {
				c.joined[one], c.joined[other] = append(c.joined[one], other), append(c.joined[other], one)
			}
		}
	}
	return c
}

// reach are all sockets that 48 V comes to which is switched at one.
func (c current) reach(from patch.Socket) map[patch.Socket]bool {
	seen, next := map[patch.Socket]bool{from: true}, []patch.Socket{from}
	for len(next) > 0 {
		at := next[0]
		next = next[1:]
		for _, to := range c.joined[at] {
			if !seen[to] {
				seen[to] = true
				next = append(next, to)
			}
		}
	}
	return seen
}

// On random plans of panels, splitters and racks no 48 V is told at a socket, nor comes to an input, beyond an isolated leg; and
// where rows of the plan lead it from a rack to an input that is plugged into what is passive, it is told.
func TestNo48VIsToldBeyondAnIsolatedLeg(t *testing.T) {
	told, silent := 0, 0
	for seed := range uint64(120) {
		r := randomStage(t, rand.New(rand.NewPCG(seed, 48)))
		v, c := patch.Of(r.plan), newCurrent(r.plan)
		house := v.House()
		sheet := v.PhantomSheet(house)
		for _, line := range house.Lines {
			var from []patch.Socket
			for _, feed := range v.Fed(house, line) {
				from = append(from, feed.Socket)
				require.True(t, c.reach(feed.Socket)[line.At], "seed %d: %s gives none to %s", seed, v.SocketWords(feed.Socket), line.Input.Name)
			}
			for socket := range v.Lies(house, line) {
				comes := slices.ContainsFunc(from, func(at patch.Socket) bool { return c.reach(at)[socket] })
				says := strings.HasPrefix(sheet.At(line, socket), "48 V")
				require.False(t, says && !comes, "seed %d: 48 V is told at %s", seed, v.SocketWords(socket))
				if says {
					told++
				} else {
					silent++
				}
			}
			for at := range c.reach(line.At) {
				if v.Supplies(at.Device) && v.Phantom(at) {
					require.NotEmpty(t, from, "seed %d: %s could give it to %s", seed, v.SocketWords(at), line.Input.Name)
				}
			}
		}
	}
	require.Greater(t, told, 100)
	require.Greater(t, silent, 100)
}

// randomStage joins devices by multicores from the stage to the racks at random, and plugs in inputs that want 48 V.
func randomStage(t require.TestingT, random *rand.Rand) *rig {
	r := newRig(t)
	r.do(func(e *plan.Edit) error { return catalogue.Use(e, "splitter-48") })
	kinds := []plan.KindID{"sub-snake-16-0", "drop-panel-8-4", "splitter-48", "splitter-48", "active-splitter-16", "stage-rack-48-20", "stage-rack-48-20"}
	ways := map[plan.KindID][2][]string{
		"sub-snake-16-0": {nil, {"M"}}, "drop-panel-8-4": {nil, {"M"}}, "active-splitter-16": {{"IN"}, {"A", "B"}},
		"splitter-48": {{"IN1"}, {"A1", "B1", "C1"}}, "stage-rack-48-20": {{"M1"}, nil},
	}
	type port struct{ device, port string }
	var inlets []port
	for i := len(kinds) - 1; i >= 0; i-- {
		name := fmt.Sprintf("Device %d", i)
		r.device(name, kinds[i])
		for _, outlet := range ways[kinds[i]][1] {
			if len(inlets) == 0 || random.IntN(5) == 0 {
				continue
			}
			n := random.IntN(len(inlets))
			r.link(fmt.Sprintf("M%d%s", i, outlet), name, outlet, inlets[n].device, inlets[n].port)
			inlets = slices.Delete(inlets, n, n+1)
		}
		for _, inlet := range ways[kinds[i]][0] {
			inlets = append(inlets, port{name, inlet})
		}
		if kinds[i] == "splitter-48" && random.IntN(2) == 0 {
			inlets = append(inlets, port{name, "C1"}) // something is wired into an isolated output
			inlets = slices.DeleteFunc(inlets, func(p port) bool {
				return p == port{name, "C1"} && slices.ContainsFunc(slices.Collect(r.plan.Links.All()), func(l plan.Link) bool { return l.From == r.devices[name] && l.FromPort == "C1" })
			})
		}
	}
	for n := range 7 {
		name := fmt.Sprintf("Input %d", n+1)
		r.input(n+1, name, func(i *plan.Input) { i.Phantom = true })
		r.stage("", name, fmt.Sprintf("Device %d", random.IntN(len(kinds)-2)), n+1)
	}
	return r
}
