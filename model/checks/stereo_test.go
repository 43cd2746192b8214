package checks_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/checks"
	"stageloom/model/patch"
	"stageloom/model/plan"
)

// foundBy is what one rule finds on a plan, with its severity.
func foundBy(t *testing.T, p *plan.Plan, rule string) (said []string) {
	t.Helper()
	for _, r := range checks.Rules() {
		if r.ID == rule {
			for _, f := range r.Find(checks.NewSubject(p)) {
				require.NotEmpty(t, f.Remedy)
				said = append(said, f.Severity.String()+": "+f.What)
			}
		}
	}
	return said
}

// listed is a plan with an act and some rows of lists.
func listed(t *testing.T, rows ...any) *plan.Plan {
	t.Helper()
	p, err := plan.Do(plan.New("Lists"), plan.NewIDSource(1, 1), func(e *plan.Edit) error {
		plan.Put(e, plan.Act{ID: first, Name: "Brass", Order: 1})
		plan.Put(e, plan.Act{ID: second, Name: "Strings", Order: 2})
		plan.Put(e, plan.Kind{ID: "box", Name: "Box", Group: "Stage", Inputs: 8, Outputs: 8})
		plan.Put(e, plan.Device{ID: "d-22222", Name: "SL", Kind: "box"})
		plan.Put(e, plan.Device{ID: "d-33333", Name: "SR", Kind: "box"})
		for _, row := range rows {
			switch row := row.(type) {
			case plan.Input:
				plan.Put(e, row)
			case plan.Output:
				plan.Put(e, row)
			case plan.StagePatch:
				plan.Put(e, row)
			case plan.SocketName:
				plan.Put(e, row)
			}
		}
		return nil
	})
	require.NoError(t, err)
	return p
}

const keysL, keysR, padID = plan.InputID("i-22222"), plan.InputID("i-33333"), plan.InputID("i-44444")

func left(with func(*plan.Input)) plan.Input {
	row := plan.Input{ID: keysL, Number: 7, Name: "Keys L", Right: keysR, Use: "passive_DI"}
	if with != nil {
		with(&row)
	}
	return row
}

func right(with func(*plan.Input)) plan.Input {
	row := plan.Input{ID: keysR, Number: 8, Name: "Keys R", Use: "passive_DI"}
	if with != nil {
		with(&row)
	}
	return row
}

func TestSidesOfPairs(t *testing.T) {
	pad := plan.Input{ID: padID, Number: 9, Name: "Pad"}
	for _, c := range []struct {
		rule string
		rows []any
		want []string
	}{
		{"stereo-side", []any{left(nil), right(nil), pad}, nil},
		{"stereo-side", []any{left(func(r *plan.Input) { r.Right = keysL })}, []string{"warn: Keys L is its own right side"}},
		{"stereo-side", []any{left(nil), right(nil), plan.Input{ID: padID, Number: 9, Name: "Pad", Right: keysR}}, []string{"warn: Keys R is the right side of two pairs, with Keys L and Pad"}},
		{"stereo-side", []any{left(nil), right(func(r *plan.Input) { r.Right = padID }), pad}, []string{"warn: Keys R is the right side of Keys L, and has Pad as its own right side"}},
		{"stereo-side", []any{left(nil), right(func(r *plan.Input) { r.Act = first })}, []string{"warn: Keys L of the house has Keys R of Brass as its right side"}},
		{"stereo-side", []any{plan.Output{ID: "o-22222", Number: 1, Name: "Main L", Right: "o-22222"}}, []string{"warn: Main L is its own right side"}},
		{"stereo-unlike", []any{left(nil), right(nil)}, nil},
		{"stereo-unlike", []any{left(nil), right(func(r *plan.Input) { r.Use = "active_DI" })}, []string{"warn: Keys L is passive DI, and Keys R, the other side of the pair, is active DI"}},
		{"stereo-unlike", []any{left(nil), right(func(r *plan.Input) { r.Phantom = true })}, []string{"warn: Keys R wants 48 V, and Keys L, the other side of the pair, does not"}},
		{"stereo-half", []any{left(nil), right(nil), plan.StagePatch{Act: first, Input: keysR, Strike: true}}, []string{"warn: Keys L is used, and Keys R, the other side of the pair, is not in Brass"}},
		{"stereo-half", []any{left(nil), right(nil), plan.StagePatch{Act: first, Input: keysR, Strike: true}, plan.StagePatch{Act: first, Input: keysL, Strike: true}}, nil},
		{"stereo-apart", []any{left(nil), right(nil), plan.StagePatch{Input: keysL, Device: "d-22222", Socket: 1}, plan.StagePatch{Input: keysR, Device: "d-22222", Socket: 5}}, nil},
		{
			"stereo-apart",
			[]any{left(nil), right(nil), plan.StagePatch{Input: keysL, Device: "d-22222", Socket: 1}, plan.StagePatch{Input: keysR, Device: "d-33333", Socket: 1}},
			[]string{"note: Keys L is on SL in 1, and Keys R, the other side of the pair, on SR in 1 in every act"},
		},
	} {
		require.Equal(t, c.want, foundBy(t, listed(t, c.rows...), c.rule), "%s of %v", c.rule, c.rows)
	}
}

