package laying_test

import (
	"fmt"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"

	"stageloom/model/budget"
	"stageloom/model/catalogue"
	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/ui/dialogs"
	"stageloom/ui/dialogs/hosttest"
	"stageloom/ui/laying"
	"stageloom/ui/looptest"
	"stageloom/ui/pointer"
	"stageloom/ui/strip"
	"stageloom/ui/text"
)

// rig is a host with a stage box and a console with two AES50 ports each, of which one pair is linked.
type rig struct {
	*hosttest.Host
	*laying.Dialogs
	refused  error
	link     plan.Ref
	foreseen []budget.Budget
	entered  int
	library  house.Library
	from     string
	under    plan.Ref // what lies under the pointer
}

func newRig(t *testing.T) *rig {
	t.Helper()
	r := &rig{}
	p, err := plan.Do(plan.New("Test"), plan.NewIDSource(3, 4), func(e *plan.Edit) error {
		for _, kind := range []plan.KindID{"stagebox-40-20", "console-56"} {
			require.NoError(t, catalogue.Use(e, kind))
		}
		require.NoError(t, catalogue.UseCable(e, "cat5e"))
		box := e.AddDevice(plan.Device{Name: "Box", Kind: "stagebox-40-20"})
		console := e.AddDevice(plan.Device{Name: "FOH", Kind: "console-56", X: 50})
		id := e.AddLink(plan.Link{Transport: "aes50", From: box, FromPort: "AES50 1", To: console, ToPort: "AES50 1", FillKind: "cat5e"})
		r.link = plan.Ref{Table: plan.LinksTable, Key: plan.Key(id)}
		return nil
	})
	require.NoError(t, err)
	r.Host = hosttest.New(t, p)
	r.Dialogs = &laying.Dialogs{
		Host: r.Host, Strip: strip.New(strip.Run{}), EnterStrip: func() { r.entered++ }, Ground: r, Sign: pointer.NewSign(),
		Do: func(name string, edit func(*plan.Edit) error) { r.refused = r.Host.Desk().Do(name, edit) }, Refused: func(err error) { r.refused = err }, Foresee: func(b ...budget.Budget) { r.foreseen = b },
		Library: func() house.Library { return r.library }, PickFrom: func() string { return r.from }, KeepPickFrom: func(from string) { r.from = from },
	}
	return r
}

func (r *rig) AddLink(link plan.Link) error {
	return r.Host.Desk().Do("Link", func(e *plan.Edit) error { e.AddLink(link); return nil })
}

func (r *rig) SelectLoom() bool { return false }

func (r *rig) RowAt(fyne.Position) (plan.Ref, bool) { return r.under, r.under != plan.Ref{} }

func (r *rig) plan() *plan.Plan { return r.Host.Desk().Plan() }

func (r *rig) cables() []plan.Segment { return r.plan().SegmentsOf(plan.LinkID(r.link.Key)) }

func TestTwoPortsThatFitAreLinked(t *testing.T) {
	r := newRig(t)
	r.LinkPorts()
	lists := r.Lists()
	require.Len(t, lists, 4, "a device and a port at each end")
	require.True(t, r.Reads("Choose a device and a port at each end"))
	lists[0].SetSelected("Box")
	require.NotContains(t, lists[1].Options, "AES50 1", "it is in use")
	lists[1].SetSelected("AES50 2")
	require.Equal(t, []string{"FOH"}, lists[2].Options, "the far end is not at the near end's")
	lists[2].SetSelected("FOH")
	require.Equal(t, "AES50 2", lists[3].Selected, "the first that fits")
	r.Tap("Link")
	require.Equal(t, 2, r.plan().Links.Len())
	require.Zero(t, r.Open())

	r.Host.Desk().NewPlan(plan.New("Empty"))
	r.LinkPorts()
	require.Contains(t, r.Said, "A link needs two devices")
}

func TestACableIsForeseenBeforeItIsLaid(t *testing.T) {
	r := newRig(t)
	r.LayCable()
	require.Contains(t, r.Said, "Select one link")
	r.Host.Desk().Select(r.link)
	r.LayCable()
	length := r.Item("Length").(*dialogs.Entry)
	length.SetText("much")
	require.True(t, r.Reads(`"much"`))
	length.SetText("60 m")
	require.True(t, r.Reads("Then 60 m of cable for a run of"))
	require.Empty(t, r.cables())
	r.Tap("Add")
	require.Len(t, r.cables(), 1)
	require.Zero(t, r.entered, "it began at the plan")

	r.LayBy(strip.Change{Doing: strip.Insert, Place: 0})
	r.Host.Keys().GiveUp()
	require.Equal(t, 1, r.entered, "who worked in the strip goes on there")
	words := r.Try(strip.Change{Doing: strip.Remove, Order: 1})
	require.Contains(t, words, "to reach")
	require.Len(t, r.foreseen, 1)
	require.Contains(t, r.Try(strip.Change{Doing: strip.Remove, Order: 7}), "There is no cable 7 in this link any more")
	require.Empty(t, r.foreseen, "what cannot be done has no figures")
	r.TakeLastOff()
	require.Empty(t, r.cables())
}

