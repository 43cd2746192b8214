package planview_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/stretchr/testify/require"

	"stageloom/model/demo"
	"stageloom/model/geom"
	"stageloom/model/plan"
)

func refOf(d plan.Device) plan.Ref { return plan.RefOf(d) }

func positionNamed(t *testing.T, p *plan.Plan, name string) plan.Position {
	t.Helper()
	for position := range p.Positions.All() {
		if position.Name == name {
			return position
		}
	}
	require.Fail(t, "no position "+name)
	return plan.Position{}
}

// rowed is the demo at fit, where the FOH tower is a box of rows.
func rowed(t *testing.T) *stand {
	s := newStand(t, demo.Weekender(), 1000, 700)
	console, _ := s.Where(refOf(s.device("FOH console")))
	guest, _ := s.Where(refOf(s.device("Guest console")))
	require.InDelta(t, console.Width(), guest.Width(), 1e-6, "rows of one box")
	require.InDelta(t, console.Min.X, guest.Min.X, 1e-6)
	return s
}

func TestARowIsPickedAndDraggedAsItsDevice(t *testing.T) {
	s := rowed(t)
	for _, name := range []string{"FOH console", "Guest console", "FOH drop"} {
		ref, found := s.Pick(s.middle(t, name))
		require.True(t, found)
		require.Equal(t, refOf(s.device(name)), ref)
	}
	from, before, view := s.middle(t, "Guest console"), s.device("Guest console").At(), s.View()
	to := from.Add(geom.Point{X: -150, Y: 190})
	_, _, over := s.PositionAt(to)
	require.False(t, over, "the test drops it on open ground")
	(&hand{s: s}).drag(from, from.Add(geom.Point{X: -20}), to)
	moved := s.device("Guest console").At().Sub(before)
	require.InDelta(t, -150/view.Scale, moved.X, 0.001)
	require.InDelta(t, -190/view.Scale, moved.Y, 0.001)
	require.Empty(t, s.device("Guest console").Position)
	require.Regexp(t, "^Move Guest console by", s.desk.NextUndo())
}

func TestADeviceDroppedOnABoxOfRowsStandsWithinItsPosition(t *testing.T) {
	s := rowed(t)
	tower := positionNamed(t, s.desk.Plan(), "FOH tower")
	outline, _ := tower.Outline()
	box, _ := s.Where(refOf(s.device("FOH drop")))
	onto := box.Min.Add(geom.Point{X: 4, Y: 4})
	require.False(t, outline.Contains(s.View().Metres(onto)), "seen inside, and yet outside on the ground")
	metres, over := s.MetresAt(fyne.NewPos(float32(onto.X), float32(onto.Y)))
	require.True(t, over)
	require.True(t, outline.Contains(metres), "what comes out of a list")
	from := s.middle(t, "Delay left")
	(&hand{s: s}).drag(from, from.Add(geom.Point{X: -20}), onto)
	require.Equal(t, tower.ID, s.device("Delay left").Position)
	require.True(t, outline.Contains(s.device("Delay left").At()))
	free := geom.Point{X: 3, Y: 3}
	metres, _ = s.MetresAt(s.PlaceOf(s.View().Metres(free)))
	require.InDelta(t, 0, s.View().Metres(free).Distance(metres), 0.01, "open ground stays what it is")
}

func TestPortsOfTheRowUnderThePointerTakeALink(t *testing.T) {
	s := rowed(t)
	console, drop := s.device("FOH console"), s.device("Stage rack")
	at := s.middle(t, "FOH console")
	port := plan.Ref{Table: plan.DevicesTable, Key: console.Key(), Part: "AES50 1"}
	before := s.window.Canvas().Capture()
	s.hover(at)
	require.NotEqual(t, before, s.window.Canvas().Capture(), "its ports are seen")
	row, _ := s.Where(refOf(console))
	free := plan.Ref{}
	var from geom.Point
	for x := row.Min.X - 200; x < row.Max.X+200 && free.Part == ""; x += 3 {
		for y := row.Min.Y - 20; y < row.Max.Y+20 && free.Part == ""; y += 3 {
			ref, found := s.Pick(geom.Point{X: x, Y: y})
			if found && ref.Key == console.Key() && ref.Part != "" && !held(s.desk.Plan(), console.ID, ref.Part) {
				free, from = ref, geom.Point{X: x, Y: y}
			}
		}
	}
	require.NotEmpty(t, free.Part, "a free port like %s", port.Part)
	require.False(t, row.Contains(from), "beside its row")
	s.hover(from)
	ref, found := s.Pick(from)
	require.True(t, found)
	require.Equal(t, free, ref, "the way to a port keeps it there")
	links := s.desk.Plan().Links.Len()
	(&hand{s: s}).drag(from, from.Add(geom.Point{X: 5}), s.middle(t, "Stage rack"))
	require.Equal(t, links+1, s.desk.Plan().Links.Len())
	link, _ := s.desk.Plan().Link(plan.LinkID(s.desk.Selection()[0].Key))
	require.Equal(t, console.ID, link.From)
	require.Equal(t, drop.ID, link.To)
	s.desk.Select()
	s.MouseOut()
	_, found = s.Pick(from)
	require.NotEqual(t, free, first(s.Pick(from)), "no port where the pointer is not: %v", found)
}

