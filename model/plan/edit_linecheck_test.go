package plan_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
)

// checked is a plan with a house input, an act, and an input of that act alone.
func checked(t *testing.T) (p *plan.Plan, kick, own plan.InputID, act plan.ActID) {
	t.Helper()
	p, err := plan.Do(plan.New("Checked"), plan.NewIDSource(3, 4), func(e *plan.Edit) error {
		act = e.AddAct(plan.Act{Name: "Brass", Order: 1})
		kick = e.AddInput(plan.Input{Number: 1, Name: "Kick"})
		own = e.AddInput(plan.Input{Number: 2, Name: "Tuba", Act: act})
		return nil
	})
	require.NoError(t, err)
	return p, kick, own, act
}

// hear notes results of an input at times, and returns the plan.
func hear(t *testing.T, p *plan.Plan, act plan.ActID, input plan.InputID, results ...[2]string) *plan.Plan {
	t.Helper()
	for _, each := range results {
		next, err := plan.Do(p, nil, func(e *plan.Edit) error {
			_, err := e.SetLineCheck(plan.LineCheck{Act: act, Input: input, At: each[0], Result: each[1]})
			return err
		})
		require.NoError(t, err)
		p = next
	}
	return p
}

const (
	first  = "2027-06-18T16:31:00+02:00"
	second = "2027-06-18T16:31:01+02:00"
	third  = "2027-06-18T16:31:02+02:00"
)

func TestWhatIsHeardWithinOneSecondStandsInOrder(t *testing.T) {
	p, kick, _, _ := checked(t)
	p = hear(t, p, "", kick, [2]string{first, plan.Dead}, [2]string{"2027-06-18T16:31:00.7+02:00", plan.Noisy}, [2]string{first, plan.Wrong})
	rows := p.ChecksOf("", kick)
	require.Len(t, rows, 3)
	require.Equal(t, []string{first, second, third}, []string{rows[0].At, rows[1].At, rows[2].At})
	last, found := p.Checked("", kick)
	require.True(t, found)
	require.Equal(t, plan.Wrong, last.Result)
	t.Run("a clock that was set back changes no order", func(t *testing.T) {
		p := hear(t, p, "", kick, [2]string{"2027-06-18T12:00:00+02:00", plan.HeardOK})
		last, _ := p.Checked("", kick)
		require.Equal(t, plan.HeardOK, last.Result)
		for _, row := range p.ChecksOf("", kick) {
			require.False(t, row.Fault())
			require.False(t, row.Result != plan.HeardOK && row.ClearedAt().Before(row.When()))
		}
	})
	t.Run("times of another offset are compared as moments", func(t *testing.T) {
		p := hear(t, p, "", kick, [2]string{"2027-06-18T15:00:00+00:00", plan.HeardOK})
		last, _ := p.Checked("", kick)
		require.Equal(t, "2027-06-18T15:00:00Z", last.At, "17:00 where the others were noted")
	})
}

func TestAFaultStaysUntilItIsCleared(t *testing.T) {
	p, kick, own, act := checked(t)
	p = hear(t, p, act, kick, [2]string{first, plan.Dead}, [2]string{second, plan.Noisy})
	p = hear(t, p, "", kick, [2]string{first, plan.Dead})
	p = hear(t, p, act, own, [2]string{first, plan.Wrong})
	faults := func(p *plan.Plan) (n int) {
		for row := range p.LineChecks.All() {
			if row.Fault() {
				n++
			}
		}
		return n
	}
	require.Equal(t, 4, faults(p))
	t.Run("OK clears those of its input in its act, with its time", func(t *testing.T) {
		p := hear(t, p, act, kick, [2]string{third, plan.HeardOK})
		require.Equal(t, 2, faults(p))
		for _, row := range p.ChecksOf(act, kick)[:2] {
			require.Equal(t, third, row.Cleared)
		}
	})
	t.Run("cleared by hand is what is open of its input in its act", func(t *testing.T) {
		cleared, err := plan.Do(p, nil, func(e *plan.Edit) error { return e.ClearLineCheck(act, kick, third) })
		require.NoError(t, err)
		require.Equal(t, 2, faults(cleared))
		_, err = plan.Do(cleared, nil, func(e *plan.Edit) error { return e.ClearLineCheck(act, kick, third) })
		require.ErrorContains(t, err, "Kick has no open fault there")
	})
	t.Run("an input that leaves takes its checks along, and so does an act", func(t *testing.T) {
		gone, err := plan.Do(p, nil, func(e *plan.Edit) error { e.RemoveAct(act); return nil })
		require.NoError(t, err)
		require.Equal(t, 1, gone.LineChecks.Len())
		gone, err = plan.Do(gone, nil, func(e *plan.Edit) error { e.RemoveInput(kick); return nil })
		require.NoError(t, err)
		require.Zero(t, gone.LineChecks.Len())
	})
	t.Run("a note stands beside what was heard last", func(t *testing.T) {
		noted, err := plan.Do(p, nil, func(e *plan.Edit) error { return e.NoteLineCheck(act, kick, "crackles when touched") })
		require.NoError(t, err)
		last, _ := noted.Checked(act, kick)
		require.Equal(t, []string{plan.Noisy, "crackles when touched"}, []string{last.Result, last.Note})
	})
}

func TestWhatCannotBeHeardIsRefused(t *testing.T) {
	p, kick, own, act := checked(t)
	set := func(r plan.LineCheck) func(*plan.Edit) error {
		return func(e *plan.Edit) error { _, err := e.SetLineCheck(r); return err }
	}
	for sentence, edit := range map[string]func(*plan.Edit) error{
		"there is no such input any more":                      set(plan.LineCheck{Input: "i-zzzzz", At: first, Result: plan.Dead}),
		"there is no such act any more":                        set(plan.LineCheck{Act: "n-zzzzz", Input: kick, At: first, Result: plan.Dead}),
		"Tuba is an input of Brass alone":                      set(plan.LineCheck{Input: own, At: first, Result: plan.Dead}),
		`Kick is OK, dead, noisy or wrong, not "loud"`:         set(plan.LineCheck{Input: kick, At: first, Result: "loud"}),
		`"` + strings.Repeat("9", 40) + `…" is no date and ti`: set(plan.LineCheck{Input: kick, At: strings.Repeat("9", 200), Result: plan.Dead}),
		`"now" is no date and time`:                            func(e *plan.Edit) error { return e.ClearLineCheck(act, own, "now") },
		"nothing was heard of Tuba there yet":                  func(e *plan.Edit) error { return e.NoteLineCheck(act, own, "x") },
	} {
		next, err := plan.Do(p, nil, edit)
		require.ErrorContains(t, err, sentence)
		require.Nil(t, next)
	}
	t.Run("a time that a file has wrong is before all others", func(t *testing.T) {
		p, err := plan.Do(p, nil, func(e *plan.Edit) error {
			plan.Put(e, plan.LineCheck{Input: kick, At: "yesterday", Result: plan.Dead})
			return nil
		})
		require.NoError(t, err)
		p = hear(t, p, "", kick, [2]string{first, plan.HeardOK})
		last, _ := p.Checked("", kick)
		require.Equal(t, plan.HeardOK, last.Result)
		require.False(t, p.ChecksOf("", kick)[0].Fault())
	})
}
