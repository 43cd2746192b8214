package sources_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/demo"
	"stageloom/model/plan"
	"stageloom/ui/table"
)

// adds adds a row behind another, by name; blank is none.
func adds(t *testing.T, p *plan.Plan, sheet, after string) (*plan.Plan, plan.Ref, error) {
	t.Helper()
	s := houseOf(t, p, sheet)
	ref := plan.Ref{}
	if after != "" {
		ref = s.Ref(s.row(after))
	}
	next, err := plan.Do(p, plan.NewIDSource(6, 1), func(e *plan.Edit) (err error) {
		ref, err = s.Source.(table.Grower).Adder()(e, ref)
		return err
	})
	return next, ref, err
}

func TestANewRowIsLikeTheOneBeforeItAndHasTheNextNumber(t *testing.T) {
	p := show(t)
	next, ref, err := adds(t, p, "inputs", "input 2 Fiddle")
	require.NoError(t, err)
	input, _ := next.Inputs.Get(ref.Key)
	require.Equal(t, 3, input.Number)
	require.Equal(t, "DI", input.Use)
	require.Equal(t, p.Acts.At(0).ID, input.Act, "of the same act")
	require.False(t, input.Phantom)
	next, ref, err = adds(t, p, "stock", "X60-01")
	require.NoError(t, err)
	reel, _ := next.Reels.Get(ref.Key)
	require.Equal(t, plan.Reel{ID: reel.ID, Kind: "cat6a", Length: 60, Case: p.Cases.At(0).ID}, reel, "neither its tag nor what is wrong with it")
	next, ref, err = adds(t, p, "stock", "")
	require.NoError(t, err)
	reel, _ = next.Reels.Get(ref.Key)
	require.Equal(t, plan.CableKindID("cat5e"), reel.Kind, "of five cables and one by length most are Cat 5e")
	require.InDelta(t, 50, reel.Length, 0)
	next, ref, err = adds(t, plan.New("New"), "stock", "")
	require.NoError(t, err)
	reel, _ = next.Reels.Get(ref.Key)
	_, known := next.CableKinds.Get(plan.Key(reel.Kind))
	require.True(t, known, "the plan has its kind")
	next, ref, err = adds(t, p, "house lines", "H1")
	require.NoError(t, err)
	line, _ := next.HouseLines.Get(ref.Key)
	require.Equal(t, "H02", line.Name)
	require.Contains(t, line.Note, "guessed, as of H1")
	next, ref, err = adds(t, p, "outputs", "")
	require.NoError(t, err)
	output, _ := next.Outputs.Get(ref.Key)
	require.Equal(t, 2, output.Number)
	next, ref, err = adds(t, next, "acts", "")
	require.NoError(t, err)
	act, _ := next.Acts.Get(ref.Key)
	require.Equal(t, []any{"Act 2", 2}, []any{act.Name, act.Order})
}

func TestTheListsEndWithTheirLastNumber(t *testing.T) {
	p, err := plan.Do(show(t), plan.NewIDSource(8, 1), func(e *plan.Edit) error {
		e.AddInput(plan.Input{Number: 9999, Name: "Last"})
		for order := 2; order <= 999; order++ {
			e.AddAct(plan.Act{Name: "x", Order: order})
		}
		return nil
	})
	require.NoError(t, err)
	_, _, err = adds(t, p, "inputs", "")
	require.ErrorContains(t, err, "number 9999 is taken")
	_, _, err = adds(t, p, "acts", "")
	require.ErrorContains(t, err, "999 acts are there already")
}

func linkOf(t *testing.T, p *plan.Plan, name string) plan.LinkID {
	t.Helper()
	for link := range p.Links.All() {
		if link.Name == name {
			return link.ID
		}
	}
	t.Fatalf("no link %s", name)
	return ""
}

