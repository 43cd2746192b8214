package text_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stageloom/model/budget"
	"stageloom/model/catalogue"
	"stageloom/model/demo"
	"stageloom/model/medium/mediumtest"
	"stageloom/model/plan"
	"stageloom/model/standards"
	"stageloom/model/words"
	"stageloom/ui/text"
)

func TestEquipmentListsKindsByGroupWithWhatIsPlaced(t *testing.T) {
	rows := text.EquipmentOf(demo.Weekender(), nil, "console")
	var names []string
	for _, row := range rows {
		names = append(names, row.Group+row.Name)
	}
	require.Equal(t, []string{"Mixing", "Console, 24 channels", "Console, 40 channels", "Console, 56 channels", "Console, 72 channels"}, names)
	require.Equal(t, 1, rows[2].Placed)
	require.Equal(t, "12 in / 12 out", rows[2].Sockets)
	require.True(t, rows[0].Head())
	require.Empty(t, text.EquipmentOf(plan.New("x"), nil, "no such thing"))
	all := text.EquipmentOf(plan.New("x"), nil, "")
	require.True(t, all[1].Position, "a position comes first: the rest stands on it")
}

func TestAPlansOwnKindIsListedInItsGroup(t *testing.T) {
	p, err := plan.Do(plan.New("x"), nil, func(e *plan.Edit) error {
		plan.Put(e, plan.Kind{ID: "my-box", Name: "My box", Group: "Ours", Inputs: 3, Own: true})
		return nil
	})
	require.NoError(t, err)
	rows := text.EquipmentOf(p, nil, "ours box")
	require.Len(t, rows, 2)
	require.Equal(t, "Ours", rows[0].Group)
	require.Equal(t, "3 in / 0 out", rows[1].Sockets)
}

// withCable is the budget of a link with one more cable.
func withCable(p *plan.Plan, id plan.LinkID, segment plan.Segment) (budget.Budget, error) {
	next, err := plan.Do(p, nil, func(e *plan.Edit) error {
		return catalogue.InsertCable(e, id, len(p.SegmentsOf(id)), segment)
	})
	if err != nil {
		return budget.Budget{}, err
	}
	link, _ := next.Link(id)
	return budget.Of(next, link), nil
}

func TestCablesThatFitAreOfferedTheNearestFirst(t *testing.T) {
	p := demo.Weekender()
	id := plan.LinkID(linkNamed(p, "L20").Key)
	choices := text.CablesFor(p, id, words.Units{})
	require.NotEmpty(t, choices)
	reached := true
	for _, choice := range choices {
		b, err := withCable(p, id, choice.Segment)
		require.NoError(t, err, choice.Words)
		require.NotEqual(t, budget.Uncabled, b.Grade, "what is still missing is reckoned as this kind: %s", choice.Words)
		if choice.Segment.Reel != "" {
			require.True(t, reached || b.Missing > 0, "%s reaches, but stands behind one that does not", choice.Words)
			reached = b.Missing == 0
		}
	}
	fibre := text.CablesFor(p, plan.LinkID(linkNamed(p, "L05").Key), words.Units{})
	for _, choice := range fibre {
		require.Contains(t, strings.ToLower(choice.Words), "fibre")
	}
}

func TestWhatIsHereIsOfferedBeforeKindsAndASuspectReelIsMarked(t *testing.T) {
	p := demo.Weekender()
	link := linkNamed(p, "L20")
	here := text.CablesFor(p, plan.LinkID(link.Key), words.Units{})
	at := slices.IndexFunc(here, func(c text.CableChoice) bool { return c.Segment.Reel != "" && !strings.Contains(c.Words, "suspect") })
	require.GreaterOrEqual(t, at, 0)
	marked, err := plan.Do(p, nil, func(e *plan.Edit) error {
		return plan.Update(e, plan.Key(here[at].Segment.Reel), func(r *plan.Reel) { r.Condition = plan.Suspect })
	})
	require.NoError(t, err)
	choices := text.CablesFor(marked, plan.LinkID(link.Key), words.Units{})
	kinds, suspect := false, false
	for _, choice := range choices {
		require.False(t, kinds && choice.Segment.Kind == "", "%s is here and stands behind a kind", choice.Words)
		kinds = kinds || choice.Segment.Kind != ""
		if choice.Segment.Reel == here[at].Segment.Reel {
			suspect = true
			require.Contains(t, choice.Words, "suspect")
		}
	}
	require.True(t, kinds && suspect)
}

func TestAReelThatALinkHoldsIsNotOffered(t *testing.T) {
	p := demo.Weekender()
	id := plan.LinkID(linkNamed(p, "L20").Key)
	held := map[plan.ReelID]bool{}
	for segment := range p.Segments.All() {
		held[segment.Reel] = true
	}
	offered := 0
	for _, choice := range text.CablesFor(p, id, words.Units{}) {
		if choice.Segment.Reel == "" {
			continue
		}
		offered++
		reel, _ := p.Reels.Get(plan.Key(choice.Segment.Reel))
		require.False(t, held[reel.ID] && reel.Count() == 1, reel.Tag)
	}
	require.Positive(t, offered)
}

