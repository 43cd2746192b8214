package demo_test

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/budget"
	"stageloom/model/checks"
	"stageloom/model/demo"
	"stageloom/model/geom"
	"stageloom/model/goldentest"
	"stageloom/model/plan"
	"stageloom/model/planfile"
)

func TestTheFileInTestdataIsThisPlan(t *testing.T) {
	p := demo.Weekender()
	var want bytes.Buffer
	require.NoError(t, planfile.Write(&want, p))
	path := filepath.Join("..", "..", "testdata", "weekender.stageloom")
	goldentest.File(t, path, want.Bytes())
	got, err := os.ReadFile(path)
	require.NoError(t, err)
	read, err := planfile.Read(bytes.NewReader(got))
	require.NoError(t, err)
	require.True(t, plan.Equal(p, read))
}

func TestTheWeekenderIsAsItIsTold(t *testing.T) {
	p := demo.Weekender()
	require.GreaterOrEqual(t, p.Devices.Len(), 14)
	require.GreaterOrEqual(t, p.Links.Len(), 22)
	require.Equal(t, 48, p.Inputs.Len())
	require.Equal(t, 3, p.Acts.Len())
	require.Equal(t, 6, p.Cases.Len())
	cables := 0
	for reel := range p.Reels.All() {
		cables += reel.Count()
		require.NotEmpty(t, reel.Case, "every cable lives in a case")
	}
	require.Equal(t, 71, cables)
	distance := map[string]float64{}
	for position := range p.Positions.All() {
		distance[position.Name] = position.At().Length()
	}
	require.InDelta(t, 86, distance["FOH tower"], 0.01)
	require.InDelta(t, 145, distance["Broadcast"], 0.01)
	require.InDelta(t, 210, distance["Second stage"], 0.01)
}

func TestTheWeekenderShowsWhatFindingsAre(t *testing.T) {
	a := assess.Of(demo.Weekender())
	for _, standing := range []budget.Grade{budget.Ample, budget.ToTest, budget.Tight, budget.Over, budget.Uncabled} {
		require.Positive(t, a.Totals.Count(standing), standing)
	}
	require.Equal(t, 1, a.Totals.Count(budget.Tight))
	require.Equal(t, 1, a.Totals.Count(budget.Over))
	require.Equal(t, 1, a.Totals.Count(budget.Uncabled))
	var stops []string
	for _, finding := range a.Findings {
		if finding.Severity == checks.Stop {
			stops = append(stops, finding.Rule)
		}
	}
	require.Equal(t, []string{"over-limit"}, stops, "nothing else stops the show")
	require.Zero(t, a.Totals.TooShort)
}

func TestTheWeekenderLooksLikeASite(t *testing.T) {
	p := demo.Weekender()
	r := budget.NewReckoner(p)
	t.Run("no two devices stand on each other", func(t *testing.T) {
		for i := range p.Devices.Len() {
			for j := range i {
				a, b := p.Devices.At(i), p.Devices.At(j)
				require.Greater(t, a.At().Distance(b.At()), 4.0, "%s and %s", a.Name, b.Name)
			}
		}
	})
	t.Run("no way runs over a device that is not its own", func(t *testing.T) {
		for link := range p.Links.All() {
			way := r.Way(link)
			for device := range p.Devices.All() {
				if device.ID != link.From && device.ID != link.To {
					require.Greater(t, way.Distance(device.At()), 2.5, "%s passes %s", link.Name, device.Name)
				}
			}
		}
	})
	t.Run("devices stand on the outline of their position", func(t *testing.T) {
		for device := range p.Devices.All() {
			position, found := p.Positions.Get(plan.Key(device.Position))
			require.True(t, found, device.Name)
			outline := geom.BoxAround(position.At(), position.Width, position.Depth)
			require.True(t, outline.Contains(device.At()), device.Name)
		}
	})
	t.Run("no way goes through the crowd", func(t *testing.T) {
		for link := range p.Links.All() {
			for _, area := range r.Ground().Crossed(r.Way(link)) {
				require.NotEqual(t, "crowd", area.Use, "%s crosses %s", link.Name, area.Name)
			}
		}
	})
}