func TestCablesAreTakenOutWithoutOthersChangingPlaces(t *testing.T) {
	p, err := plan.Do(show(t), nil, func(e *plan.Edit) error {
		e.SetSegments(linkOf(t, e.Now(), "L1"), []plan.Segment{
			{Kind: "cat5e", Length: 1}, {Kind: "cat5e", Length: 2}, {Kind: "cat5e", Length: 3}, {Kind: "cat5e", Length: 4}, {Kind: "cat5e", Length: 5},
		})
		return nil
	})
	require.NoError(t, err)
	s := houseOf(t, p, "cables")
	for _, gone := range [][]string{{"cable 1 of L1", "cable 3 of L1", "cable 5 of L1"}, {"cable 5 of L1", "cable 3 of L1", "cable 1 of L1"}, {"cable 3 of L1", "cable 5 of L1", "cable 1 of L1"}} {
		var refs []plan.Ref
		for _, name := range gone {
			refs = append(refs, s.Ref(s.row(name)))
		}
		next, err := plan.Do(p, nil, func(e *plan.Edit) error { return s.Source.(table.Grower).Remover()(e, refs) })
		require.NoError(t, err)
		after := houseOf(t, next, "cables")
		require.Equal(t, []string{"2 m", "4 m", "30 m"}, column(after, "length"), "whatever order they are chosen in")
		require.Equal(t, []string{"1", "2", "1"}, column(after, "order"))
		require.Equal(t, []string{"0.0 m", "2.0 m", "0.0 m"}, column(after, "start"))
	}
	refs := []plan.Ref{s.Ref(0), {Table: plan.SegmentsTable, Key: "gone"}}
	next, err := plan.Do(p, nil, func(e *plan.Edit) error { return s.Source.(table.Grower).Remover()(e, refs) })
	require.NoError(t, err, "what is gone already is gone")
	require.Equal(t, p.Segments.Len()-1, next.Segments.Len())
}

func TestAReelThatLiesInALinkLeavesItsLengthBehind(t *testing.T) {
	p := show(t)
	s := houseOf(t, p, "stock")
	next, err := plan.Do(p, nil, func(e *plan.Edit) error {
		return s.Source.(table.Grower).Remover()(e, []plan.Ref{s.Ref(s.row("X60-01"))})
	})
	require.NoError(t, err)
	require.Equal(t, p.Reels.Len()-1, next.Reels.Len())
	before, after := houseOf(t, p, "links"), houseOf(t, next, "links")
	require.Equal(t, before.says(0, "laid"), after.says(0, "laid"), "the link is as long as before")
	require.Equal(t, "60 m", houseOf(t, next, "cables").says(0, "length"))
}

func TestRowsStandInNaturalOrder(t *testing.T) {
	p, err := plan.Do(plan.New("Order"), plan.NewIDSource(1, 9), func(e *plan.Edit) error {
		for _, name := range []string{"Box 10", "Box 9", "box 2", "Ärztezelt", "صندوق", "Box 1"} {
			plan.Put(e, plan.Kind{ID: "box", Name: "Box", Group: "Stage"})
			e.AddDevice(plan.Device{Name: name, Kind: "box"})
			e.AddPosition(plan.Position{Name: name})
		}
		return nil
	})
	require.NoError(t, err)
	for _, sheet := range []string{"devices", "positions"} {
		names := column(houseOf(t, p, sheet), "name")
		require.Len(t, names, 6)
		at := map[string]int{}
		for i, name := range names {
			at[name] = i
		}
		require.Less(t, at["Box 1"], at["box 2"], sheet)
		require.Less(t, at["box 2"], at["Box 9"], sheet)
		require.Less(t, at["Box 9"], at["Box 10"], sheet)
	}
}

func TestAnInputGoesOnFollowingItsSubSnakeWhereNothingElseIsTyped(t *testing.T) {
	p := demo.Weekender()
	s := houseOf(t, p, "patch")
	row := s.row("input 25 Organ low")
	require.Equal(t, "Horn snake in 1", s.says(row, "socket"))
	for _, typed := range []string{"Horn snake in 1", "horn snake 1", "1"} {
		same, err := s.types(row, "socket", typed)
		require.NoError(t, err, typed)
		require.True(t, plan.Equal(p, same), "its sub-snake says so already: %s", typed)
	}
}
