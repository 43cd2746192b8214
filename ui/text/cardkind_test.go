package text_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/text"
)

func TestADeviceSaysWhatItsKindStates(t *testing.T) {
	var id plan.DeviceID
	p, err := plan.Do(plan.New("Kinds"), plan.NewIDSource(1, 2), func(e *plan.Edit) error {
		plan.Put(e, plan.Kind{ID: "desk", Name: "Desk", Group: "Mixing", Clock: "own", LatencyMS: 0.8, PowerW: 240})
		id = e.AddDevice(plan.Device{Name: "FOH", Kind: "desk"})
		return nil
	})
	require.NoError(t, err)
	said := map[string]string{}
	for _, figure := range text.CardOf(assess.Of(p), []plan.Ref{{Table: "devices", Key: plan.Key(id)}}, words.Units{}, text.Preview{}).Figures {
		said[figure.Name] = figure.Value
	}
	require.Equal(t, "can lead", said["clock"])
	require.Equal(t, "0.8 ms", said["latency"])
	require.Equal(t, "240 W", said["draws"])
}
