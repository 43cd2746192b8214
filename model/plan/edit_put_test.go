package plan_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/geom"
	"stageloom/model/plan"
)

func TestDevicesArePutWhereThereIsRoom(t *testing.T) {
	s := newStage(t)
	var first plan.DeviceID
	clear := 5.0
	s.do(t, func(e *plan.Edit) error {
		first = e.AddDevices(plan.Device{Kind: "box", Name: "Rack"}, 3, func(p *plan.Plan) geom.Point { return p.FreePlace(geom.Point{}, clear) })
		return nil
	})
	names := map[string]plan.Device{}
	for device := range s.Devices.All() {
		names[device.Name] = device
		for other := range s.Devices.All() {
			require.True(t, device.ID == other.ID || device.At().Distance(other.At()) >= clear-0.001, "%s stands on %s", device.Name, other.Name)
		}
	}
	require.Contains(t, names, "Rack 3")
	require.Equal(t, first, names["Rack"].ID)
	require.Equal(t, geom.Pt(400, 400), s.FreePlace(geom.Pt(400, 400), clear), "what is free already stays")
}

func TestANewDeviceBelongsToWhereItIsPut(t *testing.T) {
	s, left, right := ground(t)
	put := func(like plan.Device, x float64) plan.PositionID {
		var id plan.DeviceID
		s.do(t, func(e *plan.Edit) error {
			id = e.AddDevices(like, 1, func(*plan.Plan) geom.Point { return geom.Pt(x, 5) })
			return nil
		})
		return s.position(id)
	}
	require.Equal(t, right, put(plan.Device{Kind: "box"}, 100))
	require.Equal(t, left, put(plan.Device{Kind: "box", Position: left}, 101), "the one that was chosen goes before")
	require.Empty(t, put(plan.Device{Kind: "box"}, 60))
	s.do(t, func(e *plan.Edit) error {
		id := e.AddDevices(plan.Device{Kind: "box", Unplaced: true}, 2, nil)
		device, _ := e.Now().Device(id)
		require.True(t, device.Unplaced, "nothing asks for the place of what has none")
		return nil
	})
}

func TestAPositionIsMadeRoundItsDevices(t *testing.T) {
	s := newStage(t)
	var id plan.PositionID
	s.do(t, func(e *plan.Edit) (err error) { id, err = e.Gather(s.b, s.c); return err })
	made, _ := s.Positions.Get(plan.Key(id))
	outline, has := made.Outline()
	require.True(t, has)
	require.Equal(t, geom.BoxAround(geom.Pt(30, 0), 46, 6), outline, "3 m of room on each side")
	require.Equal(t, []plan.PositionID{id, id, s.spot}, []plan.PositionID{s.position(s.b), s.position(s.c), s.position(s.a)})
	require.Equal(t, "Position", made.Name)

	s.do(t, func(e *plan.Edit) error {
		if err := e.TakeOff(s.a); err != nil {
			return err
		}
		var err error
		id, err = e.Gather(s.a)
		return err
	})
	made, _ = s.Positions.Get(plan.Key(id))
	require.True(t, made.Unplaced, "none of its devices has a place")
	require.Equal(t, "Position 2", made.Name)
	s.refused(t, "", func(e *plan.Edit) error { _, err := e.Gather("d-99999"); return err })
}

func TestAPositionIsPlacedOrListed(t *testing.T) {
	s := newStage(t)
	var placed, listed plan.PositionID
	var taken []plan.DeviceID
	s.do(t, func(e *plan.Edit) error {
		placed, taken = e.PlacePosition(geom.Pt(48, 2))
		listed = e.ListPosition()
		return nil
	})
	require.Equal(t, []plan.DeviceID{s.c}, taken, "it stands inside")
	require.Equal(t, placed, s.position(s.c))
	position, _ := s.Positions.Get(plan.Key(placed))
	require.Equal(t, []float64{10, 8}, []float64{position.Width, position.Depth})
	position, _ = s.Positions.Get(plan.Key(listed))
	require.True(t, position.Unplaced)
	require.Equal(t, "Position 2", position.Name)
}

func TestALinkLikeAnotherHasItsCablesByLength(t *testing.T) {
	s := newStage(t)
	var id plan.LinkID
	s.do(t, func(e *plan.Edit) error {
		require.NoError(t, e.Draw(s.ab, []geom.Point{{X: 4, Y: 4}}))
		line := e.AddHouseLine(plan.HouseLine{Name: "H01", Kind: "cat6", Length: 30})
		e.SetSegments(s.ab, []plan.Segment{{Reel: "r-22222"}, {HouseLine: line}, {Kind: "cat6", Length: 7}})
		id = e.AddLinkLike(plan.Link{Transport: "aes50", From: s.a, FromPort: "B", To: s.b, ToPort: "C", Way: "drawn"}, s.ab)
		return nil
	})
	require.Equal(t, wayOf(s.Plan, s.ab), wayOf(s.Plan, id))
	require.Equal(t, []plan.Segment{
		{Link: id, Order: 1, Kind: "cat6", Length: 50}, {Link: id, Order: 2, Kind: "cat6", Length: 7},
	}, s.SegmentsOf(id))
	require.Equal(t, plan.ReelID("r-22222"), s.SegmentsOf(s.ab)[0].Reel, "the first keeps its own")
}

func TestLinksLeaveTheirLooms(t *testing.T) {
	s, loom, links := loomed(t)
	require.Equal(t, "Loom 1", s.FreeLoomName())
	s.do(t, func(e *plan.Edit) error { return e.LeaveLooms(links["back"]) })
	require.Len(t, s.LoomLinks(loom), 2)
	s.do(t, func(e *plan.Edit) error {
		return e.Rename(plan.Ref{Table: plan.LoomsTable, Key: plan.Key(loom)}, "Loom 1")
	})
	require.Equal(t, "Loom 2", s.FreeLoomName())
	s.do(t, func(e *plan.Edit) error { return e.LeaveLooms(links["long"], links["late"]) })
	require.False(t, s.Looms.Has(plan.Key(loom)), "an empty loom goes")
	s.refused(t, "", func(e *plan.Edit) error { return e.LeaveLooms("k-99999") })
}

func TestRowsThatBearANameAreRenamed(t *testing.T) {
	s := newStage(t)
	device, _ := s.Device(s.a)
	link, _ := s.Link(s.ab)
	position, _ := s.Positions.Get(plan.Key(s.spot))
	for _, ref := range []plan.Ref{plan.RefOf(device), plan.RefOf(link), plan.RefOf(position)} {
		s.do(t, func(e *plan.Edit) error { return e.Rename(ref, "Named") })
	}
	device, _ = s.Device(s.a)
	link, _ = s.Link(s.ab)
	position, _ = s.Positions.Get(plan.Key(s.spot))
	require.Equal(t, []string{"Named", "Named", "Named"}, []string{device.Name, link.Name, position.Name})
	before := s.Plan
	s.do(t, func(e *plan.Edit) error { return e.Rename(plan.Ref{Table: plan.ReelsTable, Key: "r-22222"}, "Named") })
	require.True(t, plan.Equal(before, s.Plan))
}
