package picture_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/geom"
	"stageloom/model/picture"
	"stageloom/model/plan"
)

// layered is a scene of two levels and two transports with an outline, an area and a loom.
func layered() *picture.Scene {
	s := &picture.Scene{
		Areas:     []picture.AreaFigure{{ID: "a-22222", Name: "Stage", Use: "stage", Corners: []geom.Point{{}, {X: 80}, {X: 80, Y: 60}, {Y: 60}}}},
		Positions: []picture.PositionFigure{{ID: "p-22222", Name: "Tower", Outline: geom.BoxAround(geom.Point{X: 120, Y: 20}, 20, 20)}},
		Bounds:    geom.BoxOf(geom.Point{}, geom.Point{X: 200, Y: 120}),
	}
	for i, at := range []geom.Point{{X: 20, Y: 20}, {X: 120, Y: 20}, {X: 20, Y: 100}, {X: 180, Y: 100}} {
		level := plan.LevelID("")
		if i == 3 {
			level = "v-22222"
		}
		s.Devices = append(s.Devices, picture.DeviceFigure{
			ID: plan.DeviceID("d-2222" + string(rune('2'+i))), Name: "Box", Kind: "box", At: at, Level: level, Ports: []picture.PortFigure{{Name: "A"}},
		})
	}
	link := func(id string, from, to int, grade string, transport plan.TransportID) {
		s.Links = append(s.Links, picture.LinkFigure{
			ID: plan.LinkID(id), Label: id, Grade: grade, Standing: grade, Transport: transport, From: s.Devices[from].ID, To: s.Devices[to].ID, Reached: 1,
			Levels: [2]plan.LevelID{s.Devices[from].Level, s.Devices[to].Level},
		})
	}
	link("k-22222", 0, 1, "ample", "aes50")
	link("k-33333", 0, 2, "over", "aes50")
	link("k-44444", 1, 2, "ample", "fibre")
	link("k-55555", 2, 3, "tight", "aes50")
	s.Looms = []picture.LoomFigure{{
		ID: "m-22222", Name: "Loom 1", From: s.Devices[0].ID, To: s.Devices[1].ID, Route: []geom.Point{{X: 60, Y: 80}}, Drops: []geom.Point{{X: 60, Y: 80}},
	}}
	return s
}

// seen are the rows that are drawn, and those that a pointer hits anywhere.
func seen(p *picture.Picture) (drawn, hit map[plan.Key]bool) {
	drawn, hit = map[plan.Key]bool{}, map[plan.Key]bool{}
	for _, m := range p.Marks {
		drawn[m.Ref.Key] = true
	}
	for x := 0.0; x < 1200; x += 3 {
		for y := 0.0; y < 800; y += 3 {
			if ref, found := p.Pick(geom.Point{X: x, Y: y}); found {
				hit[ref.Key] = true
			}
		}
	}
	return drawn, hit
}

func TestWhatIsLeftOutIsNeitherDrawnNorHit(t *testing.T) {
	for _, c := range []struct {
		name    string
		without picture.LeftOut
		gone    []plan.Key
		stays   []plan.Key
	}{
		{"areas", picture.LeftOut{Areas: true}, []plan.Key{"a-22222"}, []plan.Key{"p-22222", "k-22222"}},
		{"outlines of positions", picture.LeftOut{Outlines: true}, []plan.Key{"p-22222"}, []plan.Key{"d-22223", "a-22222"}},
		{"links of a grade", picture.LeftOut{Grades: map[string]bool{"over": true}}, []plan.Key{"k-33333"}, []plan.Key{"k-22222", "k-44444"}},
		{"links of a transport", picture.LeftOut{Transports: map[plan.TransportID]bool{"fibre": true}}, []plan.Key{"k-44444"}, []plan.Key{"k-22222", "k-33333"}},
		{"a level with its devices and what is plugged in there", picture.LeftOut{Levels: map[plan.LevelID]bool{"v-22222": true}}, []plan.Key{"d-22225", "k-55555"}, []plan.Key{"d-22224"}},
		{"looms", picture.LeftOut{Looms: true}, []plan.Key{"m-22222"}, []plan.Key{"k-22222"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			drawn, hit := seen(draw(layered(), 5, picture.Options{}))
			for _, key := range append(c.gone, c.stays...) {
				require.True(t, drawn[key] && hit[key], "%s is there when nothing is left out", key)
			}
			p := draw(layered(), 5, picture.Options{LeftOut: c.without})
			drawn, hit = seen(p)
			for _, key := range c.gone {
				require.False(t, drawn[key], "%s is drawn", key)
				require.False(t, hit[key], "%s is hit", key)
			}
			for _, key := range c.stays {
				require.True(t, drawn[key] && hit[key], "%s stays", key)
			}
			for _, ref := range p.Within(p.View.Box()) {
				require.NotContains(t, c.gone, ref.Key, "a box drawn round everything does not select it")
			}
		})
	}
}

