package checks_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/catalogue"
	"stageloom/model/checks"
	"stageloom/model/geom"
	"stageloom/model/plan"
)

// rig is a small sound plan: a main and a backup from Stage to FOH, a network link, a fibre, an audio pair.
type rig struct {
	*plan.Plan
	ids *plan.IDSource
	// devices
	stage, foh, foh2, screen plan.DeviceID
	// links
	main, backup, network, fibre, pair plan.LinkID
}

// newRig lays FOH 40 m from Stage. Nothing about it is worth a finding.
func newRig(t *testing.T) *rig {
	t.Helper()
	r := &rig{Plan: plan.New("Rig"), ids: plan.NewIDSource(8, 9)}
	r.do(t, func(e *plan.Edit) {
		for _, kind := range catalogue.CableKinds() {
			require.NoError(t, catalogue.UseCable(e, kind.ID))
		}
		for _, kind := range []plan.KindID{"stage-rack-48-24", "console-64", "switch-16", "switch-8", "media-converter", "processor-4-8"} {
			require.NoError(t, catalogue.Use(e, kind))
		}
		r.stage = e.AddDevice(plan.Device{Name: "Stage", Kind: "stage-rack-48-24"})
		r.foh = e.AddDevice(plan.Device{Name: "FOH", Kind: "console-64", Y: -40})
		r.foh2 = e.AddDevice(plan.Device{Name: "FOH network", Kind: "switch-16", X: 3, Y: -40})
		r.screen = e.AddDevice(plan.Device{Name: "Screen", Kind: "processor-4-8", X: 30, Y: -40})
		one := e.AddDevice(plan.Device{Name: "Converter 1", Kind: "media-converter", X: 6, Y: -40})
		two := e.AddDevice(plan.Device{Name: "Converter 2", Kind: "media-converter", X: 6, Y: 40})
		r.main = e.AddLink(plan.Link{Transport: "aes50", From: r.stage, FromPort: "A", To: r.foh, ToPort: "A", FillKind: "cat6a-own"})
		r.backup = e.AddLink(plan.Link{Transport: "aes50", From: r.stage, FromPort: "B", To: r.foh, ToPort: "B"})
		r.network = e.AddLink(plan.Link{Transport: "1000base-t", From: r.foh2, FromPort: "01", To: r.screen, ToPort: "N1"})
		r.fibre = e.AddLink(plan.Link{Transport: "fibre", From: one, FromPort: "F", To: two, ToPort: "F"})
		r.pair = e.AddLink(plan.Link{Transport: "aes3", From: r.foh, FromPort: "D1", To: r.screen, ToPort: "D1"})
		require.NoError(t, e.Pair(r.main, r.backup))
		require.NoError(t, e.Draw(r.backup, []geom.Point{{X: -20, Y: 0}, {X: -20, Y: -40}}))
		plan.Put(e, plan.Reel{ID: "r-22222", Tag: "6A-01", Kind: "cat6a-own", Length: 60})
		plan.Put(e, plan.HouseLine{ID: "h-22222", Name: "H1", Kind: "cat6a-solid", Length: 40})
		e.SetSegments(r.main, []plan.Segment{{Reel: "r-22222"}})
		e.SetSegments(r.backup, of("cat6a-own", 100))
		e.SetSegments(r.network, of("cat6a-own", 45))
		e.SetSegments(r.fibre, of("fibre-multimode", 120))
		e.SetSegments(r.pair, of("audio-pair", 45))
	})
	return r
}

func of(kind plan.CableKindID, lengths ...float64) (segments []plan.Segment) {
	for _, length := range lengths {
		segments = append(segments, plan.Segment{Kind: kind, Length: length})
	}
	return segments
}

func (r *rig) do(t *testing.T, edit func(*plan.Edit)) {
	t.Helper()
	next, err := plan.Do(r.Plan, r.ids, func(e *plan.Edit) error { edit(e); return nil })
	require.NoError(t, err)
	r.Plan = next
}

