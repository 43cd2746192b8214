package fields_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/catalogue"
	"stageloom/model/fields"
	"stageloom/model/patch"
	"stageloom/model/plan"
)

// ends is two boxes and a console: the first box on the console, one input on its first channel.
func ends(t *testing.T) (*plan.Plan, map[string]plan.DeviceID, plan.LinkID) {
	ids, devices := plan.NewIDSource(4, 4), map[string]plan.DeviceID{}
	var link plan.LinkID
	p, err := plan.Do(plan.New("Ends"), ids, func(e *plan.Edit) error {
		for _, d := range [][2]string{{"SL box", "stagebox-40-20"}, {"SR box", "stagebox-24-12"}, {"FOH", "console-72"}} {
			devices[d[0]] = e.AddDevice(plan.Device{Name: d[0], Kind: plan.KindID(d[1])})
			if err := catalogue.Use(e, plan.KindID(d[1])); err != nil {
				return err
			}
		}
		link = e.AddLink(plan.Link{Name: "L01", Transport: "aes50", From: devices["SL box"], FromPort: "AES50 1", To: devices["FOH"], ToPort: "AES50 1"})
		e.AddLink(plan.Link{Name: "L02", Transport: "aes50", From: devices["SR box"], FromPort: "AES50 1", To: devices["FOH"], ToPort: "AES50 2"})
		input := e.AddInput(plan.Input{Number: 1, Name: "Kick in"})
		if err := patch.Plug(e, "", input, patch.Socket{Device: devices["SR box"], Number: 2}, true); err != nil {
			return err
		}
		return patch.SetChannel(e, "", input, devices["FOH"], 1)
	})
	require.NoError(t, err)
	return p, devices, link
}

func TestAnEndOfALinkIsTypedAsItIsShown(t *testing.T) {
	p, devices, id := ends(t)
	set := func(near bool, typed string) (*plan.Plan, error) {
		return plan.Do(p, nil, func(e *plan.Edit) error { return fields.SetLinkEnd(e, id, near, typed) })
	}
	for _, c := range []struct {
		near         bool
		typed        string
		device, port string
	}{
		{true, "SL box AES50 1", "SL box", "AES50 1"},
		{true, " sl  box aes50 2", "SL box", "AES50 2"},
		{true, "SR AES50 2", "SR box", "AES50 2"},
		{false, "FOH AES50 3", "FOH", "AES50 3"},
	} {
		next, err := set(c.near, c.typed)
		require.NoError(t, err, c.typed)
		link, _ := next.Link(id)
		device, port := link.To, link.ToPort
		if c.near {
			device, port = link.From, link.FromPort
		}
		require.Equal(t, devices[c.device], device, c.typed)
		require.Equal(t, c.port, port)
		again, err := plan.Do(next, nil, func(e *plan.Edit) error {
			return fields.SetLinkEnd(e, id, c.near, fields.EndText(next, device, port))
		})
		require.NoError(t, err)
		require.True(t, plan.Equal(next, again), "what is shown can be typed")
	}
	for typed, reason := range map[string]string{
		"":               "a link has two ends",
		"Drums AES50 1":  `no device is called as in "Drums AES50 1"; there are FOH, SL box, SR box`,
		"SR box":         `"SR box" is no port of SR box; free at SR box: AES50 2`,
		"SR box 9":       `"SR box 9" is no port of SR box; free at SR box: AES50 2`,
		"SR box AES50 1": "port AES50 1 of SR box holds L02 already; free at SR box: AES50 2",
		"FOH AES50 4":    "both ends are on one device",
	} {
		_, err := set(true, typed)
		require.ErrorContains(t, err, reason, typed)
	}
	others := portsBeside(p, devices["FOH"], "aes50")
	require.NotEmpty(t, others)
	for _, port := range others {
		_, err := set(false, "FOH "+port)
		require.ErrorContains(t, err, "L01 carries AES50", port)
		require.ErrorContains(t, err, "free at FOH: AES50 1, AES50 3")
	}
}

// portsBeside are the ports of a device that take another transport.
func portsBeside(p *plan.Plan, id plan.DeviceID, transport plan.TransportID) (names []string) {
	device, _ := p.Device(id)
	for _, port := range p.Ports(device.Kind) {
		if port.Transport != transport {
			names = append(names, port.Name)
		}
	}
	return names
}

func TestChannelsOnALinkAreAssignedAnewAtAnotherDevice(t *testing.T) {
	p, _, _ := ends(t)
	var second plan.Link
	for link := range p.Links.All() {
		if link.Name == "L02" {
			second = link
		}
	}
	require.NotZero(t, p.SlotPatches.Len())
	next, err := plan.Do(p, nil, func(e *plan.Edit) error { return fields.SetLinkEnd(e, second.ID, true, "SL box AES50 2") })
	require.NoError(t, err)
	require.Zero(t, next.SlotPatches.Len(), "nothing of the box that it left stands on it")
}
