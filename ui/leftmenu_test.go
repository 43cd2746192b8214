package ui_test

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
)

func TestWhatIsNotLaidYetStandsOut(t *testing.T) {
	s := open(t, "light", demoFile(t))
	s.pixels()
	s.choose("View", "Left on site", "All links")
	whole, before := s.pixels(), s.desk.Plan()
	s.choose("View", "Left on site", "What is not "+plan.Laid+" yet")
	require.False(t, bytes.Equal(whole, s.pixels()))
	s.choose("View", "Left on site", "All links")
	require.True(t, bytes.Equal(whole, s.pixels()), "all is back")
	require.Same(t, before, s.desk.Plan())
}
