package tool_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/geom"
	"stageloom/model/plan"
	"stageloom/ui/planview/tool"
)

// port is the place of a device's port in the view.
func (b *board) port(name, port string) geom.Point {
	for _, place := range b.picture().PortPlaces(b.device(name).ID) {
		if place.Name == port {
			return place.At
		}
	}
	return geom.Point{}
}

// select1 selects one device, which shows its ports.
func (b *board) selectDevice(name string) { b.desk.Select(ref(b.device(name))) }

func TestALinkIsDrawnFromPortToPort(t *testing.T) {
	h, b := set(t)
	b.selectDevice("SL box")
	from, to := b.port("SL box", "B"), b.port("System", "B")
	press(h, from)
	require.Nil(t, h.Sketching())
	h.Move(from.Add(geom.Point{X: 200}))
	sketch := h.Sketching()
	require.NotNil(t, sketch)
	require.Positive(t, sketch.Budget.Run, "measured along the ground while it is drawn")
	require.Empty(t, sketch.To)
	h.Move(to)
	require.Equal(t, b.device("System").ID, sketch.To)
	require.Equal(t, "B", sketch.ToPort)
	before := b.desk.Plan().Links.Len()
	require.NoError(t, h.Release(to))
	require.Equal(t, before+1, b.desk.Plan().Links.Len())
	require.Equal(t, "Link L02", b.desk.NextUndo())
	link, _ := b.desk.Plan().Link(plan.LinkID(b.desk.Selection()[0].Key))
	require.Equal(t, "B", link.FromPort)
	require.Equal(t, plan.CableKindID("cat6a"), link.FillKind, "the kind that this plan's links want")
	got, _ := b.desk.Assessment().Budget(link.ID)
	require.Equal(t, sketch.Budget.Run, got.Run, "what was shown is what it is")
}

func TestALinkDroppedOnADeviceTakesTheFirstPortThatFits(t *testing.T) {
	h, b := set(t)
	b.selectDevice("SL box")
	press(h, b.port("SL box", "B"))
	over := b.middle(ref(b.device("FOH"))).Sub(geom.Point{Y: 8})
	h.Move(over)
	require.Equal(t, "B", h.Sketching().ToPort, "port A holds a link already")
	require.NoError(t, h.Release(over))
}

func TestAPortThatDoesNotFitSaysWhy(t *testing.T) {
	h, b := set(t)
	b.selectDevice("SL box")
	press(h, b.port("SL box", "B"))
	held := b.port("FOH", "A")
	h.Move(held)
	require.Contains(t, h.Sketching().Reason, "holds L01 already")
	err := h.Release(held)
	require.ErrorContains(t, err, "not linked: port A of FOH holds L01 already")
	require.Equal(t, "Set up", b.desk.NextUndo())
}

func TestALinkGivenUpOrDroppedOnNothingIsNone(t *testing.T) {
	h, b := set(t)
	b.selectDevice("SL box")
	press(h, b.port("SL box", "B"))
	h.Move(geom.Point{X: 500, Y: 600})
	require.True(t, h.Cancel())
	press(h, b.port("SL box", "B"))
	h.Move(geom.Point{X: 500, Y: 600})
	require.NoError(t, h.Release(geom.Point{X: 500, Y: 600}))
	require.Equal(t, "Set up", b.desk.NextUndo())
}

func TestAPressOnAPortInUseSelectsItsLink(t *testing.T) {
	h, b := set(t)
	b.selectDevice("SL box")
	at := b.port("SL box", "A")
	press(h, at)
	require.NoError(t, h.Release(at))
	require.Equal(t, "links", b.desk.Selection()[0].Table)
}

// onLine selects the only link and returns a place on its line.
func onLine(t *testing.T, b *board) (plan.LinkID, geom.Point) {
	t.Helper()
	id := b.desk.Plan().Links.At(0).ID
	b.desk.Select(plan.Ref{Table: "links", Key: plan.Key(id)})
	a, c := b.view.Point(b.device("SL box").At()), b.view.Point(b.device("FOH").At())
	return id, a.Between(c, 0.4)
}

