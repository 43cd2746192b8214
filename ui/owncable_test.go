package ui_test

import (
	"testing"

	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
)

func TestAnOwnKindOfCableIsMadeFromOneThatIsThere(t *testing.T) {
	s := open(t, "light", demoFile(t))
	s.choose("Stock", "Own kind of cable…")
	overlays := s.window.Canvas().Overlays().List()
	for _, object := range test.LaidOutObjects(overlays[len(overlays)-1]) {
		if list, is := object.(interface{ SetSelected(string) }); is {
			list.SetSelected("Cat 6A")
			break
		}
	}
	entries := s.entries()
	require.Equal(t, "Cat 6A, own", entries[0].Text)
	entries[1].SetText("too good")
	s.tap("Make it")
	require.Equal(t, 1, s.state().Overlays, "what cannot be read stays, with the reason")
	entries[0].SetText("Field cable")
	entries[1].SetText("17.2")
	s.tap("Make it")
	require.Zero(t, s.state().Overlays)
	kind, found := s.desk.Plan().CableKinds.Get("field-cable")
	require.True(t, found)
	require.Equal(t, plan.Some(17.2), kind.OwnFigure)
	require.Contains(t, s.state().Notice, "Field cable is a kind of cable of this plan")
}
