package text_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/assess"
	"stageloom/model/demo"
	"stageloom/model/exchange"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/text"
)

func TestChangesOfAListAreListedAndCut(t *testing.T) {
	changes := []exchange.InputChange{
		{Change: exchange.ChangeGone, Number: 3, Name: "Harp", Words: "with its patch, Box in 3"},
		{Change: exchange.ChangeNew, Number: 4, Name: "Oboe"},
	}
	require.Equal(t, "3 Harp gone: with its patch, Box in 3.\n4 Oboe new.", text.InputChangesTold(changes, 2))
	require.Equal(t, "3 Harp gone: with its patch, Box in 3.\n… and 1 more.", text.InputChangesTold(changes, 1))
	require.Empty(t, text.AsideTold(nil, 3))
	require.Equal(t, "Worth a look, and no fault:\nRow 3: a heading.", text.AsideTold([]exchange.Fault{{Row: 3, Words: "a heading"}}, 3))
}

func TestInputsThatAListLacksAreCounted(t *testing.T) {
	p, err := plan.Do(plan.New("x"), plan.NewIDSource(1, 2), func(e *plan.Edit) error {
		e.AddInput(plan.Input{Number: 1, Name: "Kick"})
		e.AddInput(plan.Input{Number: 2, Name: "Snare"})
		return nil
	})
	require.NoError(t, err)
	grid := exchange.Grid{Rows: [][]string{{"1", "Kick"}}}
	list := exchange.ReadInputs(grid, exchange.Layout{Fields: []string{exchange.Number, exchange.Name}}, 0)
	require.Contains(t, text.InputsTold(list, p, ""), "; it lacks 1 input, which stays")
	list.Drop = true
	require.Contains(t, text.InputsTold(list, p, ""), "; it lacks 1 input, which leaves with its patch")
}

func TestTheCardOfAnActTellsAtOnceThatItsTimesCannotBe(t *testing.T) {
	p := demo.Weekender()
	act, other := p.Acts.At(0), p.Acts.At(1)
	told := func(p *plan.Plan, act plan.Act) (said []string) {
		for _, finding := range text.CardOf(assess.Of(p), []plan.Ref{plan.RefOf(act)}, words.Units{}, text.Preview{}).Findings {
			said = append(said, finding.What)
		}
		return said
	}
	require.NotContains(t, strings.Join(told(p, act), "\n"), "begins before")
	next, err := plan.Do(p, plan.NewIDSource(1, 2), func(e *plan.Edit) error {
		return plan.Update(e, act.Key(), func(a *plan.Act) { a.Start, a.End, a.Stage = other.Start, other.End, other.Stage })
	})
	require.NoError(t, err)
	require.Contains(t, strings.Join(told(next, act), "\n"), "is over")
	require.Contains(t, strings.Join(told(next, other), "\n"), "is over", "both are told")
}
