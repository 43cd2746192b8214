package sources_test

import (
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/demo"
	"stageloom/model/patch"
	"stageloom/model/plan"
	"stageloom/ui/table"
)

// typesAll types one text into the same column of several rows, in order.
func (b *booth) typesAll(sheet, column, typed string, rows ...string) []error {
	b.t.Helper()
	s := b.look(sheet, "")
	var cells []table.Typed
	at := 0
	for _, row := range rows {
		r, c := b.place(s, row, column)
		at = c
		cells = append(cells, table.Typed{Ref: s.Ref(r), Text: typed})
	}
	var errs []error
	next, err := plan.Do(b.plan, plan.NewIDSource(6, 6), func(e *plan.Edit) error {
		for _, one := range s.(table.Joiner).AllSetter(at)(e, cells, true) {
			if one != nil {
				errs = append(errs, one)
			}
		}
		if len(errs) > 0 {
			return errs[0]
		}
		return nil
	})
	if err == nil {
		b.plan = next
	}
	return errs
}

func TestFreeIsTheFirstFreeSocketOrChannel(t *testing.T) {
	b := &booth{t: t, plan: demo.Weekender()}
	v := patch.Of(b.plan)
	kick, top := "input 1 Kick in", "input 3 Snare top"
	line, _ := v.ReadInput(v.House(), "1")
	next, _ := v.ReadInput(v.House(), "3")
	wanted, err := v.FreeSockets(v.House(), line.At.Device, []plan.InputID{line.Input.ID, next.Input.ID})
	require.NoError(t, err)
	require.Empty(t, b.typesAll("patch", "Socket", "free", kick, top))
	require.Equal(t, v.SocketWords(wanted[0]), b.says("patch", "", kick, "Socket").Text)
	require.Equal(t, v.SocketWords(wanted[1]), b.says("patch", "", top, "Socket").Text)

	foh := slices.IndexFunc(v.Consoles(), func(id plan.DeviceID) bool { return v.Name(id) == "FOH console" })
	console := v.Consoles()[foh]
	channels, err := v.FreeChannels(v.House(), console, []plan.InputID{line.Input.ID, next.Input.ID})
	require.NoError(t, err)
	require.Empty(t, b.typesAll("patch", v.Name(console), v.Name(console)+" free", kick, top))
	require.Equal(t, strconv.Itoa(channels[0]), b.says("patch", "", kick, v.Name(console)).Text)
	require.Equal(t, strconv.Itoa(channels[1]), b.says("patch", "", top, v.Name(console)).Text)
	stands := b.plan
	require.ErrorContains(t, b.typesAll("patch", v.Name(console), "Elsewhere free", kick)[0], "this is the column of "+v.Name(console))
	require.ErrorContains(t, b.typesAll("patch", "Socket", "Elsewhere free", kick)[0], "no device with such sockets is called Elsewhere")
	require.Same(t, stands, b.plan)
}

func TestFreeIsTheFirstFreeOutput(t *testing.T) {
	b := &booth{t: t, plan: demo.Weekender()}
	v := patch.Of(b.plan)
	line := v.House().Outputs[0]
	wanted, err := v.FreeOutput(v.House(), line.Socket.Device, line.Output.ID)
	require.NoError(t, err)
	row := b.look("outputs", "").RowName(0)
	require.NoError(t, b.types("outputs", "", row, "Socket", v.Name(line.Socket.Device)+" free"))
	require.Equal(t, v.SocketWords(wanted), b.says("outputs", "", row, "Socket").Text)
}
