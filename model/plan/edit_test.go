package plan_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/geom"
	"stageloom/model/plan"
)

func TestAPositionMovesItsDevicesAndTheWaysBetweenThem(t *testing.T) {
	s := newStage(t)
	s.do(t, func(e *plan.Edit) error {
		require.NoError(t, e.Draw(s.bc, []geom.Point{{X: 30, Y: 5}}))
		return e.Draw(s.ab, []geom.Point{{X: 5, Y: 5}})
	})
	moving := plan.MovingWith(s.Plan, nil, []plan.PositionID{s.spot})
	require.Equal(t, map[plan.LinkID]bool{s.ab: true}, moving.MovedWhole)
	require.Equal(t, map[plan.LinkID]bool{s.bc: true}, moving.Stretched)
	s.do(t, func(e *plan.Edit) error { e.Move(moving, geom.Point{X: 1.00049, Y: 2}); return nil })
	b, _ := s.Device(s.b)
	require.Equal(t, geom.Point{X: 11, Y: 2}, b.At(), "metres are kept to 1 mm")
	require.Equal(t, geom.Point{X: 6, Y: 7}, s.PointsOf(s.ab)[0].At())
	require.Equal(t, geom.Point{X: 30, Y: 5}, s.PointsOf(s.bc)[0].At(), "a link with one end outside keeps its way points")
}

func TestAReversedLinkTurnedAgainIsTheOldOne(t *testing.T) {
	s := newStage(t)
	s.do(t, func(e *plan.Edit) error {
		require.NoError(t, e.Draw(s.bc, []geom.Point{{X: 30, Y: 5}, {X: 40, Y: 5}}))
		e.SetSegments(s.bc, []plan.Segment{
			{Reel: "r-22222"},
			{Kind: "cat6", Length: 20, Coupler: "cat5e"},
			{Kind: "cat6", Length: 5, Coupler: "cat6a"},
		})
		return nil
	})
	before := s.Plan
	turn := func(e *plan.Edit) error { return e.Reverse(s.bc) }
	s.do(t, turn)
	link, _ := s.Link(s.bc)
	require.Equal(t, s.c, link.From)
	require.Equal(t, 2.0, link.RiseTo)
	require.Equal(t, plan.HardwareID("cat6"), link.ToPanel)
	require.Equal(t, 40.0, s.PointsOf(s.bc)[0].X)
	segments := s.SegmentsOf(s.bc)
	require.Equal(t, plan.HardwareID("cat6a"), segments[1].Coupler, "the coupler between the same two cables stays")
	require.Equal(t, plan.HardwareID("cat5e"), segments[2].Coupler)
	s.do(t, turn)
	require.True(t, plan.Equal(before, s.Plan))
}

func TestReversingALinkTurnsItsSlots(t *testing.T) {
	s := newStage(t)
	s.do(t, func(e *plan.Edit) error {
		plan.Put(e, plan.SlotPatch{Link: s.ab, Direction: "forward", Slot: 1, Device: s.a, Socket: 1})
		plan.Put(e, plan.SlotPatch{Link: s.ab, Direction: "return", Slot: 1, Device: s.a, Socket: 1, Output: true})
		return nil
	})
	before := s.Plan
	s.do(t, func(e *plan.Edit) error { return e.Reverse(s.ab) })
	turned, found := s.SlotPatches.Get(plan.SlotPatch{Link: s.ab, Direction: "return", Slot: 1}.Key())
	require.True(t, found && !turned.Output, "what went out goes out still, against the link")
	s.do(t, func(e *plan.Edit) error { return e.Reverse(s.ab) })
	require.True(t, plan.Equal(before, s.Plan))
}

