package picture_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/picture"
)

func TestALinkSaysWhatItLacksInWholeUnitsRoundedUp(t *testing.T) {
	short := picture.LinkFigure{Label: "L01 +4", Lacks: "too short", Missing: 6.1}
	require.Equal(t, "L01 +4 too short 7 m", short.Words(1, picture.NameAndMargin))
	require.Equal(t, "L01 +4 too short 21 ft", short.Words(0.3048, picture.NameAndMargin), "6.1 m are 20.01 ft")
	require.Equal(t, "L01 +4", (&picture.LinkFigure{Label: "L01 +4"}).Words(1, picture.NameAndMargin))
}

func TestALabelSaysAsMuchAsOneLikes(t *testing.T) {
	link := picture.LinkFigure{Name: "L01", Label: "L01 +4", Run: 93.2}
	require.Equal(t, "L01", link.Words(1, picture.NameAlone))
	require.Equal(t, "L01 +4, 94 m", link.Words(1, picture.NameMarginRun))
	require.Equal(t, "L01 +4, 306 ft", link.Words(0.3048, picture.NameMarginRun))
	link.Lacks, link.Missing = "to lay", 5
	require.Equal(t, "L01 to lay 5 m", link.Words(1, picture.NameAlone), "what is missing is said all the same")
	link.Run = 0
	require.Equal(t, "L01 +4 to lay 5 m", link.Words(1, picture.NameMarginRun))
}