func TestACableIsCarriedOntoALinkOfThePlan(t *testing.T) {
	r := newRig(t)
	offer, at := text.CableOffer{Kind: "cat5e", Length: 60}, fyne.NewPos(500, 400)
	r.CarryCable(offer, at)
	require.Equal(t, "Cat 5e · 60 m", r.Sign.Words())
	r.DropCable(offer, at)
	require.Contains(t, r.Said, "Drop a cable on")
	require.Empty(t, r.Sign.Words())
	r.under = r.link
	r.CarryCable(offer, at)
	require.Contains(t, r.Sign.Words(), "Cat 5e · 60 m   L01:")
	require.Len(t, r.foreseen, 1)
	require.Empty(t, r.cables(), "it is only carried yet")
	r.DropCable(offer, at)
	require.Len(t, r.cables(), 1)
	require.Equal(t, []plan.Ref{r.link}, r.Host.Desk().Selection())
}

func TestALinkIsDoubledWithItsCables(t *testing.T) {
	r := newRig(t)
	r.Host.Desk().Select(r.link)
	r.LayOffered(text.CableOffer{Kind: "cat5e", Length: 60})
	r.Double()
	doubled := r.Host.Desk().SelectedLinks()
	require.Len(t, doubled, 1)
	require.Equal(t, 60.0, r.plan().SegmentsOf(doubled[0])[0].Length)
	r.Double()
	require.Equal(t, "No two free ports of Box and FOH fit each other.", r.Said)
}

func TestLoomsWantLinks(t *testing.T) {
	r := newRig(t)
	require.False(t, r.AboutLooms())
	r.Host.Desk().Select(r.link)
	require.True(t, r.AboutLooms())
	r.LoomMenu().ChildMenu.Items[0].Action()
	require.ErrorContains(t, r.refused, "a loom needs at least two links")
	r.PickCables()
	require.Contains(t, r.Said, "no stock to pick from")
}

func TestOneLinkThatIsNotPairedSaysWhatIsMissing(t *testing.T) {
	r := newRig(t)
	r.Host.Desk().Select(r.link)
	link, _ := r.Host.Desk().Plan().Link(plan.LinkID(r.link.Key))
	before := r.Host.Desk().NextUndo()
	r.Pair()
	require.Equal(t, link.Name+" is no half of a pair: select its backup too, with Shift, and press Ctrl B again.", r.Said)
	require.Equal(t, before, r.Host.Desk().NextUndo(), "nothing is changed")
}

func TestTheBoxesOfAPickAreLeftByEscape(t *testing.T) {
	looptest.NewApp(t) // the pick hands over what it found in a turn of the test, which takes none
	r := newRig(t)
	require.NoError(t, r.Host.Desk().Do("Reel", func(e *plan.Edit) error {
		e.AddReel(plan.Reel{Kind: "cat5e", Length: 60, Quantity: 2})
		return nil
	}))
	r.PickCables()
	boxes := 0
	for _, part := range r.Parts() {
		if check, is := part.(*dialogs.Check); is && check.Text != "" {
			boxes++
		}
	}
	require.GreaterOrEqual(t, boxes, 6, "its boxes are of the dialog, so that Escape leaves them")
	for _, part := range r.Parts() {
		if check, is := part.(*dialogs.Check); is {
			check.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
			break
		}
	}
	require.Zero(t, r.Open())
}

func TestTheKindsOfAPickStandWhole(t *testing.T) {
	looptest.NewApp(t)
	for name, wide := range map[string]bool{"short": false, "a kind of cable with a long name of its own": true} {
		r := newRig(t)
		require.NoError(t, r.Host.Desk().Do("Reels", func(e *plan.Edit) error {
			for i := range 4 {
				id := plan.CableKindID(fmt.Sprint("own", i))
				plan.Put(e, plan.CableKind{ID: id, Name: fmt.Sprint(name, " ", i), Media: "balanced-pair", Category: "cat5e"})
				e.AddReel(plan.Reel{Kind: id, Length: 60})
			}
			return nil
		}))
		r.PickCables()
		places := map[float32]bool{}
		for _, part := range r.Parts() {
			if check, is := part.(*dialogs.Check); is && strings.HasPrefix(check.Text, name) {
				require.LessOrEqual(t, check.MinSize().Width, check.Size().Width+0.5, check.Text)
				places[check.Position().X] = true
			}
		}
		require.Len(t, places, map[bool]int{true: 1, false: 2}[wide], "columns of %s", name)
	}
}