func TestAWayPointIsPulledOutMovedAndTakenAway(t *testing.T) {
	h, b := set(t)
	id, at := onLine(t, b)
	run, _ := b.desk.Assessment().Budget(id)
	press(h, at)
	h.Move(at.Add(geom.Point{Y: 150}))
	require.Greater(t, h.Bending().Budget.Way, run.Way-10)
	require.Len(t, h.Preview().Budgets, 1)
	require.NoError(t, h.Release(at.Add(geom.Point{Y: 150})))
	require.Equal(t, "Draw way of L01", b.desk.NextUndo())
	points := b.desk.Plan().PointsOf(id)
	require.Len(t, points, 1)
	place := b.view.Point(points[0].At())
	require.InDelta(t, at.Y+150, place.Y, 0.1)

	press(h, place)
	h.Move(place.Add(geom.Point{X: 50}))
	require.NoError(t, h.Release(place.Add(geom.Point{X: 50})))
	require.InDelta(t, points[0].X+5, b.desk.Plan().PointsOf(id)[0].X, 0.01, "the handle moves the point, it adds none")

	require.NoError(t, h.Nudge(geom.Point{X: 1}))
	require.InDelta(t, points[0].X+6, b.desk.Plan().PointsOf(id)[0].X, 0.01, "arrows move the way point that was touched")
	removed, err := h.RemoveWayPoint()
	require.NoError(t, err)
	require.True(t, removed)
	link, _ := b.desk.Plan().Link(id)
	require.Equal(t, "straight", link.Way)
	removed, err = h.RemoveWayPoint()
	require.NoError(t, err)
	require.False(t, removed)
}

func TestAWayIsDrawnByKeys(t *testing.T) {
	h, b := set(t)
	id, _ := onLine(t, b)
	require.NoError(t, h.AddWayPoint())
	require.NoError(t, h.Nudge(geom.Point{Y: -10}))
	require.NoError(t, h.AddWayPoint())
	points := b.desk.Plan().PointsOf(id)
	require.Len(t, points, 2)
	require.InDelta(t, -8.5, points[0].Y, 1.6)
	b.desk.Select()
	require.NoError(t, h.AddWayPoint(), "with no link selected there is nothing to add to")
	require.Len(t, b.desk.Plan().PointsOf(id), 2)
}

func TestPlacesSnapToAGrid(t *testing.T) {
	h, b := set(t)
	h.SetSnap(0.5)
	at := b.middle(ref(b.device("SL box")))
	press(h, at)
	h.Move(at.Add(geom.Point{X: 33, Y: -18}))
	require.NoError(t, h.Release(at.Add(geom.Point{X: 33, Y: -18})))
	require.Equal(t, geom.Point{X: 3.5, Y: 2}, b.device("SL box").At())
}

func TestALengthIsMeasuredAndStaysUntilTheNextPress(t *testing.T) {
	h, b := set(t)
	h.Measure()
	require.True(t, h.MeasureNext())
	a := b.view.Point(geom.Point{X: 10, Y: 5})
	press(h, a)
	h.Move(b.view.Point(geom.Point{X: 13, Y: 9}))
	require.NoError(t, h.Release(b.view.Point(geom.Point{X: 13, Y: 9})))
	require.InDelta(t, 5, h.Measuring().To.Distance(h.Measuring().From), 1e-9)
	require.False(t, h.MeasureNext())
	require.Empty(t, b.desk.Selection())
	h.Press(tool.Pointer{At: geom.Point{X: 500, Y: 650}})
	require.Nil(t, h.Measuring())
	require.True(t, h.Cancel())
}

func TestARightClickOnAWayPointMakesItTheOneToTakeAway(t *testing.T) {
	h, b := set(t)
	id, _ := onLine(t, b)
	require.NoError(t, h.AddWayPoint())
	require.NoError(t, h.Nudge(geom.Point{Y: 9}))
	b.desk.Select()
	b.desk.Select(plan.Ref{Table: "links", Key: plan.Key(id)})
	place := b.view.Point(b.desk.Plan().PointsOf(id)[0].At())
	h.Press(tool.Pointer{At: place, Button: tool.Secondary})
	_, found := h.WayPoint()
	require.True(t, found)
	h.Press(tool.Pointer{At: geom.Point{X: 500, Y: 650}, Button: tool.Secondary})
	_, found = h.WayPoint()
	require.False(t, found)
}
