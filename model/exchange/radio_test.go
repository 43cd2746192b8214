package exchange_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/demo"
	"stageloom/model/patch"
	"stageloom/model/plan"
)

func TestColumnsOfRadioAreRead(t *testing.T) {
	for _, text := range []string{
		"No;Name;RF channel;Frequency;Transmitter\n1;Lead;RF 1;518.250;handheld 1\n",
		"Nr;Instrument;Funk;Frequenz;Sender\n1;Lead;RF 1;518,250 MHz;handheld 1\n",
		"No;Name;rf;MHz;pack\n1;Lead;RF 1;518.25 mhz;handheld 1\n",
		"No;Name;RF;Freq (MHz);Handheld\n1;Lead;RF 1;518,25;handheld 1\n",
	} {
		in := inputs(t, text)
		require.Empty(t, faults(in.Faults), text)
		require.Equal(t, plan.Input{Number: 1, Name: "Lead", RFChannel: "RF 1", Frequency: 518.25, Transmitter: "handheld 1"}, in.Rows[0].Input, text)
	}
	require.Equal(t, []string{`row 4, column C "Frequency": "tango" is no number; write it as 518.25 MHz`}, faults(inputs(t, "No;Name;Frequency\n1;Lead;518.25\n2;Choir;606\n3;Odd;tango\n").Faults))
}

func TestRadioIsComparedAndNamed(t *testing.T) {
	p := imported(t, plan.New("Radio"), "", inputs(t, "No;Name;RF;Frequency;Transmitter\n1;Lead;RF 1;518.25;handheld 1\n"))
	in := inputs(t, "No;Name;RF;Frequency;Transmitter\n1;Lead;RF 2;606.5;belt pack 1\n")
	require.Equal(t, []string{"1 Lead changed: RF channel RF 2, was RF 1; Frequency 606.5 MHz, was 518.25 MHz; Transmitter belt pack 1, was handheld 1"}, changes(in, p, ""))
	next := imported(t, p, "", in)
	require.Equal(t, 606.5, inputOf(t, next, "", 1).Frequency)
	require.Empty(t, changes(in, next, ""), "taken in again it changes nothing")
	require.Empty(t, changes(inputs(t, "No;Name\n1;Lead\n"), next, ""), "a list without the columns leaves them")
}

func TestAListMakesPairs(t *testing.T) {
	p, err := plan.Do(plan.New("Pairs"), plan.NewIDSource(1, 1), func(e *plan.Edit) error { e.AddAct(plan.Act{Name: "Brass", Order: 1}); return nil })
	require.NoError(t, err)
	in := inputs(t, "No;Name;Mic\n1-2;Keys L/R;DI\n3;Lead;dynamic\n")
	next := imported(t, p, "", in)
	keys, right := inputOf(t, next, "", 1), inputOf(t, next, "", 2)
	require.Equal(t, right.ID, keys.Right)
	require.Empty(t, right.Right)
	require.Empty(t, changes(in, next, ""), "taken in again it changes nothing")
	require.Empty(t, changes(inputs(t, "No;Name;Mic\n1;Keys L;DI\n2;Keys R;DI\n3;Lead;dynamic\n"), next, ""), "a list that says nothing of sides leaves them")
	t.Run("a column names the right side", func(t *testing.T) {
		said := inputs(t, "No;Name;Mic;Right side\n1;Keys L;DI;3\n2;Keys R;DI;\n3;Lead;dynamic;\n4;Pad;line;Nobody\n")
		require.Equal(t, []string{"4 Pad new: line → not patched", "1 Keys L changed: Right side Lead, was Keys R"}, changes(said, next, ""))
		out := said.Outcome(next, "")
		require.Len(t, out.Patching.Left, 1)
		require.Contains(t, out.Patching.Left[0].String(), `row 5, column D "Right side": "Nobody" is the number or name of no other input`)
		require.Equal(t, inputOf(t, imported(t, next, "", said), "", 3).ID, inputOf(t, imported(t, next, "", said), "", 1).Right)
	})
	t.Run("an act's own pair is of the act alone", func(t *testing.T) {
		act := next.Acts.At(0).ID
		one := inputs(t, "No;Name;Mic\n1;Keys L;radio\n2;Keys R;DI\n3;Lead;dynamic\n")
		own := imported(t, next, act, one)
		require.Equal(t, inputOf(t, own, act, 2).ID, inputOf(t, own, act, 1).Right)
		require.Equal(t, right.ID, inputOf(t, own, "", 1).Right, "the house keeps its pair")
		require.Empty(t, changes(one, own, act))
	})
}

func TestAMultiOfThePlanIsASubSnakeAndItsWay(t *testing.T) {
	p := demo.Weekender()
	act := p.Acts.At(2).ID
	view := patch.Of(p)
	var snake plan.Device
	var multi plan.Link
	for link := range p.Links.All() {
		from, _ := p.Device(link.From)
		if socket, found := view.MultiSocket(link.Name, 3); found && socket.Device == from.ID {
			snake, multi = from, link
		}
	}
	require.NotEmpty(t, multi.Name)
	for _, name := range []string{multi.Name, "Multi " + multi.Name, snake.Name} {
		in := inputs(t, "No;Name;Multi;Line\n61;Tom;"+name+";3\n62;Hat;Nowhere;4\n")
		next := imported(t, p, act, in)
		tom, hat := inputOf(t, next, act, 61), inputOf(t, next, act, 62)
		require.Equal(t, []any{snake.ID, 3, ""}, []any{tom.Snake, tom.SnakeWay, tom.Note}, name)
		require.Equal(t, []any{plan.DeviceID(""), "List: multi Nowhere, line 4"}, []any{hat.Snake, hat.Note}, name)
		require.Empty(t, changes(in, next, act), "taken in again it changes nothing")
	}
}
