package catalogue_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/catalogue"
	"stageloom/model/plan"
)

// onStage is a stage box, a console and a network switch, with the first port of the box in use.
func onStage(t *testing.T) (p *plan.Plan, box, console, network plan.DeviceID) {
	t.Helper()
	p, err := plan.Do(plan.New("Test"), plan.NewIDSource(1, 2), func(e *plan.Edit) error {
		for _, kind := range []plan.KindID{"stagebox-40-20", "console-56", "switch-8"} {
			require.NoError(t, catalogue.Use(e, kind))
		}
		box = e.AddDevice(plan.Device{Name: "SL box", Kind: "stagebox-40-20"})
		console = e.AddDevice(plan.Device{Name: "FOH", Kind: "console-56", X: 50})
		network = e.AddDevice(plan.Device{Name: "Switch", Kind: "switch-8", X: 60})
		require.NoError(t, catalogue.UseCable(e, "cat5e"))
		e.AddLink(plan.Link{Transport: "aes50", From: box, FromPort: "AES50 1", To: console, ToPort: "AES50 1", FillKind: "cat5e"})
		return nil
	})
	require.NoError(t, err)
	return p, box, console, network
}

func TestPortsThatFitMakeALinkAndOthersSayWhyNot(t *testing.T) {
	p, box, console, network := onStage(t)
	for name, test := range map[string]struct {
		link      plan.Link
		transport plan.TransportID
		reason    string
	}{
		"AES50 to AES50":              {plan.Link{From: box, FromPort: "AES50 2", To: console, ToPort: "AES50 2"}, "aes50", ""},
		"a near port alone":           {plan.Link{From: box, FromPort: "AES50 2"}, "aes50", ""},
		"network to network":          {plan.Link{From: console, FromPort: "N1", To: network, ToPort: "1"}, "1000base-t", ""},
		"AES50 into a network port":   {plan.Link{From: box, FromPort: "AES50 2", To: network, ToPort: "1"}, "", "AES50 never goes into a network port"},
		"a port in use":               {plan.Link{From: box, FromPort: "AES50 2", To: console, ToPort: "AES50 1"}, "", "port AES50 1 of FOH holds L01 already"},
		"a port that is none":         {plan.Link{From: box, FromPort: "Z", To: console, ToPort: "AES50 2"}, "", "SL box has no port Z"},
		"both ends on one device":     {plan.Link{From: console, FromPort: "AES50 2", To: console, ToPort: "AES50 3"}, "", "one device"},
		"a device that is gone":       {plan.Link{From: "d-99999", FromPort: "AES50 1"}, "", "no such device"},
		"intercom into a network one": {plan.Link{From: box, FromPort: "IC", To: network, ToPort: "1"}, "", "one port is"},
	} {
		t.Run(name, func(t *testing.T) {
			link, reason := catalogue.NewLink(p, test.link)
			if test.reason != "" {
				require.Contains(t, reason, test.reason)
				return
			}
			require.Empty(t, reason)
			require.Equal(t, test.transport, link.Transport)
		})
	}
	link, _ := catalogue.NewLink(p, plan.Link{From: box, FromPort: "AES50 2", To: console, ToPort: "AES50 2"})
	require.Equal(t, plan.CableKindID("cat5e"), link.FillKind, "the kind that this plan uses")
}

func TestATwinTakesTheNextPortsThatFit(t *testing.T) {
	p, box, console, _ := onStage(t)
	first := p.Links.At(0)
	double, found := catalogue.DoubleOf(p, first)
	require.True(t, found)
	require.Equal(t, []string{"AES50 2", "AES50 2"}, []string{double.FromPort, double.ToPort})
	require.Equal(t, []plan.DeviceID{box, console}, []plan.DeviceID{double.From, double.To})
	require.Empty(t, double.Name)
	p, err := plan.Do(p, plan.NewIDSource(5, 6), func(e *plan.Edit) error { e.AddLink(double); return nil })
	require.NoError(t, err)
	_, found = catalogue.DoubleOf(p, first)
	require.False(t, found, "the box has two AES50 ports")
}
