package patch_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

func heard(r *rig, act plan.ActID, input, at, result string) {
	r.do(func(e *plan.Edit) error {
		_, err := e.SetLineCheck(plan.LineCheck{Act: act, Input: r.inputs[input], At: at, Result: result})
		return err
	})
}

func TestFaultsAreToldWhereTheirSocketIsUsed(t *testing.T) {
	r := festival(t)
	r.input(2, "Snare")
	r.input(3, "Hat")
	one, two := r.act(1, "Brass"), r.act(2, "Choir")
	r.stage("", "Kick in", "SL", 3)
	r.stage("", "Snare", "SL", 4)
	r.stage(two, "Snare", "SL", 9)
	r.stage(two, "Hat", "SL", 4)
	heard(r, one, "Snare", "2027-06-18T16:31:00+02:00", plan.Dead)
	heard(r, one, "Kick in", "2027-06-18T16:30:00+02:00", plan.HeardOK)
	elsewhere := func(act plan.ActID, input string) (said []string) {
		v := patch.Of(r.plan)
		a, _ := v.Act(act)
		line, _ := a.Line(r.inputs[input])
		for _, fault := range v.FaultsElsewhere(a, line) {
			said = append(said, v.FaultWords(fault, line))
		}
		return said
	}
	require.Equal(t, []string{"Snare was dead in Brass at 16:31, not cleared"}, elsewhere(two, "Snare"), "the same input on another socket")
	require.Equal(t, []string{"socket SL in 4 was dead in Brass at 16:31, not cleared (Snare)"}, elsewhere(two, "Hat"))
	require.Equal(t, []string{"socket SL in 4 was dead in Brass at 16:31, not cleared"}, elsewhere("", "Snare"), "the house too")
	require.Empty(t, elsewhere(one, "Snare"), "its own act says so itself")
	require.Empty(t, elsewhere(two, "Kick in"))
	put(r, plan.StagePatch{Act: two, Input: r.inputs["Hat"], Strike: true})
	require.Empty(t, elsewhere(two, "Hat"), "what is not used is not told of")

	tally := func(act plan.ActID) string {
		v := patch.Of(r.plan)
		a, _ := v.Act(act)
		return v.CheckTally(a).String()
	}
	require.Equal(t, "1 of 3 OK, 1 fault open, 1 not yet heard", tally(one))
	require.Equal(t, "0 of 2 OK, 2 not yet heard", tally(two))
	heard(r, one, "Hat", "2027-06-18T16:32:00+02:00", plan.Noisy)
	heard(r, one, "Hat", "2027-06-18T16:33:00+02:00", plan.Wrong)
	open, cleared := patch.Of(r.plan).Faults()
	require.Len(t, open, 2, "the later one takes the place of the one before")
	require.Equal(t, plan.Wrong, open[1].Check.Result)
	require.Empty(t, cleared)
	r.do(func(e *plan.Edit) error { return e.ClearLineCheck(one, r.inputs["Snare"], "2027-06-18T16:45:00+02:00") })
	require.Empty(t, elsewhere(two, "Snare"))
	require.Equal(t, "1 of 3 OK, 1 fault open, 1 to hear again", tally(one))
	open, cleared = patch.Of(r.plan).Faults()
	require.Len(t, open, 1)
	require.Len(t, cleared, 1)
	require.Equal(t, "dead 16:31, cleared 16:45", patch.HeardWords(cleared[0].Check))
	heard(r, one, "Hat", "2027-06-18T16:50:00+02:00", plan.HeardOK)
	heard(r, one, "Snare", "2027-06-18T16:51:00+02:00", plan.HeardOK)
	require.Equal(t, "3 of 3 OK", tally(one))
	open, cleared = patch.Of(r.plan).Faults()
	require.Empty(t, open)
	require.Equal(t, "Hat", cleared[0].Line.Input.Name, "the last cleared first")
}

func TestSinceWhenIsToldWithItsLength(t *testing.T) {
	at := "2027-06-18T16:31:00+02:00"
	then, err := time.Parse(time.RFC3339, at)
	require.NoError(t, err)
	for said, later := range map[string]time.Duration{
		"since 16:31": -time.Minute, "since 16:31, 0 min": 59 * time.Second, "since 16:31, 12 min": 12*time.Minute + 30*time.Second,
		"since 16:31, 119 min": 2*time.Hour - time.Second, "since 16:31, 3 h 05 min": 185 * time.Minute,
		"since 2027-06-18 16:31, 10 h 00 min": 10 * time.Hour, "since 2027-06-18 16:31, 3 days": 80 * time.Hour,
	} {
		require.Equal(t, said, patch.SinceWords(at, then.Add(later).UTC()))
	}
	require.Equal(t, "since yesterday", patch.SinceWords("yesterday", then))
	require.Equal(t, "16:31", patch.ClockOf(at), "as the clock showed it where it was noted")
}
