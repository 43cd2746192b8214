package patch_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

func TestFreeIsTypedWithOrWithoutADevice(t *testing.T) {
	for typed, device := range map[string]string{"free": "", " Free ": "", "SL free": "SL", "stage  left FREE": "stage left"} {
		got, asked := patch.ReadFree(typed)
		require.True(t, asked, typed)
		require.Equal(t, device, got)
	}
	for _, typed := range []string{"", "freeway", "SL 3", "carefree", "ree"} {
		_, asked := patch.ReadFree(typed)
		require.False(t, asked, typed)
	}
}

func TestTheFirstFreeIsFreeInEveryActThatHasIt(t *testing.T) {
	r, ids, brass, strings := showDay(t)
	v := patch.Of(r.plan)
	act := func(id plan.ActID) *patch.Act { a, _ := v.Act(id); return a }
	sockets := func(id plan.ActID, device string, inputs ...plan.InputID) []patch.Socket {
		found, err := v.FreeSockets(act(id), r.devices[device], inputs)
		require.NoError(t, err)
		return found
	}
	require.Equal(t, []patch.Socket{r.socket("SL", 7), r.socket("SL", 8), r.socket("SL", 10)},
		sockets("", "SL", ids[6], ids[7], ids[6]), "9 is in use in one act")
	require.Equal(t, []patch.Socket{r.socket("SL", 4)}, sockets(strings, "SL", ids[6]), "an act has what it does not use")
	require.Equal(t, []patch.Socket{r.socket("SL", 3)}, sockets(brass, "SL", ids[6]))
	require.Equal(t, []patch.Socket{r.socket("SL", 2)}, sockets("", "SL", ids[1]), "what it leaves is free for it")
	_, err := v.FreeSockets(act(""), r.devices["SR"], make([]plan.InputID, 1))
	require.Error(t, err)
	channels, err := v.FreeChannels(act(""), r.devices["FOH"], []plan.InputID{ids[6], ids[7], ids[5]})
	require.NoError(t, err)
	require.Equal(t, []int{6, 7, 8}, channels)
	channels, err = v.FreeChannels(act(brass), r.devices["FOH"], []plan.InputID{ids[5], ids[6], ids[7], ids[4]})
	require.NoError(t, err)
	require.Equal(t, []int{5, 6, 7, 8}, channels)
	_, err = v.FreeChannels(act(""), r.devices["Mon"], make([]plan.InputID, 57))
	require.ErrorContains(t, err, "Mon has ")
	t.Run("no multicore is in the way", func(t *testing.T) {
		r, ids := wired(t)
		v := patch.Of(r.plan)
		found, err := v.FreeSockets(v.House(), r.devices["SL"], ids[4:])
		require.NoError(t, err)
		require.Equal(t, []patch.Socket{r.socket("SL", 41)}, found)
	})
}
