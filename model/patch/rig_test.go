package patch_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/catalogue"
	"stageloom/model/patch"
	"stageloom/model/plan"
)

// rig is a plan that a test builds up; devices, links and inputs are found by name.
type rig struct {
	t       require.TestingT
	plan    *plan.Plan
	ids     *plan.IDSource
	devices map[string]plan.DeviceID
	links   map[string]plan.LinkID
	inputs  map[string]plan.InputID
}

func newRig(t require.TestingT) *rig {
	return &rig{
		t: t, plan: plan.New("Rig"), ids: plan.NewIDSource(5, 7),
		devices: map[string]plan.DeviceID{}, links: map[string]plan.LinkID{}, inputs: map[string]plan.InputID{},
	}
}

func (r *rig) do(edit func(*plan.Edit) error) {
	next, err := plan.Do(r.plan, r.ids, edit)
	require.NoError(r.t, err)
	r.plan = next
}

func (r *rig) device(name string, kind plan.KindID) {
	r.do(func(e *plan.Edit) error {
		r.devices[name] = e.AddDevice(plan.Device{Name: name, Kind: kind})
		return catalogue.Use(e, kind)
	})
}

// link joins two ports; the transport is that of the first.
func (r *rig) link(name, from, fromPort, to, toPort string) {
	r.do(func(e *plan.Edit) error {
		device, _ := e.Now().Device(r.devices[from])
		port, _ := e.Now().KindPorts.Get(plan.PortKey(device.Kind, fromPort))
		r.links[name] = e.AddLink(plan.Link{
			Name: name, Transport: port.Transport,
			From: r.devices[from], FromPort: fromPort, To: r.devices[to], ToPort: toPort,
		})
		return nil
	})
}

func (r *rig) input(number int, name string, with ...func(*plan.Input)) {
	input := plan.Input{ID: plan.InputID("i-2222" + plan.Signs[number-1:number]), Number: number, Name: name}
	for _, change := range with {
		change(&input)
	}
	r.inputs[name] = input.ID
	r.do(func(e *plan.Edit) error { plan.Put(e, input); return nil })
}

func (r *rig) act(order int, name string) plan.ActID {
	act := plan.Act{ID: plan.ActID("n-2222" + plan.Signs[order-1:order]), Name: name, Order: order}
	r.do(func(e *plan.Edit) error { plan.Put(e, act); return nil })
	return act.ID
}

func put[R plan.Row](r *rig, rows ...R) {
	r.do(func(e *plan.Edit) error {
		for _, row := range rows {
			plan.Put(e, row)
		}
		return nil
	})
}

func (r *rig) stage(act plan.ActID, input, device string, socket int) {
	put(r, plan.StagePatch{Act: act, Input: r.inputs[input], Device: r.devices[device], Socket: socket})
}

func (r *rig) channel(act plan.ActID, console string, channel int, device string, socket int) {
	put(r, plan.ConsolePatch{Act: act, Console: r.devices[console], Channel: channel, Device: r.devices[device], Socket: socket})
}

func (r *rig) slot(link string, direction string, slot int, device string, socket int) {
	put(r, plan.SlotPatch{Link: r.links[link], Direction: direction, Slot: slot, Device: r.devices[device], Socket: socket})
}

func (r *rig) says(t *testing.T, act plan.ActID, input, words string) {
	t.Helper()
	require.Equal(t, words, r.line(act, input).words)
}

type said struct {
	*patch.Line
	view  *patch.View
	words string
}

func (r *rig) line(act plan.ActID, input string) said {
	v := patch.Of(r.plan)
	a, found := v.Act(act)
	require.True(r.t, found)
	line, found := a.Line(r.inputs[input])
	require.True(r.t, found, input)
	return said{line, v, v.Words(line)}
}

// festival is one stage box, two consoles, and one input on both.
func festival(t require.TestingT) *rig {
	r := newRig(t)
	r.device("SL", "stagebox-40-20")
	r.device("FOH", "console-72")
	r.device("Mon", "console-56")
	r.link("L01", "SL", "AES50 1", "FOH", "AES50 1")
	r.link("L02", "SL", "AES50 2", "Mon", "AES50 1")
	r.input(1, "Kick in")
	r.stage("", "Kick in", "SL", 3)
	r.channel("", "FOH", 1, "SL", 3)
	r.channel("", "Mon", 1, "SL", 3)
	r.slot("L01", patch.Forward, 3, "SL", 3)
	r.slot("L02", patch.Forward, 3, "SL", 3)
	return r
}
