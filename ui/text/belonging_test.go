package text_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/demo"
	"stageloom/model/plan"
	"stageloom/ui/text"
)

func TestDevicesThatJoinAndLeaveAPositionAreTold(t *testing.T) {
	p := demo.Weekender()
	named := func(name string) (found plan.Device) {
		for device := range p.Devices.All() {
			if device.Name == name {
				found = device
			}
		}
		return found
	}
	var delay plan.PositionID
	for position := range p.Positions.All() {
		if position.Name == "Delay left" {
			delay = position.ID
		}
	}
	put := func(position plan.PositionID, names ...string) string {
		after, err := plan.Do(p, nil, func(e *plan.Edit) error {
			for _, name := range names {
				if err := plan.Update(e, named(name).Key(), func(d *plan.Device) { d.Position = position }); err != nil {
					return err
				}
			}
			return nil
		})
		require.NoError(t, err)
		return text.Belonging(p, after)
	}
	require.Equal(t, "FOH console now belongs to Delay left and moves with it.", put(delay, "FOH console"))
	require.Equal(t, "FOH console no longer belongs to FOH tower.", put("", "FOH console"))
	require.Regexp(t, `So it is with 1 more device\.$`, put(delay, "FOH console", "FOH switch"))
	require.Empty(t, put(named("FOH console").Position, "FOH console"))
	gone, err := plan.Do(p, nil, func(e *plan.Edit) error { e.RemovePosition(delay); return nil })
	require.NoError(t, err)
	require.Empty(t, text.Belonging(p, gone), "a position that goes frees its devices without a word for each")
}