func TestAHouseLineIsOfferedUntilALinkUsesIt(t *testing.T) {
	p := demo.Weekender()
	id := plan.LinkID(linkNamed(p, "L20").Key)
	p, err := plan.Do(p, nil, func(e *plan.Edit) error {
		plan.Put(e, plan.HouseLine{ID: "h-22222", Name: "Stage to booth", Kind: "cat6", Length: 90})
		return nil
	})
	require.NoError(t, err)
	line := func(p *plan.Plan) (found text.CableChoice) {
		for _, choice := range text.CablesFor(p, id, words.Units{}) {
			if choice.Segment.HouseLine != "" {
				found = choice
			}
		}
		return found
	}
	require.Contains(t, line(p).Words, "Stage to booth")
	b, err := withCable(p, id, line(p).Segment)
	require.NoError(t, err)
	require.Zero(t, b.Missing)
	p, err = plan.Do(p, nil, func(e *plan.Edit) error { return catalogue.InsertCable(e, id, 0, line(p).Segment) })
	require.NoError(t, err)
	require.Empty(t, line(p).Words)
}

func TestAnOwnKindIsReadFromItsFormOrSaysWhyNot(t *testing.T) {
	p := demo.Weekender()
	from := plan.KindID("console-72")
	form := text.OwnKindFrom(p, from)
	kind, reason := form.Kind(p, from)
	require.Empty(t, reason)
	require.Equal(t, p.Ports(from)[0].Connector, kind.Ports[0].Connector, "ports keep their connectors")
	require.Len(t, kind.Ports, len(p.Ports(from)))
	form.Name, form.Inputs, form.Ports = "My desk", "24", "A aes50\n\nLINK 1 1000base-t"
	kind, reason = form.Kind(p, from)
	require.Empty(t, reason)
	require.Equal(t, plan.KindID("my-desk"), kind.Kind.ID)
	require.Equal(t, "LINK 1", kind.Ports[1].Name)
	require.Equal(t, 24, kind.Sockets[0].Count)
	next, err := plan.Do(p, nil, func(e *plan.Edit) error { kind.Put(e); return nil })
	require.NoError(t, err)
	require.True(t, next.Kinds.Has("my-desk"))
	for reason, broken := range map[string]text.OwnKind{
		"Kind of device: this cannot be left blank.":        {Inputs: "1", Outputs: "1"},
		`Inputs: "many" is no whole number from 1 to 1024.`: {Name: "x", Inputs: "many", Outputs: "1"},
		"Port line 1": {Name: "x", Inputs: "1", Outputs: "1", Ports: "A carrier-pigeon"},
		"already":     {Name: "x", Inputs: "1", Outputs: "1", Ports: "A aes50\nA aes50"},
	} {
		_, told := broken.Kind(p, from)
		require.Contains(t, told, reason)
	}
}

func TestAPortOfAnOwnKindSaysWhatItGoesThroughToItsFibreAndItsPower(t *testing.T) {
	p := demo.Weekender()
	from := plan.KindID("drop-aes50")
	form := text.OwnKindFrom(p, from)
	same, reason := form.Kind(p, from)
	require.Empty(t, reason)
	base, _ := p.Kinds.Get(plan.Key(from))
	require.Equal(t, base.Hardware, same.Kind.Hardware)
	for i, port := range p.Ports(from) {
		port.Kind = same.Kind.ID
		require.Equal(t, port, same.Ports[i], "the form loses nothing of a port")
	}
	require.Contains(t, text.HardwareFor(form.Ports), "not stated")
	category6A := ""
	for _, class := range standards.AllHardware() {
		if class.Slug == "cat6a" {
			category6A = class.Name
		}
	}
	form.Name, form.Hardware = "Wall box", category6A
	form.Ports = "A aes50, through B\nB aes50, through A\nF fibre, fibre singlemode\nN 1000base-t, power type2"
	kind, reason := form.Kind(p, from)
	require.Empty(t, reason)
	require.Equal(t, plan.HardwareID("cat6a"), kind.Kind.Hardware)
	require.Equal(t, []string{"B", "A"}, []string{kind.Ports[0].Through, kind.Ports[1].Through})
	require.Equal(t, []string{"singlemode", "type2"}, []string{kind.Ports[2].Fibre, kind.Ports[3].Power})
	next, err := plan.Do(p, nil, func(e *plan.Edit) error { kind.Put(e); return nil })
	require.NoError(t, err)
	again := text.OwnKindFrom(next, kind.Kind.ID)
	require.Equal(t, []string{form.Ports, form.Hardware}, []string{again.Ports, again.Hardware}, "and shows them again")
	require.Equal(t, "not stated", text.OwnKindFrom(next, "none such").Hardware)
	for ports, told := range map[string]string{
		"A":                          `Port line 1: write a name and a transport, such as "A aes50"; "A" has not both.`,
		"A aes50, through C":         "Port A goes through to C, and there is no such port.",
		"A aes50, through A":         "Port A goes through to itself: name the other one.",
		"A aes50, through B\nB aes3": "Port A goes through to B, which is of another transport.",
		"A aes50, fibre multimode":   "Port line 1: AES50 is no fibre, so its port has no sort of fibre: leave that out.",
		"A fibre, fibre thick":       `Port line 1: "thick" is no sort of fibre: write multimode or singlemode.`,
		"A aes50, power type2":       "Port line 1: AES50 carries no power: leave that out.",
		"A 1000base-t, power lots":   `Port line 1: "lots" is none of type1, type2, type3-class5, type3-class6, type4-class7, type4-class8.`,
		"A aes50, glows":             `Port line 1: "glows" is not understood: write through and a port, fibre and its sort, or power and its type.`,
	} {
		_, said := text.OwnKind{Name: "x", Inputs: "1", Outputs: "1", Ports: ports}.Kind(p, from)
		require.Equal(t, told, said)
	}
}

