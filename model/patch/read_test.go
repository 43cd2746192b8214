package patch_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

func TestASocketIsReadAsAPersonTypesIt(t *testing.T) {
	r, _ := hall(t)
	r.device("Stage left", "stagebox-24-12")
	r.device("Drums 2", "stagebox-24-12")
	v := patch.Of(r.plan)
	for typed, want := range map[string]patch.Socket{
		"SL in 3":         r.socket("SL", 3),
		"sl 3":            r.socket("SL", 3),
		"  SR   input 16": r.socket("SR", 16),
		"SR7":             r.socket("SR", 7),
		"stage 12":        r.socket("Stage left", 12),
		"drums 2 5":       r.socket("Drums 2", 5),
		"FOH 1":           r.socket("FOH", 1),
		"3":               r.socket("SR", 3),
		"in 3":            r.socket("SR", 3),
		"SL-12":           r.socket("SL", 12),
		"SL/12":           r.socket("SL", 12),
		"SR: 7":           r.socket("SR", 7),
		"SR in #7":        r.socket("SR", 7),
		"sr way 7":        r.socket("SR", 7),
		"drums 2-5":       r.socket("Drums 2", 5),
		"#3":              r.socket("SR", 3),
	} {
		t.Run(typed, func(t *testing.T) {
			got, err := v.ReadSocket(typed, r.devices["SR"], false)
			require.NoError(t, err)
			require.Equal(t, want, got)
		})
	}
	for typed, reason := range map[string]string{
		"":                             "names no socket; write a device and a number, for instance Drums 2 in 1",
		"SL":                           "which socket of SL? Write for instance SL 1",
		"drums 2":                      "which socket of Drums 2? Write for instance Drums 2 1",
		"kick":                         `"kick" names no socket`,
		"SL in 41":                     "SL has 40 sockets of this sort; there is no SL in 41",
		"SL 0":                         "0 is no number of a socket",
		"SL 99999999999999999999":      "is no number of a socket",
		"S-4":                          "S- may be SL or SR or Stage left; write more of the name",
		"S 4":                          "S may be SL or SR or Stage left; write more of the name",
		"Truck 4":                      "no device with such sockets is called Truck; write for instance Drums 2 in 1",
		"SL in 3 \U0001F941":           "names no socket",
		"\u0666":                       "names no socket",
		"a name of\nseveral lines, 12": "no device with such sockets is called",
	} {
		t.Run("refused: "+typed, func(t *testing.T) {
			_, err := v.ReadSocket(typed, r.devices["SR"], false)
			require.ErrorContains(t, err, reason)
		})
	}
	t.Run("a number alone is no socket where no device is meant", func(t *testing.T) {
		_, err := v.ReadSocket("3", "", false)
		require.EqualError(t, err, "socket 3 of which device? Write for instance Drums 2 in 1")
	})
	t.Run("an output is read among outputs", func(t *testing.T) {
		got, err := v.ReadSocket("SL out 4", "", true)
		require.NoError(t, err)
		require.Equal(t, patch.Socket{Device: r.devices["SL"], Number: 4, Output: true}, got)
	})
	t.Run("every socket's own words read as that socket", func(t *testing.T) {
		for _, output := range []bool{false, true} {
			for _, id := range v.WithSockets(output) {
				for number := 1; number <= v.Sockets(id, output); number++ {
					want := patch.Socket{Device: id, Number: number, Output: output}
					got, err := v.ReadSocket(v.SocketWords(want), "", output)
					require.NoError(t, err)
					require.Equal(t, want, got)
				}
			}
		}
	})
}

func TestAnInputIsReadByNumberOrName(t *testing.T) {
	r, ids := hall(t)
	r.do(func(e *plan.Edit) error {
		return plan.Update(e, plan.Key(ids[2]), func(i *plan.Input) { i.Name = "Kick in" })
	})
	v := patch.Of(r.plan)
	for typed, want := range map[string]plan.InputID{"3": ids[2], "kick IN": ids[2], "Ki": ids[2], "3 kick in": ids[2], "3 ki": ids[2], "In 1": ids[0], "8": ids[7]} {
		line, err := v.ReadInput(v.House(), typed)
		require.NoError(t, err, typed)
		require.Equal(t, want, line.Input.ID, typed)
	}
	for typed, reason := range map[string]string{
		"":     `no input here is ""`,
		"9":    `no input here is "9"; write its number or its name`,
		"in ":  `"in " may be In 1 or In 2 or In 4 or In 5; write more of it, or the number`,
		"Tuba": `no input here is "Tuba"`,
	} {
		_, err := v.ReadInput(v.House(), typed)
		require.ErrorContains(t, err, reason)
	}
}

