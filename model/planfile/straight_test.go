package planfile_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
	"stageloom/model/planfile"
)

// opened writes a text to a file and opens it.
func opened(t *testing.T, text string) (*plan.Plan, []planfile.Mend) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "turned.stageloom")
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	p, _, mends, err := planfile.OpenMended(path)
	require.NoError(t, err)
	return p, mends
}

func TestASignThatTurnsLettersRoundIsTakenOutAndToldWhere(t *testing.T) {
	whole := read(t, everyField(t))
	for _, sign := range []string{`\u202a`, `\u202e`, `\u2066`, `\u2069`} {
		text := changed(t, `"name": "Stage left box"`, `"name": "Stage`+sign+` left box"`)
		p, mends := opened(t, text)
		require.True(t, plan.Equal(whole, p), "nothing else is lost by it")
		require.Len(t, mends, 1)
		require.Contains(t, mends[0].String(), "/name holds the sign U+"+strings.ToUpper(sign[2:])+`, which is not seen and turns the letters behind it round: the sign is taken out: "Stage left box"`)
		require.Regexp(t, `^texts of the file hold signs .*: line [0-9]+, /devices/[0-9]+/name "Stage left box"$`, planfile.TakenOut(mends))
		repaired, again, err := planfile.Repair(strings.NewReader(text))
		require.NoError(t, err)
		require.True(t, plan.Equal(whole, repaired))
		require.Equal(t, mends, again)
	}
	t.Run("in the name of a port, with every link that names it", func(t *testing.T) {
		text := strings.ReplaceAll(everyField(t), `port": "B"`, `port": "B\u202e"`)
		require.NotEqual(t, everyField(t), text)
		p, mends := opened(t, text)
		require.Len(t, mends, 4, "two ports and both ends of a link")
		require.True(t, plan.Equal(whole, p))
	})
	t.Run("in a revision that was issued", func(t *testing.T) {
		sealed, err := planfile.Seal(whole, "Z", "2027-06-19", "")
		require.NoError(t, err)
		text := string(written(t, sealed))
		turned := strings.ReplaceAll(text, `"Stage left box"`, `"Stage\u202e left box"`)
		require.Greater(t, strings.Count(turned, `\u202e`), 1, "the plan's own row and the revision's")
		p, mends := opened(t, turned)
		require.True(t, plan.Equal(sealed, p))
		require.Len(t, mends, strings.Count(turned, `\u202e`))
	})
	t.Run("a name of nothing else is no reason to lose its row", func(t *testing.T) {
		p, mends := opened(t, changed(t, `"name": "Stage left box"`, `"name": "\u202e"`))
		require.Equal(t, whole.Devices.Len(), p.Devices.Len())
		require.Len(t, mends, 1)
		require.Contains(t, string(written(t, p)), `"name": "unnamed"`)
	})
	t.Run("of many, the first three are told", func(t *testing.T) {
		_, mends := opened(t, strings.ReplaceAll(everyField(t), `"name": "`, `"name": "\u202e`))
		require.Greater(t, len(mends), 5)
		require.Regexp(t, ` \(and [0-9]+ more\)$`, planfile.TakenOut(mends))
	})
	t.Run("a mark of a script that runs leftward may stand", func(t *testing.T) {
		_, mends := opened(t, changed(t, `"name": "Stage left box"`, `"name": "\u200fStage left box"`))
		require.Empty(t, mends)
		require.Empty(t, planfile.TakenOut(mends))
	})
}

func TestADeltaIsReadWithoutSignsThatTurnLettersRound(t *testing.T) {
	d, err := planfile.DecodeDelta([]byte(`{"cases": {"set": [{"id": "c-22222", "name": "A\u202e1"}]}, "kind_ports": {"drop": ["box/A\u202e"]}}`), planfile.Version)
	require.NoError(t, err)
	require.Equal(t, "A1", d.Cases.Set[0].Name)
	require.Equal(t, plan.Key("box/A"), d.KindPorts.Drop[0])
}