func TestAnOwnKindKeepsTheWaysOfThatItIsLike(t *testing.T) {
	p := demo.Weekender()
	from := plan.KindID("stage-rack-48-20")
	form := text.OwnKindFrom(p, from)
	kind, reason := form.Kind(p, from)
	require.Empty(t, reason)
	require.Len(t, kind.Ways, 3)
	form.Inputs = "32"
	kind, reason = form.Kind(p, from)
	require.Empty(t, reason)
	require.Len(t, kind.Ways, 2, "inputs 33 to 48 are gone, and the ways to them")
	next, err := plan.Do(p, nil, func(e *plan.Edit) error { kind.Put(e); return nil })
	require.NoError(t, err)
	require.Len(t, next.KindWays.Under(kind.Kind.Key()), 2)
}

func TestACableLikeTheOneBefore(t *testing.T) {
	p := demo.Weekender()
	id := plan.LinkID(linkNamed(p, "L20").Key)
	choices := text.CablesFor(p, id, words.Units{})
	var reel, line plan.Segment
	for _, choice := range choices {
		if choice.Segment.Reel != "" {
			reel = choice.Segment
		}
	}
	row, _ := p.Reels.Get(plan.Key(reel.Reel))
	t.Run("a kind by length is offered again", func(t *testing.T) {
		at := text.LikeBefore(p, choices, plan.Segment{Kind: row.Kind, Length: 12})
		require.Equal(t, row.Kind, choices[at].Segment.Kind)
	})
	t.Run("a reel of which there is another", func(t *testing.T) {
		at := text.LikeBefore(p, choices, reel)
		require.Equal(t, reel, choices[at].Segment)
	})
	t.Run("a reel that is laid gives way to another of its kind", func(t *testing.T) {
		rest := slices.DeleteFunc(slices.Clone(choices), func(c text.CableChoice) bool { return c.Segment.Reel == reel.Reel })
		at := text.LikeBefore(p, rest, reel)
		require.GreaterOrEqual(t, at, 0)
		if other, found := p.Reels.Get(plan.Key(rest[at].Segment.Reel)); found {
			require.Equal(t, row.Kind, other.Kind)
		} else {
			require.Equal(t, row.Kind, rest[at].Segment.Kind)
		}
	})
	t.Run("a house line has nothing like it", func(t *testing.T) {
		line.HouseLine = "h-none"
		require.Equal(t, -1, text.LikeBefore(p, choices, line))
	})
}

func TestConnectorsAreThoseOfTheMediaOfThePorts(t *testing.T) {
	t.Cleanup(mediumtest.Register())
	pairs := len(standards.HardwareOf(standards.BalancedPair))
	for _, c := range []struct {
		ports string
		count int
		last  string
	}{
		{"Hole string-and-cans", 1, "a reef knot"},
		{"Loop string-and-bells\nHole string-and-cans", 1, "a reef knot"},
		{"A aes50\nHole string-and-cans", pairs + 1, "a reef knot"},
		{"A aes50\nF fibre", pairs, text.HardwareFor("A aes50")[pairs]},
		{"F fibre\nhalf a li", pairs, text.HardwareFor("")[pairs]},
	} {
		names := text.HardwareFor(c.ports)
		require.Len(t, names, 1+c.count, c.ports)
		require.Equal(t, []string{"not stated", c.last}, []string{names[0], names[c.count]}, c.ports)
	}
}
