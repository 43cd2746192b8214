package patch_test

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

// called are the numbers of the inputs of an act in the order of its line check.
func called(p *plan.Plan, id plan.ActID) (numbers []int) {
	v := patch.Of(p)
	act, _ := v.Act(id)
	for i, turn := range v.LineCheck(act) {
		if turn.Place != i+1 {
			return nil
		}
		numbers = append(numbers, turn.Line.Input.Number)
	}
	return numbers
}

func riser(name string) func(*plan.Input) { return func(i *plan.Input) { i.Riser = name } }

func placed(order int) func(*plan.Input) { return func(i *plan.Input) { i.CheckOrder = order } }

func setAct(r *rig, id plan.ActID, with func(*plan.Act)) {
	r.do(func(e *plan.Edit) error { return plan.Update(e, plan.Key(id), with) })
}

func TestTheOrderOfALineCheck(t *testing.T) {
	r := newRig(t)
	act := r.act(1, "Brass")
	r.act(2, "Choir")
	r.input(5, "Tuba", riser("SR"), placed(1))
	r.input(1, "Kick", riser("Drums"))
	r.input(2, "Voice")
	r.input(3, "Horn", riser("SR"))
	r.input(4, "Snare", riser(" drums"))
	require.Equal(t, []int{1, 2, 3, 4, 5}, called(r.plan, act), "by number")
	setAct(r, act, func(a *plan.Act) { a.CheckBy = "area" })
	require.Equal(t, []int{1, 4, 3, 5, 2}, called(r.plan, act), "riser by riser as they first come, no riser last")
	setAct(r, act, func(a *plan.Act) { a.CheckBy = "hand" })
	require.Equal(t, []int{5, 1, 2, 3, 4}, called(r.plan, act), "put there before the number itself")
	require.Equal(t, []int{5, 1, 2, 3, 4}, called(r.plan, ""), "the house goes by hand where any has a place")
	put(r, plan.StagePatch{Act: act, Input: r.inputs["Kick"], Strike: true})
	require.Equal(t, []int{5, 2, 3, 4}, called(r.plan, act), "what is not used has no turn")
	setAct(r, act, func(a *plan.Act) { a.CheckBy = "area" })
	require.Equal(t, []int{3, 5, 4, 2}, called(r.plan, act), "and brings no riser to the front")
	require.Empty(t, called(plan.New("x"), ""))
}

// calledBySlots finds the order of a line check another way: each input is put into a slot of a long row, and the row is read off.
func calledBySlots(p *plan.Plan, by string) (numbers []int) {
	row := make([][]plan.Input, 30000)
	at := func(input plan.Input) int {
		switch {
		case by == "hand" && input.CheckOrder > 0:
			return 2 * input.CheckOrder
		case by == "hand":
			return 2*input.Number + 1
		case by == "area" && strings.TrimSpace(input.Riser) == "":
			return 20000
		case by == "area":
			lowest := 9999
			for other := range p.Inputs.All() {
				if strings.EqualFold(strings.TrimSpace(other.Riser), strings.TrimSpace(input.Riser)) {
					lowest = min(lowest, other.Number)
				}
			}
			return lowest
		}
		return input.Number
	}
	for input := range p.Inputs.All() {
		row[at(input)] = append(row[at(input)], input)
	}
	for _, slot := range row {
		slices.SortFunc(slot, func(a, b plan.Input) int { return cmp.Compare(a.Number, b.Number) })
		for _, input := range slot {
			numbers = append(numbers, input.Number)
		}
	}
	return numbers
}

