package checks_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/checks"
	"stageloom/model/plan"
)

func TestLoss(t *testing.T) {
	check(t, []breach{
		{
			"two reels of stranded 5e are over", "over-limit", checks.Stop, "L01 is over by 3.3 dB at 100 MHz",
			func(r *rig, e *plan.Edit) { e.SetSegments(r.main, of("cat5e", 50, 50)) },
		},
		{
			"two low-loss reels in the sun are tight", "tight", checks.Warn,
			"L01 is tight: 0.8 dB in hand, 0.7 dB under what is wanted; above the standard's 24.0 dB; 120.0 m of cable, past the 100 m stated for AES50",
			func(r *rig, e *plan.Edit) {
				e.SetSegments(r.main, of("cat6a-own", 60, 60))
				setDevice(e, r.stage, func(d *plan.Device) { d.Exposure = "sun" })
			},
		},
		{
			"so they lose more than the standard allows", "above-standard", checks.Note, "L01 loses 24.2 dB: inside its limit, but above the standard's 24.0 dB",
			func(r *rig, e *plan.Edit) {
				e.SetSegments(r.main, of("cat6a-own", 60, 60))
				setDevice(e, r.stage, func(d *plan.Device) { d.Exposure = "sun" })
			},
		},
		{
			"and they are past the stated distance", "past-distance", checks.Note, "L01 has 120.0 m of cable, past the 100 m stated for AES50",
			func(r *rig, e *plan.Edit) { e.SetSegments(r.main, of("cat6a-own", 60, 60)) },
		},
		{
			"cables that do not reach", "too-short", checks.Stop, "L01 is 16.6 m too short: 40.0 m laid for a run of 56.6 m (guess)",
			func(r *rig, e *plan.Edit) { e.SetSegments(r.main, of("cat6a-own", 40)) },
		},
		{
			"fibre that does not reach", "too-short", checks.Stop, "L04 is 7.2 m too short: 100.0 m laid for a run of 107.2 m (guess)",
			func(r *rig, e *plan.Edit) { e.SetSegments(r.fibre, of("fibre-multimode", 100)) },
		},
		{
			"no cable yet", "uncabled", checks.Warn, "L01 has no cable yet: 56.6 m to go (guess)",
			func(r *rig, e *plan.Edit) { e.SetSegments(r.main, nil) },
		},
		{
			"a kind of unknown category", "unknown-loss", checks.Stop, "L03 cannot be graded: nothing says what cable 1 (Cat 6A) loses",
			func(r *rig, e *plan.Edit) {
				e.SetSegments(r.network, of("cat6a", 45))
				setKind(e, "cat6a", func(k *plan.CableKind) { k.Category = "" })
			},
		},
		{
			"a figure typed with its point one place too far left", "unknown-loss", checks.Stop,
			"L03 cannot be graded by cable 1 (Cat 6A low-loss, own figure 18.5): its own figure is 1.85 dB per 100 m; for Cat 6A it must be from 15.4 to 38.2",
			func(r *rig, e *plan.Edit) {
				setKind(e, "cat6a-own", func(k *plan.CableKind) { k.OwnFigure = plan.Some(1.85) })
				e.SetSegments(r.main, of("cat6a", 60))
				e.SetSegments(r.backup, of("cat6a", 100))
			},
		},
		{
			"stranded wire thinner than any known factor", "unknown-loss", checks.Stop,
			"L03 cannot be graded by cable 1 (Cat 6A): stranded 30 AWG: no factor is known for the loss of so thin a stranded conductor; the thinnest known is 28 AWG",
			func(r *rig, e *plan.Edit) {
				e.SetSegments(r.network, of("cat6a", 45))
				setKind(e, "cat6a", func(k *plan.CableKind) { k.Gauge = 30 })
			},
		},
		{
			"a gigabit link of 120 m", "delay", checks.Note, "L03 delays by 650 ns, past the 570 ns stated for 1000BASE-T",
			func(r *rig, e *plan.Edit) { e.SetSegments(r.network, of("cat6a-own", 60, 60)) },
		},
		{
			"cable hotter than its figures go", "hot", checks.Note, "L03 lies in the sun, where its cable may reach 65 °C; figures for cable end at 60 °C, and it is reckoned at that",
			func(r *rig, e *plan.Edit) {
				settings := r.Settings
				settings.Air = plan.Some(45)
				e.SetSettings(settings)
				setDevice(e, r.screen, func(d *plan.Device) { d.Exposure = "sun" })
			},
		},
		{
			"five short pieces of one cable ring at what joins them", "ringing", checks.Note,
			"L01 may ring between its couplers: 0.8 dB of ripple at 100 MHz, return loss +6.8 dB against its limit",
			func(r *rig, e *plan.Edit) { e.SetSegments(r.main, of("cat5e", 12, 12, 12, 12, 12)) },
		},
		{
			"a fourth join", "many-joins", checks.Warn, "L01 has 4 joins",
			func(r *rig, e *plan.Edit) { e.SetSegments(r.main, of("cat6a-own", 15, 15, 15, 15, 15)) },
		},
		{
			"one join more than the link may have", "many-joins", checks.Warn, "L01 has 2 joins, and 1 are allowed for it",
			func(r *rig, e *plan.Edit) {
				e.SetSegments(r.main, of("cat6a-own", 20, 20, 20))
				set(e, r.main, func(l *plan.Link) { l.MaxJoins = 1 })
			},
		},
	})
}