func TestRemovingADeviceForgetsItInThePatch(t *testing.T) {
	s := newStage(t)
	s.do(t, func(e *plan.Edit) error {
		plan.Put(e, plan.Act{ID: "n-22222", Name: "First", Order: 1})
		plan.Put(e, plan.Input{ID: "i-22222", Number: 1, Name: "Kick", Snake: s.c, SnakeWay: 2})
		plan.Put(e, plan.ActConsole{Act: "n-22222", Console: s.a, Drop: s.c})
		plan.Put(e, plan.SocketOwner{Device: s.a, Socket: 1, Gain: s.c})
		plan.Put(e, plan.SocketOwner{Device: s.a, Socket: 2, Gain: s.c, Phantom: s.b})
		plan.Put(e, plan.SocketOwner{Device: s.c, Socket: 3, Gain: s.b})
		plan.Put(e, plan.Output{ID: "o-22222", Number: 1, Name: "PA"})
		plan.Put(e, plan.OutputPatch{Output: "o-22222", Console: s.b, Device: s.c, Socket: 1})
		return nil
	})
	s.do(t, func(e *plan.Edit) error { e.RemoveDevices(s.c); return nil })
	kick, _ := s.Inputs.Get("i-22222")
	require.Equal(t, plan.Input{ID: "i-22222", Number: 1, Name: "Kick"}, kick)
	require.Equal(t, plan.ActConsole{Act: "n-22222", Console: s.a}, s.ActConsoles.At(0))
	require.Equal(t, 1, s.SocketOwners.Len(), "an owner's row that says nothing more goes")
	require.Equal(t, plan.SocketOwner{Device: s.a, Socket: 2, Phantom: s.b}, s.SocketOwners.At(0))
	require.Zero(t, s.OutputPatches.Len())
}

func TestRemovingADeviceTakesItsLinksAlong(t *testing.T) {
	s := newStage(t)
	s.do(t, func(e *plan.Edit) error { return e.Pair(s.ab, s.bc) })
	s.do(t, func(e *plan.Edit) error { e.RemoveDevices(s.c); return nil })
	require.False(t, s.Links.Has(plan.Key(s.bc)))
	left, _ := s.Link(s.ab)
	require.Empty(t, left.Partner, "the partner left behind stands alone")
	require.Empty(t, left.Role)
}

func TestEditsThatWouldBreakThePlanAreRefused(t *testing.T) {
	s := newStage(t)
	link := plan.Link{Transport: "aes50", From: s.a, FromPort: "B", To: s.c, ToPort: "B"}
	with := func(change func(*plan.Link)) func(*plan.Edit) error {
		return func(e *plan.Edit) error {
			l := link
			change(&l)
			e.AddLink(l)
			return nil
		}
	}
	cases := map[string]struct {
		reason string
		edit   func(*plan.Edit) error
	}{
		"a port takes one link":              {"which link L01 holds already", with(func(l *plan.Link) { l.FromPort = "A" })},
		"a port must exist":                  {"no such port", with(func(l *plan.Link) { l.ToPort = "Z" })},
		"a device must exist":                {"devices has no such row", with(func(l *plan.Link) { l.To = "d-99999" })},
		"a rise is bounded":                  {"must lie between 0 and 500", with(func(l *plan.Link) { l.RiseTo = -1 })},
		"a kind in use stays":                {"kinds has no such row", func(e *plan.Edit) error { plan.Drop[plan.Kind](e, "box"); return nil }},
		"a port in use stays":                {"no such port", func(e *plan.Edit) error { plan.Drop[plan.KindPort](e, "box/A"); return nil }},
		"a link is not its own backup":       {"its own backup", func(e *plan.Edit) error { return e.Pair(s.ab, s.ab) }},
		"partners name each other":           {"does not name", with(func(l *plan.Link) { l.Partner = s.ab })},
		"a name has no control signs":        {"control character", with(func(l *plan.Link) { l.Name = "a\x00b" })},
		"a way is straight, drawn or found":  {"must be one of", with(func(l *plan.Link) { l.Way = "curly" })},
		"one reel lies in one link":          {"more links than there are", func(e *plan.Edit) error { reelTwice(e, s); return nil }},
		"segments are numbered without gaps": {"comes next", func(e *plan.Edit) error { gap(e, s); return nil }},
		"a segment needs a cable":            {"must name one of", func(e *plan.Edit) error { e.SetSegments(s.ab, []plan.Segment{{}}); return nil }},
		"a length needs a kind":              {"must stand with kind", func(e *plan.Edit) error { e.SetSegments(s.ab, []plan.Segment{{Kind: "cat6"}}); return nil }},
		"the wanted margin is at least 1 dB": {"between 1 and 20", func(e *plan.Edit) error { return margin(e, 0.5) }},
		"a vanished row cannot be changed":   {"any more", func(e *plan.Edit) error { return e.Reverse("k-99999") }},
	}
	for name, test := range cases {
		t.Run(name, func(t *testing.T) { s.refused(t, test.reason, test.edit) })
	}
}

