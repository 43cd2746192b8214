package patch_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

func TestAnEditOfThePatchAfterALineCheckIsTold(t *testing.T) {
	r := festival(t)
	r.input(2, "Snare")
	brass := r.act(1, "Brass")
	r.stage("", "Snare", "SL", 4)
	hear := func(input, result string) {
		r.do(func(e *plan.Edit) error {
			said := r.line(brass, input)
			_, err := e.SetLineCheck(plan.LineCheck{Act: brass, Input: r.inputs[input], At: "2027-06-18T16:31:00+02:00", Result: result, Chain: said.view.Chain(said.Line)})
			return err
		})
	}
	since := func(input string) string {
		said := r.line(brass, input)
		last, _ := r.plan.Checked(brass, r.inputs[input])
		return said.view.ChangedSince(said.Line, last)
	}
	tally := func() string {
		v := patch.Of(r.plan)
		act, _ := v.Act(brass)
		return v.CheckTally(act).String()
	}
	hear("Kick in", plan.HeardOK)
	hear("Snare", plan.HeardOK)
	require.Empty(t, since("Kick in"))
	require.Equal(t, "2 of 2 OK", tally())
	t.Run("another socket", func(t *testing.T) {
		r.stage(brass, "Snare", "SL", 7)
		require.Equal(t, "was SL in 4, is SL in 7", since("Snare"))
		require.Empty(t, since("Kick in"))
		require.Equal(t, "1 of 2 OK, 1 to hear again (patch changed since)", tally())
		r.stage(brass, "Snare", "SL", 4)
		require.Equal(t, "2 of 2 OK", tally(), "back where it was heard")
	})
	t.Run("another channel", func(t *testing.T) {
		put(r, plan.ConsolePatch{Act: brass, Console: r.devices["FOH"], Channel: 1, Strike: true})
		r.channel(brass, "FOH", 9, "SL", 3)
		require.Equal(t, "was FOH 1, Mon 1, is FOH 9, Mon 1", since("Kick in"))
		require.Equal(t, "1 of 2 OK, 1 to hear again (patch changed since)", tally())
	})
	t.Run("heard again", func(t *testing.T) {
		hear("Kick in", plan.Dead)
		require.Equal(t, "1 of 2 OK, 1 fault open", tally())
		r.stage(brass, "Kick in", "SL", 8)
		require.Equal(t, "1 of 2 OK, 1 fault open", tally(), "a fault stays one")
		require.Equal(t, "was SL in 3 → FOH 9, Mon 1, is SL in 8", since("Kick in"))
	})
	t.Run("another name is no other way", func(t *testing.T) {
		r.do(func(e *plan.Edit) error {
			return plan.Update(e, plan.Key(r.inputs["Snare"]), func(i *plan.Input) { i.Name = "Snare top" })
		})
		require.Empty(t, since("Snare"))
	})
	t.Run("where nothing says what it was", func(t *testing.T) {
		heard(r, brass, "Snare", "2027-06-18T17:31:00+02:00", plan.HeardOK)
		r.stage(brass, "Snare", "SL", 12)
		require.Empty(t, since("Snare"))
	})
}
