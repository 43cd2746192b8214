package dialogs_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
	"stageloom/ui/dialogs"
	"stageloom/ui/dialogs/hosttest"
)

func TestWhatTouchesASiteIsDoneOnlyWhenItIsMeant(t *testing.T) {
	h := hosttest.New(t, plan.New("Show"))
	did := 0
	ask := func() { dialogs.AskTouching(h, "Delete L01", []string{"L01 is laid"}, func() { did++ }) }
	ask()
	h.Keys().GiveUp()
	require.Zero(t, h.Open())
	ask()
	require.Equal(t, "Leave it", h.Window().Canvas().Focused().(*dialogs.Answer).Text, "Enter harms nothing")
	h.Tap("Leave it")
	require.Zero(t, did)
	ask()
	h.Tap("Do it all the same")
	require.Equal(t, 1, did)
	require.Zero(t, h.Open())
}
