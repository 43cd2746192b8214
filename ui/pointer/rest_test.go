package pointer_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/ui/looptest"
	"stageloom/ui/pointer"
)

func TestWithoutADesktopNothingWaits(t *testing.T) {
	app := looptest.NewApp(t)
	require.Nil(t, pointer.AfterOf(app))
	require.Nil(t, pointer.Later(app))
	done := false
	pointer.Soon(app, func() { done = true })
	require.True(t, done)
}
