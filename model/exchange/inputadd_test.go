package exchange_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/demo"
	"stageloom/model/exchange"
	"stageloom/model/patch"
	"stageloom/model/plan"
)

func TestAListOfAnActStandsBesideTheHouse(t *testing.T) {
	p := demo.Weekender()
	act := p.Acts.At(2).ID
	before := patch.Of(p)
	in := inputs(t, "No;Name;Mic\n1;Kick in;boundary\n2;Cajon;dynamic\n60;Theremin;line\n")
	require.Equal(t, exchange.Coming{New: 2, Same: 1, Struck: 1, Left: 46}, in.Coming(p, act), "a list is added unless one says that it is all")
	in.Strike = true
	coming := in.Coming(p, act)
	require.Equal(t, exchange.Coming{New: 2, Same: 1, Struck: 47}, coming)
	p, err := plan.Do(p, plan.NewIDSource(3, 4), func(e *plan.Edit) error { return in.Add(e, act) })
	require.NoError(t, err)
	after := patch.Of(p)
	said := func(v *patch.View, id plan.ActID) (words []string) {
		a, _ := v.Act(id)
		for _, line := range a.Lines {
			if !line.Struck {
				words = append(words, v.Words(line))
			}
		}
		return words
	}
	t.Run("a new input stands where the house has its number, and gets to the same channels", func(t *testing.T) {
		house := said(before, "")
		require.Contains(t, said(after, act), house[0])
		require.Len(t, said(after, act), 3)
		require.Equal(t, "Cajon"+house[1][len("Kick out"):], said(after, act)[1][:len("Cajon"+house[1][len("Kick out"):])])
		require.Equal(t, "Theremin → not patched", said(after, act)[2])
	})
	t.Run("the house and the other acts stay as they are", func(t *testing.T) {
		require.Equal(t, said(before, ""), said(after, ""))
		require.Equal(t, said(before, p.Acts.At(1).ID), said(after, p.Acts.At(1).ID))
	})
	t.Run("the list taken in again changes nothing", func(t *testing.T) {
		again, err := plan.Do(p, plan.NewIDSource(5, 6), func(e *plan.Edit) error { return in.Add(e, act) })
		require.NoError(t, err)
		require.Equal(t, said(after, act), said(patch.Of(again), act))
		require.Equal(t, p.Inputs.Len(), again.Inputs.Len())
		require.Equal(t, exchange.Coming{Known: 2, Same: 1, Struck: 47}, in.Coming(p, act))
	})
	t.Run("an input that the list names again is no longer struck", func(t *testing.T) {
		back := inputs(t, "No;Name\n1;Kick in\n3;Snare top\n")
		again, err := plan.Do(p, plan.NewIDSource(5, 6), func(e *plan.Edit) error { return back.Add(e, act) })
		require.NoError(t, err)
		require.Contains(t, said(patch.Of(again), act), said(before, "")[2])
	})
	t.Run("an act that is gone is refused", func(t *testing.T) {
		_, err := plan.Do(p, nil, func(e *plan.Edit) error { return in.Add(e, "n-zzzzz") })
		require.ErrorIs(t, err, plan.ErrRefused)
	})
}

func TestAListOfMoreInputsStrikesNothingUnlessOneSaysSo(t *testing.T) {
	p := demo.Weekender()
	act := p.Acts.At(2).ID
	in := inputs(t, "No;Source;Mic\n101;Choir left;dynamic\n102;Choir right;dynamic\n")
	require.Equal(t, exchange.Coming{New: 2, Left: 48}, in.Coming(p, act))
	struck := func(in exchange.Inputs) (count int) {
		next, err := plan.Do(p, plan.NewIDSource(3, 4), func(e *plan.Edit) error { return in.Add(e, act) })
		require.NoError(t, err)
		for row := range next.StagePatches.All() {
			if row.Strike && row.Act == act {
				count++
			}
		}
		return count
	}
	before := 0
	for row := range p.StagePatches.All() {
		if row.Strike && row.Act == act {
			before++
		}
	}
	require.Equal(t, before, struck(in))
	in.Strike = true
	require.Equal(t, exchange.Coming{New: 2, Struck: 48}, in.Coming(p, act))
	require.Equal(t, 48, struck(in))
}