func (r *rig) find() (found []checks.Finding) {
	subject := checks.NewSubject(r.Plan)
	for _, rule := range checks.Rules() {
		found = append(found, rule.Find(subject)...)
	}
	return found
}

func TestASoundPlanHasNoFinding(t *testing.T) {
	require.Empty(t, newRig(t).find())
}

// breach is one way to break one rule, and what must be said of it.
type breach struct {
	name, rule string
	severity   checks.Severity
	what       string
	edit       func(*rig, *plan.Edit)
}

// must stops a case that cannot even be set up.
func must(err error) {
	if err != nil {
		panic(err)
	}
}

func set(e *plan.Edit, id plan.LinkID, with func(*plan.Link)) {
	must(plan.Update(e, plan.Key(id), with))
}

func setKind(e *plan.Edit, id plan.CableKindID, with func(*plan.CableKind)) {
	must(plan.Update(e, plan.Key(id), with))
}

func setReel(e *plan.Edit, with func(*plan.Reel)) {
	must(plan.Update(e, "r-22222", with))
}

func setPort(e *plan.Edit, key plan.Key, with func(*plan.KindPort)) {
	must(plan.Update(e, key, with))
}

func setDevice(e *plan.Edit, id plan.DeviceID, with func(*plan.Device)) {
	must(plan.Update(e, plan.Key(id), with))
}

func area(e *plan.Edit, use string) {
	plan.Put(e, plan.Area{ID: "a-22222", Name: "Strip", Use: use})
	for i, at := range []geom.Point{{X: -1, Y: -20}, {X: 1, Y: -20}, {X: 1, Y: -10}, {X: -1, Y: -10}} {
		plan.Put(e, plan.AreaPoint{Area: "a-22222", Order: i + 1, X: at.X, Y: at.Y})
	}
}

func ruleNamed(t *testing.T, id string) checks.Rule {
	t.Helper()
	for _, rule := range checks.Rules() {
		if rule.ID == id {
			return rule
		}
	}
	require.Fail(t, "there is no rule "+id)
	return checks.Rule{}
}

