package text_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/catalogue"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/text"
)

func TestWhatIsSaidOf48VAtAnInputAndAtAChangeover(t *testing.T) {
	one, two := plan.ActID("n-22222"), plan.ActID("n-33333")
	p, err := plan.Do(plan.New("Barn"), plan.NewIDSource(1, 2), func(e *plan.Edit) error {
		require.NoError(t, catalogue.Use(e, "stage-rack-48-20"))
		require.NoError(t, catalogue.Use(e, "console-56"))
		box := e.AddDevice(plan.Device{Name: "SL", Kind: "stage-rack-48-20"})
		desk := e.AddDevice(plan.Device{Name: "FOH", Kind: "console-56"})
		plan.Put(e, plan.Act{ID: one, Name: "Brass", Order: 1})
		plan.Put(e, plan.Act{ID: two, Name: "Strings", Order: 2})
		for i, input := range []plan.Input{{Name: "Hat", Use: "condenser", Phantom: true}, {Name: "Room", Use: "ribbon"}, {Name: "Harp", Use: "condenser", Phantom: true}} {
			input.ID, input.Number = plan.InputID("i-2222"+plan.Signs[i:i+1]), i+1
			plan.Put(e, input)
		}
		plan.Put(e, plan.StagePatch{Input: "i-22222", Act: one, Device: box, Socket: 2})
		plan.Put(e, plan.StagePatch{Input: "i-22223", Act: two, Device: box, Socket: 2})
		plan.Put(e, plan.StagePatch{Input: "i-22224", Act: two, Device: box, Socket: 1})
		for socket := 1; socket <= 2; socket++ {
			plan.Put(e, plan.SocketOwner{Device: box, Socket: socket, Phantom: desk})
		}
		return nil
	})
	require.NoError(t, err)
	a := assess.Of(p)
	act, _ := a.Patch.Act(two)
	room := plan.Key("i-22223")
	line, _ := act.Line(plan.InputID(room))
	said := []string{"NO 48 V: ribbon. It can come from SL in 2, switched by FOH.", "48 V off before plugging: SL in 2 had it for Hat in Brass."}
	require.Equal(t, said, text.PhantomOf(a.Patch, act, line))
	require.Equal(t, []string{
		"SL in 2, 48 V: off (FOH), then plug Room: NO 48 V, ribbon",
		"SL in 1, 48 V: plug Harp, then on (FOH)",
	}, text.PhantomChangesOf(a.Patch, act), "what hurts stands first")
	before, _ := a.Patch.Act(one)
	require.Empty(t, text.PhantomChangesOf(a.Patch, before), "the first act on its stage follows none")
	card := text.CardOf(a, []plan.Ref{{Table: plan.InputsTable, Key: room}}, words.Units{}, text.Preview{})
	require.Contains(t, card.Figures, text.Figure{Name: "48 V", Note: said[0] + " " + said[1]})
}
