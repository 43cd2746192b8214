package checks_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/catalogue"
	"stageloom/model/checks"
	"stageloom/model/plan"
)

// optics are converters and fibre of the rig: both ends of L04.
func optics(r *rig) (near, far plan.DeviceID) {
	link, _ := r.Link(r.fibre)
	return link.From, link.To
}

// coaxLink lays coax between two stage racks that have a port for it.
func coaxLink(r *rig, e *plan.Edit, transport plan.TransportID, kind plan.CableKindID, length float64) {
	for _, port := range []string{"W1", "W2"} {
		plan.Put(e, plan.KindPort{Kind: "processor-6-12", Name: port, Transport: transport, Connector: "BNC"})
	}
	other := e.AddDevice(plan.Device{Name: "Other", Kind: "processor-6-12", X: 31, Y: -40})
	link := e.AddLink(plan.Link{Name: "W01", Transport: transport, From: r.screen, FromPort: "W1", To: other, ToPort: "W1"})
	e.SetSegments(link, of(kind, length))
}

func TestCoax(t *testing.T) {
	check(t, []breach{
		{
			"50 Ω coax for word clock", "impedance", checks.Warn, "W01: cable 1 (Coax 50 ohm) is of 50 Ω, and Word clock wants 75 Ω",
			func(r *rig, e *plan.Edit) { coaxLink(r, e, "word-clock", "coax-50", 20) },
		},
		{
			"50 Ω coax for AES10", "impedance", checks.Warn, "W01: cable 1 (Coax 50 ohm) is of 50 Ω, and AES10 wants 75 Ω",
			func(r *rig, e *plan.Edit) { coaxLink(r, e, "aes10", "coax-50", 20) },
		},
		{
			"75 Ω coax on an antenna", "impedance", checks.Note, "W01: cable 1 (Coax 75 ohm) is of 75 Ω, and Antenna wants 50 Ω",
			func(r *rig, e *plan.Edit) { coaxLink(r, e, "antenna", "coax", 20) },
		},
		{
			"300 m of word clock", "past-distance", checks.Note, "W01 has 300.0 m of cable, past the 100 m stated for Word clock",
			func(r *rig, e *plan.Edit) { coaxLink(r, e, "word-clock", "coax", 300) },
		},
		{
			"60 m of AES10", "past-distance", checks.Note, "W01 has 60.0 m of cable, past the 50 m stated for AES10",
			func(r *rig, e *plan.Edit) { coaxLink(r, e, "aes10", "coax", 60) },
		},
	})
	for _, transport := range []plan.TransportID{"word-clock", "aes10", "coax-video"} {
		t.Run("20 m of 75 Ω are right for "+string(transport), func(t *testing.T) {
			r := newRig(t)
			r.do(t, func(e *plan.Edit) { coaxLink(r, e, transport, "coax", 20) })
			for _, finding := range r.find() {
				require.Equal(t, "clock", finding.Rule, "two processors that only follow: %s", finding.What)
			}
		})
	}
}

// fibreOf gives the plan a kind of fibre cable and lays it.
func fibreOf(r *rig, e *plan.Edit, category, connector string, lengths ...float64) {
	kind, _ := r.CableKinds.Get("fibre-multimode")
	kind.ID, kind.Name, kind.Category = plan.CableKindID("fibre-"+category), "Fibre "+category, category
	if connector != "" {
		kind.Connector = connector
	}
	plan.Put(e, kind)
	e.SetSegments(r.fibre, of(kind.ID, lengths...))
}

