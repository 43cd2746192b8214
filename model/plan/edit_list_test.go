package plan_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/plan"
)

func TestRowsOfListsComeAndGoWithWhatNamesThem(t *testing.T) {
	ids := plan.NewIDSource(1, 2)
	var (
		input  plan.InputID
		output plan.OutputID
		line   plan.HouseLineID
		link   plan.LinkID
	)
	p, err := plan.Do(plan.New("Show"), ids, func(e *plan.Edit) error {
		plan.Put(e, plan.Kind{ID: "box", Name: "Box", Group: "boxes"})
		plan.Put(e, plan.KindPort{Kind: "box", Name: "A", Transport: "aes50"})
		plan.Put(e, plan.CableKind{ID: "cat", Name: "Cat", Media: "twisted-pair"})
		from := e.AddDevice(plan.Device{Name: "Left", Kind: "box"})
		to := e.AddDevice(plan.Device{Name: "Right", Kind: "box", X: 20})
		input = e.AddInput(plan.Input{Number: 1, Name: "Kick in"})
		output = e.AddOutput(plan.Output{Number: 1, Name: "Main left"})
		line = e.AddHouseLine(plan.HouseLine{Name: "H1", Kind: "cat", Length: 45})
		link = e.AddLink(plan.Link{Name: "L01", Transport: "aes50", From: from, FromPort: "A", To: to, ToPort: "A", Way: "straight"})
		e.SetSegments(link, []plan.Segment{{HouseLine: line}})
		plan.Put(e, plan.StagePatch{Input: input, Device: from, Socket: 1})
		plan.Put(e, plan.OutputPatch{Output: output, Console: to, Device: from, Socket: 1})
		return nil
	})
	require.NoError(t, err)
	gone, err := plan.Do(p, ids, func(e *plan.Edit) error {
		e.RemoveInput(input)
		e.RemoveOutput(output)
		return e.RemoveHouseLine(line)
	})
	require.NoError(t, err)
	require.Zero(t, gone.Inputs.Len()+gone.Outputs.Len()+gone.HouseLines.Len()+gone.StagePatches.Len()+gone.OutputPatches.Len())
	require.Equal(t, plan.Segment{Link: link, Order: 1, Kind: "cat", Length: 45}, gone.SegmentsOf(link)[0], "the cable stays")

	_, err = plan.Do(gone, ids, func(e *plan.Edit) error { return e.RemoveHouseLine(line) })
	require.ErrorIs(t, err, plan.ErrRefused)
}