func check(t *testing.T, cases []breach) {
	for _, c := range cases {
		t.Run(c.rule+": "+c.name, func(t *testing.T) {
			r := newRig(t)
			sound := r.Plan
			r.do(t, func(e *plan.Edit) { c.edit(r, e) })
			require.False(t, ruleNamed(t, c.rule).Same(sound, r.Plan), "what the case changes is among what the rule reads")
			var said []string
			for _, finding := range r.find() {
				require.NotEmpty(t, finding.What)
				require.NotEmpty(t, finding.Remedy)
				require.NotEmpty(t, finding.Where)
				for _, place := range finding.Where {
					table, known := plan.TableNamed(place.Table)
					require.True(t, known && table.Has(r.Plan, place.Key), "it points to a row that is there: %v", place)
				}
				if finding.Rule == c.rule {
					require.Equal(t, c.severity, finding.Severity)
					said = append(said, finding.What)
				}
			}
			require.Equal(t, []string{c.what}, said)
		})
	}
}

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
			"cables that do not reach", "too-short", checks.Stop, "L01 is 16.6 m too short: 40.0 m laid for a run of 56.6 m",
			func(r *rig, e *plan.Edit) { e.SetSegments(r.main, of("cat6a-own", 40)) },
		},
		{
			"fibre that does not reach", "too-short", checks.Stop, "L04 is 7.2 m too short: 100.0 m laid for a run of 107.2 m",
			func(r *rig, e *plan.Edit) { e.SetSegments(r.fibre, of("fibre-multimode", 100)) },
		},
		{
			"no cable yet", "uncabled", checks.Warn, "L01 has no cable yet: 56.6 m to go",
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
			"a gigabit link of 120 m", "delay", checks.Note, "L03 delays by 650 ns, past the 570 ns stated for 1000BASE-T",
			func(r *rig, e *plan.Edit) { e.SetSegments(r.network, of("cat6a-own", 60, 60)) },
		},
		{
			"cable hotter than its figures go", "hot", checks.Note, "L03 is reckoned at 65 °C; figures for cable end at 60 °C",
			func(r *rig, e *plan.Edit) {
				settings := r.Settings
				settings.Air = plan.Some(45)
				e.SetSettings(settings)
				setDevice(e, r.screen, func(d *plan.Device) { d.Exposure = "sun" })
			},
		},
		{
			"five short pieces ring", "ringing", checks.Note, "L01 may ring: 0.8 dB of ripple at 100 MHz, return loss +6.9 dB against its limit",
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

func TestPortsAndPlugs(t *testing.T) {
	check(t, []breach{
		{
			"AES50 into a network port", "wrong-port", checks.Stop, "L01 carries AES50, but port N1 of FOH is for 1000BASE-T",
			func(r *rig, e *plan.Edit) { set(e, r.main, func(l *plan.Link) { l.ToPort = "N1" }) },
		},
		{
			"a network into an AES50 port", "wrong-port", checks.Stop, "L03 carries 1000BASE-T, but port C of FOH is for AES50",
			func(r *rig, e *plan.Edit) {
				set(e, r.network, func(l *plan.Link) { l.From, l.FromPort = r.foh, "C" })
			},
		},
		{
			"a 1000BASE-T link needs more than a 100BASE-TX port", "wrong-port", checks.Stop, "L03 carries 1000BASE-T, but port N1 of Screen is for 100BASE-TX",
			func(r *rig, e *plan.Edit) {
				setPort(e, plan.PortKey("processor-4-8", "N1"), func(p *plan.KindPort) { p.Transport = "100base-tx" })
			},
		},
		{
			"a locking shell into a plain port", "shell", checks.Stop, "L03: the metal shell of cable 1 (Cat 6A low-loss, own figure 18.5) does not go into the plain port 1 of FOH network",
			func(r *rig, e *plan.Edit) {
				setDevice(e, r.foh2, func(d *plan.Device) { d.Kind = "switch-8" })
				set(e, r.network, func(l *plan.Link) { l.FromPort = "1" })
			},
		},
		{
			"a plug that is not the port's", "connector", checks.Warn, "L05: cable 1 (Digital audio pair 110 ohm) has XLR, but port D1 of Screen wants BNC",
			func(r *rig, e *plan.Edit) {
				setPort(e, plan.PortKey("processor-4-8", "D1"), func(p *plan.KindPort) { p.Connector = "BNC" })
			},
		},
		{
			"a house line without a tail", "socket-at-device", checks.Warn, "L03: cable 2 (Cat 6A solid, sockets) ends in a socket at Screen",
			func(r *rig, e *plan.Edit) {
				e.SetSegments(r.network, append(of("cat6a-own", 10), plan.Segment{HouseLine: "h-22222"}))
			},
		},
		{
			"a drum left at the near end", "socket-at-device", checks.Warn, "L03: cable 1 (Cat 6A drum with socket) ends in a socket at FOH network",
			func(r *rig, e *plan.Edit) {
				e.SetSegments(r.network, of("cat6a-drum-socket", 45))
				set(e, r.network, func(l *plan.Link) { l.DrumEnd = "from" })
			},
		},
		{
			"unscreened cable on AES50", "screen", checks.Stop, "L01: the screen ends at cable 1 (Cat 5e unscreened), which is unscreened, and AES50 needs it through from end to end",
			func(r *rig, e *plan.Edit) { e.SetSegments(r.main, of("cat5e-unscreened", 60)) },
		},
		{
			"plugs that do not carry the screen", "screen", checks.Stop, "L01: the screen ends at cable 1 (Cat 6A), whose plugs are not of metal, and AES50 needs it through from end to end",
			func(r *rig, e *plan.Edit) {
				e.SetSegments(r.main, of("cat6a", 60))
				setKind(e, "cat6a", func(k *plan.CableKind) { k.MetalShell = false })
			},
		},
		{
			"a port without a shell", "screen", checks.Stop, "L01: the screen ends at port A of FOH, which has no metal shell, and AES50 needs it through from end to end",
			func(r *rig, e *plan.Edit) {
				setPort(e, plan.PortKey("console-64", "A"), func(p *plan.KindPort) { p.MetalShell = false })
			},
		},
		{
			"two pairs where four are needed", "pairs-missing", checks.Stop, "L03: cable 1 (Cat 6A low-loss, own figure 18.5) has 2 pairs, and 1000BASE-T needs 4",
			func(r *rig, e *plan.Edit) {
				e.SetSegments(r.main, of("cat6a", 60))
				e.SetSegments(r.backup, of("cat6a", 100))
				set(e, r.main, func(l *plan.Link) { l.FillKind = "" })
				setKind(e, "cat6a-own", func(k *plan.CableKind) { k.Pairs = 2 })
			},
		},
		{
			"coax on a network", "wrong-medium", checks.Stop, "L03 runs on balanced pair, and cable 1 (Coax 75 ohm) is none",
			func(r *rig, e *plan.Edit) { e.SetSegments(r.network, of("coax", 45)) },
		},
		{
			"the wanted kind is fibre", "wrong-medium", checks.Stop, "L01 runs on balanced pair, and the Fibre multimode, 2 fibres wanted for its missing metres is none",
			func(r *rig, e *plan.Edit) {
				e.SetSegments(r.main, nil)
				set(e, r.main, func(l *plan.Link) { l.FillKind = "fibre-multimode" })
			},
		},
		{
			"multimode on singlemode", "wrong-medium", checks.Stop, "L04 joins two sorts of fibre: cable 2 (Fibre singlemode, 2 fibres) is not like the cable before it",
			func(r *rig, e *plan.Edit) {
				e.SetSegments(r.fibre, append(of("fibre-multimode", 60), of("fibre-singlemode", 60)...))
			},
		},
	})
}

func TestSite(t *testing.T) {
	check(t, []breach{
		{
			"copper between two supplies", "supplies", checks.Warn, "L03 is copper between two supplies (house and generator): FOH network to Screen",
			func(r *rig, e *plan.Edit) {
				at := e.AddPosition(plan.Position{Name: "Wall", Supply: "generator"})
				setDevice(e, r.foh2, func(d *plan.Device) { d.Supply = "house" })
				setDevice(e, r.screen, func(d *plan.Device) { d.Position = at })
			},
		},
		{
			"copper between two structures outdoors", "supplies", checks.Warn, "L03 is copper between two structures outdoors (tower and roof): FOH network to Screen",
			func(r *rig, e *plan.Edit) {
				setDevice(e, r.foh2, func(d *plan.Device) { d.Structure = "tower" })
				setDevice(e, r.screen, func(d *plan.Device) { d.Structure = "roof" })
			},
		},
		{
			"main and backup in one loom", "same-way", checks.Warn, "L01 and its backup L02 lie in one loom, Red",
			func(r *rig, e *plan.Edit) {
				plan.Put(e, plan.Loom{ID: "m-22222", Name: "Red"})
				set(e, r.main, func(l *plan.Link) { l.Loom = "m-22222" })
				set(e, r.backup, func(l *plan.Link) { l.Loom = "m-22222" })
			},
		},
		{
			"main and backup side by side", "same-way", checks.Warn, "L01 and its backup L02 go the same way",
			func(r *rig, e *plan.Edit) { must(e.Draw(r.backup, []geom.Point{{X: -2, Y: -20}})) },
		},
		{
			"a way across a road", "crossing", checks.Note, "Strip is crossed by L01",
			func(r *rig, e *plan.Edit) { area(e, "road") },
		},
		{
			"a way across an exit", "crossing", checks.Warn, "Strip is crossed by L01",
			func(r *rig, e *plan.Edit) { area(e, "exit") },
		},
		{
			"two links of one name", "double-name", checks.Warn, "L02 is the name of 2 links",
			func(r *rig, e *plan.Edit) { set(e, r.main, func(l *plan.Link) { l.Name = "L02" }) },
		},
		{
			"two devices of one name", "double-name", checks.Warn, "Stage is the name of 2 devices",
			func(r *rig, e *plan.Edit) { setDevice(e, r.foh, func(d *plan.Device) { d.Name = "Stage" }) },
		},
	})
	t.Run("a stage or a building may be crossed, and structures indoors may differ", func(t *testing.T) {
		r := newRig(t)
		r.do(t, func(e *plan.Edit) {
			area(e, "stage")
			setDevice(e, r.foh2, func(d *plan.Device) { d.Structure, d.Exposure = "hall", "indoors" })
			setDevice(e, r.screen, func(d *plan.Device) { d.Structure, d.Exposure = "foyer", "indoors" })
		})
		require.Empty(t, r.find())
	})
	t.Run("fibre may go between two supplies", func(t *testing.T) {
		r := newRig(t)
		r.do(t, func(e *plan.Edit) {
			link, _ := r.Link(r.fibre)
			setDevice(e, link.From, func(d *plan.Device) { d.Supply = "house" })
			setDevice(e, link.To, func(d *plan.Device) { d.Supply = "generator" })
		})
		require.Empty(t, r.find())
	})
}

func TestStockAndPower(t *testing.T) {
	check(t, []breach{
		{
			"a faulty reel in use", "bad-reel", checks.Stop, "L01 uses reel 6A-01, which is faulty: crushed at 12 m",
			func(r *rig, e *plan.Edit) {
				setReel(e, func(r *plan.Reel) { r.Condition, r.Reason = "faulty", "crushed at 12 m" })
			},
		},
		{
			"a suspect reel in use", "bad-reel", checks.Warn, "L01 uses an untagged reel of 60.0 m, which is suspect",
			func(r *rig, e *plan.Edit) { setReel(e, func(r *plan.Reel) { r.Tag, r.Condition = "", "suspect" }) },
		},
		{
			"a reel measured too good to be true", "measured", checks.Warn, "reel 6A-01 was measured at 2.0 dB, 18 % of what its kind gives",
			func(r *rig, e *plan.Edit) { setReel(e, func(r *plan.Reel) { r.Measured = plan.Some(2) }) },
		},
		{
			"a house line measured far worse than its kind", "measured", checks.Warn, "house line H1 was measured at 14.0 dB, 183 % of what its kind gives",
			func(r *rig, e *plan.Edit) {
				plan.Put(e, plan.HouseLine{ID: "h-22222", Name: "H1", Kind: "cat6a-solid", Length: 40, Measured: plan.Some(14)})
			},
		},
		{
			"power over a drum", "power-on-drum", checks.Warn, "L03 carries 12.0 W, and cable 1 (Cat 6A low-loss, own figure 18.5) is on a drum",
			func(r *rig, e *plan.Edit) { set(e, r.network, func(l *plan.Link) { l.PowerW = 12 }) },
		},
		{
			"power over AES50", "power", checks.Stop, "L01 is to carry 12.0 W, and AES50 carries no power",
			func(r *rig, e *plan.Edit) { set(e, r.main, func(l *plan.Link) { l.PowerW = 12 }) },
		},
		{
			"more power than there is", "power", checks.Stop, "L03 does not bring 95.0 W to Screen: no type of power over the link gives so much: 95.0 W wanted, at most 71.3 W",
			func(r *rig, e *plan.Edit) { set(e, r.network, func(l *plan.Link) { l.PowerW = 95 }) },
		},
	})
}

func TestRulesNameWhatTheyRead(t *testing.T) {
	seen := map[string]bool{}
	for _, rule := range checks.Rules() {
		require.False(t, seen[rule.ID], rule.ID)
		seen[rule.ID] = true
		require.True(t, rule.Budgets || len(rule.Reads) > 0, "%s reads something", rule.ID)
		for _, name := range rule.Reads {
			_, known := plan.TableNamed(name)
			require.True(t, known, "%s reads %s", rule.ID, name)
		}
	}
}
