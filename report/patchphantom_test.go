package report_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/report"
)

// split is a splitter whose direct way leads to SL with FOH and whose isolated way to MR with Monitors; in the first act a condenser is on
// socket 2, in the second a ribbon.
func split(t testing.TB) *plan.Plan {
	return made(t, "Barn", func(r rig) {
		splitter, left, right := r.device("Splitter", "splitter-48", 0, 0), r.device("SL", "stage-rack-48-20", 5, 0), r.device("MR", "stage-rack-48-20", 5, 5)
		foh, monitors := r.device("FOH", "console-56", 0, -60), r.device("Monitors", "console-56", 20, 0)
		r.link(ends("analogue-multicore", splitter, "A1", left, "M1"))
		r.link(ends("analogue-multicore", splitter, "B1", right, "M1"))
		r.link(ends("aes50", left, "AES50 1", foh, "AES50 1"), of("cat6a-own", 70)...)
		r.link(ends("aes50", right, "AES50 1", monitors, "AES50 1"), of("cat6a-own", 40)...)
		plan.Put(r.Edit, plan.Act{ID: "n-22222", Name: "Brass", Order: 1})
		plan.Put(r.Edit, plan.Act{ID: "n-33333", Name: "Strings", Order: 2})
		plan.Put(r.Edit, plan.Input{ID: "i-22222", Number: 1, Name: "Hat", Act: "n-22222", Use: patch.Condenser, Phantom: true})
		plan.Put(r.Edit, plan.Input{ID: "i-33333", Number: 1, Name: "Room", Act: "n-33333", Use: patch.Ribbon})
		for act, input := range map[plan.ActID]plan.InputID{"n-22222": "i-22222", "n-33333": "i-33333"} {
			require.NoError(t, patch.Plug(r.Edit, act, input, patch.Socket{Device: splitter, Number: 2}, false))
			require.NoError(t, patch.SetChannel(r.Edit, act, input, foh, 1))
			require.NoError(t, patch.SetChannel(r.Edit, act, input, monitors, 1))
		}
		patch.Own(r.Edit, "", patch.Socket{Device: left, Number: 2}, "", foh)
	})
}

func TestPaperSays48VWhereItStandsAndCautionsBesideTheInput(t *testing.T) {
	a := assess.Of(split(t))
	sheets := map[string]string{}
	for _, one := range strings.Split(chapterOf(t, a, report.BoxPatch), "Patch by box") {
		for _, title := range []string{"Splitter, Brass", "SL, Brass", "MR, Brass", "Splitter, Strings", "SL, Strings", "MR, Strings"} {
			if strings.Contains(one, title) {
				sheets[title] += one
			}
		}
	}
	require.Len(t, sheets, 6)
	require.Contains(t, sheets["Splitter, Brass"], "48 V")
	require.Contains(t, strings.Join(strings.Fields(sheets["SL, Brass"]), " "), "1 Hat by multi L01, way 2: do not plug 48 V")
	text := strings.Join(strings.Fields(sheets["Splitter, Strings"]), " ")
	require.Contains(t, text, "NO 48 V")
	require.Contains(t, text, "before plugging")
	for _, title := range []string{"MR, Brass", "MR, Strings"} {
		require.NotContains(t, sheets[title], "48 V")
	}
	channels := chapterOf(t, a, report.ChannelPatch)
	require.Contains(t, channels, "L03 2 48 V\n", "FOH switches it itself")
	require.Contains(t, channels, "no 48 V from here")
	require.Contains(t, channels, "NO 48 V – ribbon")
	changes := strings.Join(strings.Fields(chapterOf(t, a, report.ActChanges)), " ")
	require.Contains(t, changes, "48 V at this changeover, by socket: Strings after Brass")
	require.Contains(t, changes, "SL in 2 1 Hat, condenser 1 Room, ribbon off (FOH), then plug Room: NO 48 V, ribbon")
	require.Contains(t, changes, patch.PhantomOrder+" Follow the makers' papers.")
	require.NotContains(t, changes, "Brass after")
}