func TestFibre(t *testing.T) {
	optic := func(e *plan.Edit, mode string) {
		setPort(e, plan.PortKey("media-converter", "F"), func(p *plan.KindPort) { p.Fibre = mode })
	}
	check(t, []breach{
		{
			"62.5 µm joined to 50 µm", "fibre-core", checks.Warn, "L04 joins fibre of 62.5 µm and of 50 µm: cable 2 (Fibre om3) is not like the cable before it",
			func(r *rig, e *plan.Edit) {
				fibreOf(r, e, "om3", "", 60)
				fibreOf(r, e, "om1", "", 60)
				e.SetSegments(r.fibre, append(of("fibre-om1", 60), of("fibre-om3", 60)...))
			},
		},
		{
			"2 km of multimode", "fibre-reach", checks.Warn, "L04 has 2000.0 m of multimode, and 1000BASE-SX reaches 550 m on it",
			func(r *rig, e *plan.Edit) { e.SetSegments(r.fibre, of("fibre-multimode", 2000)) },
		},
		{
			"300 m of 62.5 µm", "fibre-reach", checks.Warn, "L04 has 300.0 m of multimode, and 1000BASE-SX reaches 275 m on it",
			func(r *rig, e *plan.Edit) { fibreOf(r, e, "om1", "", 300) },
		},
		{
			"6 km of singlemode", "fibre-reach", checks.Warn, "L04 has 6000.0 m of singlemode, and 1000BASE-LX reaches 5000 m on it",
			func(r *rig, e *plan.Edit) { e.SetSegments(r.fibre, of("fibre-singlemode", 6000)) },
		},
		{
			"LC joined to expanded beam", "connector", checks.Warn,
			"L04: cable 1 (Fibre multimode, 2 fibres) has LC duplex, and cable 2 (Fibre om3) behind it has expanded beam",
			func(r *rig, e *plan.Edit) {
				fibreOf(r, e, "om3", "expanded beam", 60)
				tail := of("fibre-multimode", 10)
				e.SetSegments(r.fibre, append(append(append([]plan.Segment(nil), tail...), of("fibre-om3", 110)...), of("fibre-om3", 1)...))
				setPort(e, plan.PortKey("media-converter", "F"), func(p *plan.KindPort) { p.Connector = "" })
			},
		},
	})
	t.Run("singlemode on ports made for multimode is told at each", func(t *testing.T) {
		r := newRig(t)
		r.do(t, func(e *plan.Edit) {
			optic(e, "multimode")
			e.SetSegments(r.fibre, of("fibre-singlemode", 120))
		})
		require.Equal(t, []string{
			"L04: cable 1 (Fibre singlemode, 2 fibres) is singlemode, but port F of Converter 1 is made for multimode",
			"L04: cable 1 (Fibre singlemode, 2 fibres) is singlemode, but port F of Converter 2 is made for multimode",
		}, said(r, "fibre-mode"))
	})
	t.Run("multimode on ports made for it, 550 m of OM3 and OM4, and 5 km of singlemode are right", func(t *testing.T) {
		r := newRig(t)
		r.do(t, func(e *plan.Edit) {
			optic(e, "multimode")
			fibreOf(r, e, "om3", "", 100)
			fibreOf(r, e, "om4", "lc  Duplex", 100)
			e.SetSegments(r.fibre, append(of("fibre-om3", 275), of("fibre-om4", 275)...))
		})
		require.Empty(t, r.find())
		r.do(t, func(e *plan.Edit) {
			optic(e, "singlemode")
			e.SetSegments(r.fibre, of("fibre-singlemode", 5000))
		})
		require.Empty(t, r.find())
	})
	t.Run("two ports of two sorts", func(t *testing.T) {
		r := newRig(t)
		r.do(t, func(e *plan.Edit) {
			optic(e, "multimode")
			plan.Put(e, plan.KindPort{Kind: "switch-16", Name: "F1", Transport: "fibre", Connector: "LC duplex", Fibre: "singlemode"})
			set(e, r.fibre, func(l *plan.Link) { l.To, l.ToPort = r.foh2, "F1" })
			e.SetSegments(r.fibre, nil)
		})
		require.Equal(t, []string{"L04: port F of Converter 1 is made for multimode, but port F1 of FOH network for singlemode"}, said(r, "fibre-mode"))
	})
}

// said lists what a rule says.
func said(r *rig, rule string) (what []string) {
	for _, finding := range r.find() {
		if finding.Rule == rule {
			what = append(what, finding.What)
		}
	}
	return what
}

// vanPort plugs the far end of L04 into a fibre port of a van.
func vanPort(r *rig, e *plan.Edit) { set(e, r.fibre, func(l *plan.Link) { l.ToPort = "F1" }) }

