package text_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/demo"
	"stageloom/model/geom"
	"stageloom/model/plan"
	"stageloom/model/planfile"
	"stageloom/model/quantity"
	"stageloom/model/words"
	"stageloom/ui/text"
)

// revisionsTold is what the dialog says, line by line.
func revisionsTold(t *testing.T, p *plan.Plan, units words.Units) string {
	t.Helper()
	said, err := text.RevisionsOf(assess.Of(p), units)
	require.NoError(t, err)
	lines := append([]string{said.Standing, "== " + said.Heading, said.Lead}, said.Changes...)
	return strings.Join(append(append(lines, "== issued"), said.Issued...), "\n") + "\n"
}

func TestTheWindowTellsRevisionsInTheWordsOfTheFrontPage(t *testing.T) {
	draft := demo.Weekender()
	a, err := planfile.Seal(draft, "A", "2027-05-30", "to the venue")
	require.NoError(t, err)
	moved, err := plan.Do(a, plan.NewIDSource(3, 4), func(e *plan.Edit) error {
		for position := range e.Now().Positions.All() {
			if position.Name == "FOH tower" {
				e.Move(plan.MovingWith(e.Now(), nil, []plan.PositionID{position.ID}), geom.Pt(35, 20))
			}
		}
		for device := range e.Now().Devices.All() {
			if device.Name == "PA right" {
				e.RemoveDevices(device.ID)
			}
		}
		return nil
	})
	require.NoError(t, err)
	golden(t, "revisions-draft", revisionsTold(t, draft, words.Units{}))
	golden(t, "revisions-issued", revisionsTold(t, a, words.Units{}))
	golden(t, "revisions-changed", revisionsTold(t, moved, words.Units{}))
	golden(t, "revisions-changed-in-feet", revisionsTold(t, moved, words.Units{Length: quantity.Imperial}))
}
