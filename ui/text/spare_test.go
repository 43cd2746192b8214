package text_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/cabling"
	"stageloom/model/demo"
	"stageloom/model/plan"
	"stageloom/ui/text"
)

func TestWhatCanReplaceACableIsToldWithWhatItGives(t *testing.T) {
	p := demo.Weekender()
	tried := 0
	for link := range p.Links.All() {
		if len(p.SegmentsOf(link.ID)) == 0 {
			continue
		}
		for _, candidate := range cabling.Replacements(p, link.ID, 1, false) {
			tried++
			spare := text.SpareOf(p, candidate)
			require.Contains(t, spare.Name, candidate.Reel.Tag)
			require.Regexp(t, `^([+]\d+\.\d dB, (ample|enough|tight)|reaches)`, spare.Gives)
			next, err := plan.Do(p, nil, candidate.Edit)
			require.NoError(t, err)
			require.Equal(t, candidate.Reel.ID, next.SegmentsOf(link.ID)[0].Reel)
		}
	}
	require.Greater(t, tried, 10)
}
