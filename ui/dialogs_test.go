package ui_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
	"stageloom/ui/dialogs"
)

// buttonAt is where a button of the topmost dialog lies in the window.
func (s *screen) buttonAt(label string) fyne.Position {
	s.t.Helper()
	overlays := s.window.Canvas().Overlays().List()
	for _, object := range test.LaidOutObjects(overlays[len(overlays)-1]) {
		if button, ok := object.(*dialogs.Answer); ok && button.Text == label {
			return fyne.CurrentApp().Driver().AbsolutePositionForObject(button)
		}
	}
	require.Fail(s.t, "no button "+label)
	return fyne.Position{}
}

func TestTwoPortsAreLinkedByEnter(t *testing.T) {
	s := open(t, "light", demoFile(t))
	before := s.desk.Plan().Links.Len()
	s.desk.Select(plan.RefOf(s.device("Second console")))
	s.choose("Links", "Link two ports…")
	choosers := s.choosers()
	from, port, to := choosers[0], choosers[1], choosers[2]
	require.Equal(t, "Second console", from.Selected)
	require.NotContains(t, to.Options, "Second console", "a device is not linked to itself")
	require.Contains(t, to.Options, "FOH console")
	at := s.buttonAt("Link")
	s.press(fyne.KeyReturn)
	require.Equal(t, before, s.desk.Plan().Links.Len(), "one end is not chosen yet")
	port.SetSelected("N2")
	to.SetSelected("FOH switch")
	require.Equal(t, at, s.buttonAt("Link"), "it stays under the pointer whatever is said above it")
	s.press(fyne.KeyReturn)
	require.Equal(t, before+1, s.desk.Plan().Links.Len())
	require.Zero(t, s.state().Overlays)
	made, _ := s.desk.Plan().Link(plan.LinkID(s.desk.Selection()[0].Key))
	require.Equal(t, s.device("Second console").ID, made.From)
	require.Equal(t, s.device("FOH switch").ID, made.To)
}

func TestTheFarEndFollowsTheNearOne(t *testing.T) {
	s := open(t, "light", demoFile(t))
	s.choose("Links", "Link two ports…")
	choosers := s.choosers()
	from, to, port := choosers[0], choosers[2], choosers[3]
	require.Contains(t, to.Options, "Second console", "while no near end is chosen")
	from.SetSelected("Second console")
	to.SetSelected("FOH switch")
	from.SetSelected("FOH console")
	require.Equal(t, "FOH switch", to.Selected, "it stays")
	require.NotContains(t, to.Options, "FOH console")
	from.SetSelected("FOH switch")
	require.Empty(t, to.Selected, "the near end has taken it")
	require.Empty(t, port.Selected)
	s.press(fyne.KeyEscape)
	require.Zero(t, s.state().Overlays)
}

func TestAnotherCableIsOfTheSameKind(t *testing.T) {
	s := open(t, "light", demoFile(t))
	s.find("L20")
	s.choose("Links", "Lay cable…")
	choice := s.choosers()[0]
	at := s.buttonAt("Add")
	other := ""
	for i, option := range choice.Options {
		if i > 0 && option == "Cat 6A, by length" {
			other = option
		}
	}
	require.NotEmpty(t, other, choice.Options)
	choice.SetSelected(other)
	s.entries()[0].SetText("20 m")
	s.tap("Add and another")
	require.Equal(t, other, choice.Selected)
	require.Equal(t, at, s.buttonAt("Add"))
	s.tap("Add and another")
	laid := s.segments("L20")
	require.Len(t, laid, 2)
	require.Equal(t, laid[0].Kind, laid[1].Kind)
	s.press(fyne.KeyReturn)
	require.Zero(t, s.state().Overlays, "Enter adds the last one")
	require.Len(t, s.segments("L20"), 3)
}

// The page is drawn beside the window: the dialog names it when it comes.
func TestThePrintDialogShowsItsPageWhenItIsDrawn(t *testing.T) {
	s := open(t, "light", demoFile(t))
	s.choose("Plan", "Print to PDF…")
	s.app.Until(t, "a page is shown", func() bool { return s.reads("Page 1 of ") })
}