func TestWhatRingsBlamesNoCableThatIsLikeItsNeighbours(t *testing.T) {
	for name, cables := range map[string][]plan.Segment{
		"like":   of("cat5e", 12, 12, 12, 12, 12),
		"unlike": {{Kind: "cat5e", Length: 12}, {Kind: "cat6a", Length: 12}, {Kind: "cat5e", Length: 12}, {Kind: "cat5e", Length: 12}, {Kind: "cat5e", Length: 12}},
	} {
		r := newRig(t)
		r.do(t, func(e *plan.Edit) { e.SetSegments(r.main, cables) })
		told := 0
		for _, finding := range r.find() {
			if finding.Rule == "ringing" {
				told++
				require.Contains(t, finding.What, "may ring between its couplers", name)
				require.NotContains(t, finding.What+finding.Remedy, "kind", name)
			}
		}
		require.Equal(t, 1, told, name)
	}
}

func TestARemedyNamesTheOneChangeThatCures(t *testing.T) {
	remedy := func(rule string, edit func(*rig, *plan.Edit)) string {
		r := newRig(t)
		r.do(t, func(e *plan.Edit) { edit(r, e) })
		for _, finding := range r.find() {
			if finding.Rule == rule {
				return finding.Remedy
			}
		}
		return ""
	}
	require.Equal(t, "Do not use it like this. 50 m of Cat 7 low-loss, own figure 18.0 in the place of cable 2 would leave 3.6 dB in hand.",
		remedy("over-limit", func(r *rig, e *plan.Edit) { e.SetSegments(r.main, append(of("cat6a-own", 60), of("cat5e", 50)...)) }))
	require.Equal(t, "A coupler of Cat 6A hardware before cable 2 would leave 1.5 dB in hand. As it is, test it under load before the show.",
		remedy("tight", func(r *rig, e *plan.Edit) {
			poorer := of("cat6a-own", 60, 60)
			poorer[1].Coupler = "cat5e"
			e.SetSegments(r.main, poorer)
		}))
	require.Equal(t, "Do not use it like this. Shorten the run, join fewer cables, or go over to fibre, which carries further than any copper.",
		remedy("over-limit", func(r *rig, e *plan.Edit) { e.SetSegments(r.main, of("cat5e", 90, 90)) }))
	require.Equal(t, "Do not use it like this. 106.6 m of Cat 7 low-loss, own figure 18.0 for what it still lacks would leave 5.0 dB in hand.",
		remedy("over-limit", func(r *rig, e *plan.Edit) {
			e.SetSegments(r.main, nil)
			set(e, r.main, func(l *plan.Link) { l.FillKind, l.RiseFrom = "cat5e", 50 })
		}))
}

func TestARemedyForAMeasuredReelAndForWhatStaysTight(t *testing.T) {
	remedy := func(rule string, edit func(*rig, *plan.Edit)) string {
		r := newRig(t)
		r.do(t, func(e *plan.Edit) { edit(r, e) })
		for _, finding := range r.find() {
			if finding.Rule == rule {
				return finding.Remedy
			}
		}
		return ""
	}
	require.Equal(t, "Do not use it like this. Another 60 m of Cat 6A low-loss, own figure 18.5 in the place of cable 1, which was measured at 250 % of what its kind gives, would leave 13.4 dB in hand.",
		remedy("over-limit", func(r *rig, e *plan.Edit) { setReel(e, func(r *plan.Reel) { r.Measured = plan.Some(27.75) }) }))
	require.Equal(t, "Do not use it like this. 90 m of Cat 7 low-loss, own figure 18.0 in the place of cable 1 would leave 0.4 dB in hand: still tight, 1.1 dB under what is wanted.",
		remedy("over-limit", func(r *rig, e *plan.Edit) {
			e.SetSegments(r.main, of("cat5e", 90, 26))
		}))
}

func TestManyLinksOfOneFaultAreOneFinding(t *testing.T) {
	bare := func(n int) []checks.Finding {
		r := newRig(t)
		r.do(t, func(e *plan.Edit) {
			for i := range n {
				e.AddLink(plan.Link{Transport: "1000base-t", From: r.foh2, FromPort: []string{"02", "03", "04", "05"}[i], To: r.devices(e, i), ToPort: "N2"})
			}
		})
		var found []checks.Finding
		for _, finding := range r.find() {
			if finding.Rule == "uncabled" {
				found = append(found, finding)
			}
		}
		return found
	}
	require.Len(t, bare(3), 3)
	found := bare(4)
	require.Len(t, found, 1)
	require.Equal(t, "4 links have no cable yet: L06 (18.7 m), L07 (20.0 m), L08 (21.2 m), L09 (22.5 m)", found[0].What)
	require.Equal(t, "Pick a cable for it.", found[0].Remedy)
	require.Len(t, found[0].Where, 4)
}

// devices adds one more device with a network port.
func (r *rig) devices(e *plan.Edit, i int) plan.DeviceID {
	return e.AddDevice(plan.Device{Name: string(rune('A' + i)), Kind: "processor-6-12", X: 13 + float64(i), Y: -40})
}

func TestCrosstalk(t *testing.T) {
	check(t, []breach{
		{
			"many joins of Cat 5e on a gigabit link", "crosstalk", checks.Note,
			"L03 may couple more between its pairs than 1000BASE-T allows: ACR-F of 15.7 dB at worst, 17.0 dB allowed, at 100 MHz by catalogue figures",
			func(r *rig, e *plan.Edit) {
				e.SetSegments(r.network, of("cat5e", 20, 20, 20, 20))
				set(e, r.main, func(l *plan.Link) { l.FillKind = "" })
			},
		},
	})
	r := newRig(t)
	r.do(t, func(e *plan.Edit) { e.SetSegments(r.network, of("cat5e", 45, 45)) })
	require.Empty(t, said(r, "crosstalk"), "one join of Cat 5e is inside: four connections give 17.4 dB, TIA-568, published")
}
