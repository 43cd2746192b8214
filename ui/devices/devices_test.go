package devices_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"

	"stageloom/model/catalogue"
	"stageloom/model/geom"
	"stageloom/model/house"
	"stageloom/model/picture"
	"stageloom/model/plan"
	"stageloom/ui/devices"
	"stageloom/ui/dialogs"
	"stageloom/ui/dialogs/hosttest"
	"stageloom/ui/pointer"
	"stageloom/ui/text"
)

// ground shows ten points a metre, whose left edge lies at 200 points of the window; places snap to whole metres.
type ground struct{ revealed plan.Ref }

func (g *ground) View() picture.View  { return picture.View{Scale: 10} }
func (g *ground) Middle() geom.Point  { return geom.Pt(40.2, 0) }
func (g *ground) Reveal(ref plan.Ref) { g.revealed = ref }
func (g *ground) Snapped(p geom.Point) geom.Point {
	return geom.Pt(float64(int(p.X)), float64(int(p.Y)))
}

func (g *ground) MetresAt(at fyne.Position) (geom.Point, bool) {
	return geom.Pt(float64(at.X-200)/10, 0), at.X >= 200
}

func (g *ground) PlaceOf(p geom.Point) fyne.Position { return fyne.NewPos(200+10*float32(p.X), 0) }

type rig struct {
	*hosttest.Host
	*devices.Dialogs
	refused error
	ground  *ground
	inList  bool
	shown   []catalogue.DeviceKind
	taken   []plan.DeviceID
}

func newRig(t *testing.T) *rig {
	t.Helper()
	r := &rig{Host: hosttest.New(t, plan.New("Test")), ground: &ground{}}
	library := house.Open(t.TempDir())
	r.Dialogs = &devices.Dialogs{
		Host: r.Host, Ground: r.ground, Sign: pointer.NewSign(), Library: func() house.Library { return library },
		ShowKinds: func(_ *plan.Plan, own []catalogue.DeviceKind) { r.shown = own }, InList: func() bool { return r.inList },
		Do: func(name string, edit func(*plan.Edit) error) { r.refused = r.Host.Desk().Do(name, edit) }, Refused: func(err error) { r.refused = err }, WarnAlso: r.Host.Warn, Clear: func() { r.Said = "" },
		Taken: func(_ string, taken []plan.DeviceID) { r.taken = taken },
	}
	return r
}

func (r *rig) device(t *testing.T) plan.Device {
	t.Helper()
	selected := r.Host.Desk().SelectedDevices()
	require.Len(t, selected, 1)
	device, _ := r.Host.Desk().Plan().Device(selected[0])
	return device
}

var box = text.EquipmentRow{Kind: "stagebox-40-20", Name: "Stage box"}

func TestAKindIsCarriedOntoThePlan(t *testing.T) {
	r := newRig(t)
	r.Carry(box, fyne.NewPos(100, 0))
	require.Equal(t, "Stage box", r.Sign.Words())
	r.Drop(box, fyne.NewPos(100, 0))
	require.Empty(t, r.Sign.Words())
	require.Zero(t, r.Host.Desk().Plan().Devices.Len(), "beside the plan it is given up")
	r.Drop(box, fyne.NewPos(274, 0))
	require.Equal(t, geom.Pt(7, 0), r.device(t).At(), "where places snap to")

	r.Drop(text.EquipmentRow{Position: true, Name: "Position"}, fyne.NewPos(280, 0))
	require.Len(t, r.taken, 1, "the position takes in what stands there")
}

func TestWhatIsPutInTheMiddleStandsOnNothing(t *testing.T) {
	r := newRig(t)
	r.Place(box)
	require.Equal(t, geom.Pt(40, 0), r.device(t).At())
	r.Place(box)
	require.GreaterOrEqual(t, r.device(t).At().Distance(geom.Pt(40, 0)), 13.0, "130 points at ten a metre")
	r.inList = true
	r.Place(box)
	require.True(t, r.device(t).Unplaced)
	require.Equal(t, plan.RefOf(r.device(t)), r.ground.revealed)
	require.Contains(t, r.Said, "is in the list, without a place on the ground")
}

func TestDevicesAreAddedByTheDozen(t *testing.T) {
	r := newRig(t)
	var made plan.Ref
	r.Ask(func(ref plan.Ref) { made = ref })
	r.Tap("Add")
	require.True(t, r.Reads("Choose what it is."))
	kind := r.Item("Kind").(*dialogs.Chooser)
	kind.SetSelectedIndex(0)
	r.Item("How many").(*dialogs.Entry).SetText("201")
	r.Tap("Add")
	require.True(t, r.Reads("1 to 200"))
	require.Zero(t, r.Host.Desk().Plan().Devices.Len())
	r.Item("Name").(*dialogs.Entry).SetText("Rack")
	r.Item("How many").(*dialogs.Entry).SetText("3")
	r.Tap("Add")
	require.Zero(t, r.Open())
	require.Equal(t, 3, r.Host.Desk().Plan().Devices.Len())
	first, _ := r.Host.Desk().Plan().Device(plan.DeviceID(made.Key))
	require.Equal(t, "Rack", first.Name)
	r.Host.Desk().Select(made)
	r.TakeOff()
	require.Equal(t, "Rack is in the list now, without a place. Links keep the metres that were typed; the others want them.", r.Said)
	r.Gather()
	require.Equal(t, "New position", r.Host.Desk().NextUndo())
}

func TestOnesOwnKindsAreListed(t *testing.T) {
	r := newRig(t)
	r.ListKinds()
	require.Empty(t, r.shown)
	own, _ := catalogue.DeviceKindOf(box.Kind)
	own.Kind.Name = "Our box"
	require.NoError(t, r.Library().Keep(own))
	r.ListKinds()
	require.Len(t, r.shown, 1)
	require.Equal(t, r.shown, r.OwnKinds())
	r.Place(box)
	kind, _ := r.Host.Desk().Plan().Kinds.Get(plan.Key(box.Kind))
	require.Equal(t, "Our box", kind.Name, "it goes before the catalogue's")
	r.Host.Desk().Select()
	r.OwnKind()
	require.Contains(t, r.Said, "Select one device")
}
