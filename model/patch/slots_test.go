package patch_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

func (r *rig) connect(device string, socket int, console string) error {
	next, err := plan.Do(r.plan, r.ids, func(e *plan.Edit) error {
		return patch.Connect(e, r.socket(device, socket), r.devices[console])
	})
	if err == nil {
		r.plan = next
	}
	return err
}

func (r *rig) slots(link string) map[string]int {
	v := patch.Of(r.plan)
	rows, _ := v.Slots(v.House(), r.links[link])
	all := map[string]int{}
	for _, row := range rows {
		all[row.Hop.Direction+" "+v.SocketWords(row.Socket)] = row.Hop.Slot
	}
	return all
}

func TestSlotsAreGivenOutInBlocks(t *testing.T) {
	r := newRig(t)
	r.device("SR", "stagebox-24-12")
	r.device("SL", "stagebox-24-12")
	r.device("FOH", "console-72")
	r.link("L01", "SR", "AES50 1", "SL", "AES50 2")
	r.link("L02", "SL", "AES50 1", "FOH", "AES50 1")
	require.NoError(t, r.connect("SL", 5, "FOH"))
	require.NoError(t, r.connect("SR", 2, "FOH"))
	near, through := r.slots("L01"), r.slots("L02")
	require.Equal(t, 2, near["forward SR in 2"], "a box's own link carries it from slot 1 on")
	require.Equal(t, 5, through["forward SL in 5"])
	require.Equal(t, 26, through["forward SR in 2"], "the chained box's block is shifted behind the first")
	require.Len(t, through, 48)
	t.Run("a box that is there keeps its slots when nothing is left", func(t *testing.T) {
		r.device("More", "stagebox-12-6")
		r.link("L03", "More", "AES50 1", "SR", "AES50 2")
		err := r.connect("More", 1, "FOH")
		require.ErrorIs(t, err, plan.ErrRefused)
		require.ErrorContains(t, err, "L02 has no channel left for More in 1: it carries 48 each way at 48 kHz")
	})
	t.Run("returns have slots of their own", func(t *testing.T) {
		r.do(func(e *plan.Edit) error {
			return patch.Connect(e, patch.Socket{Device: r.devices["SR"], Number: 3, Output: true}, r.devices["FOH"])
		})
		require.Equal(t, 3, r.slots("L02")["return SR out 3"])
		require.Equal(t, 3, r.slots("L01")["return SR out 3"])
	})
}

func TestAtDoubleRateThereAreHalfTheSlots(t *testing.T) {
	// AES50 carries 48 channels each way at 44.1 and 48 kHz, 24 at 88.2 and 96 kHz.
	for rate, want := range map[string]int{"": 48, "44.1": 48, "48": 48, "88.2": 24, "96": 24} {
		r := newRig(t)
		r.device("SL", "stagebox-40-20")
		r.device("FOH", "console-72")
		r.link("L01", "SL", "AES50 1", "FOH", "AES50 1")
		r.do(func(e *plan.Edit) error {
			settings := e.Now().Settings
			settings.SampleRate = rate
			e.SetSettings(settings)
			return nil
		})
		given := 0
		for socket := 1; socket <= 32 && r.connect("SL", socket, "FOH") == nil; socket++ {
			given++
		}
		require.Equal(t, min(want, 32), given, rate)
	}
}

func TestMainAndBackupCarryTheSameSlotsAndAreNotAdded(t *testing.T) {
	r := newRig(t)
	r.device("SL", "stage-rack-48-20")
	r.device("FOH", "console-72")
	r.link("L01", "SL", "AES50 1", "FOH", "AES50 1")
	r.link("L02", "FOH", "AES50 2", "SL", "AES50 2")
	r.do(func(e *plan.Edit) error { return e.Pair(r.links["L01"], r.links["L02"]) })
	for socket := 1; socket <= 48; socket++ {
		require.NoError(t, r.connect("SL", socket, "FOH"))
	}
	require.Equal(t, 48, r.plan.SlotPatches.Len())
	require.Equal(t, 17, r.slots("L01")["forward SL in 17"])
	require.Equal(t, 17, r.slots("L02")["return SL in 17"])
	r.device("More", "stagebox-12-6")
	r.link("L03", "More", "AES50 1", "SL", "AES50 3")
	require.ErrorContains(t, r.connect("More", 1, "FOH"), "has no channel left")
}