func TestTheOrderIsThatOfASecondWay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := newRig(t)
		act := r.act(1, "Brass")
		by := rapid.SampledFrom([]string{"", "area", "hand"}).Draw(t, "by")
		start := rapid.IntRange(0, 24*60-1).Draw(t, "start")
		seconds := rapid.SampledFrom([]int{0, 20, 45, 60, 90, 3600}).Draw(t, "seconds")
		setAct(r, act, func(a *plan.Act) {
			a.CheckBy, a.CheckStart, a.CheckSeconds = by, fmt.Sprintf("%d:%02d", start/60, start%60), seconds
		})
		for number := range rapid.IntRange(1, 20).Draw(t, "inputs") {
			r.input(number+1, fmt.Sprintf("Input %d", number+1), func(i *plan.Input) {
				i.Riser = rapid.SampledFrom([]string{"", "Drums", "drums ", "SL", "SR"}).Draw(t, "riser")
				i.CheckOrder = rapid.SampledFrom([]int{0, 0, 1, 2, 7, 7, 9999}).Draw(t, "place")
			})
		}
		require.Equal(t, calledBySlots(r.plan, by), called(r.plan, act))
		v := patch.Of(r.plan)
		a, _ := v.Act(act)
		clock := time.Date(2027, 6, 18, start/60, start%60, 0, 0, time.UTC)
		for _, turn := range v.LineCheck(a) {
			form := "15:04"
			if seconds%60 != 0 || seconds == 0 {
				form = "15:04:05"
			}
			require.Equal(t, clock.Format(form), turn.Planned)
			clock = clock.Add(time.Duration(cmp.Or(seconds, 20)) * time.Second)
		}
	})
}

func TestATimeThatIsNoneGivesNoTimes(t *testing.T) {
	r := newRig(t)
	act := r.act(1, "Brass")
	r.input(1, "Kick")
	for _, start := range []string{"", "after lunch", "25:00", "16"} {
		setAct(r, act, func(a *plan.Act) { a.CheckStart = start })
		v := patch.Of(r.plan)
		a, _ := v.Act(act)
		require.Empty(t, v.LineCheck(a)[0].Planned, start)
	}
	setAct(r, act, func(a *plan.Act) { a.CheckStart, a.CheckSeconds = "23.59", 60 })
	r.input(2, "Snare")
	v := patch.Of(r.plan)
	a, _ := v.Act(act)
	require.Equal(t, []string{"23:59", "00:00"}, []string{v.LineCheck(a)[0].Planned, v.LineCheck(a)[1].Planned}, "past midnight")
}

func moveInCheck(r *rig, act plan.ActID, by int, names ...string) error {
	var ids []plan.InputID
	for _, name := range names {
		ids = append(ids, r.inputs[name])
	}
	next, err := plan.Do(r.plan, r.ids, func(e *plan.Edit) error { return patch.MoveInCheck(e, act, ids, by) })
	if err == nil {
		r.plan = next
	}
	return err
}

func TestInputsMoveInTheLineCheckByHand(t *testing.T) {
	r := newRig(t)
	act, other := r.act(1, "Brass"), r.act(2, "Choir")
	for i, name := range []string{"A", "B", "C", "D", "E", "F"} {
		r.input(i+1, name, riser([]string{"x", "", "x", "", "x", ""}[i]))
	}
	setAct(r, other, func(a *plan.Act) { a.CheckBy = "area" })
	require.NoError(t, moveInCheck(r, other, -1, "E"))
	require.Equal(t, []int{1, 5, 3, 2, 4, 6}, called(r.plan, other), "it begins with the order that it had")
	row, _ := r.plan.Acts.Get(plan.Key(other))
	require.Equal(t, "hand", row.CheckBy)
	require.ErrorContains(t, moveInCheck(r, act, 1, "A"), "the line check of Brass goes by number, and inputs have places by hand already")
	setAct(r, act, func(a *plan.Act) { a.CheckBy = "hand" })
	put(r, plan.StagePatch{Act: act, Input: r.inputs["E"], Strike: true})
	require.NoError(t, moveInCheck(r, act, -1, "C"))
	require.Equal(t, []int{3, 1, 2, 4, 6}, called(r.plan, act), "over what the act does not use")
	require.Equal(t, []int{3, 1, 5, 2, 4, 6}, called(r.plan, other), "one that moved, all others as they were")
	require.NoError(t, moveInCheck(r, act, -1, "C", "A", "D"))
	require.Equal(t, []int{3, 1, 4, 2, 6}, called(r.plan, act), "what is at the front stays, the rest goes on")
	require.NoError(t, moveInCheck(r, act, 1, "C", "A"))
	require.Equal(t, []int{4, 3, 1, 2, 6}, called(r.plan, act), "a block stays one")
	require.ErrorContains(t, moveInCheck(r, act, 1, "E"), "E is not used in this act")
	require.NoError(t, moveInCheck(r, "", 1, "F"))
	require.Equal(t, 6, called(r.plan, "")[5], "the last stays last")
}

