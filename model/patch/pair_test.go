package patch_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

// pairRig is the small rig with inputs 5 and 6 a stereo pair on neighbours, and 3 and 4 another.
func pairRig(t *testing.T) *plan.Plan { return movesRig(t) }

func done(t *testing.T, p *plan.Plan, edit func(*plan.Edit) error) *plan.Plan {
	next, err := plan.Do(p, nil, edit)
	require.NoError(t, err)
	return next
}

func stood(p *plan.Plan, act plan.ActID, n int) patch.Socket {
	a, _ := patch.Of(p).Act(act)
	line, _ := a.Line(movesInput(n - 1))
	if line.Struck {
		return patch.Socket{}
	}
	return line.At
}

func tuned(p *plan.Plan, act plan.ActID, n int) int {
	a, _ := patch.Of(p).Act(act)
	line, _ := a.Line(movesInput(n - 1))
	return line.Number(movesDevice(6))
}

func TestTheRightSideOfAPairGoesAlong(t *testing.T) {
	p := pairRig(t)
	sr := func(number int) patch.Socket { return patch.Socket{Device: movesDevice(5), Number: number} }
	left, right := movesInput(4), movesInput(5)
	require.Equal(t, []patch.Socket{sr(2), sr(3)}, []patch.Socket{stood(p, "", 5), stood(p, "", 6)})
	t.Run("to the next socket", func(t *testing.T) {
		next := done(t, p, func(e *plan.Edit) error { return patch.Plug(e, "", left, sr(6), true) })
		require.Equal(t, []patch.Socket{sr(6), sr(7)}, []patch.Socket{stood(next, "", 5), stood(next, "", 6)})
		require.Empty(t, patch.Of(p).Stayed(patch.Of(next), "", []plan.InputID{left}))
		require.Equal(t, []int{5, 6}, []int{tuned(next, "", 5), tuned(next, "", 6)}, "their channels stay with them")
	})
	t.Run("over its own socket", func(t *testing.T) {
		next := done(t, p, func(e *plan.Edit) error {
			if err := patch.Unplug(e, "", movesInput(6)); err != nil {
				return err
			}
			return patch.Shift(e, "", []plan.InputID{left}, 1, true)
		})
		require.Equal(t, []patch.Socket{sr(3), sr(4)}, []patch.Socket{stood(next, "", 5), stood(next, "", 6)})
	})
	t.Run("where the next is taken it stays, and that is told", func(t *testing.T) {
		next := done(t, p, func(e *plan.Edit) error { return patch.Plug(e, "", left, sr(8), true) })
		require.Equal(t, []patch.Socket{sr(8), sr(3)}, []patch.Socket{stood(next, "", 5), stood(next, "", 6)})
		require.Equal(t, []string{"In 6 stays on SR in 3"}, patch.Of(p).Stayed(patch.Of(next), "", []plan.InputID{left}))
	})
	t.Run("the right side alone leaves the left one", func(t *testing.T) {
		next := done(t, p, func(e *plan.Edit) error { return patch.Plug(e, "", right, sr(8), true) })
		require.Equal(t, []patch.Socket{sr(2), sr(8)}, []patch.Socket{stood(next, "", 5), stood(next, "", 6)})
	})
	t.Run("what a list names goes nowhere else", func(t *testing.T) {
		next := done(t, p, func(e *plan.Edit) error { return patch.PlugOnly(e, "", []patch.Move{{Input: left, To: sr(6)}}, true) })
		require.Equal(t, []patch.Socket{sr(6), sr(3)}, []patch.Socket{stood(next, "", 5), stood(next, "", 6)})
	})
	t.Run("to the way behind", func(t *testing.T) {
		next := done(t, p, func(e *plan.Edit) error { return patch.Unplug(e, "", movesInput(1)) })
		next = done(t, next, func(e *plan.Edit) error { return patch.SetSnake(e, left, movesDevice(0), 1) })
		snake := func(number int) patch.Socket { return patch.Socket{Device: movesDevice(0), Number: number} }
		require.Equal(t, snake(1), stood(next, "", 5))
		require.Equal(t, sr(3), stood(next, "", 6), "way 2 leads to a socket that is held")
	})
	t.Run("struck together", func(t *testing.T) {
		next := done(t, p, func(e *plan.Edit) error { return patch.Strike(e, first2, left) })
		require.Equal(t, []patch.Socket{{}, {}}, []patch.Socket{stood(next, first2, 5), stood(next, first2, 6)})
		next = done(t, next, func(e *plan.Edit) error { return patch.Clear(e, first2, left) })
		require.Equal(t, []patch.Socket{sr(2), sr(3)}, []patch.Socket{stood(next, first2, 5), stood(next, first2, 6)})
	})
}

