package catalogue_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/catalogue"
	"stageloom/model/plan"
	"stageloom/model/standards"
)

func TestEveryDeviceKindStandsInAPlan(t *testing.T) {
	for _, kind := range catalogue.DeviceKinds() {
		t.Run(string(kind.Kind.ID), func(t *testing.T) {
			p, err := plan.Do(plan.New("Kinds"), plan.NewIDSource(1, 1), func(e *plan.Edit) error {
				if err := catalogue.Use(e, kind.Kind.ID); err != nil {
					return err
				}
				e.AddDevice(plan.Device{Kind: kind.Kind.ID})
				return nil
			})
			require.NoError(t, err)
			require.Len(t, p.Ports(kind.Kind.ID), len(kind.Ports), "no two ports bear one name")
			require.Equal(t, len(kind.Sockets), p.KindSockets.Len())
			require.NotEmpty(t, kind.Ports, "a device without a port cannot be linked")
			require.Contains(t, catalogue.Groups(), kind.Kind.Group)
		})
	}
}

func TestTheCountsOfAKindAreThoseOfItsSockets(t *testing.T) {
	for _, kind := range catalogue.DeviceKinds() {
		counts := map[string]int{}
		for _, row := range kind.Sockets {
			require.Equal(t, counts[row.Direction]+1, row.First, "%s: rows of sockets follow one another", kind.Kind.ID)
			counts[row.Direction] += row.Count
		}
		require.Equal(t, kind.Kind.Inputs, counts["in"], kind.Kind.ID)
		require.Equal(t, kind.Kind.Outputs, counts["out"], kind.Kind.ID)
	}
}

func TestPortsUseWhatTheStandardsKnow(t *testing.T) {
	for _, kind := range catalogue.DeviceKinds() {
		for _, port := range kind.Ports {
			transport, err := standards.TransportBySlug(standards.TransportSlug(port.Transport))
			require.NoError(t, err, "%s %s", kind.Kind.ID, port.Name)
			if transport.NeverIntoNetworkPort {
				require.True(t, port.Lockable && port.MetalShell, "%s %s: the screen must go on into the port", kind.Kind.ID, port.Name)
			}
			if port.Power != "" {
				_, err := standards.PowerTypeBySlug(standards.PowerSlug(port.Power))
				require.NoError(t, err)
			}
		}
	}
}

func TestEveryTransportThatStandsInTheCatalogueHasACable(t *testing.T) {
	for _, kind := range catalogue.DeviceKinds() {
		for _, port := range kind.Ports {
			transport, err := standards.TransportBySlug(standards.TransportSlug(port.Transport))
			require.NoError(t, err)
			fits := slices.ContainsFunc(catalogue.CableKinds(), func(cable plan.CableKind) bool {
				return strings.HasPrefix(cable.Media, strings.ReplaceAll(string(transport.Media), " ", "-"))
			})
			require.True(t, fits, port.Transport)
		}
	}
}

func TestEveryCableKindStandsInAPlan(t *testing.T) {
	for _, kind := range catalogue.CableKinds() {
		t.Run(string(kind.ID), func(t *testing.T) {
			p, err := plan.Do(plan.New("Cables"), nil, func(e *plan.Edit) error { return catalogue.UseCable(e, kind.ID) })
			require.NoError(t, err)
			got, found := p.CableKinds.Get(kind.Key())
			require.True(t, found)
			require.Equal(t, kind, got)
		})
	}
}

func TestDataCableStatesWhatDecidesItsLoss(t *testing.T) {
	for _, kind := range catalogue.CableKinds() {
		if kind.Media != "balanced-pair" {
			continue
		}
		category, err := standards.CableBySlug(standards.CableSlug(kind.Category))
		require.NoError(t, err, kind.ID)
		_, err = standards.HardwareBySlug(standards.HardwareSlug(kind.Hardware))
		require.NoError(t, err, kind.ID)
		require.Equal(t, 4, kind.Pairs, kind.ID)
		require.True(t, slices.ContainsFunc(standards.Conductors(), func(c standards.Conductor) bool {
			return c.Gauge == kind.Gauge && c.Stranded != kind.Solid
		}) || kind.OwnFigure.Set, "%s: its conductor is known", kind.ID)
		require.True(t, kind.Screened || !category.AlwaysScreened, kind.ID)
		if figure := kind.OwnFigure; figure.Set {
			require.InDelta(t, 1, category.Figures.UnitFactorFor(figure.Value), 0.15, "%s: an own figure like its category's", kind.ID)
		}
	}
}

func TestNoTwoKindsBearOneNameOrSlug(t *testing.T) {
	seen := map[string]bool{}
	take := func(text string) {
		require.False(t, seen[text], text)
		seen[text] = true
	}
	for _, kind := range catalogue.DeviceKinds() {
		take("device " + string(kind.Kind.ID))
		take("device " + kind.Kind.Name)
	}
	for _, kind := range catalogue.CableKinds() {
		take("cable " + string(kind.ID))
		take("cable " + kind.Name)
	}
}

func TestAKindThatThePlanHoldsStaysAsItIs(t *testing.T) {
	mine := plan.Kind{ID: "switch-8", Name: "My switch", Group: "Network"}
	cable := plan.CableKind{ID: "cat6a-own", Name: "My cable", Media: "balanced-pair", OwnFigure: plan.Some(17)}
	p, err := plan.Do(plan.New("Mine"), nil, func(e *plan.Edit) error {
		plan.Put(e, mine)
		plan.Put(e, cable)
		require.NoError(t, catalogue.Use(e, "switch-8"))
		return catalogue.UseCable(e, "cat6a-own")
	})
	require.NoError(t, err)
	require.Equal(t, 0, p.KindPorts.Len())
	got, _ := p.CableKinds.Get("cat6a-own")
	require.Equal(t, cable, got)
}

func TestAnUnknownKindIsRefusedByName(t *testing.T) {
	_, err := plan.Do(plan.New("Unknown"), nil, func(e *plan.Edit) error { return catalogue.Use(e, "teapot") })
	require.ErrorIs(t, err, catalogue.ErrUnknown)
	require.ErrorContains(t, err, `"teapot"`)
	_, err = plan.Do(plan.New("Unknown"), nil, func(e *plan.Edit) error { return catalogue.UseCable(e, "string") })
	require.ErrorIs(t, err, catalogue.ErrUnknown)
	require.ErrorContains(t, err, `"string"`)
}

func TestWaysLieParallelToSocketsThatAreThere(t *testing.T) {
	for _, kind := range catalogue.DeviceKinds() {
		for _, way := range kind.Ways {
			require.True(t, slices.ContainsFunc(kind.Ports, func(p plan.KindPort) bool { return p.Name == way.Port }), "%s %s", kind.Kind.ID, way.Port)
			count := map[string]int{"in": kind.Kind.Inputs, "out": kind.Kind.Outputs}[way.Direction]
			require.LessOrEqual(t, way.Socket+way.Count-1, count, "%s %s", kind.Kind.ID, way.Port)
		}
		if kind.Kind.Splitter != "" && kind.Kind.Splitter != "shared" {
			require.NotEmpty(t, kind.Ways, "%s: a splitter maps its ways through", kind.Kind.ID)
		}
	}
}

func TestAShellMakesNoDrumOfACable(t *testing.T) {
	for _, kind := range catalogue.CableKinds() {
		if kind.Media == "balanced-pair" && kind.Form == "drum" {
			require.Equal(t, "socket", kind.FarEnd, "%s: only what bears its socket on the drum cannot be anything else", kind.ID)
		}
	}
}
