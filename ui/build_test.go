package ui_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"stageloom/model/house"
	"stageloom/model/plan"
)

func (s *screen) device(name string) (found plan.Device) {
	for device := range s.desk.Plan().Devices.All() {
		if device.Name == name {
			found = device
		}
	}
	return found
}

// find goes to what a search finds first.
func (s *screen) find(text string) {
	s.t.Helper()
	s.choose("Edit", "Find…")
	entry := s.entries()[0]
	entry.SetText(text)
	entry.OnSubmitted(entry.Text)
}

// tapCheck taps the check of the topmost dialog.
func (s *screen) tapCheck() {
	overlays := s.window.Canvas().Overlays().List()
	for _, object := range test.LaidOutObjects(overlays[len(overlays)-1]) {
		if check, ok := object.(*widget.Check); ok {
			check.SetChecked(true)
		}
	}
}

func TestLinksAreChosenByWhatTheyHaveInCommon(t *testing.T) {
	s := open(t, "light", demoFile(t))
	s.choose("Edit", "Select links", "over")
	require.Equal(t, []string{"L03"}, s.state().Selection)
	s.choose("Edit", "Select links", "Fibre")
	var fibre []string
	for link := range s.desk.Plan().Links.All() {
		if link.Transport == "fibre" {
			fibre = append(fibre, link.Name)
		}
	}
	require.ElementsMatch(t, fibre, s.state().Selection)
	s.desk.Select(plan.RefOf(s.device("Broadcast van")))
	s.choose("Edit", "Select links", "at the selected devices")
	require.Subset(t, s.state().Selection, []string{"L23", "L24", "L25"})
	require.Len(t, s.state().Selection, len(s.desk.Plan().LinksAt(s.device("Broadcast van").ID)))
	s.choose("Edit", "Select links", "too short")
	require.Contains(t, s.state().Notice, "No link")
}

func TestDevicesAreArrangedFromTheMenu(t *testing.T) {
	s := open(t, "light", demoFile(t))
	s.desk.Select(plan.RefOf(s.device("PA left")), plan.RefOf(s.device("PA right")))
	s.choose("Edit", "Arrange devices", "to the top one")
	require.Equal(t, s.device("PA left").Y, s.device("PA right").Y)
	require.Equal(t, "Arrange: to the top one", s.desk.NextUndo())
	s.choose("Edit", "Arrange devices", "evenly spaced")
	require.Contains(t, s.state().Notice, "at least 3 devices")
}

func TestALinkIsDoubledReversedPairedStraightenedAndDeleted(t *testing.T) {
	s := open(t, "light", demoFile(t))
	before := s.desk.Plan()
	s.choose("Edit", "Next link")
	s.choose("Links", "Double")
	require.Contains(t, s.state().Notice, "No two free ports", "all AES50 ports of the console are in use")
	s.find("L11")
	s.choose("Links", "Double")
	require.Equal(t, before.Links.Len()+1, s.desk.Plan().Links.Len())
	double := s.desk.Selection()[0]
	link, _ := s.desk.Plan().Link(plan.LinkID(double.Key))
	require.Len(t, s.desk.Plan().SegmentsOf(link.ID), 3, "its cables by kind and length: a reel lies in one link")
	s.choose("Links", "Reverse")
	turned, _ := s.desk.Plan().Link(link.ID)
	require.Equal(t, link.From, turned.To)
	s.choose("Links", "Straighten")
	require.Empty(t, s.desk.Plan().PointsOf(link.ID))
	s.choose("Edit", "Delete")
	require.Contains(t, s.state().Notice, link.Name+" is gone")
	for s.desk.NextUndo() != "" {
		s.desk.Undo()
	}
	require.True(t, plan.Equal(before, s.desk.Plan()))
}

func TestADeletedDeviceSaysWhatGoesWithIt(t *testing.T) {
	s := open(t, "light", demoFile(t))
	s.desk.Select(plan.RefOf(s.device("FOH console")))
	s.choose("Edit", "Delete")
	require.Equal(t, 1, s.state().Overlays, "it asks beforehand")
	require.True(t, s.reads("Delete FOH console?"))
	yes := s.button("Delete")
	require.Equal(t, widget.DangerImportance, yes.Importance)
	popUp := s.window.Canvas().Overlays().Top().(*widget.PopUp)
	require.InDelta(t, popUp.Content.MinSize().Height, popUp.Content.Size().Height, 1, "as high as what it says")
	before := s.desk.Plan().Links.Len()
	s.tap("Keep")
	require.Equal(t, before, s.desk.Plan().Links.Len())
	s.choose("Edit", "Delete")
	s.window.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	require.Zero(t, s.state().Overlays, "Escape keeps")
	require.Equal(t, before, s.desk.Plan().Links.Len())
	s.choose("Edit", "Delete")
	s.window.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	require.Contains(t, s.state().Notice, "FOH console is gone, with 7 links")
	require.Equal(t, before-7, s.desk.Plan().Links.Len())
	require.Empty(t, s.state().Selection)
	s.choose("Edit", "Delete")
	require.Contains(t, s.state().Notice, "Nothing is selected")
}