// paired is a rig of six inputs, of which C and D are a stereo pair, and an act that goes by hand.
func paired(t *testing.T) (r *rig, act plan.ActID) {
	r = newRig(t)
	act = r.act(1, "Brass")
	for i, name := range []string{"A", "B", "C", "D", "E", "F"} {
		r.input(i+1, name)
	}
	r.do(func(e *plan.Edit) error { return patch.PairInputs(e, r.inputs["C"], r.inputs["D"]) })
	setAct(r, act, func(a *plan.Act) { a.CheckBy = "hand" })
	return r, act
}

func TestTheSidesOfAPairAreHeardTogether(t *testing.T) {
	place := func(r *rig, name string, place int) {
		r.do(func(e *plan.Edit) error {
			return plan.Update(e, plan.Key(r.inputs[name]), func(i *plan.Input) { i.CheckOrder = place })
		})
	}
	t.Run("a right side without a place follows its left one", func(t *testing.T) {
		r, act := paired(t)
		place(r, "C", 1)
		require.Equal(t, []int{3, 4, 1, 2, 5, 6}, called(r.plan, act))
		place(r, "D", 6)
		require.Equal(t, []int{3, 1, 2, 5, 4, 6}, called(r.plan, act), "one with a place has it")
	})
	t.Run("they move as one, and others over both", func(t *testing.T) {
		r, act := paired(t)
		require.NoError(t, moveInCheck(r, act, -1, "C"))
		require.Equal(t, []int{1, 3, 4, 2, 5, 6}, called(r.plan, act))
		require.NoError(t, moveInCheck(r, act, 1, "C"))
		require.Equal(t, []int{1, 2, 3, 4, 5, 6}, called(r.plan, act))
		require.NoError(t, moveInCheck(r, act, 1, "D"))
		require.Equal(t, []int{1, 2, 5, 3, 4, 6}, called(r.plan, act))
		require.NoError(t, moveInCheck(r, act, -1, "F"))
		require.Equal(t, []int{1, 2, 5, 6, 3, 4}, called(r.plan, act))
		require.NoError(t, moveInCheck(r, act, 1, "E", "F"))
		require.Equal(t, []int{1, 2, 3, 4, 5, 6}, called(r.plan, act))
	})
	t.Run("a right side that was elsewhere comes along", func(t *testing.T) {
		r, act := paired(t)
		place(r, "D", 6)
		require.Equal(t, []int{1, 2, 3, 5, 4, 6}, called(r.plan, act))
		require.NoError(t, moveInCheck(r, act, -1, "C"))
		require.Equal(t, []int{1, 3, 4, 2, 5, 6}, called(r.plan, act))
	})
	t.Run("also where the act does without it", func(t *testing.T) {
		r, act := paired(t)
		other := r.act(2, "Choir")
		setAct(r, other, func(a *plan.Act) { a.CheckBy = "hand" })
		put(r, plan.StagePatch{Act: act, Input: r.inputs["D"], Strike: true})
		require.NoError(t, moveInCheck(r, act, -1, "C"))
		require.Equal(t, []int{1, 3, 4, 2, 5, 6}, called(r.plan, other))
		require.NoError(t, moveInCheck(r, act, -1, "B"))
		require.NoError(t, moveInCheck(r, act, 1, "B"))
		require.Equal(t, []int{1, 3, 4, 2, 5, 6}, called(r.plan, other))
	})
}