func TestUnpluggingInTheHouseAndInAnAct(t *testing.T) {
	r, ids := hall(t)
	brass := r.act(1, "Brass")
	r.act(2, "Strings")
	r.do(func(e *plan.Edit) error { return patch.Fill(e, "", ids[:2], r.socket("SL", 1), true) })
	r.do(func(e *plan.Edit) error { return patch.Plug(e, brass, ids[2], r.socket("SL", 3), true) })
	r.do(func(e *plan.Edit) error { return patch.Unplug(e, brass, ids[0], ids[2]) })
	require.Equal(t, []string{"In 1 → not used", "In 2 → SL in 2", "In 3 → not patched"}, r.all(brass)[:3], "what the house has is struck, what the act alone had is forgotten")
	require.Equal(t, "In 1 → SL in 1", r.all("")[0])
	r.do(func(e *plan.Edit) error { return patch.Unplug(e, "", ids[1]) })
	require.Equal(t, "In 2 → not patched", r.all("")[1])
	r.refused(t, "no such input", func(e *plan.Edit) error { return patch.Unplug(e, "", "i-zzzzz") })
}

func TestActsAreAddedMovedAndTakenOut(t *testing.T) {
	r, ids := hall(t)
	var first, second, third plan.ActID
	r.do(func(e *plan.Edit) error {
		first, second, third = patch.AddAct(e, "First"), patch.AddAct(e, "Second"), patch.AddAct(e, "Third")
		return nil
	})
	names := func() (said []string) {
		for _, act := range patch.Of(r.plan).Acts {
			said = append(said, act.Act.Name)
		}
		return said
	}
	require.Equal(t, []string{"", "First", "Second", "Third"}, names())
	r.do(func(e *plan.Edit) error { return patch.MoveAct(e, third, 1) })
	require.Equal(t, []string{"", "Third", "First", "Second"}, names())
	r.do(func(e *plan.Edit) error { return patch.MoveAct(e, third, 99) })
	require.Equal(t, []string{"", "First", "Second", "Third"}, names())
	r.refused(t, "no such act", func(e *plan.Edit) error { return patch.MoveAct(e, "n-zzzzz", 1) })
	t.Run("a guest is brought, and stays away when it is not named any more", func(t *testing.T) {
		r.do(func(e *plan.Edit) error {
			return patch.Bring(e, second, []plan.ActConsole{{Console: r.devices["Mon"], Note: "own console"}})
		})
		act, _ := patch.Of(r.plan).Act(second)
		require.Equal(t, []plan.DeviceID{r.devices["Mon"]}, act.Guests)
		r.do(func(e *plan.Edit) error { return patch.Bring(e, second, nil) })
		act, _ = patch.Of(r.plan).Act(second)
		require.Empty(t, act.Guests)
		r.refused(t, "no such act", func(e *plan.Edit) error { return patch.Bring(e, "", nil) })
	})
	t.Run("an act that goes takes its rows and its own inputs along, and nothing of the house", func(t *testing.T) {
		r.do(func(e *plan.Edit) error { return patch.Plug(e, "", ids[0], r.socket("SL", 1), true) })
		house := patch.Of(r.plan)
		r.do(func(e *plan.Edit) error {
			own := e.AddInput(plan.Input{Number: 40, Name: "Harp", Act: first})
			patch.Own(e, first, r.socket("SL", 1), r.devices["Mon"], "")
			patch.Strike(e, first, ids[0])
			return patch.Plug(e, first, own, r.socket("SL", 2), true)
		})
		r.do(func(e *plan.Edit) error { e.RemoveAct(first); return nil })
		require.Equal(t, []string{"", "Second", "Third"}, names())
		require.Equal(t, house.House().Lines, patch.Of(r.plan).House().Lines)
		require.Equal(t, 8, r.plan.Inputs.Len())
		require.Zero(t, r.plan.SocketOwners.Len())
	})
}