func TestTheRightSideOfAPairGoesAlongToTheNextChannel(t *testing.T) {
	p := pairRig(t)
	foh, left := movesDevice(6), movesInput(4)
	tune := func(number int) func(*plan.Edit) error {
		return func(e *plan.Edit) error { return patch.SetChannel(e, "", left, foh, number) }
	}
	both := func(p *plan.Plan) []int { return []int{tuned(p, "", 5), tuned(p, "", 6)} }
	require.Equal(t, []int{5, 6}, both(p))
	require.Equal(t, []int{9, 10}, both(done(t, p, tune(9))))
	require.Equal(t, []int{0, 0}, both(done(t, p, tune(0))))
	next := done(t, p, tune(12))
	require.Equal(t, []int{12, 6}, both(next), "there is no channel 13")
	require.Equal(t, []string{"In 6 stays on FOH 6"}, patch.Of(p).Stayed(patch.Of(next), "", []plan.InputID{left}))
	next = done(t, p, func(e *plan.Edit) error { return patch.ShiftChannels(e, "", foh, []int{5}, 5) })
	require.Equal(t, []int{10, 11}, both(next))
	next = done(t, p, func(e *plan.Edit) error { return patch.SwapChannels(e, "", foh, 5, 10) })
	require.Equal(t, []int{10, 11}, both(next))
	next = done(t, p, func(e *plan.Edit) error { return patch.SwapChannels(e, "", foh, 3, 5) })
	require.Equal(t, []int{3, 4, 5, 6}, append(both(next), tuned(next, "", 3), tuned(next, "", 4)), "two pairs change places")
}

func TestAPairIsOfTwoThatAreNoOthersSide(t *testing.T) {
	p := pairRig(t)
	for _, c := range []struct {
		left, right plan.InputID
		words       string
	}{
		{movesInput(0), movesInput(0), "In 1 cannot be its own right side"},
		{movesInput(0), movesInput(5), "In 5 and In 6 are a stereo pair already: part them first"},
		{movesInput(0), movesInput(4), "In 5 and In 6 are a stereo pair already: part them first"},
		{movesInput(5), movesInput(0), "In 5 and In 6 are a stereo pair already: part them first"},
		{movesInput(0), movesInput(8), "In 1 and In 9 are of different lists"},
		{movesInput(0), "i-zzzzz", "there is no such input any more"},
	} {
		_, err := plan.Do(p, nil, func(e *plan.Edit) error { return patch.PairInputs(e, c.left, c.right) })
		require.ErrorIs(t, err, plan.ErrRefused)
		require.ErrorContains(t, err, c.words)
	}
	next := done(t, p, func(e *plan.Edit) error { return patch.PairInputs(e, movesInput(4), "") })
	next = done(t, next, func(e *plan.Edit) error { return patch.PairInputs(e, movesInput(0), movesInput(5)) })
	house := patch.Of(next).House()
	require.Equal(t, []string{"L of 6", "", "R of 1"}, []string{house.Side(house.Lines[0].Input), house.Side(house.Lines[4].Input), house.Side(house.Lines[5].Input)})
}

func TestTheRightSideOfAnOutputGoesAlong(t *testing.T) {
	p := done(t, movesRig(t), func(e *plan.Edit) error {
		kind, _ := e.Now().Kinds.Get("rack")
		kind.Outputs = 4
		plan.Put(e, kind)
		for n, id := range []plan.OutputID{"o-22222", "o-33333", "o-44444"} {
			plan.Put(e, plan.Output{ID: id, Number: n + 1, Name: "Out"})
		}
		return patch.PairOutputs(e, "o-22222", "o-33333")
	})
	sr := func(number int) patch.Socket {
		return patch.Socket{Device: movesDevice(5), Number: number, Output: true}
	}
	at := func(p *plan.Plan, n int) patch.Socket { return patch.Of(p).House().Outputs[n].Socket }
	set := func(id plan.OutputID, number int) func(*plan.Edit) error {
		return func(e *plan.Edit) error { return patch.SetOutput(e, "", id, movesDevice(6), sr(number)) }
	}
	p = done(t, p, set("o-22222", 1))
	require.Equal(t, []patch.Socket{sr(1), sr(2)}, []patch.Socket{at(p, 0), at(p, 1)})
	p = done(t, p, set("o-44444", 4))
	p = done(t, p, set("o-22222", 3))
	require.Equal(t, []patch.Socket{sr(3), sr(2)}, []patch.Socket{at(p, 0), at(p, 1)}, "the next is held: the right side stays")
	_, err := plan.Do(p, nil, func(e *plan.Edit) error { return patch.PairOutputs(e, "o-44444", "o-33333") })
	require.ErrorContains(t, err, "are a stereo pair already")
}
