package checks_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/checks"
	"stageloom/model/geom"
	"stageloom/model/plan"
)

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
			"copper between buildings, whose ends are both indoors", "supplies", checks.Warn, "L03 is copper between two structures, and outdoors on its way (hall and mill): FOH network to Screen",
			func(r *rig, e *plan.Edit) {
				square(e, "building", -50, -50, 10, 50)
				setDevice(e, r.foh2, func(d *plan.Device) { d.Structure, d.Exposure = "hall", "indoors" })
				setDevice(e, r.screen, func(d *plan.Device) { d.Structure, d.Exposure = "mill", "indoors" })
			},
		},
		{
			"the same where no building is drawn and the site is outdoors", "supplies", checks.Warn, "L03 is copper between two structures, and outdoors on its way (hall and mill): FOH network to Screen",
			func(r *rig, e *plan.Edit) {
				setDevice(e, r.foh2, func(d *plan.Device) { d.Structure, d.Exposure = "hall", "indoors" })
				setDevice(e, r.screen, func(d *plan.Device) { d.Structure, d.Exposure = "mill", "indoors" })
			},
		},
		{
			"a pair without roles side by side", "same-way", checks.Warn, "L01 and its partner L02 go the same way",
			func(r *rig, e *plan.Edit) {
				must(e.Draw(r.backup, []geom.Point{{X: -2, Y: -20}}))
				set(e, r.main, func(l *plan.Link) { l.Role = "" })
				set(e, r.backup, func(l *plan.Link) { l.Role = "" })
			},
		},
		{
			"two mains side by side are told once", "same-way", checks.Warn, "L01 and its partner L02 go the same way",
			func(r *rig, e *plan.Edit) {
				must(e.Draw(r.backup, []geom.Point{{X: -2, Y: -20}}))
				set(e, r.backup, func(l *plan.Link) { l.Role = "main" })
			},
		},
		{
			"two backups in one loom", "same-way", checks.Warn, "L01 and its partner L02 lie in one loom, Red",
			func(r *rig, e *plan.Edit) {
				plan.Put(e, plan.Loom{ID: "m-22222", Name: "Red"})
				set(e, r.main, func(l *plan.Link) { l.Loom, l.Role = "m-22222", "backup" })
				set(e, r.backup, func(l *plan.Link) { l.Loom = "m-22222" })
			},
		},
		{
			"a main whose backup has no cable", "uncabled", checks.Warn, "L02 has no cable yet: 94.0 m to go (drawn), and until then L01 has no backup",
			func(r *rig, e *plan.Edit) { e.SetSegments(r.backup, nil) },
		},
		{
			"a way across water", "crossing", checks.Warn, "Strip is crossed by L01",
			func(r *rig, e *plan.Edit) { area(e, "water") },
		},
		{
			"a way into a building", "building", checks.Note, "Strip is entered or left by L01, L02",
			func(r *rig, e *plan.Edit) { square(e, "building", -1, -20, 1, 20) },
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
			"a way raised on a level over a crowd", "crossing", checks.Note, "Strip is crossed overhead by L01",
			func(r *rig, e *plan.Edit) {
				area(e, "crowd")
				plan.Put(e, plan.Level{ID: "v-22222", Name: "Truss", Height: 9})
				e.SetPoints(r.main, []plan.LinkPoint{{Y: -1, Level: "v-22222"}, {Y: -39, Level: "v-22222"}})
				set(e, r.main, func(l *plan.Link) { l.Way = "drawn" })
			},
		},
		{
			"a way along a route in a trench", "crossing", checks.Note, "Strip is crossed in a trench by L01",
			func(r *rig, e *plan.Edit) {
				area(e, "crowd")
				plan.Put(e, plan.Route{ID: "t-22222", Name: "Duct", Lie: "trench"})
				plan.Put(e, plan.RoutePoint{Route: "t-22222", Order: 1})
				plan.Put(e, plan.RoutePoint{Route: "t-22222", Order: 2, Y: -40})
			},
		},
		{
			"a ramp on an exit is in the way still", "crossing", checks.Warn, "Strip is crossed in a ramp by L01",
			func(r *rig, e *plan.Edit) {
				area(e, "exit")
				plan.Put(e, plan.Route{ID: "t-22222", Name: "Ramps", Lie: "ramp"})
				plan.Put(e, plan.RoutePoint{Route: "t-22222", Order: 1})
				plan.Put(e, plan.RoutePoint{Route: "t-22222", Order: 2, Y: -40})
			},
		},
		{
			"a typed length whose end moved since", "length-doubtful", checks.Note, "L01: an end moved since its way was given as 44.0 m (paced)",
			func(r *rig, e *plan.Edit) {
				set(e, r.main, func(l *plan.Link) { l.TypedWay, l.TypedBy, l.Doubtful = 44, "paced", true })
			},
		},
		{
			"an end without a place and no length typed", "length-unknown", checks.Warn, "nobody said how long the way of L03 is, and not both of its ends have a place",
			func(r *rig, e *plan.Edit) { setDevice(e, r.foh2, func(d *plan.Device) { d.Unplaced = true }) },
		},
		{
			"two links of one name", "double-name", checks.Warn, "L02 is the name of 2 links",
			func(r *rig, e *plan.Edit) { set(e, r.main, func(l *plan.Link) { l.Name = "L02" }) },
		},
		{
			"two devices whose names differ in capitals and blanks", "double-name", checks.Warn, "FOH network is the name of 2 devices",
			func(r *rig, e *plan.Edit) { setDevice(e, r.foh, func(d *plan.Device) { d.Name = "foh  NETWORK " }) },
		},
		{
			"a name that an issued revision gave to another link", "retired-name", checks.Warn, "L01 stood for another link on revision A",
			func(r *rig, e *plan.Edit) { issuedToAnother(e, "L01") },
		},
		{
			"two devices of one name", "double-name", checks.Warn, "Stage is the name of 2 devices",
			func(r *rig, e *plan.Edit) { setDevice(e, r.foh, func(d *plan.Device) { d.Name = "Stage" }) },
		},
	})
	t.Run("a name that an issued revision gave to the link itself", func(t *testing.T) {
		r := newRig(t)
		r.do(t, func(e *plan.Edit) {
			plan.Put(e, plan.Revision{Number: 1, Letter: "A", Changes: `{"links": {"set": [{"id": "` + string(r.main) + `", "name": "L01"}]}}`})
		})
		require.Empty(t, r.find())
	})
	t.Run("a stage or a building may be crossed, and structures indoors may differ", func(t *testing.T) {
		r := newRig(t)
		r.do(t, func(e *plan.Edit) {
			area(e, "stage")
			square(e, "building", -50, -50, 50, 50)
			setDevice(e, r.foh2, func(d *plan.Device) { d.Structure, d.Exposure = "hall", "indoors" })
			setDevice(e, r.screen, func(d *plan.Device) { d.Structure, d.Exposure = "foyer", "indoors" })
		})
		require.Empty(t, r.find())
	})
	t.Run("one supply however it is written", func(t *testing.T) {
		r := newRig(t)
		r.do(t, func(e *plan.Edit) {
			setDevice(e, r.foh2, func(d *plan.Device) { d.Supply, d.Structure = "Main generator ", "Tower" })
			setDevice(e, r.screen, func(d *plan.Device) { d.Supply, d.Structure = "main  generator", "tower " })
		})
		require.Empty(t, r.find())
	})
	t.Run("the crowd that a position stands in is not crossed by what stays in the position", func(t *testing.T) {
		r := newRig(t)
		r.do(t, func(e *plan.Edit) {
			area(e, "crowd")
			at := e.AddPosition(plan.Position{Name: "Tower"})
			setDevice(e, r.stage, func(d *plan.Device) { d.Position = at })
			setDevice(e, r.foh, func(d *plan.Device) { d.Position = at })
		})
		for _, finding := range r.find() {
			require.NotEqual(t, "crossing", finding.Rule)
		}
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
			"a faulty reel in use", "bad-reel", checks.Stop, "L01 uses reel 6A-01, which is faulty: crushed at 12 m, found at FOH, 2027-06-18",
			func(r *rig, e *plan.Edit) {
				setReel(e, func(r *plan.Reel) {
					r.Condition, r.Reason, r.FoundAt, r.FoundOn = "faulty", "crushed at 12 m", "FOH", "2027-06-18"
				})
			},
		},
		{
			"a suspect reel in use", "bad-reel", checks.Warn, "L01 uses an untagged reel of 60.0 m, which is suspect",
			func(r *rig, e *plan.Edit) { setReel(e, func(r *plan.Reel) { r.Tag, r.Condition = "", "suspect" }) },
		},
		{
			"a faulty house line in use", "bad-house-line", checks.Stop, "L01 uses house line H1, which is faulty: pair 3 dead, found at Pit",
			func(r *rig, e *plan.Edit) {
				plan.Put(e, plan.HouseLine{ID: "h-22222", Name: "H1", Kind: "cat6a-own", Length: 60, Condition: plan.Faulty, Reason: "pair 3 dead", FoundAt: "Pit"})
				e.SetSegments(r.main, []plan.Segment{{HouseLine: "h-22222"}})
			},
		},
		{
			"a laid spare on a faulty reel", "bad-reel", checks.Warn, "the laid spare L01 lies on reel 6A-01, which is faulty",
			func(r *rig, e *plan.Edit) {
				setReel(e, func(r *plan.Reel) { r.Condition = plan.Faulty })
				e.SetSegments(r.main, []plan.Segment{{Reel: "r-22222"}})
				_ = e.MakeSpare(r.main)
			},
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
			"power over a drum", "power-on-drum", checks.Warn, "L03 carries 12.0 W, and cable 1 (Cat 6A low-loss, own figure 18.5), 45 m, may stay on its drum",
			func(r *rig, e *plan.Edit) { set(e, r.network, func(l *plan.Link) { l.PowerW = 12 }) },
		},
		{
			"power over AES50", "power", checks.Stop, "L01 is to carry 12.0 W, and AES50 carries no power",
			func(r *rig, e *plan.Edit) { set(e, r.main, func(l *plan.Link) { l.PowerW = 12 }) },
		},
		{
			"60 W from a port of type 2", "power", checks.Stop, "L03 is to carry 60.0 W to Screen, and port 01 of FOH network is of type 2, class 4, which brings 25.5 W at most",
			func(r *rig, e *plan.Edit) { set(e, r.network, func(l *plan.Link) { l.PowerW = 60 }) },
		},
		{
			"25 W from a port that gives none", "power", checks.Stop, "L03 is to carry 25.0 W to Screen, and port N2 of FOH gives none",
			func(r *rig, e *plan.Edit) {
				set(e, r.network, func(l *plan.Link) { l.From, l.FromPort, l.PowerW = r.foh, "N2", 25 })
			},
		},
		{
			"power from the far end", "power", checks.Stop, "L03 is to carry 25.0 W to FOH network, and port N1 of Screen gives none: it comes from port 01 of FOH network",
			func(r *rig, e *plan.Edit) {
				set(e, r.network, func(l *plan.Link) {
					l.From, l.FromPort, l.To, l.ToPort, l.PowerW = l.To, l.ToPort, l.From, l.FromPort, 25
				})
			},
		},
		{
			"power of a type that nobody knows", "power", checks.Stop, `L03 is to carry 25.0 W to Screen, and nothing is known of the power "class-3" that port 01 of FOH network gives`,
			func(r *rig, e *plan.Edit) {
				setPort(e, plan.PortKey("switch-16", "01"), func(p *plan.KindPort) { p.Power = "class-3" })
				set(e, r.network, func(l *plan.Link) { l.PowerW = 25 })
			},
		},
		{
			"more power than there is", "power", checks.Stop, "L03 is to carry 95.0 W to Screen, and port 01 of FOH network is of type 2, class 4, which brings 25.5 W at most",
			func(r *rig, e *plan.Edit) { set(e, r.network, func(l *plan.Link) { l.PowerW = 95 }) },
		},
	})
}