func TestWhatIsFoundIsShown(t *testing.T) {
	s := open(t, "light", demoFile(t))
	s.find("second con")
	require.Equal(t, []string{"Second console"}, s.state().Selection)
	require.Zero(t, s.state().Overlays)
}

func TestARowIsRenamed(t *testing.T) {
	s := open(t, "light", demoFile(t))
	s.desk.Select(plan.RefOf(s.device("Riser box")))
	s.choose("Edit", "Rename…")
	s.entries()[0].SetText("Drum box")
	s.tap("Rename")
	require.NotEmpty(t, s.device("Drum box").ID)
	require.Equal(t, "Rename Drum box", s.desk.NextUndo())
}

func TestCableIsLaidAndTakenOff(t *testing.T) {
	s := open(t, "light", demoFile(t))
	s.find("L20")
	s.choose("Links", "Lay cable…")
	s.tap("Add")
	id := plan.LinkID(s.desk.Selection()[0].Key)
	require.Len(t, s.desk.Plan().SegmentsOf(id), 1)
	require.NotEqual(t, "uncabled", s.state().Links["L20"].Grade)
	s.choose("Links", "Take last cable off")
	require.Empty(t, s.desk.Plan().SegmentsOf(id))
}

func TestDevicesAreCopiedAndPastedWithTheLinksBetweenThem(t *testing.T) {
	s := open(t, "light", demoFile(t))
	before := s.desk.Plan()
	s.desk.Select(plan.RefOf(s.device("Second stage box")), plan.RefOf(s.device("Second console")))
	s.choose("Edit", "Copy")
	s.choose("Edit", "Paste")
	require.Equal(t, before.Devices.Len()+2, s.desk.Plan().Devices.Len())
	require.Equal(t, before.Links.Len()+1, s.desk.Plan().Links.Len())
	require.ElementsMatch(t, []string{"Second stage box 2", "Second console 2"}, s.state().Selection)
	s.choose("Edit", "Undo Paste")
	require.True(t, plan.Equal(before, s.desk.Plan()))
	s.desk.Select(plan.RefOf(s.device("Second stage box")))
	s.choose("Edit", "Cut")
	require.Empty(t, s.device("Second stage box").ID)
	s.app.Clipboard().SetContent("hello")
	s.choose("Edit", "Paste")
	require.Contains(t, s.state().Notice, "not copied from a plan")
}

func TestAPositionIsMadeRoundDevices(t *testing.T) {
	s := open(t, "light", demoFile(t))
	s.desk.Select(plan.RefOf(s.device("PA left")), plan.RefOf(s.device("PA right")))
	s.choose("Edit", "Position round the selection")
	require.Equal(t, []string{"Position"}, s.state().Selection)
	require.Equal(t, s.device("PA left").Position, s.device("PA right").Position)
	position, _ := s.desk.Plan().Positions.Get(s.desk.Selection()[0].Key)
	require.GreaterOrEqual(t, position.Width, 6.0)
	s.choose("Edit", "Undo New position")
	s.desk.Select()
	s.choose("Edit", "Position round the selection")
	require.Contains(t, s.state().Notice, "Select the devices")
}

func TestAnOwnKindIsMadeKeptAndPlacedInAnotherPlan(t *testing.T) {
	s := open(t, "light", demoFile(t))
	s.desk.Select(plan.RefOf(s.device("Riser box")))
	s.choose("Edit", "Own kind from this…")
	s.entries()[0].SetText("Drum box")
	s.tapCheck()
	s.tap("Make it")
	require.Equal(t, plan.KindID("drum-box"), s.device("Riser box").Kind)
	kinds, err := house.Open(s.folder).Kinds()
	require.NoError(t, err)
	require.Len(t, kinds, 1)
	require.Equal(t, "Drum box", kinds[0].Kind.Name)
}

func TestLinksAreGatheredInALoomAndSetFree(t *testing.T) {
	s := open(t, "light", demoFile(t))
	before := s.desk.Plan().Looms.Len()
	s.choose("Edit", "Select links", "tight")
	s.choose("Links", "Loom", "Made of the selected links")
	require.Contains(t, s.state().Notice, "at least two links")
	s.choose("Edit", "Select links", "AES50")
	s.choose("Links", "Loom", "Made of the selected links")
	require.Equal(t, before+1, s.desk.Plan().Looms.Len())
	loom := s.state().Selection
	require.Len(t, loom, 1, "the loom is selected")
	s.choose("Links", "Loom", "Follows the way of the selected link")
	s.choose("Links", "Loom", "Select the link's loom, or the loom's links   L")
	require.Greater(t, len(s.state().Selection), 1, "its links")
	s.choose("Links", "Loom", "Take the selected links out")
	require.Equal(t, before, s.desk.Plan().Looms.Len(), "a loom goes with its last link")
	s.choose("Links", "Loom", "Dissolve")
	require.Contains(t, s.state().Notice, "Select a loom, or a link")
	s.choose("Edit", "Undo Take out of loom")
	s.find(loom[0])
	require.Equal(t, loom, s.state().Selection)
	s.choose("Links", "Loom", "Dissolve")
	require.Equal(t, before, s.desk.Plan().Looms.Len())
}
