package picture_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/geom"
	"stageloom/model/picture"
	"stageloom/model/plan"
)

// of are the marks of a role.
func of(marks []picture.Mark, role picture.Role) (found []picture.Mark) {
	for _, m := range marks {
		if m.Role == role {
			found = append(found, m)
		}
	}
	return found
}

func TestASketchLeadsFromItsPortToThePointerOrTheAimedPort(t *testing.T) {
	p := draw(twoBoxes(), 8, picture.Options{})
	figure := picture.LinkFigure{Name: "L03", Label: "L03 +4", Grade: "enough", Standing: "enough", Reached: 1}
	at := geom.Pt(500, 300)
	port := p.PortPlaces("d-22222")[1].At
	marks := p.SketchMarks("d-22222", "B", at, figure, "", "", "")
	line := of(marks, picture.RoleLinkEnough)
	require.Len(t, line, 1)
	require.Equal(t, []geom.Point{port, at}, line[0].Points)
	require.Equal(t, "L03 +4", of(marks, picture.RoleLabelText)[0].Text)
	box, _ := p.Where(plan.Ref{Table: "devices", Key: "d-22222"})
	marks = p.SketchMarks("d-22222", "no such port", at, figure, "", "", "")
	require.Equal(t, box.Centre(), of(marks, picture.RoleLinkEnough)[0].Points[0], "a port that is not there is the device")

	back := draw(twoBoxes(), 8, picture.Options{})
	aim := back.PortPlaces("d-22222")[0].At
	marks = back.SketchMarks("d-33333", "", at, figure, "d-22222", "A", "")
	require.Equal(t, aim, of(marks, picture.RoleLinkEnough)[0].Points[1], "the line snaps to the port that takes it")
	lit := of(marks, picture.RoleHandle)
	require.Len(t, lit, 1)
	require.InDelta(t, 0, geom.BoxOf(lit[0].Points...).Centre().Distance(aim), 1e-9)
	require.Len(t, of(marks, picture.RolePortUsed), 1)
	require.Len(t, of(marks, picture.RolePortFree), 1)
	require.Empty(t, of(back.SketchMarks("d-33333", "", at, figure, "d-nobody", "A", ""), picture.RoleHandle))
}

func TestAReasonStandsInThePlaceOfTheLabelAndInsideTheView(t *testing.T) {
	const reason = "A fibre port takes no AES50 – سبب 🎤"
	p := draw(twoBoxes(), 8, picture.Options{Margin: 20})
	for _, at := range []geom.Point{{X: 600, Y: 400}, {X: 1199, Y: 400}, {X: 0, Y: 400}} {
		marks := p.SketchMarks("d-22222", "A", at, picture.LinkFigure{Label: "L03 +4", Reached: 1}, "", "", reason)
		words := of(marks, picture.RoleLabelText)
		require.Len(t, words, 1, "no label beside it")
		require.Equal(t, reason, words[0].Text)
		box := geom.BoxOf(of(marks, picture.RoleLabelFill)[0].Points...)
		require.GreaterOrEqual(t, box.Min.X, 20.0)
		require.LessOrEqual(t, box.Max.X, 1180.0)
		require.Greater(t, box.Width(), wide(reason, words[0].Size, false))
	}
}

func TestAWayThatIsDrawnBearsAHandleAtEachPoint(t *testing.T) {
	s := twoBoxes()
	p := draw(s, 8, picture.Options{})
	figure := s.Links[0]
	figure.Way = []geom.Point{{X: 20, Y: 15}, {X: 70, Y: -10}}
	marks := p.WayMarks(figure)
	handles := of(marks, picture.RoleHandle)
	require.Len(t, handles, 2)
	line := geom.Polyline(of(marks, picture.RoleLinkTight)[0].Points)
	for i, at := range figure.Way {
		require.InDelta(t, 0, geom.BoxOf(handles[i].Points...).Centre().Distance(p.View.Point(at)), 1e-9)
		require.InDelta(t, 0, line.Distance(p.View.Point(at)), 1e-9, "the line goes over its way points")
	}
	require.Len(t, of(marks, picture.RoleLabelText), 1)
	ring := p.RingMark(figure.Way[1]).Points
	require.Equal(t, ring[0], ring[len(ring)-1], "a ring is closed")
	for _, at := range ring {
		require.InDelta(t, 8.5, at.Distance(p.View.Point(figure.Way[1])), 1e-9)
	}
}

