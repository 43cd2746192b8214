package checks_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/checks"
	"stageloom/model/plan"
)

// several adds four network links to as many devices and lets with set each.
func several(r *rig, e *plan.Edit, with func(*plan.Edit, plan.LinkID)) {
	for i := range 4 {
		id := e.AddLink(plan.Link{
			Name: fmt.Sprintf("N%d", i+1), Transport: "1000base-t", From: r.foh2, FromPort: fmt.Sprintf("%02d", i+2), To: r.devices(e, i), ToPort: "N2",
			FillKind: "cat6a",
		})
		with(e, id)
	}
}

func TestAFaultRepeatedIsOneFindingWithOneFixOverAll(t *testing.T) {
	for _, c := range []struct {
		name, rule, what string
		labels           []string
		with             func(*plan.Edit, plan.LinkID)
		also             func(*plan.Edit)
	}{
		{
			"fibre wanted on pairs", "wrong-medium",
			"4 links run on balanced pair, and the Fibre multimode, 2 fibres wanted for their missing metres is none: N1, N2, N3, N4",
			[]string{"Want Cat 5e for the missing metres, on all 4", "Want Cat 5e, own figure 22.5 for the missing metres, on all 4"},
			func(e *plan.Edit, id plan.LinkID) { set(e, id, func(l *plan.Link) { l.FillKind = "fibre-multimode" }) }, nil,
		},
		{
			"coax laid on pairs, which nothing cures for certain", "wrong-medium",
			"4 links run on balanced pair, and Coax 75 ohm is none: N1, N2, N3, N4", nil,
			func(e *plan.Edit, id plan.LinkID) { e.SetSegments(id, of("coax", 60)) }, nil,
		},
		{
			"two pairs wanted", "pairs-missing",
			"4 links need 4 pairs for 1000BASE-T, and the Cat 7 wanted for their missing metres has 2: N1, N2, N3, N4",
			[]string{"Want Cat 7 low-loss, own figure 18.0 for the missing metres, on all 4", "Want Cat 5e for the missing metres, on all 4"},
			func(e *plan.Edit, id plan.LinkID) { set(e, id, func(l *plan.Link) { l.FillKind = "cat7" }) },
			func(e *plan.Edit) { setKind(e, "cat7", func(k *plan.CableKind) { k.Pairs = 2 }) },
		},
		{
			"a transport neither port is for", "wrong-port",
			"8 ends of links carry AES50 into a port for 1000BASE-T: N1 at port 02 of FOH network, N1 at port N2 of A, N2 at port 03 of FOH network, " +
				"N2 at port N2 of B, N3 at port 04 of FOH network, N3 at port N2 of C, N4 at port 05 of FOH network, N4 at port N2 of D",
			[]string{"Make it 1000BASE-T, as both ports are, on all 8"},
			func(e *plan.Edit, id plan.LinkID) { set(e, id, func(l *plan.Link) { l.Transport = "aes50" }) }, nil,
		},
		{
			"a kind whose loss nobody stated", "unknown-loss", "4 links cannot be graded: nothing says what Cat 6A loses: N1, N2, N3, N4", nil,
			func(e *plan.Edit, id plan.LinkID) { e.SetSegments(id, of("cat6a", 60)) },
			func(e *plan.Edit) { setKind(e, "cat6a", func(k *plan.CableKind) { k.Category = "" }) },
		},
	} {
		t.Run(c.rule+": "+c.name, func(t *testing.T) {
			r := newRig(t)
			r.do(t, func(e *plan.Edit) {
				if c.also != nil {
					c.also(e)
				}
				several(r, e, c.with)
			})
			require.Equal(t, []string{c.what}, said(r, c.rule))
			finding := one(t, r, c.rule)
			require.NotEmpty(t, finding.Short)
			var labels []string
			for _, fix := range checks.Fixes(r.Plan, finding) {
				labels = append(labels, fix.Label)
				after := &rig{Plan: r.Plan, ids: r.ids}
				after.do(t, func(e *plan.Edit) { must(fix.Edit(e)) })
				require.Empty(t, said(after, c.rule), fix.Label)
			}
			require.Equal(t, c.labels, labels)
		})
	}
	t.Run("power where there is none", func(t *testing.T) {
		r := newRig(t)
		r.do(t, func(e *plan.Edit) {
			setPort(e, plan.PortKey("processor-6-12", "N2"), func(p *plan.KindPort) { p.Transport = "aes50" })
			for i := range 4 {
				port := fmt.Sprintf("E%d", i)
				plan.Put(e, plan.KindPort{Kind: "console-56", Name: port, Transport: "aes50", Lockable: true, MetalShell: true})
				e.AddLink(plan.Link{Name: fmt.Sprintf("P%d", i), Transport: "aes50", From: r.foh, FromPort: port, To: r.devices(e, i), ToPort: "N2", PowerW: 12})
			}
		})
		require.Equal(t, []string{"4 links are to carry power, and AES50 carries none: P0 (12.0 W), P1 (12.0 W), P2 (12.0 W), P3 (12.0 W)"}, said(r, "power"))
		fixes := checks.Fixes(r.Plan, one(t, r, "power"))
		require.Len(t, fixes, 1)
		require.Equal(t, "Carry no power over it, on all 4", fixes[0].Label)
	})
	t.Run("three stay three, each with its own fix", func(t *testing.T) {
		r := newRig(t)
		n := 0
		r.do(t, func(e *plan.Edit) {
			several(r, e, func(e *plan.Edit, id plan.LinkID) {
				if n++; n < 4 {
					set(e, id, func(l *plan.Link) { l.FillKind = "fibre-multimode" })
				}
			})
		})
		require.Len(t, said(r, "wrong-medium"), 3)
		require.Contains(t, checks.Fixes(r.Plan, one(t, r, "wrong-medium"))[0].Label, "Want Cat 5e for the missing")
	})
}