func first(ref plan.Ref, _ bool) plan.Ref { return ref }

func held(p *plan.Plan, device plan.DeviceID, port string) bool {
	for link := range p.Links.All() {
		if link.From == device && link.FromPort == port || link.To == device && link.ToPort == port {
			return true
		}
	}
	return false
}

func TestTheBandTakesRowsAndWhatAHeadCounts(t *testing.T) {
	s := rowed(t)
	console, _ := s.Where(refOf(s.device("FOH console")))
	guest, _ := s.Where(refOf(s.device("Guest console")))
	band := console.Union(guest).Inset(-2)
	require.ElementsMatch(t, []plan.Ref{refOf(s.device("FOH console")), refOf(s.device("Guest console"))}, s.Within(band))
	for range 16 { // until heads only count
		s.SetView(s.View().Zoomed(0.8, geom.Point{X: 500, Y: 350}))
	}
	head, found := s.Where(refOf(s.device("FOH console")))
	require.True(t, found)
	ref, _ := s.Pick(head.Centre())
	require.Equal(t, plan.PositionsTable, ref.Table, "it counts several")
	require.Contains(t, s.Within(head.Inset(-2)), refOf(s.device("FOH console")))
	id, _, found := s.DeviceAt(head.Centre())
	require.True(t, found)
	require.Empty(t, id, "a link drawn there would not know which")
}

func TestAnEdgeOfAPositionWinsOverASelectedArea(t *testing.T) {
	s := newStand(t, demo.Weekender(), 1000, 700)
	var area plan.AreaID
	require.NoError(t, s.desk.Do("Add", func(e *plan.Edit) error {
		area = "a-22222"
		plan.Put(e, plan.Area{ID: area, Name: "Lawn", Use: "crowd"})
		for i, at := range []geom.Point{{X: 190, Y: -240}, {X: 330, Y: -240}, {X: 330, Y: -100}, {X: 190, Y: -140}} {
			plan.Put(e, plan.AreaPoint{Area: area, Order: i + 1, X: at.X, Y: at.Y})
		}
		e.AddPosition(plan.Position{Name: "Wide", X: 260, Y: -190, Width: 60, Depth: 40})
		e.AddPosition(plan.Position{Name: "Small", X: 260, Y: -190, Width: 20, Depth: 10})
		return nil
	}))
	s.Fit()
	wide, small := positionNamed(t, s.desk.Plan(), "Wide"), positionNamed(t, s.desk.Plan(), "Small")
	s.desk.Select(plan.Ref{Table: plan.AreasTable, Key: plan.Key(area)})
	outline, _ := wide.Outline()
	edge := s.View().Point(geom.Point{X: outline.Min.X, Y: outline.Min.Y + 3})
	for _, off := range []float64{-4, 4} {
		ref, _ := s.Pick(edge.Add(geom.Point{X: off}))
		require.Equal(t, plan.RefOf(wide), ref, "%+.0f points off its edge", off)
	}
	ref, _ := s.Pick(s.View().Point(small.At().Add(geom.Point{X: 7, Y: 3})))
	require.Equal(t, plan.RefOf(small), ref, "the smaller of two")
	ref, _ = s.Pick(edge.Add(geom.Point{X: -20}))
	require.Equal(t, plan.AreasTable, ref.Table)
	s.MouseDown(&desktop.MouseEvent{PointEvent: (&hand{}).event(edge.Add(geom.Point{X: -4})), Button: desktop.MouseButtonPrimary})
	s.MouseUp(&desktop.MouseEvent{PointEvent: (&hand{}).event(edge.Add(geom.Point{X: -4})), Button: desktop.MouseButtonPrimary})
	require.True(t, s.desk.Selected(plan.RefOf(wide)))
	(&hand{s: s}).drag(edge.Add(geom.Point{X: -4}), edge.Add(geom.Point{X: -30}), edge.Add(geom.Point{X: -50}))
	require.Greater(t, positionNamed(t, s.desk.Plan(), "Wide").Width, 60.0, "its edge follows, wherever its name lies")
}

func TestTheEdgesOfAPositionInRowsAreThoseOnTheGround(t *testing.T) {
	s := rowed(t)
	s.SetView(s.View().Zoomed(1.6, s.middle(t, "FOH console")))
	tower := positionNamed(t, s.desk.Plan(), "FOH tower")
	s.desk.Select(plan.RefOf(tower))
	outline, _ := tower.Outline()
	left := s.View().Point(outline.Min).X
	box := geom.EmptyBox()
	for device := range s.desk.Plan().Devices.All() {
		if row, found := s.Where(refOf(device)); found && device.Position == tower.ID {
			box = box.Union(row)
		}
	}
	require.Less(t, box.Min.X, left-10, "its box reaches beyond its outline")
	before := s.desk.Plan()
	head := geom.Point{X: box.Min.X + 3, Y: box.Min.Y - 9}
	(&hand{s: s}).drag(head, head.Add(geom.Point{X: 10}), head.Add(geom.Point{X: 40}))
	after := positionNamed(t, s.desk.Plan(), "FOH tower")
	require.NotSame(t, before, s.desk.Plan())
	require.Equal(t, tower.Width, after.Width, "the edge of the box moves it, and does not shrink it to nothing")
}