func TestARulerAndNotesSayTheirWordsWhereTheyBelong(t *testing.T) {
	p := draw(twoBoxes(), 8, picture.Options{})
	marks := p.RulerMarks(geom.Pt(10, 5), geom.Pt(60, 5), "50 m, 164 ft")
	line := of(marks, picture.RoleSelected)[0]
	require.InDelta(t, 50*8, line.Points[0].Distance(line.Points[1]), 1e-9, "to scale")
	require.Len(t, of(marks, picture.RoleHandle), 2)
	require.Equal(t, "50 m, 164 ft", of(marks, picture.RoleLabelText)[0].Text)

	v := picture.View{Scale: 3, Width: 640, Height: 480}
	corner := picture.CornerMarks(v, "12 labels found no place", wide)
	box := geom.BoxOf(corner[0].Points...)
	require.True(t, v.Box().ContainsBox(box))
	require.Less(t, v.Width-box.Max.X, 20.0)
	require.Less(t, v.Height-box.Max.Y, 20.0)
	require.Equal(t, "12 labels found no place", corner[1].Text)
	empty := picture.EmptyMarks(v, "Drop a device here")
	require.Equal(t, v.Box().Centre(), empty[0].Points[0])
	require.Equal(t, "Drop a device here", empty[0].Text)
	moved := picture.Shifted(corner, geom.Pt(-7, 9))
	require.Equal(t, box.Shift(geom.Pt(-7, 9)), geom.BoxOf(moved[0].Points...))
	require.Equal(t, box, geom.BoxOf(corner[0].Points...), "the marks that were moved stay as they are")
}

func TestALoomIsMarkedWhereLinksDropOff(t *testing.T) {
	s := layered()
	loom := plan.Ref{Table: "looms", Key: "m-22222"}
	plain := draw(s, 5, picture.Options{})
	drops := of(plain.Marks, picture.RoleLabelFill)
	found := 0
	for _, m := range drops {
		if m.Ref == loom {
			found++
			at := geom.BoxOf(m.Points...).Centre()
			require.InDelta(t, 0, at.Distance(plain.View.Point(geom.Pt(60, 80))), 1e-9)
			ref, _ := plain.Pick(at)
			require.Equal(t, loom, ref)
		}
	}
	require.Equal(t, 1, found)
	require.Empty(t, of(plain.Marks, picture.RoleLoomRoute), "its route is drawn once it is selected")
	require.Len(t, of(plain.Marks, picture.RoleLoomText), 1)

	chosen := draw(s, 5, picture.Options{Selected: map[plan.Ref]bool{loom: true}})
	require.Len(t, of(chosen.Marks, picture.RoleLoomRoute), 1)
	route := geom.Polyline(of(chosen.Marks, picture.RoleLoomRoute)[0].Points)
	require.InDelta(t, 0, route.Distance(chosen.View.Point(geom.Pt(60, 80))), 1e-9)
	ref, _ := chosen.Pick(chosen.View.Point(geom.Pt(60, 80)))
	require.Equal(t, plan.Ref{Table: "looms", Key: "m-22222", Part: "way 1"}, ref, "the corner can be pulled")
	along, _ := route.At(route.Length() * 0.9)
	ref, _ = chosen.Pick(along)
	require.Equal(t, loom, ref)

	marks := plain.LoomMarks(s.Links[:2], []geom.Point{{X: 60, Y: 80}, {X: 90, Y: 50}})
	require.Len(t, of(marks, picture.RoleHandle), 2)
	require.Len(t, of(marks, picture.RoleLinkCasing), 2)
	named := map[string]bool{}
	for _, m := range of(marks, picture.RoleLabelText) {
		named[m.Text] = true
	}
	require.True(t, named["k-22222"] && named["k-33333"], "both of its links bear their labels")
}

func TestDevicesWithoutAPlaceStandInAFrameThatNothingHits(t *testing.T) {
	s := twoBoxes()
	s.Devices[0].Unplaced, s.Devices[1].Unplaced = true, true
	require.False(t, s.Grounded())
	require.True(t, s.Listed())
	p := draw(s, 8, picture.Options{})
	require.Empty(t, of(p.Marks, picture.RoleGridFine), "no ground, no grid")
	frames := 0
	for _, m := range p.Marks {
		if m.Edge != picture.RolePositionEdge {
			continue
		}
		frames++
		frame := geom.BoxOf(m.Points...)
		for _, device := range s.Devices {
			box, _ := p.Where(plan.Ref{Table: "devices", Key: plan.Key(device.ID)})
			require.True(t, frame.ContainsBox(box))
		}
		_, hit := p.Pick(frame.Min.Add(geom.Pt(1, 1)))
		require.False(t, hit)
	}
	require.Equal(t, 1, frames)
	said := 0
	for _, m := range of(p.Marks, picture.RolePositionText) {
		if m.Text == picture.InTheList {
			said++
		}
	}
	require.Equal(t, 1, said)
	s.Devices[1].Unplaced = false
	require.True(t, s.Grounded())
	require.NotEmpty(t, of(draw(s, 8, picture.Options{}).Marks, picture.RoleGridFine))
}