func reelTwice(e *plan.Edit, s *stage) {
	e.SetSegments(s.ab, []plan.Segment{{Reel: "r-22222"}})
	e.SetSegments(s.bc, []plan.Segment{{Reel: "r-22222"}})
}

func gap(e *plan.Edit, s *stage) {
	plan.Put(e, plan.Segment{Link: s.ab, Order: 2, Kind: "cat6", Length: 5})
}

func margin(e *plan.Edit, wanted float64) error {
	settings := e.Now().Settings
	settings.WantedMargin = plan.Some(wanted)
	e.SetSettings(settings)
	return nil
}

func TestWhatIsTypedLosesSignsThatTurnLettersRound(t *testing.T) {
	p, err := plan.Do(plan.New("Turned"), plan.NewIDSource(3, 4), func(e *plan.Edit) error {
		plan.Put(e, plan.Kind{ID: "box", Name: "Box", Group: "Stage"})
		plan.Put(e, plan.KindPort{Kind: "box", Name: "A\u2066", Transport: "aes50"})
		e.AddDevice(plan.Device{Name: "Stage \u202eleft\u202c", Kind: "box", Note: "\u200fשמאל"})
		settings := e.Now().Settings
		settings.Name = "\u2067Fete\u2069"
		e.SetSettings(settings)
		return nil
	})
	require.NoError(t, err)
	require.Equal(t, "Stage left", p.Devices.At(0).Name)
	require.Equal(t, "\u200fשמאל", p.Devices.At(0).Note, "a mark of a script that runs leftward stays")
	require.Equal(t, "Fete", p.Settings.Name)
	require.True(t, p.KindPorts.Has(plan.PortKey("box", "A")))
	_, err = plan.Do(p, nil, func(e *plan.Edit) error {
		return plan.Update(e, p.Devices.At(0).Key(), func(d *plan.Device) { d.Name = "\u202e" })
	})
	require.ErrorContains(t, err, "is blank, but is needed")
}

func TestATableThatEndsAsItBeganKeepsItsIdentity(t *testing.T) {
	s := newStage(t)
	before := s.Plan
	s.do(t, func(e *plan.Edit) error {
		moving := plan.MovingWith(s.Plan, []plan.DeviceID{s.a}, nil)
		e.Move(moving, geom.Point{X: 1})
		e.Move(moving, geom.Point{X: -1})
		return nil
	})
	require.Same(t, before.Devices, s.Devices)
	require.True(t, plan.Between(before, s.Plan).Empty())
}

func TestADeltaCarriesOnePlanIntoTheOther(t *testing.T) {
	s := newStage(t)
	before := s.Plan
	s.do(t, func(e *plan.Edit) error { e.RemoveDevices(s.b); return margin(e, 2) })
	for _, way := range [][2]*plan.Plan{{before, s.Plan}, {s.Plan, before}} {
		got, err := plan.Apply(way[0], plan.Between(way[0], way[1]))
		require.NoError(t, err)
		require.True(t, plan.Equal(way[1], got))
	}
	_, err := plan.Apply(plan.New("Other"), plan.Between(before, s.Plan))
	require.ErrorContains(t, err, "to drop", "a delta that does not fit is refused")
}