func TestRadioOfOneAct(t *testing.T) {
	radio := func(id plan.InputID, number int, act plan.ActID, channel string, frequency float64, transmitter string) plan.Input {
		return plan.Input{ID: id, Number: number, Name: "Voice " + channel, Act: act, RFChannel: channel, Frequency: frequency, Transmitter: transmitter}
	}
	for _, c := range []struct {
		rule string
		rows []any
		want []string
	}{
		{"same-frequency", []any{radio(keysL, 1, "", "RF 1", 518.25, ""), radio(keysR, 2, "", "RF 3", 606.5, "")}, nil},
		{"same-frequency", []any{radio(keysL, 1, "", "RF 1", 518.25, ""), radio(keysR, 2, "", "RF 3", 518.25, "")}, []string{"stop: 518.25 MHz twice: RF 1 (1 Voice RF 1) and RF 3 (2 Voice RF 3) in every act"}},
		{"same-frequency", []any{radio(keysL, 1, first, "RF 1", 518.25, ""), radio(keysR, 2, second, "RF 3", 518.25, "")}, nil},
		{
			"same-frequency",
			[]any{radio(keysL, 1, "", "RF 1", 518.25, ""), radio(keysR, 2, "", "RF 3", 518.25, ""), plan.StagePatch{Act: second, Input: keysR, Strike: true}},
			[]string{"stop: 518.25 MHz twice: RF 1 (1 Voice RF 1) and RF 3 (2 Voice RF 3) in House and Brass"},
		},
		{
			"same-frequency",
			[]any{radio(keysL, 1, first, "RF 1", 518.25, ""), plan.Output{ID: "o-22222", Number: 3, Name: "Ears", RFChannel: "IEM A", Frequency: 518.25}},
			[]string{"stop: 518.25 MHz twice: RF 1 (1 Voice RF 1) and IEM A (output 3 Ears) in Brass"},
		},
		{
			"same-frequency",
			[]any{plan.Output{ID: "o-22222", Number: 3, Name: "Ears L", Frequency: 790, Right: "o-33333"}, plan.Output{ID: "o-33333", Number: 4, Name: "Ears R", Frequency: 790}},
			nil,
		},
		{"same-transmitter", []any{radio(keysL, 1, "", "RF 1", 0, "handheld 1"), radio(keysR, 2, "", "RF 3", 0, "handheld 2")}, nil},
		{"same-transmitter", []any{radio(keysL, 1, "", "RF 1", 0, "handheld 1"), radio(keysR, 2, "", "RF 3", 0, "Handheld  1")}, []string{"warn: handheld 1 twice: 1 Voice RF 1 and 2 Voice RF 3 in every act"}},
		{"same-transmitter", []any{radio(keysL, 1, first, "RF 1", 0, "handheld 1"), radio(keysR, 2, second, "RF 3", 0, "handheld 1")}, nil},
	} {
		require.Equal(t, c.want, foundBy(t, listed(t, c.rows...), c.rule), "%s of %v", c.rule, c.rows)
	}
}

func TestInputsOfOneNameAreNumbered(t *testing.T) {
	voice := func(id plan.InputID, number int, act plan.ActID, name string) plan.Input {
		return plan.Input{ID: id, Number: number, Name: name, Act: act}
	}
	require.Empty(t, foundBy(t, listed(t, voice(keysL, 1, "", "Voice"), voice(keysR, 2, "", "Choir")), "double-input"))
	require.Empty(t, foundBy(t, listed(t, voice(keysL, 1, first, "Voice"), voice(keysR, 2, second, "Voice")), "double-input"))
	p := listed(t, voice(keysL, 4, "", "Voice"), voice(keysR, 9, first, "voice"), voice(padID, 5, "", "Voice 1"))
	require.Equal(t, []string{"warn: inputs 4 and 9 are both called Voice in Brass"}, foundBy(t, p, "double-input"))
	for _, r := range checks.Rules() {
		if r.ID != "double-input" {
			continue
		}
		fixes := checks.Fixes(p, r.Find(checks.NewSubject(p))[0])
		require.Len(t, fixes, 1)
		require.Equal(t, "Number them", fixes[0].Label)
		next, err := plan.Do(p, nil, fixes[0].Edit)
		require.NoError(t, err)
		act, _ := patch.Of(next).Act(first)
		var names []string
		for _, line := range act.Lines {
			names = append(names, line.Input.Name)
		}
		require.Equal(t, []string{"Voice 2", "Voice 1", "voice 3"}, names)
	}
}

func TestTheirNamesAreOneSocketsAlone(t *testing.T) {
	name := func(direction string, socket int, name string) plan.SocketName {
		return plan.SocketName{Device: "d-22222", Direction: direction, Socket: socket, Name: name}
	}
	require.Empty(t, foundBy(t, listed(t, name("in", 1, "SR 9"), name("in", 2, "SR 10"), name("out", 1, "SR 9")), "their-name"))
	require.Equal(t, []string{"warn: SL in 1 and 4 have one name on their side: sr 9"}, foundBy(t, listed(t, name("in", 1, "SR 9"), name("in", 4, "sr 9")), "their-name"))
}
