package demo_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/demo"
	"stageloom/model/patch"
	"stageloom/model/plan"
)

// jack is a socket of a device, an input or an output.
type jack struct {
	device plan.DeviceID
	number int
}

// tracer follows a signal through the rows of one act alone, without the room that resolves patches.
type tracer struct {
	p   *plan.Plan
	act plan.ActID
}

func named(t *testing.T, p *plan.Plan, name string) plan.Device {
	t.Helper()
	for device := range p.Devices.All() {
		if device.Name == name {
			return device
		}
	}
	t.Fatalf("no device is called %q", name)
	return plan.Device{}
}

// jacks are the sockets that the ways of multicores join to one, itself among them: a way of one port is the same way of
// the port at the other end of the link.
func (tr tracer) jacks(from jack) []jack {
	all := []jack{from}
	for i := 0; i < len(all); i++ {
		for link := range tr.p.Links.All() {
			if link.Transport != "analogue-multicore" {
				continue
			}
			for _, next := range []jack{
				tr.over(all[i], link.From, link.FromPort, link.To, link.ToPort),
				tr.over(all[i], link.To, link.ToPort, link.From, link.FromPort),
			} {
				if next.device != "" && !slices.Contains(all, next) {
					all = append(all, next)
				}
			}
		}
	}
	return all
}

// over is the socket at the far end of a multicore; none where the near port has no way to the socket.
func (tr tracer) over(at jack, near plan.DeviceID, nearPort string, far plan.DeviceID, farPort string) jack {
	if at.device != near {
		return jack{}
	}
	device, _ := tr.p.Device(near)
	way := 0
	mapped := false
	for row := range tr.p.KindWays.All() {
		if row.Kind != device.Kind || row.Direction != "in" {
			continue
		}
		mapped = true
		if row.Port == nearPort && at.number >= row.Socket && at.number < row.Socket+row.Count {
			way = row.First + at.number - row.Socket
		}
	}
	if !mapped {
		way = at.number // a device whose kind maps nothing sends its outputs down the ways in their order
	}
	device, _ = tr.p.Device(far)
	for row := range tr.p.KindWays.All() {
		if row.Kind == device.Kind && row.Port == farPort && row.Direction == "in" && way >= row.First && way < row.First+row.Count {
			return jack{far, row.Socket + way - row.First}
		}
	}
	return jack{}
}

// plugged is where an input is plugged in; none where the act does without it.
func (tr tracer) plugged(input plan.Input) jack {
	at := jack{input.Snake, input.SnakeWay}
	for _, act := range []plan.ActID{"", tr.act} { // what an act says stands over the house
		if row, found := tr.p.StagePatches.Get(plan.StagePatch{Act: act, Input: input.ID}.Key()); found {
			at = jack{row.Device, row.Socket}
			if row.Strike {
				at = jack{}
			}
		}
	}
	return at
}

// listens is the socket that each channel of a console takes.
func (tr tracer) listens(console plan.DeviceID) map[int]jack {
	channels := map[int]jack{}
	for _, act := range []plan.ActID{"", tr.act} {
		for row := range tr.p.ConsolePatches.All() {
			if row.Act == act && row.Console == console {
				channels[row.Channel] = jack{row.Device, row.Socket}
				if row.Strike {
					delete(channels, row.Channel)
				}
			}
		}
	}
	return channels
}

// carried reports whether links with a slot for the socket lead from its device to the console, through converters and drops.
func (tr tracer) carried(at jack, console plan.DeviceID) bool {
	slotted := map[plan.LinkID]bool{}
	for row := range tr.p.SlotPatches.All() {
		if (row.Act == "" || row.Act == tr.act) && !row.Output && row.Device == at.device && row.Socket == at.number {
			slotted[row.Link] = true
		}
	}
	reached := []plan.DeviceID{at.device}
	for i := 0; i < len(reached); i++ {
		here, _ := tr.p.Device(reached[i])
		for link := range tr.p.Links.All() {
			far := link.To
			if link.To == here.ID {
				far = link.From
			} else if link.From != here.ID {
				continue
			}
			if (slotted[link.ID] || here.Kind == "aes50-converter") && !slices.Contains(reached, far) {
				reached = append(reached, far)
			}
		}
		for row := range tr.p.ActConsoles.All() {
			if row.Act == tr.act && row.Drop == here.ID {
				reached = append(reached, row.Console)
			}
		}
	}
	return slices.Contains(reached, console)
}

// heard is what arrives at each channel of a console: the numbers of the inputs by channel.
func (tr tracer) heard(console plan.DeviceID) map[int]int {
	at := map[jack]int{}
	for input := range tr.p.Inputs.All() {
		if in := tr.plugged(input); in.device != "" {
			for _, socket := range tr.jacks(in) {
				at[socket] = input.Number
			}
		}
	}
	heard := map[int]int{}
	for channel, socket := range tr.listens(console) {
		if input := at[socket]; input > 0 && tr.carried(socket, console) {
			heard[channel] = input
		}
	}
	return heard
}