func TestASignalMatchesAtBothEnds(t *testing.T) {
	converters := func(r *rig, e *plan.Edit, kinds ...plan.KindID) {
		near, far := optics(r)
		for i, kind := range kinds {
			must(catalogue.Use(e, kind))
			setDevice(e, []plan.DeviceID{near, far}[i], func(d *plan.Device) { d.Kind = kind })
		}
	}
	check(t, []breach{
		{
			"AES50 over fibre into a network switch", "signal", checks.Stop, "L04: Converter 1 is for AES50, but FOH network for 1000BASE-T",
			func(r *rig, e *plan.Edit) {
				converters(r, e, "aes50-converter")
				set(e, r.fibre, func(l *plan.Link) { l.To, l.ToPort = r.foh2, "F1" })
			},
		},
		{
			"an AES50 converter at one end and a network's at the other", "signal", checks.Stop, "L04: Converter 1 is for AES50, but Converter 2 for 1000BASE-T",
			func(r *rig, e *plan.Edit) { converters(r, e, "aes50-converter") },
		},
		{
			"AES50 into the fibre port of a van, which may be made for it", "signal", checks.Note, "L04: Converter 1 is for AES50, but Converter 2 for 1000BASE-T",
			func(r *rig, e *plan.Edit) { converters(r, e, "aes50-converter", "broadcast-van"); vanPort(r, e) },
		},
		{
			"AES50 through a panel into a network", "signal", checks.Stop, "L06: link L01 is for AES50, but link L06 for 1000BASE-T",
			func(r *rig, e *plan.Edit) {
				must(catalogue.Use(e, "drop-aes50"))
				setPort(e, plan.PortKey("drop-aes50", "GUEST"), func(p *plan.KindPort) { p.Transport = "1000base-t" })
				panel := e.AddDevice(plan.Device{Name: "Panel", Kind: "drop-aes50", Y: -40})
				set(e, r.main, func(l *plan.Link) { l.To, l.ToPort = panel, "BACK" })
				link := e.AddLink(plan.Link{Transport: "1000base-t", From: panel, FromPort: "GUEST", To: r.foh2, ToPort: "05"})
				e.SetSegments(link, of("cat6a-own", 45))
			},
		},
	})
	t.Run("AES50 converters at both ends, and a network's at a switch, are right", func(t *testing.T) {
		r := newRig(t)
		r.do(t, func(e *plan.Edit) { converters(r, e, "aes50-converter", "aes50-converter") })
		require.Empty(t, said(r, "signal"))
		r.do(t, func(e *plan.Edit) {
			converters(r, e, "media-converter", "media-converter")
			set(e, r.fibre, func(l *plan.Link) { l.To, l.ToPort = r.foh2, "F1" })
		})
		require.Empty(t, said(r, "signal"))
	})
	t.Run("fibre panels pass on what comes, and a ring of them ends", func(t *testing.T) {
		r := newRig(t)
		r.do(t, func(e *plan.Edit) {
			converters(r, e, "aes50-converter")
			plan.Put(e, plan.Kind{ID: "fibre-panel", Name: "Fibre panel", Group: "Stage", Passive: true})
			for _, port := range []string{"A", "B"} {
				plan.Put(e, plan.KindPort{Kind: "fibre-panel", Name: port, Transport: "fibre", Connector: "LC duplex"})
			}
			one := e.AddDevice(plan.Device{Name: "One", Kind: "fibre-panel"})
			two := e.AddDevice(plan.Device{Name: "Two", Kind: "fibre-panel"})
			three := e.AddDevice(plan.Device{Name: "Three", Kind: "fibre-panel"})
			set(e, r.fibre, func(l *plan.Link) { l.To, l.ToPort = one, "A" })
			e.AddLink(plan.Link{Transport: "fibre", From: r.foh2, FromPort: "F1", To: one, ToPort: "B"})
			e.AddLink(plan.Link{Transport: "fibre", From: two, FromPort: "A", To: three, ToPort: "B"})
			e.AddLink(plan.Link{Transport: "fibre", From: two, FromPort: "B", To: three, ToPort: "A"})
		})
		require.Len(t, said(r, "signal"), 1)
		require.Contains(t, said(r, "signal")[0], "but FOH network for 1000BASE-T")
	})
}

func TestOneWrongMediumIsOneFinding(t *testing.T) {
	r := newRig(t)
	r.do(t, func(e *plan.Edit) { e.SetSegments(r.main, of("fibre-multimode", 60)) })
	var rules []string
	for _, finding := range r.find() {
		rules = append(rules, finding.Rule)
	}
	require.Equal(t, []string{"wrong-medium"}, rules)
}
