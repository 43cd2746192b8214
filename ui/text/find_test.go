package text_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/demo"
	"stageloom/ui/text"
)

func TestFindPutsEqualNamesFirst(t *testing.T) {
	p := demo.Weekender()
	hits := text.Find(p, "l02")
	require.Equal(t, linkNamed(p, "L02"), hits[0].Row)
	require.Equal(t, "FOH tower · position", text.Find(p, "foh t")[0].Words)
	tag := text.Find(p, "LL03")
	require.Equal(t, linkNamed(p, "L02"), tag[0].Row, "a cable is found by its tag, in its link")
	require.Empty(t, text.Find(p, "  "))
	require.Empty(t, text.Find(p, "no such thing"))
}