func TestReplacingAKindNeedsThePortsInUse(t *testing.T) {
	s := newStage(t)
	s.do(t, func(e *plan.Edit) error {
		plan.Put(e, plan.Kind{ID: "small", Name: "Small", Group: "Stage"})
		plan.Put(e, plan.KindPort{Kind: "small", Name: "A", Transport: "aes50"})
		return nil
	})
	s.refused(t, "unplug it first", func(e *plan.Edit) error { return e.ReplaceKind(s.b, "small") })
	s.do(t, func(e *plan.Edit) error { return e.ReplaceKind(s.c, "small") })
}

func TestAReelThatLeavesThePlanLeavesItsLengthBehind(t *testing.T) {
	s := newStage(t)
	s.do(t, func(e *plan.Edit) error { e.SetSegments(s.ab, []plan.Segment{{Reel: "r-22222"}}); return nil })
	s.do(t, func(e *plan.Edit) error { return e.RemoveReel("r-22222") })
	require.Equal(t, []plan.Segment{{Link: s.ab, Order: 1, Kind: "cat6", Length: 50}}, s.SegmentsOf(s.ab))
}

func TestDevicesAreBroughtIntoLine(t *testing.T) {
	all := func(s *stage) []plan.DeviceID { return []plan.DeviceID{s.a, s.b, s.c} }
	for name, test := range map[string]struct {
		how  plan.Alignment
		want [3]geom.Point
	}{
		"left":   {plan.AlignLeft, [3]geom.Point{{X: 0, Y: 1}, {X: 0, Y: 4}, {X: 0, Y: 7}}},
		"right":  {plan.AlignRight, [3]geom.Point{{X: 50, Y: 1}, {X: 50, Y: 4}, {X: 50, Y: 7}}},
		"top":    {plan.AlignTop, [3]geom.Point{{X: 0, Y: 7}, {X: 10, Y: 7}, {X: 50, Y: 7}}},
		"bottom": {plan.AlignBottom, [3]geom.Point{{X: 0, Y: 1}, {X: 10, Y: 1}, {X: 50, Y: 1}}},
		"row":    {plan.AlignRow, [3]geom.Point{{X: 0, Y: 4}, {X: 10, Y: 4}, {X: 50, Y: 4}}},
		"column": {plan.AlignColumn, [3]geom.Point{{X: 20, Y: 1}, {X: 20, Y: 4}, {X: 20, Y: 7}}},
	} {
		t.Run(name, func(t *testing.T) {
			s := newStage(t)
			s.do(t, func(e *plan.Edit) error {
				for i, id := range all(s) {
					require.NoError(t, plan.Update(e, plan.Key(id), func(r *plan.Device) { r.Y = float64(1 + 3*i) }))
				}
				return e.Align(all(s), test.how)
			})
			for i, id := range all(s) {
				device, _ := s.Device(id)
				require.Equal(t, test.want[i], device.At())
			}
		})
	}
}

func TestDevicesAreSpacedEvenly(t *testing.T) {
	s := newStage(t)
	s.do(t, func(e *plan.Edit) error { return e.Distribute([]plan.DeviceID{s.c, s.a, s.b}) })
	b, _ := s.Device(s.b)
	require.Equal(t, geom.Point{X: 25}, b.At())
	s.refused(t, "at least 3", func(e *plan.Edit) error { return e.Distribute([]plan.DeviceID{s.a, s.b}) })
	s.refused(t, "at least 2", func(e *plan.Edit) error { return e.Align([]plan.DeviceID{s.a, "d-99999"}, plan.AlignLeft) })
}

func TestLinksAreRenumberedRoundNamesThatStay(t *testing.T) {
	s := newStage(t)
	s.do(t, func(e *plan.Edit) error { return e.Renumber([]plan.LinkID{s.bc, s.ab}) })
	first, _ := s.Link(s.bc)
	second, _ := s.Link(s.ab)
	require.Equal(t, []string{"L01", "L02"}, []string{first.Name, second.Name})
	s.do(t, func(e *plan.Edit) error { return e.Renumber([]plan.LinkID{s.ab}) })
	second, _ = s.Link(s.ab)
	require.Equal(t, "L02", second.Name, "L01 stays with the other link")
}

