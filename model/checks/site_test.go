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
