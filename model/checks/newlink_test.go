package checks_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/catalogue"
	"stageloom/model/checks"
	"stageloom/model/plan"
)

// outlet is a sort of port of a built-in kind; ports of one kind that differ in their name alone are one sort.
type outlet struct {
	kind plan.KindID
	port plan.KindPort
}

func outlets(t *testing.T) (all []outlet) {
	t.Helper()
	for _, kind := range catalogue.DeviceKinds() {
		seen := map[plan.KindPort]bool{}
		for _, port := range kind.Ports {
			sort := port
			sort.Name = ""
			if !seen[sort] {
				all = append(all, outlet{kind.Kind.ID, port})
			}
			seen[sort] = true
		}
	}
	return all
}

// joined is a plan of one new link, as a person draws it, for every two outlets that fit each other.
func joined(t *testing.T) *plan.Plan {
	t.Helper()
	all := outlets(t)
	p := plan.New("Every pair")
	ids := plan.NewIDSource(4, 2)
	do := func(edit func(*plan.Edit) error) {
		next, err := plan.Do(p, ids, edit)
		require.NoError(t, err)
		p = next
	}
	do(func(e *plan.Edit) error {
		for _, kind := range catalogue.DeviceKinds() {
			require.NoError(t, catalogue.Use(e, kind.Kind.ID))
		}
		return nil
	})
	bare := p
	var links []plan.Link
	do(func(e *plan.Edit) error {
		for i, near := range all {
			for j, far := range all[i:] {
				n := len(links)
				from := plan.Device{Name: fmt.Sprintf("Near %d", n), Kind: near.kind, Y: 20 * float64(n)}
				to := plan.Device{Name: fmt.Sprintf("Far %d", n), Kind: far.kind, X: 30, Y: 20 * float64(n)}
				draft, drawn := newLink(t, bare, from, near.port.Name, to, far.port.Name)
				if !drawn {
					continue
				}
				draft.From, draft.To, draft.Name = e.AddDevice(from), e.AddDevice(to), fmt.Sprintf("L%d", n)
				links = append(links, draft)
				require.NotEmpty(t, draft.FillKind, "%s %s to %s %s: pair %d of outlet %d", near.kind, near.port.Name, far.kind, far.port.Name, j, i)
				require.NoError(t, catalogue.UseCable(e, draft.FillKind))
				e.AddLink(draft)
			}
		}
		return nil
	})
	require.Greater(t, len(links), 300)
	return p
}

// newLink is what the catalogue makes of two ports in a plan with nothing else in it.
func newLink(t *testing.T, p *plan.Plan, from plan.Device, fromPort string, to plan.Device, toPort string) (plan.Link, bool) {
	t.Helper()
	link, reason := plan.Link{}, ""
	_, err := plan.Do(p, plan.NewIDSource(6, 6), func(e *plan.Edit) error {
		draft := plan.Link{From: e.AddDevice(from), FromPort: fromPort, To: e.AddDevice(to), ToPort: toPort, Way: "straight"}
		link, reason = catalogue.NewLink(e.Now(), draft)
		return nil
	})
	require.NoError(t, err)
	return link, reason == ""
}

// Nothing is laid on a new link yet: that it has no cable is all that may be told of it.
func TestNoNewLinkOfBuiltInKindsStartsWithAFault(t *testing.T) {
	p := joined(t)
	subject := checks.NewSubject(p)
	for _, rule := range checks.Rules() {
		for _, finding := range rule.Find(subject) {
			switch {
			case finding.Severity == checks.Note || finding.Rule == "uncabled":
				continue
			case finding.Rule == "clock" || finding.Rule == "signal": // two devices alone: no leader yet, optics of two sorts of signal
				continue
			}
			link, _ := p.Links.Get(finding.Where[0].Key)
			from, _ := p.Device(link.From)
			to, _ := p.Device(link.To)
			t.Errorf("%s: %s (%s %s to %s %s)", finding.Rule, finding.What, from.Kind, link.FromPort, to.Kind, link.ToPort)
		}
	}
	sorts := map[plan.CableKindID]bool{}
	for link := range p.Links.All() {
		kind, _ := p.CableKinds.Get(plan.Key(link.FillKind))
		require.False(t, kind.OwnFigure.Set || kind.Own, "%s wants %s: a default is of a standard's grade, as a stock has it", link.Name, kind.Name)
		sorts[link.FillKind] = true
	}
	for _, kind := range []plan.CableKindID{"cat6a", "cat6-unscreened", "fibre-multimode", "coax", "coax-50", "intercom", "multicore-16", "multicore-24"} {
		require.True(t, sorts[kind], kind)
	}
}

func TestANewLinkWantsWhatMostOfItsTransportWantAndWhatGoesIn(t *testing.T) {
	r := newRig(t)
	r.do(t, func(e *plan.Edit) {
		set(e, r.network, func(l *plan.Link) { l.FillKind = "cat7" })
		e.AddDevice(plan.Device{ID: "", Name: "Plain", Kind: "switch-8"})
	})
	plain := slices.Collect(r.Devices.All())
	at := slices.IndexFunc(plain, func(d plan.Device) bool { return d.Name == "Plain" })
	link, reason := catalogue.NewLink(r.Plan, plan.Link{From: r.foh2, FromPort: "02", To: r.screen, ToPort: "N2"})
	require.Empty(t, reason)
	require.Equal(t, plan.CableKindID("cat7"), link.FillKind, "as the plan's other network link")
	link, reason = catalogue.NewLink(r.Plan, plan.Link{From: r.foh2, FromPort: "02", To: plain[at].ID, ToPort: "1"})
	require.Empty(t, reason)
	require.Equal(t, plan.CableKindID("cat6-unscreened"), link.FillKind, "the shell of the others does not go into a plain port")
}