// lengths are those of a link's cables in order.
func (s *stage) lengths(id plan.LinkID) (lengths []float64) {
	for _, segment := range s.SegmentsOf(id) {
		lengths = append(lengths, segment.Length)
	}
	return lengths
}

func TestCablesOfALinkAreReorderedCutJoinedAndTakenOff(t *testing.T) {
	s := newStage(t)
	s.do(t, func(e *plan.Edit) error {
		e.SetSegments(s.ab, []plan.Segment{{Kind: "cat6", Length: 10}, {Kind: "cat6", Length: 20, Coupler: "cat5e"}, {Kind: "cat6", Length: 30}})
		return nil
	})
	s.do(t, func(e *plan.Edit) error { return e.MoveSegment(s.ab, 1, 2) })
	require.Equal(t, []float64{20, 30, 10}, s.lengths(s.ab))
	require.Empty(t, s.SegmentsOf(s.ab)[0].Coupler, "the first cable needs no coupler")
	s.do(t, func(e *plan.Edit) error { return e.MoveSegment(s.ab, 3, 0) })
	require.Equal(t, []float64{10, 20, 30}, s.lengths(s.ab))
	s.do(t, func(e *plan.Edit) error { return e.SplitSegment(s.ab, 3, 12) })
	require.Equal(t, []float64{10, 20, 12, 18}, s.lengths(s.ab))
	s.do(t, func(e *plan.Edit) error { return e.JoinSegments(s.ab, 2) })
	require.Equal(t, []float64{10, 32, 18}, s.lengths(s.ab))
	s.do(t, func(e *plan.Edit) error { return e.SetCoupler(s.ab, 2, "cat5e") })
	require.Equal(t, plan.HardwareID("cat5e"), s.SegmentsOf(s.ab)[1].Coupler)
	s.do(t, func(e *plan.Edit) error { return e.RemoveSegment(s.ab, 1) })
	require.Equal(t, []float64{32, 18}, s.lengths(s.ab))
	s.refused(t, "no cable 9", func(e *plan.Edit) error { return e.RemoveSegment(s.ab, 9) })
	s.refused(t, "cannot be cut", func(e *plan.Edit) error { return e.SplitSegment(s.ab, 1, 32) })
	s.refused(t, "no coupler", func(e *plan.Edit) error { return e.SetCoupler(s.ab, 1, "cat5e") })
	s.refused(t, "two neighbours", func(e *plan.Edit) error { return e.JoinSegments(s.ab, 2) })
}

func TestALoomsLinksFollowItsRouteBetweenTheirEnds(t *testing.T) {
	s := newStage(t)
	route := []geom.Point{{X: 0, Y: 10}, {X: 10, Y: 10}, {X: 50, Y: 10}}
	var back plan.LinkID
	var loom plan.LoomID
	s.do(t, func(e *plan.Edit) (err error) {
		long := e.AddLink(plan.Link{Transport: "aes50", From: s.a, FromPort: "B", To: s.c, ToPort: "B"})
		back = e.AddLink(plan.Link{Transport: "aes50", From: s.c, FromPort: "C", To: s.a, ToPort: "C"})
		require.NoError(t, e.Draw(long, route))
		loom, err = e.MakeLoom("Snake", []plan.LinkID{long, s.bc, back})
		return err
	})
	way := func(id plan.LinkID) (points []geom.Point) {
		for _, point := range s.PointsOf(id) {
			points = append(points, point.At())
		}
		return points
	}
	require.Equal(t, route[1:], way(s.bc), "b joins at its nearest point")
	require.Equal(t, []geom.Point{route[2], route[1], route[0]}, way(back), "the other way round")
	require.Equal(t, 3, s.LoomPoints.Len())
	require.Len(t, s.LoomLinks(loom), 3)
	s.do(t, func(e *plan.Edit) error { e.DissolveLoom(loom); return nil })
	require.Zero(t, s.Looms.Len()+s.LoomPoints.Len())
	require.Equal(t, route[1:], way(s.bc), "ways stay")
	s.refused(t, "at least two links", func(e *plan.Edit) error { _, err := e.MakeLoom("x", []plan.LinkID{s.ab}); return err })
}