func TestEveryConsoleHearsWhatItIsToldToInEveryAct(t *testing.T) {
	p := demo.Weekender()
	struck := map[plan.ActID][]int{"": {}, "n-22222": {14, 16, 17, 34, 35, 36, 37}, "n-22223": {27, 28, 29, 32, 33}, "n-22224": {19, 20}}
	require.Equal(t, len(struck), p.Acts.Len()+1)
	for act, without := range struck {
		for _, console := range []struct {
			name        string
			first, last int // of the input list, on the channels from 1 on
		}{{"FOH console", 1, 48}, {"Monitor console", 1, 48}, {"Broadcast van", 9, 32}} {
			t.Run(fmt.Sprintf("%s in act %q", console.name, act), func(t *testing.T) {
				want := map[int]int{}
				for number := console.first; number <= console.last; number++ {
					if !slices.Contains(without, number) {
						want[number-console.first+1] = number
					}
				}
				require.Equal(t, want, tracer{p, act}.heard(named(t, p, console.name).ID))
			})
		}
	}
}

func TestTheGuestHearsTheSplitterWithoutWhatItsActStrikes(t *testing.T) {
	p := demo.Weekender()
	guest := named(t, p, "Guest console").ID
	want, channel := map[int]int{}, 0
	for number := 9; number <= 32; number++ {
		if number != 19 && number != 20 {
			channel++
			want[channel] = number
		}
	}
	require.Equal(t, want, tracer{p, "n-22224"}.heard(guest))
	for _, act := range []plan.ActID{"", "n-22222", "n-22223"} {
		require.Empty(t, tracer{p, act}.heard(guest), "it comes for one act alone")
	}
}

func TestNoChannelOfTheWeekenderIsSilent(t *testing.T) {
	view := assess.Of(demo.Weekender()).Patch
	require.Len(t, view.Acts, 4, "the house and three bands")
	for _, act := range view.Acts {
		require.Empty(t, view.Arrivals().Gaps(act), act.Act.Name)
		for _, line := range act.Outputs {
			require.True(t, line.Reached, "%s in %q", line.Output.Name, act.Act.Name)
		}
	}
	for _, load := range view.Loads() {
		require.False(t, load.Over(), "%v", load)
	}
}

func TestPhantomPowerIsWantedByCondensersAndSwitchedByOneConsole(t *testing.T) {
	p := demo.Weekender()
	condensers := 0
	for input := range p.Inputs.All() {
		require.Equal(t, input.Source == "condenser", input.Phantom, input.Name)
		if input.Phantom {
			condensers++
		}
	}
	require.Equal(t, 11, condensers)
	foh, van := named(t, p, "FOH console").ID, named(t, p, "Broadcast van").ID
	owned := map[string]int{}
	for row := range p.SocketOwners.All() {
		device, _ := p.Device(row.Device)
		owned[device.Name]++
		if device.Name == "Broadcast rack" { // behind the isolated way of the splitter 48 V does not pass
			require.Equal(t, [2]plan.DeviceID{van, ""}, [2]plan.DeviceID{row.Gain, row.Phantom})
			continue
		}
		require.Equal(t, [2]plan.DeviceID{foh, foh}, [2]plan.DeviceID{row.Gain, row.Phantom}, "%s %d", device.Name, row.Socket)
	}
	require.Equal(t, map[string]int{"Riser box": 8, "Stage rack": 48, "Stage right box": 16, "Broadcast rack": 24}, owned)
}

func TestOutputsLeaveTheConsoleThatMixesThem(t *testing.T) {
	p := demo.Weekender()
	mixed := map[string][]string{}
	rack := named(t, p, "Stage rack").ID
	for row := range p.OutputPatches.All() {
		require.Empty(t, row.Act, "the outputs stay in every act")
		output, _ := p.Outputs.Get(plan.Key(row.Output))
		console, _ := p.Device(row.Console)
		mixed[console.Name] = append(mixed[console.Name], output.Name)
		require.Equal(t, jack{rack, output.Number}, jack{row.Device, row.Socket}, output.Name)
	}
	require.ElementsMatch(t, []string{"PA left", "PA right", "Subs", "Front fill", "Delay left", "Delay right", "Broadcast left", "Broadcast right"}, mixed["FOH console"])
	require.ElementsMatch(t, []string{"Monitor 1", "Monitor 2", "Monitor 3", "Monitor 4", "Drum fill", "Side fill left", "Side fill right"}, mixed["Monitor console"])
}

func TestAnActStoresOnlyWhatDiffersFromTheHouse(t *testing.T) {
	p := demo.Weekender()
	for row := range p.StagePatches.All() {
		house, found := p.StagePatches.Get(plan.StagePatch{Input: row.Input}.Key())
		if row.Act != "" && found {
			require.NotEqual(t, [3]any{house.Device, house.Socket, house.Strike}, [3]any{row.Device, row.Socket, row.Strike}, row.Key())
		}
	}
	last := ""
	for _, act := range patch.Of(p).Acts[1:] {
		require.Less(t, act.Act.Start, act.Act.End)
		require.Less(t, last, act.Act.Start, "%s begins when the band before is off", act.Act.Name)
		last = act.Act.End
	}
}

func TestASubSnakeIsSaidOnlyOfWhatItsWayLeadsTo(t *testing.T) {
	v, over := patch.Of(demo.Weekender()), 0
	for _, act := range v.Acts {
		for _, line := range act.Lines {
			if !line.Snake.None() && line.Patched() {
				over++
				require.Contains(t, slices.Collect(v.Lies(act, line)), line.Snake)
				require.Equal(t, line.Snake, line.At, "%s in %q", v.Words(line), act.Act.Name)
			}
		}
		trumpet, err := v.ReadInput(act, "Trumpet")
		require.NoError(t, err)
		require.Equal(t, act.Act.Name != "Low Tide Brass", trumpet.Struck || !trumpet.Snake.None(), v.Words(trumpet))
	}
	require.Positive(t, over)
}