func TestTalkbackAndTimecodeTakeSlots(t *testing.T) {
	r := newRig(t)
	r.device("SL", "stage-rack-48-20")
	r.device("FOH", "console-72")
	r.link("L01", "SL", "AES50 1", "FOH", "AES50 1")
	for want, use := range map[int]string{48: "timecode"} {
		r.do(func(e *plan.Edit) error {
			slot, err := patch.Keep(e, r.links["L01"], patch.Forward, use)
			require.Equal(t, want, slot)
			return err
		})
	}
	for socket := 1; socket <= 47; socket++ {
		require.NoError(t, r.connect("SL", socket, "FOH"), socket)
	}
	require.ErrorContains(t, r.connect("SL", 48, "FOH"), "has no channel left")
}

func TestGivingOutServesWhatLacksASlot(t *testing.T) {
	r := festival(t)
	r.input(2, "Hat")
	r.stage("", "Hat", "SL", 9)
	r.channel("", "FOH", 2, "SL", 9)
	r.says(t, "", "Hat", "Hat → SL in 9 → FOH 2 not reached")
	r.do(func(e *plan.Edit) error {
		given, refused := patch.GiveOut(e)
		require.Equal(t, 1, given)
		require.Empty(t, refused)
		return nil
	})
	r.says(t, "", "Hat", "Hat → SL in 9 → FOH 2")
	r.says(t, "", "Kick in", "Kick in → SL in 3 → FOH 1, Mon 1")
}

// Adding boxes, chained anywhere, never renumbers a slot that is given out.
func TestAddingADeviceNeverRenumbersOthers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := newRig(t)
		r.device("FOH", "console-72")
		free := []end{{"FOH", "AES50 1"}, {"FOH", "AES50 2"}, {"FOH", "AES50 3"}, {"FOH", "AES50 4"}}
		kinds := []plan.KindID{"stagebox-12-6", "stagebox-24-12", "stagebox-40-20", "aes50-converter"}
		given := map[plan.Key]plan.SlotPatch{}
		for n := range rapid.IntRange(1, 9).Draw(t, "boxes") {
			name := fmt.Sprintf("Box %d", n)
			kind := rapid.SampledFrom(kinds).Draw(t, "kind")
			at := rapid.IntRange(0, len(free)-1).Draw(t, "where")
			r.device(name, kind)
			transport := free[at]
			if kind == "aes50-converter" || transport.port == "F" {
				continue
			}
			r.link(fmt.Sprintf("L%d", n), name, "AES50 1", transport.device, transport.port)
			free = append(free[:at], free[at+1:]...)
			free = append(free, end{name, "AES50 2"})
			for range rapid.IntRange(1, 6).Draw(t, "sockets") {
				_ = r.connect(name, rapid.IntRange(1, 8).Draw(t, "socket"), "FOH")
			}
			for key, row := range given {
				now, found := r.plan.SlotPatches.Get(key)
				require.True(t, found && now == row, "%s is as it was", key)
			}
			for row := range r.plan.SlotPatches.All() {
				given[row.Key()] = row
			}
			requireOneSocketASlot(t, r.plan)
		}
	})
}

type end struct{ device, port string }

// requireOneSocketASlot is an independent look at the rows: no slot twice, none beyond 48.
func requireOneSocketASlot(t require.TestingT, p *plan.Plan) {
	sockets := map[string]bool{}
	for row := range p.SlotPatches.All() {
		require.LessOrEqual(t, row.Slot, 48)
		key := fmt.Sprint(row.Link, row.Direction, row.Device, row.Socket, row.Output)
		require.False(t, sockets[key], "a socket lies on a link once")
		sockets[key] = true
	}
}