func TestPowerThatArrives(t *testing.T) {
	r := newRig(t)
	r.do(t, func(e *plan.Edit) {
		e.SetSegments(r.network, of("cat6a-own", 15, 15, 15))
		set(e, r.network, func(l *plan.Link) { l.PowerW = 25 })
	})
	require.Empty(t, r.find(), "25 W of type 2, and pieces too short for a drum")
	r.do(t, func(e *plan.Edit) {
		e.SetSegments(r.network, of("cat6a-own", 45))
		setKind(e, "cat6a-own", func(k *plan.CableKind) { k.Form = "coil" })
	})
	require.Empty(t, r.find(), "a metal shell makes no drum of a cable that is coiled by hand")
	r.do(t, func(e *plan.Edit) { e.SetSegments(r.network, of("cat6a-own", 15, 15, 15)) })
	remedy := func(watts float64) string {
		r.do(t, func(e *plan.Edit) { set(e, r.network, func(l *plan.Link) { l.PowerW = watts }) })
		found := r.find()
		require.Len(t, found, 1)
		return found[0].Remedy
	}
	require.Equal(t, "Take a port of type 4, class 7, or feed the device from its own supply.", remedy(60))
	require.Equal(t, "Nothing on the link helps, since no type of power over a link brings so much: feed the device from its own supply.", remedy(80))
	r.do(t, func(e *plan.Edit) { set(e, r.main, func(l *plan.Link) { l.PowerW = 12 }) })
	require.Len(t, r.find(), 2, "AES50 carries no power, and so nothing is said of its drum")
}
