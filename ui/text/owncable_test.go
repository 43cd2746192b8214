package text_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/budget"
	"stageloom/model/catalogue"
	"stageloom/model/demo"
	"stageloom/model/plan"
	"stageloom/ui/text"
)

func kindNamed(t *testing.T, p *plan.Plan, id plan.CableKindID) plan.CableKind {
	t.Helper()
	for _, kind := range catalogue.CableKindsFor(p) {
		if kind.ID == id {
			return kind
		}
	}
	t.Fatalf("there is no kind %s", id)
	return plan.CableKind{}
}

func TestAKindOfCableWithItsMakersFigure(t *testing.T) {
	p := demo.Weekender()
	form := text.OwnCableFrom(kindNamed(t, p, "cat6a"))
	form.Name, form.Figure, form.Far, form.Form = " Field cable ", "17,2", "socket", "drum"
	kind, reason := form.Kind(p)
	require.Empty(t, reason)
	require.Equal(t, "Field cable", kind.Name)
	require.Equal(t, plan.Some(17.2), kind.OwnFigure)
	require.Equal(t, "socket", kind.FarEnd)
	require.True(t, kind.Own)
	p, err := plan.Do(p, nil, func(e *plan.Edit) error { plan.Put(e, kind); return nil })
	require.NoError(t, err)
	r := budget.NewReckoner(p)
	require.InDelta(t, 1, r.Share(kind.ID, 100, 17.2), 1e-9, "100 m of it lose what the maker says")
	again, reason := form.Kind(p)
	require.Empty(t, reason)
	require.NotEqual(t, kind.ID, again.ID, "a second of the same name is a kind of its own")
}

func TestAKindOfCableThatCannotBe(t *testing.T) {
	p := demo.Weekender()
	good := text.OwnCableFrom(kindNamed(t, p, "cat6a"))
	for _, c := range []struct {
		sentence string
		change   func(*text.OwnCable)
		said     string
	}{
		{"no name", func(o *text.OwnCable) { o.Name = "  " }, "Kind of cable: this cannot be left blank."},
		{"a figure that is none", func(o *text.OwnCable) { o.Figure = "good" }, `Maker's loss figure: decibels "good"`},
		{"a figure out of this world", func(o *text.OwnCable) { o.Figure = "60" }, "Maker's loss figure: the own figure is 60 dB per 100 m; for Cat 6A it must be from 15.4 to 38.2"},
		{"a figure that no cable has", func(o *text.OwnCable) { o.Figure = "500" }, `Maker's loss figure: "500" is out of bounds: it lies between 1.0 dB and 100.0 dB.`},
		{"a point one place too far left", func(o *text.OwnCable) { o.Figure = "1.92" }, "Maker's loss figure: the own figure is 1.92 dB per 100 m; for Cat 6A it must be from 15.4 to 38.2"},
		{"no kind that it is like", func(o *text.OwnCable) { o.From = "hose" }, "that it is like"},
		{"decibels of a cable without a category", func(o *text.OwnCable) { o.From, o.Figure = "fibre-multimode", "3" }, "leave the figure blank"},
	} {
		t.Run(c.sentence, func(t *testing.T) {
			form := good
			c.change(&form)
			_, reason := form.Kind(p)
			require.Contains(t, reason, c.said)
		})
	}
}
