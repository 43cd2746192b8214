package picture_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/picture"
)

func TestALinkSaysWhatItLacksInWholeUnitsRoundedUp(t *testing.T) {
	short := picture.LinkFigure{Label: "L01 +4", Lacks: "too short", Missing: 6.1}
	require.Equal(t, "L01 +4 too short 7 m", short.Words(1))
	require.Equal(t, "L01 +4 too short 21 ft", short.Words(0.3048), "6.1 m are 20.01 ft")
	require.Equal(t, "L01 +4", (&picture.LinkFigure{Label: "L01 +4"}).Words(1))
}