func TestLabelsAndNamesAreLeftOut(t *testing.T) {
	texts := func(o picture.Options, nameless bool) (all []string) {
		s := layered()
		s.Nameless = nameless
		for _, m := range draw(s, 5, o).Marks {
			if m.Shape == picture.Words {
				all = append(all, m.Text)
			}
		}
		return all
	}
	require.Contains(t, texts(picture.Options{}, false), "k-22222")
	without := texts(picture.Options{LeftOut: picture.LeftOut{Labels: true}}, false)
	require.NotContains(t, without, "k-22222")
	require.Contains(t, without, "Box")
	require.NotContains(t, texts(picture.Options{}, true), "Box", "devices are dots then")
	require.Contains(t, texts(picture.Options{}, true), "k-22222")
}

func TestWhatIsSelectedIsDrawnAllTheSame(t *testing.T) {
	o := picture.Options{
		LeftOut:  picture.LeftOut{Grades: map[string]bool{"over": true}},
		Selected: map[plan.Ref]bool{{Table: "links", Key: "k-33333"}: true},
	}
	drawn, hit := seen(draw(layered(), 5, o))
	require.True(t, drawn["k-33333"] && hit["k-33333"])
}

func TestADeviceThatIsLeftOutTakesNoLink(t *testing.T) {
	p := draw(layered(), 5, picture.Options{LeftOut: picture.LeftOut{Levels: map[plan.LevelID]bool{"v-22222": true}}})
	whole := draw(layered(), 5, picture.Options{})
	box, found := whole.Where(plan.Ref{Table: "devices", Key: "d-22225"})
	require.True(t, found)
	_, _, found = whole.DeviceAt(box.Centre())
	require.True(t, found)
	_, _, found = p.DeviceAt(box.Centre())
	require.False(t, found)
}

func TestWhatMovesIsLeftOutToo(t *testing.T) {
	s := layered()
	moving := plan.Moving{Devices: map[plan.DeviceID]bool{"d-22222": true}, Stretched: map[plan.LinkID]bool{"k-22222": true, "k-33333": true}}
	p := draw(s, 5, picture.Options{Hidden: &moving, LeftOut: picture.LeftOut{Grades: map[string]bool{"over": true}}})
	drawn := map[plan.Key]bool{}
	for _, m := range p.Overlay(moving, geom.Point{X: 2}, s.Links[:2]) {
		drawn[m.Ref.Key] = true
	}
	require.True(t, drawn["k-22222"])
	require.False(t, drawn["k-33333"])
}

func TestEveryThingThatIsDrawnIsWhatIsNotLeftOut(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		s := randomScene(r)
		out := map[string]bool{}
		for _, grade := range grades {
			if rapid.Bool().Draw(r, "without "+grade) {
				out[grade] = true
			}
		}
		graded := map[plan.Key]string{}
		for _, link := range s.Links {
			graded[plan.Key(link.ID)] = link.Grade
		}
		for _, m := range draw(s, 5, picture.Options{LeftOut: picture.LeftOut{Grades: out}}).Marks {
			if m.Ref.Table == "links" {
				require.False(r, out[graded[m.Ref.Key]], "%s is drawn", m.Ref.Key)
			}
		}
	})
}