func TestWhatMovesLeavesItsOldPlaceAndTakesItsNew(t *testing.T) {
	s := festival()
	p := weekender().Plan
	var foh plan.DeviceID
	var tower plan.PositionID
	for _, device := range s.Devices {
		if device.Name == "FOH console" {
			foh, tower = device.ID, device.Position
		}
	}
	moving := plan.MovingWith(p, nil, []plan.PositionID{tower})
	require.True(t, moving.Devices[foh])
	a := picture.Arrange(s, 5, 1, wide)
	view := a.Sheet(a.Bounds().Centre(), 2400, 1600)
	whole := picture.Letter(a, view, picture.Options{})
	still := picture.Letter(a, view, picture.Options{Hidden: &moving})
	by := geom.Pt(12, -7)
	marks := still.Overlay(moving, by, s.Links)
	for id := range moving.Devices {
		ref := plan.Ref{Table: "devices", Key: plan.Key(id)}
		old, _ := whole.Where(ref)
		for _, m := range still.Marks {
			require.NotEqual(t, ref, m.Ref, "nothing stays at the old place")
		}
		drawn := 0
		for _, m := range of(marks, picture.RoleDeviceFill) {
			if m.Ref == ref {
				drawn++
				require.InDelta(t, 0, geom.BoxOf(m.Points...).Centre().Distance(old.Centre().Add(geom.Pt(12*5, 7*5))), 1e-6)
			}
		}
		require.Equal(t, 1, drawn)
	}
	place := outlineOf(t, whole.Marks, tower)
	for _, m := range marks {
		if m.Ref.Table == "positions" {
			require.InDelta(t, 0, geom.BoxOf(m.Points...).Centre().Distance(place.Centre().Add(geom.Pt(60, 35))), 1e-6, "its outline goes along")
		}
	}
	quiet := picture.Letter(a, view, picture.Options{Hidden: &moving, Plain: true}).Overlay(moving, by, s.Links)
	require.Empty(t, of(quiet, picture.RoleLabelText))
	require.NotEmpty(t, of(marks, picture.RoleLabelText))
}

func outlineOf(t *testing.T, marks []picture.Mark, id plan.PositionID) geom.Box {
	t.Helper()
	for _, m := range marks {
		if m.Shape == picture.Panel && m.Ref.Key == plan.Key(id) {
			return geom.BoxOf(m.Points...)
		}
	}
	t.Fatal("no outline")
	return geom.Box{}
}

func TestALinkThatLacksCableEndsWhereItsCableEnds(t *testing.T) {
	whole := weekender().Plan
	var lane plan.Link
	for link := range whole.Links.All() {
		if link.Name == "L01" {
			lane = link
		}
	}
	short, err := plan.Do(whole, plan.NewIDSource(5, 5), func(e *plan.Edit) error {
		e.SetSegments(lane.ID, whole.SegmentsOf(lane.ID)[:1]) // the 70 m of 115
		return nil
	})
	require.NoError(t, err)
	a := assess.Of(short)
	b, _ := a.Budget(lane.ID)
	for _, figure := range picture.Compose(short, a.Budgets).Links {
		if figure.ID == lane.ID {
			require.Equal(t, "too short", figure.Lacks)
			require.InDelta(t, 70/b.Run, figure.Reached, 1e-9)
			require.InDelta(t, b.Run-70, figure.Missing, 0.11)
			require.Empty(t, figure.Joins, "nothing is joined yet")
			require.Regexp(t, `^L01 [+−]\d+, to lay|^L01 [+−]\d+ too short 4\d m$`, figure.Words(1, picture.NameAndMargin))
			require.Regexp(t, `too short 13\d ft$`, figure.Words(0.3048, picture.NameAndMargin), "40.3 m are 132.2 ft")
		}
	}
}

func TestLeavingNothingOutIsSaid(t *testing.T) {
	require.True(t, picture.LeftOut{}.Nothing())
	for _, w := range []picture.LeftOut{
		{Labels: true},
		{Names: true},
		{Outlines: true},
		{Areas: true},
		{Looms: true},
		{Grades: map[string]bool{"over": true}},
		{Transports: map[plan.TransportID]bool{"fibre": true}},
		{Levels: map[plan.LevelID]bool{"": true}},
	} {
		require.False(t, w.Nothing(), "%+v", w)
	}
}
